"""How far does the outfield move for a hitter: the level that turns most of his flies and line drives into outs."""

from collections.abc import Mapping
from typing import Final

import numpy as np
import pandas as pd
from scipy import special

from scoutgen.measures.directions import CENTRES, Spray
from scoutgen.measures.intervals import Floats
from scoutgen.measures.standing import Setting, levels_table, settings

#: Outfielders by scorekeeping number in the order of the table.
OUTFIELDERS: Final = (7, 8, 9)

#: Where they stand straight up, as degrees (-45 the left-field line) and feet from home plate. Common practice, memory.
STRAIGHT_UP: Final[Floats] = np.array([[-27.0, 290.0], [0.0, 318.0], [27.0, 290.0]])

#: Degrees the whole outfield moves from the first level to the last. Common practice, memory: about a fifth of the
#: field at most, so that the gap given away stays playable.
FURTHEST_DEG: Final = 15.0

#: Feet an outfielder covers to either side under a usual fly or line drive, and how soft that edge is: flies stay up,
#: line drives do not. Chosen so that a usual hitter's balls in the air are outs about six times in ten, as they are
#: (flies about four in five, line drives about one in three: common knowledge, memory).
REACH_FT: Final = 48.0
EDGE_FT: Final = 42.0


def setting(level: int, levels: int, side: str) -> Floats:
    """Where the outfield stands for a right-handed hitter: OUTFIELDERS x (degrees, feet).

    Args:
        level: 1 to `levels`.
        levels: how many levels the program counts.
        side: "pull" (left field for him), "other", "" straight up.
    """
    share = 0.0 if levels == 1 else (level - 1) / (levels - 1)
    turn = {"pull": -1.0, "other": 1.0, "": 0.0}[side] * share * FURTHEST_DEG
    return np.asarray(STRAIGHT_UP + np.array([turn, 0.0]), dtype=np.float64)


def out_chances(stands: Floats) -> Floats:
    """Chance of an out on a ball in the air in each bin of directions."""
    angle, depth = np.radians(stands[:, 0])[:, None], stands[:, 1][:, None]
    aside = np.abs(np.sin(np.radians(CENTRES)[None, :] - angle)) * depth
    missed = 1 - special.ndtr((REACH_FT - aside) / EDGE_FT)
    return np.asarray(1 - missed.prod(axis=0), dtype=np.float64)


def outfield_levels(found: Spray, *, levels: int = 3) -> pd.DataFrame:
    """How far does the outfield move for each hitter?

    Args:
        found: what `spray` returned.
        levels: how many levels the program counts.

    Returns:
        See `standing.levels_table`.
    """
    chances = {each: out_chances(setting(each[0], levels, each[1])) for each in settings(levels)}

    def same(_team: str, _player: str, _bats: str) -> Mapping[Setting, Floats]:
        return chances

    return levels_table(found, "air", same)
