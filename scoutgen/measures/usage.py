"""What does he throw: share of each pitch by batter's side and count."""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from scoutgen.measures.counts import ALL, BATS, COUNT_LABELS, COUNTS, SIDES, SIDES_OF_BATS, count_members
from scoutgen.measures.intervals import LEVEL, Floats
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.mix_tables import MixTables, sum_by_player
from scoutgen.measures.share_ends import share_ends
from scoutgen.measures.share_rows import share_rows


def usage(
    pitches: pd.DataFrame, *, vocabulary: Sequence[str] = (), mix: Mix | None = None, level: float = LEVEL
) -> pd.DataFrame:
    """Share of each pitch by batter's side and count, for every pitcher.

    Args:
        pitches: the season's pitches in the order thrown; rows without a pitch are left out.
        vocabulary: pitches that may be thrown beside the usual ones.
        mix: what `learn_mix` returned for the same pitches, so as not to learn it twice.
        level: coverage of the intervals, 0-1.

    Returns:
        One row for each team, player, bats ("all", "L", "R"), count ("all", the groups, the twelve) and pitch of the
        vocabulary: `k` times charted of `n` pitches there; `share`, expected in his next game (they sum to 1 in each
        cell; a pitch never seen has a small one); `low`, `high`, between which his usual share lies; `tonight_low`,
        `tonight_high`, between which the share charted in his next game falls; `games` in which that cell came up;
        `last_seen`, the date of the last.

    Source:
        Multinomial logit with normal priors and game effects; see `mix_fit.fit_mix`.
    """
    learned = learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix
    tables = learned.tables
    members = _members()
    weights = members[None] * learned.visits[:, None, :]
    reach = weights.sum(axis=2)
    weights /= reach[:, :, None]
    share = weights @ learned.share
    k = _in_labels(tables.thrown())
    n = k.sum(axis=2)
    # One more than the mean: a pitch that comes up finds itself, on average, in a game that has more of its kind.
    looks = 1 + reach * _pitches_a_game(tables)[:, None]
    ends = share_ends(learned, share, weights, looks, level=level)
    came_up = _in_labels(tables.counted.sum(axis=3, keepdims=True))[:, :, 0] > 0
    return share_rows(tables, "count", COUNT_LABELS, k=k, n=n, share=share, ends=ends, seen=tables.seen(came_up))


def _members() -> Floats:
    """Which cells each label takes in: (bats x count labels) x cells."""
    each = np.einsum("bs,lc->blsc", SIDES_OF_BATS, count_members()).reshape(-1, len(SIDES) * len(COUNTS))
    return np.asarray(each, dtype=np.float64)


def _in_labels(counted: Floats) -> Floats:
    """Sum a ... x 3 sides x 13 counts x pitches table into labels: ... x (bats x count labels) x pitches."""
    # "all" takes in pitches whose side or count was not charted; every other label needs them.
    sides = np.column_stack([SIDES_OF_BATS, [bats == ALL for bats in BATS]])
    unknown = np.array([label == ALL for label in COUNT_LABELS])
    counts = np.column_stack([count_members(), unknown]).astype(np.float64)
    summed = np.einsum("bs,psck->pbck", sides, counted, optimize=True)
    return np.asarray(counts @ summed, dtype=np.float64).reshape(
        len(counted), len(BATS) * len(COUNT_LABELS), counted.shape[-1]
    )


def _pitches_a_game(tables: MixTables) -> Floats:
    """Pitches in a usual outing of each player: the mean of those charted."""
    total = sum_by_player(tables.counted.sum(axis=(1, 2, 3)), tables.outing_player, len(tables.players))
    return np.asarray(total / tables.players["games"].to_numpy(), dtype=np.float64)
