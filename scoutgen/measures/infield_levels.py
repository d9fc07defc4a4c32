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
from scoutgen.measures.stands import INFIELDERS, Field, at_level
from scoutgen.records.positioning import FielderReach

#: How sharp the edge of an infielder's reach is, in feet at _USUAL_DEPTH_FT, and what he covers however short the time.
EDGE_FT: Final = 7.0
LEAST_REACH_FT: Final = 4.0

#: Who owes a bag the throw, and how far that is: 90 feet and the few steps behind it that they play straight up.
CORNERS: Final = (3, 5)
BAG_FT: Final = 109.0

#: The pitcher, who stands where he finishes: degrees, feet, and what he covers.
PITCHER: Final = (0.0, 52.0)
PITCHER_REACH_FT: Final = 4.0

#: A ground ball's mean speed over the infield, and how far a play at first is from certain. Common practice, memory.
BALL_FPS: Final = 95.0
CLOSE_S: Final = 0.25
#: Home to first of a usual runner, seconds: 4.2 left-handed, 4.3 right-handed (scouting scale; soxtalk.com 1074).
USUAL_HOME_FIRST: Final = {"L": 4.2, "R": 4.3}

#: The depth at which the edge of an infielder's reach is EDGE_FT wide.
_USUAL_DEPTH_FT: Final = 150.0

_FIRST_BASE: Final = (63.64, 63.64)


def reach_ft(depth_ft: Floats, reach: FielderReach) -> Floats:
    """Feet to either side that each of INFIELDERS covers before a usual ground ball is past him.

    The corners never cover more than at the depth of the bags: however deep they play, one of them owes it the throw.
    """
    deep = np.minimum(depth_ft, np.where(np.isin(INFIELDERS, CORNERS), BAG_FT, np.inf))
    return np.asarray(
        np.maximum((deep / BALL_FPS - reach.infield_first_step_s) * reach.infield_fps, LEAST_REACH_FT), dtype=np.float64
    )


def out_chances(stands: Floats, home_first_s: float, reach: FielderReach) -> Floats:
    """Chance of an out on a ground ball in each bin of directions, for a right-handed hitter.

    Args:
        stands: INFIELDERS x (degrees, feet).
        home_first_s: the hitter's time to first.
        reach: what our men cover.
    """
    everybody = np.vstack([stands, PITCHER])
    covered = np.append(reach_ft(stands[:, 1], reach), PITCHER_REACH_FT)[:, None]
    angle, depth = np.radians(everybody[:, 0])[:, None], everybody[:, 1][:, None]
    aside = np.abs(np.sin(np.radians(CENTRES)[None, :] - angle)) * depth
    # The closer he stands, the sharper the edge: there is less time for a ball to be late or slow.
    reached = special.ndtr((covered - aside) / (EDGE_FT * depth / _USUAL_DEPTH_FT))
    across, along = depth * np.sin(angle), depth * np.cos(angle)
    throw = np.hypot(across - _FIRST_BASE[0], along - _FIRST_BASE[1]) / reach.throw_fps
    needs = depth / BALL_FPS + reach.release_s + throw
    in_time = special.ndtr((home_first_s - needs) / CLOSE_S)
    # A ball is taken by whoever reaches it; where two do, by either.
    left, out = np.ones(len(CENTRES)), np.zeros(len(CENTRES))
    for man in range(len(aside)):
        out += left * reached[man] * in_time[man]
        left *= 1 - reached[man]
    return np.asarray(out, dtype=np.float64)


def seams(stands: Floats, bats: str) -> tuple[tuple[int, int], ...]:
    """Whose is a ball between two infielders: neighbours from left to right, the one who takes it first.

    A ball between two is for the one whose way to it leads toward first base, which is the man nearer third; the other
    clears behind him. Common practice of infield priorities (coachad.com, priority system), for the throw to first.

    Args:
        stands: INFIELDERS x (degrees, feet) for a right-handed hitter.
        bats: the hitter's side; for a left-handed one they stand in the mirror.

    Returns:
        Scorekeeping numbers (takes it, clears), from the left-field line on.
    """
    if bats == "L":
        # First base does for him what third base does for a right-handed hitter.
        angles = dict(zip(reversed(INFIELDERS), -stands[:, 0], strict=True))
    else:
        angles = dict(zip(INFIELDERS, stands[:, 0], strict=True))
    order = sorted(angles, key=lambda man: angles[man])
    return tuple(pairwise(order))


def infield_levels(found: Spray, home_first: Mapping[tuple[str, str], float], field: Field) -> pd.DataFrame:
    """How far does the infield move for each hitter?

    Args:
        found: what `spray` returned.
        home_first: seconds by (team, player), where timed.
        field: our levels.

    Returns:
        See `standing.levels_table`.
    """

    @cache
    def chances(home_first_s: float) -> dict[Setting, Floats]:
        return {
            each: out_chances(at_level(field.infield, *each), home_first_s, field.reach)
            for each in settings(len(field.infield))
        }

    def for_hitter(team: str, player: str, bats: str) -> dict[Setting, Floats]:
        return chances(home_first.get((team, player), USUAL_HOME_FIRST[bats]))

    return levels_table(found, "ground", for_hitter)
