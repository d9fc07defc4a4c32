"""Which level to stand at for a hitter: the one that turns most of his balls into outs, if it surely does."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
import pandas as pd
from scipy import special

from scoutgen.measures.directions import Spray
from scoutgen.measures.intervals import LEVEL, Floats

#: A setting: the level, 1 straight up, and the side it moves to ("pull", "other", "" straight up).
Setting: TypeAlias = tuple[int, str]
STRAIGHT: Final[Setting] = (1, "")

#: Straight up is left where another level gains outs over it with this chance; and a higher level is not taken for less
#: than one ball in a hundred over a lower one.
ENOUGH: Final = 0.75
WORTH_A_LEVEL: Final = 0.01
#: Fewer balls than this say too little to move for. Common practice: 20 balls in play are a lean.
FEW_BALLS: Final = 15

LEVEL_COLUMNS: Final = ["team", "player", "bats", "split", "value", "level", "side", "n", "outs", "straight",
                        "next_gain", "next_low", "next_high", "because", "games", "last_seen"]  # fmt: skip


@dataclass(frozen=True)
class Choice:
    """One hitter's level.

    Attributes:
        level: 1 (straight up) to the number of levels.
        side: "pull" or "other"; "" straight up.
        outs: share of his balls that are outs at it; `straight`: at level 1.
        next_gain, next_low, next_high: what one level more would add, with its 90 % interval; 0 at the last.
    """

    level: int
    side: str
    outs: float
    straight: float
    next_gain: float
    next_low: float
    next_high: float


def settings(levels: int) -> list[Setting]:
    """Every setting of so many levels, straight up first."""
    return [STRAIGHT, *((level, side) for side in ("pull", "other") for level in range(2, levels + 1))]


def choose(density: Floats, worth: float, chances: Mapping[Setting, Floats], *, level: float = LEVEL) -> Choice:
    """Which level turns most of his balls into outs?

    The lowest level that gains within WORTH_A_LEVEL of the best; but straight up where that one gains outs over it with
    less than a chance of ENOUGH. What is not known of his directions is that of shares of so many balls (Dirichlet).

    Args:
        density: share of his balls by bin, for a right-handed hitter (mirror a left-handed one's).
        worth: balls that estimate is worth.
        chances: chance of an out in each bin by setting.
        level: coverage of the interval.
    """
    straight = chances[STRAIGHT]
    told = {each: gain_of(density, worth, chance - straight) for each, chance in chances.items()}
    best = max(gain for gain, _, _ in told.values())
    at = min((each for each, (gain, _, _) in told.items() if gain > best - WORTH_A_LEVEL), key=lambda each: each[0])
    if told[at][2] < ENOUGH:
        at = STRAIGHT
    further = (at[0] + 1, at[1] or "pull")
    gain, sd = gain_of(density, worth, chances[further] - chances[at])[:2] if further in chances else (0.0, 0.0)
    z = float(special.ndtri(0.5 + level / 2))
    outs = float(density @ straight)
    moved = told[at][0] if at != STRAIGHT else 0.0
    return Choice(*at, outs + moved, outs, gain, gain - z * sd, gain + z * sd)


def gain_of(density: Floats, worth: float, more: Floats) -> tuple[float, float, float]:
    """What a change of the out chances adds, its standard deviation, and the chance that it adds anything."""
    gain = float(density @ more)
    variance = max(float(density @ more**2) - gain**2, 0.0) / (worth + 1)
    sd = float(np.sqrt(variance))
    return gain, sd, float(special.ndtr(gain / sd)) if sd > 0 else float(gain > 0)


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
    rows = []
    for place in np.flatnonzero(found.units["kind"].eq(kind).to_numpy()):
        unit = found.units.iloc[place]
        team, player, bats = str(unit["team"]), str(unit["player"]), str(unit["bats"])
        density = found.density[place] if bats == "R" else found.density[place][::-1]
        chances = chances_for(team, player, bats)
        few = unit["n"] < FEW_BALLS
        made = choose(density, found.worth[place], {STRAIGHT: chances[STRAIGHT]} if few else chances)
        because = "few" if few else "gains" if made.level > 1 else "no gain"
        rows.append((team, player, bats, unit["split"], unit["value"], made.level, made.side, unit["n"], made.outs,
                     made.straight, made.next_gain, made.next_low, made.next_high, because, unit["games"],
                     unit["last_seen"]))  # fmt: skip
    return pd.DataFrame(rows, columns=LEVEL_COLUMNS)
