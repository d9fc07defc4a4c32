"""What does he throw: share of each pitch by batter's side and count."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.measures.counts import ALL, COUNT_LABELS, COUNTS, SIDES, count_members
from scoutgen.measures.intervals import LEVEL, Floats
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.mix_tables import MixTables, sum_by_player
from scoutgen.measures.share_ends import share_ends

#: Values of the column `bats`, in the order they are shown.
BATS: Final[tuple[str, ...]] = (ALL, *SIDES)


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
    games, last_seen = _seen(tables)
    rows = share.shape
    labels = _keys(tables, rows[1])
    return labels.assign(
        k=k.ravel().astype(np.int64),
        n=np.broadcast_to(n[:, :, None], rows).ravel().astype(np.int64),
        share=share.ravel(),
        low=ends.low.ravel(),
        high=ends.high.ravel(),
        tonight_low=ends.tonight_low.ravel(),
        tonight_high=ends.tonight_high.ravel(),
        games=np.broadcast_to(games[:, :, None], rows).ravel(),
        last_seen=np.broadcast_to(last_seen[:, :, None], rows).ravel(),
    )


def _members() -> Floats:
    """Which cells each label takes in: (bats x count labels) x cells."""
    sides = np.array([[True, True], [True, False], [False, True]])
    each = np.einsum("bs,lc->blsc", sides, count_members()).reshape(-1, len(SIDES) * len(COUNTS))
    return np.asarray(each, dtype=np.float64)


def _in_labels(counted: Floats) -> Floats:
    """Sum a ... x 3 sides x 13 counts x pitches table into labels: ... x (bats x count labels) x pitches."""
    sides = np.array([[1, 1, 1], [1, 0, 0], [0, 1, 0]])
    # "all" takes in pitches whose count was not charted; every other label needs the count.
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


def _seen(tables: MixTables) -> tuple[NDArray[np.int64], NDArray[np.datetime64]]:
    """Games in which each label came up, and the date of the last: players x labels."""
    looked = _in_labels(tables.counted.sum(axis=3, keepdims=True))[:, :, 0] > 0
    players = len(tables.players)
    games = sum_by_player(looked.astype(np.float64), tables.outing_player, players).astype(np.int64)
    dates = tables.outing_date
    at = np.where(looked, np.arange(len(looked))[:, None], -1)
    starts = np.searchsorted(tables.outing_player, np.arange(players))
    last = np.maximum.reduceat(at, starts, axis=0) if players else at
    return games, np.where(games > 0, dates[last], np.datetime64("NaT"))


def _keys(tables: MixTables, labels: int) -> pd.DataFrame:
    players, words = len(tables.players), len(tables.vocabulary)
    each = labels * words
    bats = np.repeat(np.arange(len(BATS)), len(COUNT_LABELS) * words)
    count = np.tile(np.repeat(np.arange(len(COUNT_LABELS)), words), len(BATS))
    rows = np.repeat(np.arange(players), each)
    return pd.DataFrame(
        {
            "team": tables.players["team"].array.take(rows),
            "player": tables.players["player"].array.take(rows),
            "bats": pd.Categorical.from_codes(np.tile(bats, players), categories=pd.Index(BATS)),
            "count": pd.Categorical.from_codes(np.tile(count, players), categories=pd.Index(COUNT_LABELS)),
            "pitch": pd.Categorical.from_codes(
                np.tile(np.arange(words), players * labels), categories=pd.Index(tables.vocabulary)
            ),
        }
    )
