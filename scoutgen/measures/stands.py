"""Where our fielders stand at each level, and how far they get from there.

Everything is for a right-handed hitter; a left-handed one is played in the mirror.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from scoutgen.measures.intervals import Floats
from scoutgen.records.positioning import FielderReach, Levels

#: Infielders by scorekeeping number in the order of every table here.
INFIELDERS: Final = (5, 6, 4, 3)
OUTFIELDERS: Final = (7, 8, 9)

#: Usual infield, degrees (-45 the left-field line) and feet from home plate, from straight up to everything on the pull
#: side; between these a level is interpolated. Straight up: shortstop 7 steps off second and 15 back, second baseman 5
#: and 15, steps of 2.75 ft (defensive positioning handbooks, docslib 5702064); the corners and the shifted ones by
#: common practice, from memory.
USUAL_INFIELD: Final[Floats] = np.array(
    [
        [[-36.0, 108.0], [-16.6, 149.0], [14.8, 152.0], [36.0, 110.0]],
        [[-38.0, 110.0], [-19.5, 150.0], [11.0, 153.0], [33.0, 112.0]],
        [[-38.5, 112.0], [-24.5, 150.0], [-9.5, 155.0], [26.0, 125.0]],
        [[-39.5, 114.0], [-28.0, 150.0], [-15.5, 158.0], [11.0, 145.0]],
    ]
)

#: Usual outfield straight up, and how many degrees all of it moves at the last level: about a fifth of the field, so
#: that the gap given away stays playable. Common practice, memory.
USUAL_OUTFIELD: Final[Floats] = np.array([[-27.0, 290.0], [0.0, 318.0], [27.0, 290.0]])
FURTHEST_DEG: Final = 15.0


@dataclass(frozen=True)
class Field:
    """Our levels.

    Attributes:
        infield: levels x INFIELDERS x (degrees, feet), straight up first, moved to the pull side.
        outfield: levels x OUTFIELDERS x (degrees, feet), the same.
        reach: what each man covers.
    """

    infield: Floats
    outfield: Floats
    reach: FielderReach


def field_of(levels: Levels) -> Field:
    """What the program's levels are: as it states them, else the usual settings over so many levels."""
    infield, outfield = _over(USUAL_INFIELD, levels.infield), _turned(np.linspace(0.0, FURTHEST_DEG, levels.outfield))
    if levels.infield_stands:
        steps, depths = zip(*((each.steps, each.depth_ft) for each in levels.infield_stands), strict=True)
        infield = moved_infield(steps, depths, levels.step_ft)
    if levels.outfield_steps:
        feet = np.asarray(levels.outfield_steps, dtype=np.float64) * levels.step_ft
        outfield = _turned(_degrees(feet, USUAL_OUTFIELD[1, 1]))
    return Field(infield, outfield, levels.reach)


def moved_infield(steps: Sequence[Sequence[float]], depths: Sequence[Sequence[float] | None], step_ft: float) -> Floats:
    """An infield stated in steps from straight up.

    Args:
        steps: by level, steps of each of INFIELDERS to the pull side.
        depths: by level, feet from home plate; None as deep as straight up.
        step_ft: length of a step.

    Returns:
        levels x INFIELDERS x (degrees, feet).
    """
    straight = USUAL_INFIELD[0]
    deep = np.array([straight[:, 1] if each is None else each for each in depths], dtype=np.float64)
    angles = straight[:, 0] - _degrees(np.asarray(steps, dtype=np.float64) * step_ft, deep)
    return np.asarray(np.stack([angles, deep], axis=2), dtype=np.float64)


def steps_moved(stands: Floats, step_ft: float) -> Floats:
    """Steps of each man to the pull side from where he stands at the first level, levels x men."""
    turned = np.radians(stands[0, :, 0] - stands[:, :, 0])
    return np.asarray(turned * stands[:, :, 1] / step_ft, dtype=np.float64)


def at_level(stands: Floats, level: int, side: str) -> Floats:
    """Where they stand at a level, men x (degrees, feet).

    Args:
        stands: levels x men x (degrees, feet).
        level: from 1.
        side: "pull", "other" (the same to the opposite side, the field in a mirror), "" straight up.
    """
    there = np.asarray(stands[level - 1], dtype=np.float64)
    if side != "other":
        return there
    moved = there - stands[0]
    # The mirror: third base does to the right what first base does to the left.
    return np.asarray(stands[0] + moved[::-1] * np.array([-1.0, 1.0]), dtype=np.float64)


def _turned(degrees: Floats) -> Floats:
    """The usual outfield turned as one to the pull side, levels x OUTFIELDERS x (degrees, feet)."""
    return np.asarray(
        USUAL_OUTFIELD - np.stack([degrees, np.zeros(len(degrees))], axis=1)[:, None, :], dtype=np.float64
    )


def _degrees(feet: Floats, depth_ft: Floats | float) -> Floats:
    """Angle at home plate of so many feet along the arc at a depth."""
    return np.asarray(np.degrees(feet / depth_ft), dtype=np.float64)


def _over(table: Floats, levels: int) -> Floats:
    """A table of settings interpolated to so many levels."""
    places = np.linspace(0.0, len(table) - 1.0, levels)
    low = np.minimum(places.astype(int), len(table) - 2)
    share = (places - low)[:, None, None]
    return np.asarray((1 - share) * table[low] + share * table[low + 1], dtype=np.float64)
