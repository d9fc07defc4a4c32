"""Which level to stand at for a hitter: the one that turns most of his balls into outs, if it surely does."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
import pandas as pd

from scoutgen.measures.directions import Spray
from scoutgen.measures.intervals import LEVEL, Floats

#: A setting: the level, 1 straight up, and the side it moves to ("pull", "other", "" straight up).
Setting: TypeAlias = tuple[int, str]
STRAIGHT: Final[Setting] = (1, "")

#: What a level gains is weighed by what it gains at least with this chance; and a higher level is not taken for less
#: than one ball in a hundred over a lower one, nor any for less over straight up.
ENOUGH: Final = 0.75
WORTH_A_LEVEL: Final = 0.01
#: Fewer balls than this say too little to move for. Common practice: 20 balls in play are a lean.
FEW_BALLS: Final = 15

LEVEL_COLUMNS: Final = ["team", "player", "bats", "split", "value", "level", "side", "n", "outs", "straight",
                        "gain_low", "gain_high", "next_gain", "next_low", "next_high", "because", "games",
                        "last_seen"]  # fmt: skip


@dataclass(frozen=True)
class Choice:
    """One hitter's level.

    Attributes:
        level: 1 (straight up) to the number of levels.
        side: "pull" or "other"; "" straight up.
        outs: share of his balls that are outs at it; `straight`: at level 1.
        gain_low, gain_high: what it gains over level 1, 90 % interval; 0 straight up.
        next_gain, next_low, next_high: what one level more would add, with its 90 % interval; 0 at the last.
    """

    level: int
    side: str
    outs: float
    straight: float
    gain_low: float
    gain_high: float
    next_gain: float
    next_low: float
    next_high: float


def settings(levels: int) -> list[Setting]:
    """Every setting of so many levels, straight up first."""
    return [STRAIGHT, *((level, side) for side in ("pull", "other") for level in range(2, levels + 1))]


def choose(weights: Floats, tilted: Floats, chances: Mapping[Setting, Floats], *, level: float = LEVEL) -> Choice:
    """Which level turns most of his balls into outs?

    Of every level it is asked what it gains over straight up on average, and at least with a chance of ENOUGH; the
    lesser counts, and the lowest level within WORTH_A_LEVEL of the best is taken. So one ball more moves nobody from
    straight up to everything, and where little is known everybody stays straight up.

    Args:
        weights: how likely each tilt of his directions is; they sum to 1.
        tilted: the density each tilt makes for a right-handed hitter, tilts x bins.
        chances: chance of an out in each bin by setting.
        level: coverage of the interval.
    """
    outs = {each: tilted @ chance for each, chance in chances.items()}
    straight = outs[STRAIGHT]
    gains = {each: _counted(made - straight, weights) for each, made in outs.items()}
    best = max(gains.values())
    at = min((each for each, gain in gains.items() if gain > best - WORTH_A_LEVEL), key=lambda each: each[0])
    further = (at[0] + 1, at[1] or "pull")
    more = outs[further] - outs[at] if further in outs else np.zeros(len(weights))
    return Choice(
        *at,
        float(weights @ outs[at]),
        float(weights @ straight),
        *_interval(outs[at] - straight, weights, level),
        float(weights @ more),
        *_interval(more, weights, level),
    )


def _counted(gain: Floats, weights: Floats) -> float:
    return min(float(weights @ gain), *_quantiles(gain, weights, 1 - ENOUGH))


def _interval(values: Floats, weights: Floats, level: float) -> tuple[float, float]:
    """Ends of the interval that leaves as much weight on either side."""
    low, high = _quantiles(values, weights, (1 - level) / 2, (1 + level) / 2)
    return low, high


def _quantiles(values: Floats, weights: Floats, *shares: float) -> list[float]:
    """The values under which so much of the weight lies."""
    order = np.argsort(values, kind="stable")
    reached = np.cumsum(weights[order])
    places = np.minimum(np.searchsorted(reached, shares), len(order) - 1)
    return [float(value) for value in values[order[places]]]


def levels_table(
    found: Spray, kind: str, chances_for: Callable[[str, str, str], Mapping[Setting, Floats]]
) -> pd.DataFrame:
    """The level for each hitter.

    Args:
        found: what `spray` returned.
        kind: "ground" or "air".
        chances_for: chance of an out in each bin by setting, for a hitter's team, key and side, as if he were
            right-handed.

    Returns:
        One row for each hitter, side he bats on, split and value with a ball of that kind charted: LEVEL_COLUMNS.
        `because`: "gains" (the level is above 1), "no gain" or "few" (fewer than FEW_BALLS, so straight up).
    """
    rows: list[dict[str, object]] = []
    places = np.flatnonzero(found.units["kind"].eq(kind).to_numpy())
    kept = found.units.iloc[places][["team", "player", "bats", "split", "value", "n", "games", "last_seen"]]
    for place, unit in zip(places.tolist(), kept.to_dict("records"), strict=True):
        chances = chances_for(str(unit["team"]), str(unit["player"]), str(unit["bats"]))
        few = unit["n"] < FEW_BALLS
        asked = {STRAIGHT: chances[STRAIGHT]} if few else chances
        made = choose(found.weights[place], found.tilted[kind], asked)
        because = "few" if few else "gains" if made.level > 1 else "no gain"
        rows.append({**{str(name): cell for name, cell in unit.items()}, **vars(made), "because": because})
    return pd.DataFrame(rows, columns=LEVEL_COLUMNS)
