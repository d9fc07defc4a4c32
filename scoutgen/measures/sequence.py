"""What follows what: the next pitch by the pitch before it and what became of that one."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.counts import COUNTS
from scoutgen.measures.intervals import LEVEL, Floats, beta_of_moments
from scoutgen.measures.leaning import can_tell, lean, surprise, worth
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.mix_centre import CELLS
from scoutgen.measures.mix_tables import Codes, Seen, sum_by_player
from scoutgen.measures.usual import AT_HAND, Usual

#: What became of the pitch before, as the page says it, by how it was charted. A foul tip is a strike caught.
BEFORE: Final[dict[str, tuple[str, ...]]] = {
    "taken ball": ("ball",),
    "called strike": ("called_strike",),
    "foul": ("foul", "foul_bunt"),
    "swinging strike": ("swinging_strike", "foul_tip"),
}
ANY: Final = "any"
RESULTS: Final[tuple[str, ...]] = (ANY, *BEFORE)

#: A sequence is said only where it was seen this often: fewer cannot show one worth saying.
_ENOUGH: Final = 10


def sequence(
    pitches: pd.DataFrame,
    *,
    vocabulary: Sequence[str] = (),
    mix: Mix | None = None,
    level: float = LEVEL,
    among: float = 0.05,
    usual: Usual = AT_HAND,
) -> pd.DataFrame:
    """After each pitch and its result, what comes next in the same plate appearance, beside what the count would give?

    Returns:
        One row for each team, player, after (the pitch before), result (what became of it: "any", "taken ball",
        "called strike", "foul", "swinging strike") and pitch he throws: `k` of `n` such sequences; `expected`, the
        share that the counts, sides and games of those next pitches would give by themselves; `share`, leaning on
        it, with `low`, `high` (90 %); `games`; `last_seen`; `told`: the data can tell it from the count alone
        (false discoveries among a pitcher's told sequences are held to `among`).

    Source:
        Benjamini and Hochberg, Journal of the Royal Statistical Society B 57 (1995) 289-300.
    """
    learned = learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix
    tables = learned.tables
    found = _counted(pitches, learned)
    who, n = found.player, found.k.sum(axis=1)
    foreseen = found.expected / np.maximum(n, 1.0)[:, None]
    told_k = found.k * (found.worth / np.maximum(n, 1.0))[:, None]
    leaned = lean(told_k, foreseen, usual=usual.about("sequence"))
    unit_at, pitch = np.nonzero(learned.thrown[who])
    share = leaned.share[unit_at, pitch]
    open_ = np.einsum("pe,pkef,pf->pk", learned.visits, learned.lasting, learned.visits, optimize=True)
    variance = leaned.variance[unit_at, pitch] + leaned.pull[unit_at] ** 2 * open_[who[unit_at], pitch]
    low, high = beta_of_moments(share, variance, level=level)
    enough = n[unit_at] >= _ENOUGH
    tried, of = unit_at[enough], pitch[enough]
    told = np.zeros(len(unit_at), dtype=bool)
    chances = surprise(told_k[tried, of], found.worth[tried], foreseen[tried, of])
    told[enough] = can_tell(chances, who[tried], among=among)
    return pd.DataFrame(
        {
            **tables.named(who[unit_at]),
            "after": tables.pitch_names(found.after[unit_at]),
            "result": pd.Categorical.from_codes(found.result[unit_at], categories=pd.Index(RESULTS)),
            "pitch": tables.pitch_names(pitch),
            "k": found.k[unit_at, pitch].astype(np.int64),
            "n": n[unit_at].astype(np.int64),
            "expected": foreseen[unit_at, pitch],
            "share": share,
            "low": low,
            "high": high,
            "games": found.seen.games[unit_at],
            "last_seen": found.seen.last[unit_at],
            "told": told,
        }
    )


@dataclass(frozen=True)
class _Counted:
    """What followed each pitch and its result, one row a player, pitch before and result of it that was seen.

    Attributes:
        player, after, result: which, as places among the players, in the vocabulary and in RESULTS.
        k: next pitches, rows x vocabulary.
        expected: the same as the counts, sides and games of those next pitches would give.
        worth: independent pitches that they are worth.
        seen: in which games.
    """

    player: Codes
    after: Codes
    result: Codes
    k: Floats
    expected: Floats
    worth: Floats
    seen: Seen


def _counted(pitches: pd.DataFrame, mix: Mix) -> _Counted:
    tables = mix.tables
    before, row, result = followed(pitches, mix)
    words, kinds = len(tables.vocabulary), len(RESULTS)
    outings, players = len(tables.outing_player), len(tables.players)
    outing, cell = tables.row_outing[row], tables.row_side[row] * len(COUNTS) + tables.row_count[row]
    # The first place among results is left for "any", which is their sum.
    kind = tables.row_pitch[before] * kinds + result + 1
    by_game = np.bincount(outing * words * kinds + kind, minlength=outings * words * kinds).astype(np.float64)
    by_game = _with_any(by_game.reshape(outings, words, kinds))
    key = tables.outing_player[outing] * words * kinds + kind
    size = players * words * kinds
    k = np.bincount(key * words + tables.row_pitch[row], minlength=size * words).astype(np.float64)
    expected = np.zeros((size, words))
    order = np.argsort(key, kind="stable")
    there, starts = np.unique(key[order], return_index=True)
    if len(there):
        at_game = mix.by_outing.reshape(-1, words).take((outing * CELLS + cell)[order], axis=0)
        expected[there] = np.add.reduceat(at_game, starts, axis=0)
    seen = tables.seen(by_game > 0)
    at = player, after, became = np.nonzero(seen.games > 0)
    return _Counted(
        player=player,
        after=after,
        result=became,
        k=_with_any(k.reshape(players, words, kinds, words))[at],
        expected=_with_any(expected.reshape(players, words, kinds, words))[at],
        worth=sum_by_player(worth(by_game), tables.outing_player, players)[at],
        seen=Seen(seen.games[at], seen.last[at]),
    )


def _with_any(values: Floats) -> Floats:
    """Fill the first place of the axis of results (the third) with the sum of the others."""
    values[:, :, 0] = values[:, :, 1:].sum(axis=2)
    return values


def followed(pitches: pd.DataFrame, mix: Mix) -> tuple[Codes, Codes, Codes]:
    """Pairs of pitches thrown one after the other in a plate appearance.

    Two pitches follow each other where the pitcher's second comes next after the first in the same game, to the same
    batter (where charted), at the count that the first one's result leaves: a pitch left out of the chart breaks it.

    Returns:
        Row of the pitch before, row of the next, and the place of its result in BEFORE.
    """
    tables = mix.tables
    # The pitcher's own pitches one after the other, uncharted ones among them, so that those break the chain.
    game, pitcher, batter = (pitches[c].astype("category").cat.codes.to_numpy() for c in ("game", "pitcher", "batter"))
    order = np.argsort(game.astype(np.int64) * (int(pitcher.max(initial=0)) + 1) + pitcher, kind="stable")
    first, second = order[:-1], order[1:]
    result = _result_codes(pitches["result"])[first]
    balls, strikes = np.divmod(tables.row_count, 3)
    next_balls = balls[first] + (result == 0)
    next_strikes = np.where(result == 0, strikes[first], np.minimum(strikes[first] + 1, 2))
    # A strike looking or swinging with two strikes ends it; only a foul leaves the count as it was.
    ends = (result != 0) & (result != 2) & (strikes[first] == 2)
    charted = (tables.row_outing >= 0) & (tables.row_side >= 0) & (tables.row_count >= 0)
    holds = (
        (game[first] == game[second])
        & (pitcher[first] == pitcher[second])
        & (batter[first] == batter[second])
        & charted[first]
        & charted[second]
        & (result >= 0)
        & ~ends
        & (balls[second] == next_balls)
        & (strikes[second] == next_strikes)
    )
    return first[holds].astype(np.int64), second[holds].astype(np.int64), result[holds]


def _result_codes(column: pd.Series) -> Codes:
    values = column.astype("category").cat
    place = {charted: at for at, names in enumerate(BEFORE.values()) for charted in names}
    table = np.array([*(place.get(str(name), -1) for name in values.categories), -1], dtype=np.int64)
    return np.asarray(table[values.codes.to_numpy()], dtype=np.int64)
