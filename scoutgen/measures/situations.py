"""What does he throw in a situation beside the count: what the counts there would give, and how he departs from it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.measures.counts import BASES_SITUATIONS, BATS, COUNTS, SIDES, SIDES_OF_BATS, bases_index, bases_members
from scoutgen.measures.intervals import LEVEL, Floats
from scoutgen.measures.leaning import GAME_SAYS, worth
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.mix_centre import CELLS
from scoutgen.measures.mix_tables import Seen, sum_by_player
from scoutgen.measures.share_ends import share_ends
from scoutgen.measures.share_rows import share_rows
from scoutgen.measures.tilting import Tilt, tilt, tilted
from scoutgen.measures.usual import AT_HAND, Usual

#: How many independent pitches a game can say about a tilt that is the same in every game: more than about one of
#: its own, since the game's own mix is taken out before.
_GAME_SAYS_OF_TILTS: Final = 120.0

#: How many pitches his usual counts are worth beside those charted in the situation.
_USUAL_COUNTS: Final = 20.0

#: The way the situations are expected to differ: with the bases empty one way, with anybody on the other.
EMPTY_AGAINST_ON: Final[Floats] = np.array([-1.0, 0.5, 0.5])


@dataclass(frozen=True)
class Departures:
    """Counts in situations beside what was expected of them.

    Places are sides ("L", "R") x situations that do not overlap; labels take in one situation or more.

    Attributes:
        k: pitches counted, players x sides x situations x vocabulary.
        expected: share that each game's mix and the counts thrown at would give, of the same shape; rows sum to 1.
        n: pitches whose side and count are known, players x sides x situations.
        worth: independent pitches those are worth.
        cells: pitches by cell, players x situations x sides x counts.
        members: which situations each label takes in, labels x situations.
        seen: games in which the label came up, players x (bats x labels), and the date of the last.
    """

    k: Floats
    expected: Floats
    n: Floats
    worth: Floats
    cells: Floats
    members: Floats
    seen: Seen

    def tilts(self, direction: Floats, usual: Usual = AT_HAND) -> Tilt:
        """How he tilts his mix by place; `direction`: the way the situations are expected to differ."""
        players, sides, situations, words = self.k.shape
        told = self.k * (self.worth / np.maximum(self.n, 1.0))[..., None]
        flat = (players, sides * situations, words)
        return tilt(told.reshape(flat), self.expected.reshape(flat), direction, usual)


def bases_usage(
    pitches: pd.DataFrame,
    *,
    vocabulary: Sequence[str] = (),
    mix: Mix | None = None,
    level: float = LEVEL,
    usual: Usual = AT_HAND,
) -> pd.DataFrame:
    """Share of each pitch with the bases empty, a runner on, and one in scoring position.

    Returns:
        Columns as `usage`, with `bases` ("empty", "on", "scoring"; "on" takes in "scoring") instead of `count`.
        Only players with a pitch whose bases were charted have rows.
    """
    learned = learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix
    found = departures(learned, bases_index(pitches), bases_members().astype(np.float64))
    tilts = found.tilts(EMPTY_AGAINST_ON, usual.about("bases"))
    return situation_usage(learned, found, tilts, "bases", BASES_SITUATIONS, level=level)


def departures(mix: Mix, situation: NDArray[np.int8], members: Floats) -> Departures:
    """Count pitches by situation, beside what the mix of each game expects at the counts they were thrown at.

    Args:
        mix: what `learn_mix` returned.
        situation: code of each row of the pitches the mix was learned from; -1 unknown.
        members: which codes each label takes in, labels x codes.
    """
    tables = mix.tables
    players, words, codes = len(tables.players), len(tables.vocabulary), members.shape[1]
    used = (tables.row_outing >= 0) & (tables.row_side >= 0) & (tables.row_count >= 0) & (situation >= 0)
    outing, at = tables.row_outing[used], situation[used].astype(np.int64)
    cell = tables.row_side[used] * len(COUNTS) + tables.row_count[used]
    outings = len(tables.outing_player)
    looked = np.bincount((outing * codes + at) * CELLS + cell, minlength=outings * codes * CELLS)
    by_side = looked.reshape(outings, codes, len(SIDES), len(COUNTS)).astype(np.float64)
    shares = mix.by_outing.reshape(outings, len(SIDES), len(COUNTS), words)
    expected = np.einsum("oshc,ohck->ohsk", by_side, shares, optimize=True)
    owner = tables.outing_player[outing] * len(SIDES) + tables.row_side[used]
    k = np.bincount(
        (owner * codes + at) * words + tables.row_pitch[used], minlength=players * len(SIDES) * codes * words
    ).reshape(players, len(SIDES), codes, words)
    n_game = by_side.sum(axis=3).transpose(0, 2, 1)
    totals = sum_by_player(expected, tables.outing_player, players)
    n = sum_by_player(n_game, tables.outing_player, players)
    # Where the situation never came up nothing departs from his usual mix.
    share = np.where(n[..., None] > 0, totals / np.maximum(n, 1.0)[..., None], mix.by_side()[:, :, None])
    came_up = with_both(n_game, axis=1) @ members.T > 0
    return Departures(
        k=k.astype(np.float64),
        expected=share,
        n=n,
        worth=sum_by_player(worth(n_game, _GAME_SAYS_OF_TILTS), tables.outing_player, players),
        cells=sum_by_player(by_side, tables.outing_player, players),
        members=members,
        seen=tables.seen(came_up.reshape(outings, len(BATS) * len(members))),
    )


def situation_usage(
    mix: Mix, found: Departures, tilts: Tilt, column: str, labels: Sequence[str], *, level: float = LEVEL
) -> pd.DataFrame:
    """Share of each pitch by bats and label: what the counts there would give, tilted as he was seen to."""
    tables = mix.tables
    players, words, codes = len(tables.players), len(tables.vocabulary), found.members.shape[1]
    visits = mix.visits.reshape(players, 1, len(SIDES), len(COUNTS))
    # Pitches expected by situation, side and count: those charted, and his usual ones spread over the situations.
    often = (found.cells.sum(axis=(2, 3)) + 1) / (found.cells.sum(axis=(1, 2, 3)) + codes)[:, None]
    cells = found.cells + _USUAL_COUNTS * often[:, :, None, None] * visits
    shares = mix.share.reshape(players, len(SIDES), len(COUNTS), words)
    base = np.einsum("pshc,phck->phsk", cells, shares, optimize=True)
    base /= base.sum(axis=3, keepdims=True)
    places = tilted(base.reshape(players, len(SIDES) * codes, words), tilts)
    # Weight of each place, and of each cell, in each row of the table.
    by_place = np.einsum("bh,ls,phs->pblhs", SIDES_OF_BATS, found.members, cells.sum(axis=3).transpose(0, 2, 1))
    by_place = by_place.reshape(players, len(BATS) * len(labels), len(SIDES) * codes)
    by_place /= by_place.sum(axis=2, keepdims=True)
    by_cell = np.einsum("bh,ls,pshc->pblhc", SIDES_OF_BATS, found.members, cells, optimize=True)
    by_cell = by_cell.reshape(players, len(BATS) * len(labels), CELLS)
    by_cell /= by_cell.sum(axis=2, keepdims=True)
    share = by_place @ places.share
    n = (with_both(found.n, axis=1) @ found.members.T).reshape(share.shape[:2])
    k = np.einsum("pbsk,ls->pblk", with_both(found.k, axis=1), found.members).reshape(share.shape)
    a_game = n / np.maximum(tables.players["games"].to_numpy(), 1)[:, None]
    ends = share_ends(
        mix,
        share,
        by_cell,
        1 + a_game,
        own=np.einsum("prc,pkcd,prd->prk", by_place, places.covariance, by_place, optimize=True),
        once=share * (1 - share) / (GAME_SAYS + 1),
        level=level,
    )
    out = share_rows(tables, column, labels, k=k, n=n, share=share, ends=ends, seen=found.seen)
    known = np.repeat(found.n.sum(axis=(1, 2)) > 0, share.shape[1] * words)
    return out[known].reset_index(drop=True)


def with_both(by_side: Floats, *, axis: int) -> Floats:
    """L and R along an axis, with both together put before them."""
    return np.concatenate([by_side.sum(axis=axis, keepdims=True), by_side], axis=axis)
