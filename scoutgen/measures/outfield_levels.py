"""How far does the outfield move for a hitter: the level that turns most of his flies and line drives into outs."""

from collections.abc import Mapping
from typing import Final

import numpy as np
import pandas as pd
from scipy import special

from scoutgen.measures.directions import CENTRES, Spray
from scoutgen.measures.intervals import Floats
from scoutgen.measures.standing import Setting, levels_table, settings
from scoutgen.measures.stands import Field, at_level
from scoutgen.records.positioning import FielderReach

#: Balls in the air an outfielder stands for: share, time in the air over his ground, and how soft the edge of his reach
#: is, since they fall short or carry. Common practice, memory: flies are outs about four times in five, line drives one
#: in three.
BALLS: Final = {"fly": (0.55, 4.2, 45.0), "line": (0.45, 2.0, 30.0)}


def reach_ft(hang_s: float, reach: FielderReach) -> float:
    """Feet to either side that an outfielder covers under a ball so long in the air."""
    return max(hang_s - reach.outfield_first_step_s, 0.0) * reach.outfield_fps


def out_chances(stands: Floats, reach: FielderReach) -> Floats:
    """Chance of an out on a ball in the air in each bin of directions, for a right-handed hitter.

    Args:
        stands: OUTFIELDERS x (degrees, feet).
        reach: what our men cover.
    """
    angle, depth = np.radians(stands[:, 0])[:, None], stands[:, 1][:, None]
    aside = np.abs(np.sin(np.radians(CENTRES)[None, :] - angle)) * depth
    out = np.zeros(len(CENTRES))
    for share, hang_s, edge_ft in BALLS.values():
        missed = 1 - special.ndtr((reach_ft(hang_s, reach) - aside) / edge_ft)
        out += share * (1 - missed.prod(axis=0))
    return np.asarray(out, dtype=np.float64)


def outfield_levels(found: Spray, field: Field) -> pd.DataFrame:
    """How far does the outfield move for each hitter?

    Args:
        found: what `spray` returned.
        field: our levels.

    Returns:
        See `standing.levels_table`.
    """
    chances = {
        each: out_chances(at_level(field.outfield, *each), field.reach) for each in settings(len(field.outfield))
    }

    def same(_team: str, _player: str, _bats: str) -> Mapping[Setting, Floats]:
        return chances

    return levels_table(found, "air", same)
