"""What follows what: the next pitch by the pitch before it and what became of that one."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.counts import COUNTS
from scoutgen.measures.intervals import LEVEL, Floats, beta_of_moments
from scoutgen.measures.leaning import can_tell, lean, surprise, worth
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.mix_centre import CELLS
from scoutgen.measures.mix_tables import Codes, sum_by_player

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
    before, row, result = followed(pitches, learned)
    words, kinds = len(tables.vocabulary), len(RESULTS)
    outings, players = len(tables.outing_player), len(tables.players)
    outing, cell = tables.row_outing[row], tables.row_side[row] * len(COUNTS) + tables.row_count[row]
    # The first place among results is left for "any", which is their sum.
    kind = tables.row_pitch[before] * kinds + result + 1
    n_game = np.bincount(outing * words * kinds + kind, minlength=outings * words * kinds).astype(np.float64)
    n_game = _with_any(n_game.reshape(outings, words, kinds))
    key = tables.outing_player[outing] * words * kinds + kind
    size = players * words * kinds
    thrown_next = np.bincount(key * words + tables.row_pitch[row], minlength=size * words).astype(np.float64)
    totals = _with_any(thrown_next.reshape(players, words, kinds, words))
    expected = np.zeros((size, words))
    order = np.argsort(key, kind="stable")
    found, starts = np.unique(key[order], return_index=True)
    if len(found):
        at_game = learned.by_outing.reshape(-1, words).take((outing * CELLS + cell)[order], axis=0)
        expected[found] = np.add.reduceat(at_game, starts, axis=0)
    expected_totals = _with_any(expected.reshape(players, words, kinds, words))
    looked_all = sum_by_player(worth(n_game), tables.outing_player, players)
    games_all = sum_by_player((n_game > 0).astype(np.float64), tables.outing_player, players)
    place = np.where(n_game > 0, np.arange(outings)[:, None, None], -1)
    firsts = np.searchsorted(tables.outing_player, np.arange(players))
    last_all = np.maximum.reduceat(place, firsts, axis=0) if players else place
    who, after, became = np.nonzero(games_all > 0)
    counted, foreseen = totals[who, after, became], expected_totals[who, after, became]
    n, looked, last = counted.sum(axis=1), looked_all[who, after, became], last_all[who, after, became]
    foreseen /= np.maximum(n, 1.0)[:, None]
    told_k = counted * (looked / np.maximum(n, 1.0))[:, None]
    leaned = lean(told_k, foreseen)
    unit_at, pitch = np.nonzero(learned.thrown[who])
    share = leaned.share[unit_at, pitch]
    open_ = np.einsum("pe,pkef,pf->pk", learned.visits, learned.lasting, learned.visits, optimize=True)
    variance = leaned.variance[unit_at, pitch] + leaned.pull[unit_at] ** 2 * open_[who[unit_at], pitch]
    low, high = beta_of_moments(share, variance, level=level)
    enough = n[unit_at] >= _ENOUGH
    tried, of = unit_at[enough], pitch[enough]
    told = np.zeros(len(unit_at), dtype=bool)
    chances = surprise(told_k[tried, of], looked[tried], foreseen[tried, of])
    told[enough] = can_tell(chances, who[tried], among=among)
    return pd.DataFrame(
        {
            "team": tables.players["team"].array.take(who[unit_at]),
            "player": tables.players["player"].array.take(who[unit_at]),
            "after": pd.Categorical.from_codes(after[unit_at], categories=pd.Index(tables.vocabulary)),
            "result": pd.Categorical.from_codes(became[unit_at], categories=pd.Index(RESULTS)),
            "pitch": pd.Categorical.from_codes(pitch, categories=pd.Index(tables.vocabulary)),
            "k": counted[unit_at, pitch].astype(np.int64),
            "n": n[unit_at].astype(np.int64),
            "expected": foreseen[unit_at, pitch],
            "share": share,
            "low": low,
            "high": high,
            "games": games_all[who, after, became].astype(np.int64)[unit_at],
            "last_seen": tables.outing_date[last][unit_at],
            "told": told,
        }
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
