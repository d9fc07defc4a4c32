"""Where a pitcher's mix leans before he has been seen: by count, by batter's side, and how far men differ from it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from scoutgen.measures.counts import COUNTS, SIDES
from scoutgen.measures.intervals import Floats

#: A cell is a batter's side and a count: L 0-0 ... L 3-2, R 0-0 ... R 3-2.
CELLS: Final = len(SIDES) * len(COUNTS)

#: Pitches of one family move together with the count: hard ones when the pitcher needs a strike.
FAMILIES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "fastball": "hard",
        "sinker": "hard",
        "cutter": "hard",
        "slider": "breaking",
        "sweeper": "breaking",
        "curve": "breaking",
        "knuckleball": "breaking",
        "change": "off",
        "splitter": "off",
    }
)

#: How often a pitch is thrown by those who throw it, against a fastball: round numbers from common knowledge.
#: They count for about as much as ten pitches, and as the split of what a pitcher has not yet shown.
USUAL: Final[Mapping[str, float]] = MappingProxyType(
    {
        "fastball": 1.0,
        "sinker": 0.6,
        "slider": 0.5,
        "change": 0.35,
        "curve": 0.35,
        "cutter": 0.35,
        "sweeper": 0.35,
        "splitter": 0.3,
        "knuckleball": 0.1,
        "other": 0.1,
    }
)

#: Percent fastball, slider, curve and change by count, big leagues 2007.
#: Walsh, Hardball Times, 20 December 2007.
LEAGUE_MIX: Final[Mapping[str, tuple[int, int, int, int]]] = MappingProxyType(
    {
        "0-0": (63, 15, 12, 9),
        "0-1": (52, 20, 15, 12),
        "0-2": (51, 21, 18, 9),
        "1-0": (63, 15, 8, 13),
        "1-1": (53, 19, 13, 14),
        "1-2": (48, 22, 19, 11),
        "2-0": (75, 11, 4, 10),
        "2-1": (64, 16, 8, 13),
        "2-2": (51, 21, 16, 12),
        "3-0": (84, 5, 3, 8),
        "3-1": (80, 10, 3, 7),
        "3-2": (66, 17, 8, 9),
    }
)

#: Share of all pitches thrown at each count, in the order of COUNTS, big leagues 2019 (Retrosheet).
LEAGUE_COUNTS: Final[Floats] = np.array(
    [0.254, 0.128, 0.066, 0.099, 0.102, 0.096, 0.035, 0.053, 0.084, 0.011, 0.022, 0.051]
)

#: Share of pitches to left-handed and right-handed batters where nothing else is known.
LEAGUE_SIDES: Final[Floats] = np.array([0.4, 0.6])


@dataclass(frozen=True)
class Scales:
    """How far pitchers differ from the league, as standard deviations of log-shares; each may be learned.

    Attributes:
        level: in how much they throw a pitch at all (fixed: wide enough for any man).
        balls, strikes: in how it moves with each ball and strike.
        first, two_strikes, three_balls: in what they do there beyond that.
        balls_strikes: in the product of balls and strikes.
        count: in each count of its own, both sides alike.
        side: between left-handed and right-handed batters.
        side_balls, side_strikes, side_two_strikes: in how that difference moves with the count.
        cell: in each side and count of its own.
    """

    level: float = 1.0
    balls: float = 0.35
    strikes: float = 0.30
    first: float = 0.25
    two_strikes: float = 0.45
    three_balls: float = 0.30
    balls_strikes: float = 0.15
    count: float = 0.12
    side: float = 0.70
    side_balls: float = 0.10
    side_strikes: float = 0.15
    side_two_strikes: float = 0.20
    cell: float = 0.12


def directions() -> dict[str, Floats]:
    """The ways a mix can differ from the league, by the names of `Scales`: each cells x (one or more directions)."""
    balls = np.array([float(count[0]) for count in COUNTS])
    strikes = np.array([float(count[2]) for count in COUNTS])
    plain = {
        "level": np.ones(len(COUNTS)),
        "balls": balls,
        "strikes": strikes,
        "first": (balls + strikes == 0).astype(np.float64),
        "two_strikes": (strikes == 2).astype(np.float64),
        "three_balls": (balls == 3).astype(np.float64),
        "balls_strikes": _centred(balls) * _centred(strikes),
    }
    middle = {name: values if name == "level" else _centred(values) for name, values in plain.items()}
    out = {name: np.tile(values, 2)[:, None] for name, values in middle.items()}
    # Half of the difference to each side, so that the level is the mean of the two.
    halves = np.repeat([-0.5, 0.5], len(COUNTS))
    for name, of in (("side", "level"), *((f"side_{each}", each) for each in ("balls", "strikes", "two_strikes"))):
        out[name] = (halves * np.tile(middle[of], 2))[:, None]
    out["count"] = np.tile(np.eye(len(COUNTS)), (2, 1))
    out["cell"] = np.eye(CELLS)
    return out


def kernel(scales: Scales) -> Floats:
    """Covariance between cells of one pitch's log-share about the league: cells x cells."""
    total = np.zeros((CELLS, CELLS))
    for name, columns in directions().items():
        total += getattr(scales, name) ** 2 * columns @ columns.T
    return total


def league_log_shares(pitches: Sequence[str]) -> Floats:
    """Log-share of each pitch in each cell, to within a constant, of a man nothing is known of: cells x pitches."""
    mix = np.array([LEAGUE_MIX[count] for count in COUNTS], dtype=np.float64)
    by_family = np.log(np.column_stack([mix[:, 0], mix[:, 1] + mix[:, 2], mix[:, 3]]))
    moves = by_family - (LEAGUE_COUNTS / LEAGUE_COUNTS.sum()) @ by_family
    family = {"hard": moves[:, 0], "breaking": moves[:, 1], "off": moves[:, 2]}
    still = np.zeros(len(COUNTS))
    columns = [np.log(usual(pitch)) + family.get(FAMILIES.get(pitch, ""), still) for pitch in pitches]
    return np.tile(np.column_stack(columns), (2, 1))


def usual(pitch: str) -> float:
    """How often it is thrown by those who throw it, against a fastball; a pitch the program added counts as rare."""
    return USUAL.get(pitch, USUAL["other"])


def _centred(values: Floats) -> Floats:
    return np.asarray(values - (LEAGUE_COUNTS / LEAGUE_COUNTS.sum()) @ values, dtype=np.float64)
