"""What does he throw in a situation beside the count: what the counts there would give, and how he departs from it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.measures.counts import BASES_SITUATIONS, COUNTS, SIDES, bases_index, bases_members
from scoutgen.measures.intervals import LEVEL, Floats
from scoutgen.measures.leaning import GAME_SAYS, lean, worth
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.mix_centre import CELLS
from scoutgen.measures.mix_tables import sum_by_player
from scoutgen.measures.share_ends import share_ends
from scoutgen.measures.usage import BATS

#: How many pitches his usual counts are worth beside those charted in the situation.
_USUAL_COUNTS: Final = 20.0

_SIDE_CELLS: Final[Floats] = np.repeat([[1.0, 1.0], [1.0, 0.0], [0.0, 1.0]], len(COUNTS), axis=1)


@dataclass(frozen=True)
class Departures:
    """Counts in situations beside what was expected of them, by bats ("all", "L", "R").

    Attributes:
        k: pitches counted, players x bats x situations x vocabulary.
        expected: share that each game's mix and the counts thrown at would give, of the same shape; rows sum to 1.
        n: pitches whose side and count are known, players x bats x situations.
        worth: independent pitches those are worth.
        cells: pitches by cell, players x situations x cells.
        games: games in which the situation came up, players x bats x situations.
        last_seen: the date of the last of them.
    """

    k: Floats
    expected: Floats
    n: Floats
    worth: Floats
    cells: Floats
    games: NDArray[np.int64]
    last_seen: NDArray[np.datetime64]


def bases_usage(
    pitches: pd.DataFrame, *, vocabulary: Sequence[str] = (), mix: Mix | None = None, level: float = LEVEL
) -> pd.DataFrame:
    """Share of each pitch with the bases empty, a runner on, and one in scoring position.

    Returns:
        Columns as `usage`, with `bases` ("empty", "on", "scoring"; "on" takes in "scoring") instead of `count`.
        Only players with a pitch whose bases were charted have rows.
    """
    learned = learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix
    found = departures(learned, bases_index(pitches), bases_members().astype(np.float64))
    return situation_usage(learned, found, "bases", BASES_SITUATIONS, level=level)


def departures(mix: Mix, situation: NDArray[np.int8], members: Floats) -> Departures:
    """Count pitches by situation, beside what the mix of each game expects at the counts they were thrown at.

    Args:
        mix: what `learn_mix` returned.
        situation: code of each row of the pitches the mix was learned from; -1 unknown.
        members: which codes each situation takes in, situations x codes.
    """
    tables = mix.tables
    players, words, codes = len(tables.players), len(tables.vocabulary), members.shape[1]
    used = (tables.row_outing >= 0) & (tables.row_side >= 0) & (tables.row_count >= 0) & (situation >= 0)
    outing, at = tables.row_outing[used], situation[used].astype(np.int64)
    cell = tables.row_side[used] * len(COUNTS) + tables.row_count[used]
    outings = len(tables.outing_player)
    looked = np.bincount((outing * codes + at) * CELLS + cell, minlength=outings * codes * CELLS)
    looked = looked.reshape(outings, codes, CELLS).astype(np.float64)
    looked_in = np.einsum("sc,oce->ose", members, looked)
    # side of each cell on the way: outings x situations x sides x counts.
    by_side = looked_in.reshape(outings, len(members), len(SIDES), len(COUNTS))
    shares = mix.by_outing.reshape(outings, len(SIDES), len(COUNTS), words)
    expected = np.einsum("oshc,ohck->oshk", by_side, shares, optimize=True)
    owner = tables.outing_player[outing] * len(SIDES) + tables.row_side[used]
    k = np.bincount(
        (owner * codes + at) * words + tables.row_pitch[used], minlength=players * len(SIDES) * codes * words
    ).reshape(players, len(SIDES), codes, words)
    k_in = np.einsum("sc,phck->pshk", members, k.astype(np.float64))
    n_game = _with_both(by_side.sum(axis=3), axis=2)
    totals = _with_both(sum_by_player(expected, tables.outing_player, players), axis=2)
    n = sum_by_player(n_game, tables.outing_player, players)
    usual = np.einsum("be,pe,pek->pbk", _SIDE_CELLS, mix.visits, mix.share)
    usual /= usual.sum(axis=2, keepdims=True)
    # Where the situation never came up nothing departs from his usual mix.
    share = np.where(n[..., None] > 0, totals / np.maximum(n, 1.0)[..., None], usual[:, None])
    seen = np.where(n_game > 0, np.arange(outings)[:, None, None], -1)
    starts = np.searchsorted(tables.outing_player, np.arange(players))
    last = np.maximum.reduceat(seen, starts, axis=0) if players else seen
    games = sum_by_player((n_game > 0).astype(np.float64), tables.outing_player, players).astype(np.int64)
    turned = (0, 2, 1)
    return Departures(
        k=_with_both(k_in, axis=2).transpose(0, 2, 1, 3),
        expected=share.transpose(0, 2, 1, 3),
        n=n.transpose(turned),
        worth=sum_by_player(worth(n_game), tables.outing_player, players).transpose(turned),
        cells=sum_by_player(looked_in, tables.outing_player, players),
        games=games.transpose(turned),
        last_seen=np.where(games > 0, tables.outing_date[last], np.datetime64("NaT")).transpose(turned),
    )


def situation_usage(
    mix: Mix, found: Departures, column: str, labels: Sequence[str], *, level: float = LEVEL
) -> pd.DataFrame:
    """Share of each pitch by bats and situation: what the counts there would give, moved by how he departs from it."""
    tables = mix.tables
    shape, words = found.k.shape, len(tables.vocabulary)
    told = found.k * (found.worth / np.maximum(found.n, 1.0))[..., None]
    leaned = lean(told.reshape(-1, words), found.expected.reshape(-1, words))
    moved, open_ = leaned.share.reshape(shape), leaned.variance.reshape(shape)
    weights = _SIDE_CELLS[None, :, None] * (found.cells + _USUAL_COUNTS * mix.visits[:, None])[:, None]
    weights /= weights.sum(axis=3, keepdims=True)
    flat = weights.reshape(len(weights), len(BATS) * len(labels), CELLS)
    counts_alone = (flat @ mix.share).reshape(shape)
    share = counts_alone * np.where(found.expected > 0, moved / np.where(found.expected > 0, found.expected, 1.0), 1.0)
    share /= share.sum(axis=3, keepdims=True)
    a_game = found.n / np.maximum(tables.players["games"].to_numpy(), 1)[:, None, None]
    once = share * (1 - share) / (GAME_SAYS + 1)
    rows = (len(share), len(BATS) * len(labels), words)
    ends = share_ends(
        mix,
        share.reshape(rows),
        flat,
        1 + a_game.reshape(rows[:2]),
        own=open_.reshape(rows),
        once=once.reshape(rows),
        level=level,
    )
    out = _keys(mix, column, labels).assign(
        k=found.k.ravel().astype(np.int64),
        n=np.broadcast_to(found.n[..., None], shape).ravel().astype(np.int64),
        share=share.ravel(),
        low=ends.low.ravel(),
        high=ends.high.ravel(),
        tonight_low=ends.tonight_low.ravel(),
        tonight_high=ends.tonight_high.ravel(),
        games=np.broadcast_to(found.games[..., None], shape).ravel(),
        last_seen=np.broadcast_to(found.last_seen[..., None], shape).ravel(),
    )
    known = np.repeat(found.n[:, 0].sum(axis=1) > 0, int(np.prod(shape[1:])))
    return out[known].reset_index(drop=True)


def _with_both(by_side: Floats, *, axis: int) -> Floats:
    """L and R along an axis, with both together put before them."""
    return np.concatenate([by_side.sum(axis=axis, keepdims=True), by_side], axis=axis)


def _keys(mix: Mix, column: str, labels: Sequence[str]) -> pd.DataFrame:
    tables = mix.tables
    players, words = len(tables.players), len(tables.vocabulary)
    each = len(BATS) * len(labels) * words
    rows = np.repeat(np.arange(players), each)
    bats = np.tile(np.repeat(np.arange(len(BATS)), len(labels) * words), players)
    where = np.tile(np.repeat(np.arange(len(labels)), words), players * len(BATS))
    pitch = np.tile(np.arange(words), players * len(BATS) * len(labels))
    return pd.DataFrame(
        {
            "team": tables.players["team"].array.take(rows),
            "player": tables.players["player"].array.take(rows),
            "bats": pd.Categorical.from_codes(bats, categories=pd.Index(BATS)),
            column: pd.Categorical.from_codes(where, categories=pd.Index(labels)),
            "pitch": pd.Categorical.from_codes(pitch, categories=pd.Index(tables.vocabulary)),
        }
    )
