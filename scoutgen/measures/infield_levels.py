"""How far does the infield move for a hitter: the level that turns most of his ground balls into outs."""

from collections.abc import Mapping
from functools import cache
from itertools import pairwise
from typing import Final

import numpy as np
import pandas as pd
from scipy import special

from scoutgen.measures.directions import CENTRES, Spray
from scoutgen.measures.intervals import Floats
from scoutgen.measures.standing import Setting, levels_table, settings

#: Infielders by scorekeeping number in the order of the tables below.
INFIELDERS: Final = (5, 6, 4, 3)

#: Where they stand for a right-handed hitter, as degrees (-45 the left-field line) and feet from home plate, from
#: straight up to everything on the pull side; between these a setting is interpolated. Straight up: shortstop 7 steps
#: off second and 15 back, second baseman 5 and 15, steps of 2.75 ft (defensive positioning handbooks, docslib 5702064);
#: the corners and the shifted settings by common practice, from memory.
SETTINGS: Final[Floats] = np.array(
    [
        [[-36.0, 108.0], [-16.6, 149.0], [14.8, 152.0], [36.0, 110.0]],
        [[-38.0, 110.0], [-19.5, 150.0], [11.0, 153.0], [33.0, 112.0]],
        [[-38.5, 112.0], [-24.5, 150.0], [-9.5, 155.0], [26.0, 125.0]],
        [[-39.5, 114.0], [-28.0, 150.0], [-15.5, 158.0], [11.0, 145.0]],
    ]
)

#: Feet an infielder covers to either side before a usual ground ball is past him, and how sharp that edge is. Chosen
#: so that a usual hitter's ground balls are outs about three times in four, as they are (common knowledge, memory).
REACH_FT: Final[Floats] = np.array([13.0, 23.0, 23.0, 13.0])
EDGE_FT: Final = 7.0

#: The pitcher, who stands where he finishes: degrees, feet, and what he covers.
PITCHER: Final = (0.0, 52.0)
PITCHER_REACH_FT: Final = 4.0

#: A ground ball's mean speed over the infield, the time from catch to throw, and a throw's mean speed; how far a play
#: at first is from certain. Common practice, from memory.
BALL_FPS: Final = 95.0
RELEASE_S: Final = 1.0
THROW_FPS: Final = 115.0
CLOSE_S: Final = 0.25
#: Home to first of a usual runner, seconds: 4.2 left-handed, 4.3 right-handed (scouting scale; soxtalk.com 1074).
USUAL_HOME_FIRST: Final = {"L": 4.2, "R": 4.3}

#: The depth at which the edge of an infielder's reach is EDGE_FT wide.
_USUAL_DEPTH_FT: Final = 150.0

_FIRST_BASE: Final = (63.64, 63.64)


def setting(level: int, levels: int, side: str) -> Floats:
    """Where the infield stands for a right-handed hitter: INFIELDERS x (degrees, feet).

    Args:
        level: 1 to `levels`.
        levels: how many levels the program counts.
        side: "pull", "other" (the same to the opposite side, the infield in a mirror), "" straight up.
    """
    share = 0.0 if levels == 1 else (level - 1) / (levels - 1)
    at = share * (len(SETTINGS) - 1)
    low = min(int(at), len(SETTINGS) - 2)
    stands = (1 - (at - low)) * SETTINGS[low] + (at - low) * SETTINGS[low + 1]
    if side != "other":
        return np.asarray(stands, dtype=np.float64)
    moved = stands - SETTINGS[0]
    # The mirror: third base does to the right what first base does to the left.
    return np.asarray(SETTINGS[0] + moved[::-1] * np.array([-1.0, 1.0]), dtype=np.float64)


def out_chances(stands: Floats, home_first_s: float) -> Floats:
    """Chance of an out on a ground ball in each bin of directions, for a right-handed hitter.

    Args:
        stands: INFIELDERS x (degrees, feet).
        home_first_s: the hitter's time to first.
    """
    everybody = np.vstack([stands, PITCHER])
    reach = np.append(REACH_FT, PITCHER_REACH_FT)[:, None]
    angle, depth = np.radians(everybody[:, 0])[:, None], everybody[:, 1][:, None]
    aside = np.abs(np.sin(np.radians(CENTRES)[None, :] - angle)) * depth
    # The closer he stands, the sharper the edge: there is less time for a ball to be late or slow.
    reached = special.ndtr((reach - aside) / (EDGE_FT * depth / _USUAL_DEPTH_FT))
    across, along = depth * np.sin(angle), depth * np.cos(angle)
    throw = np.hypot(across - _FIRST_BASE[0], along - _FIRST_BASE[1]) / THROW_FPS
    needs = depth / BALL_FPS + RELEASE_S + throw
    in_time = special.ndtr((home_first_s - needs) / CLOSE_S)
    # A ball is taken by whoever reaches it; where two do, by either.
    left, out = np.ones(len(CENTRES)), np.zeros(len(CENTRES))
    for man in range(len(aside)):
        out += left * reached[man] * in_time[man]
        left *= 1 - reached[man]
    return np.asarray(out, dtype=np.float64)


def seams(level: int, levels: int, side: str, bats: str) -> tuple[tuple[int, int], ...]:
    """Whose is a ball between two infielders: neighbours from left to right, the one who takes it first.

    A ball between two is for the one whose way to it leads toward first base, which is the man nearer third; the other
    clears behind him. Common practice of infield priorities (coachad.com, priority system), for the throw to first.

    Args:
        level: 1 to `levels`.
        levels: how many levels the program counts.
        side: "pull", "other" or "", as in `setting`.
        bats: the hitter's side; the setting of a left-handed one is the mirror.

    Returns:
        Scorekeeping numbers (takes it, clears), from the left-field line on.
    """
    stands = setting(level, levels, side)
    if bats == "L":
        # First base does for him what third base does for a right-handed hitter.
        angles = dict(zip(reversed(INFIELDERS), -stands[:, 0], strict=True))
    else:
        angles = dict(zip(INFIELDERS, stands[:, 0], strict=True))
    order = sorted(angles, key=lambda man: angles[man])
    return tuple(pairwise(order))


def infield_levels(found: Spray, home_first: Mapping[tuple[str, str], float], *, levels: int = 4) -> pd.DataFrame:
    """How far does the infield move for each hitter?

    Args:
        found: what `spray` returned.
        home_first: seconds by (team, player), where timed.
        levels: how many levels the program counts.

    Returns:
        See `standing.levels_table`.
    """

    @cache
    def chances(home_first_s: float) -> dict[Setting, Floats]:
        return {each: out_chances(setting(each[0], levels, each[1]), home_first_s) for each in settings(levels)}

    def for_hitter(team: str, player: str, bats: str) -> dict[Setting, Floats]:
        return chances(home_first.get((team, player), USUAL_HOME_FIRST[bats]))

    return levels_table(found, "ground", for_hitter)
