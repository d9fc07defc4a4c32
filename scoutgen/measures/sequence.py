"""What follows what: the next pitch by the pitch before it and what became of that one."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.counts import COUNTS
from scoutgen.measures.intervals import LEVEL, Floats
from scoutgen.measures.leaning import can_tell, leaning_interval, leaning_strength, surprise, worth
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.mix_tables import Codes

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
    words, outing = len(tables.vocabulary), tables.row_outing[row]
    cell = tables.row_side[row] * len(COUNTS) + tables.row_count[row]
    # One unit is an outing, a pitch before and a result; each next pitch is in two: its result's and "any".
    both = np.concatenate([np.zeros_like(result), result + 1])
    twice = np.concatenate([np.arange(len(row)), np.arange(len(row))])
    unit = (outing[twice] * words + tables.row_pitch[before][twice]) * len(RESULTS) + both
    units, place = np.unique(unit, return_inverse=True)
    size = len(units) * words
    k = np.bincount(place * words + tables.row_pitch[row][twice], minlength=size).reshape(-1, words).astype(np.float64)
    expected = _summed(learned.by_outing[outing, cell], twice, place, len(units))
    # Then over the outings of each player.
    player = tables.outing_player[units // (words * len(RESULTS))]
    key = player * words * len(RESULTS) + units % (words * len(RESULTS))
    keys, at = np.unique(key, return_inverse=True)
    n_game = k.sum(axis=1)
    n, looked = _grouped(np.column_stack([n_game, worth(n_game)]), at, len(keys)).T
    counted, foreseen = (_grouped(part, at, len(keys)) for part in (k, expected))
    foreseen /= np.maximum(n, 1.0)[:, None]
    told_k = counted * (looked / np.maximum(n, 1.0))[:, None]
    strength = leaning_strength(told_k, foreseen)
    last = np.zeros(len(keys), dtype=np.int64)
    np.maximum.at(last, at, units // (words * len(RESULTS)))
    who = keys // (words * len(RESULTS))
    thrown = tables.thrown().sum(axis=(1, 2)) > 0
    unit_at, pitch = np.nonzero(thrown[who])
    hits = strength * foreseen[unit_at, pitch] + told_k[unit_at, pitch]
    total = strength + looked[unit_at]
    open_ = np.einsum("pe,pkef,pf->pk", learned.visits, learned.lasting, learned.visits, optimize=True)
    low, high = leaning_interval(hits / total, looked[unit_at], strength, open_[who[unit_at], pitch], level=level)
    chances = surprise(told_k[unit_at, pitch], looked[unit_at], foreseen[unit_at, pitch])
    enough = n[unit_at] >= _ENOUGH
    told = np.zeros(len(unit_at), dtype=bool)
    told[enough] = can_tell(chances[enough], who[unit_at][enough], among=among)
    after, became = np.divmod(keys % (words * len(RESULTS)), len(RESULTS))
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
            "share": hits / total,
            "low": low,
            "high": high,
            "games": np.bincount(at, minlength=len(keys))[unit_at],
            "last_seen": tables.outing_date[last][unit_at],
            "told": told,
        }
    )


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
    order = np.lexsort((np.arange(len(game)), pitcher, game))
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


def _summed(shares: Floats, rows: Codes, place: Codes, size: int) -> Floats:
    """Sum of the rows named of `shares`, by place."""
    # A column at a time: the rows named, twice as many as there are pitches, never stand in memory at once.
    columns = [np.bincount(place, weights=shares[rows, at], minlength=size) for at in range(shares.shape[1])]
    return np.column_stack(columns).astype(np.float64)


def _grouped(values: Floats, place: Codes, size: int) -> Floats:
    return _summed(values, np.arange(len(values)), place, size)
