"""Levels of the outfield: known hitters and the mirror."""

import numpy as np
import pandas as pd
import pytest
from measures.rows import frame

from scoutgen.measures.directions import CENTRES, TILTS, spray
from scoutgen.measures.outfield_levels import out_chances, outfield_levels, reach_ft
from scoutgen.measures.standing import LEVEL_COLUMNS, Choice, choose, settings
from scoutgen.measures.stands import at_level, field_of
from scoutgen.records.positioning import FielderReach, Levels

FIELD = field_of(Levels())
LEVELS = len(FIELD.outfield)
CHANCES = {each: out_chances(at_level(FIELD.outfield, *each), FIELD.reach) for each in settings(LEVELS)}


def pulled(tilt: float) -> np.ndarray:
    """A right-handed hitter's flies, the more to left the larger the tilt."""
    density = np.exp(-tilt * CENTRES / 45)
    return density / density.sum()


def chosen(density: np.ndarray, spread: float = 0.0) -> Choice:
    """The level for a hitter whose tilt is known to so much; spread 0: known for sure."""
    tilted = density * np.exp(-TILTS[:, None] * CENTRES / 45)
    tilted /= tilted.sum(axis=1, keepdims=True)
    weights = np.exp(-0.5 * (TILTS / max(spread, 1e-3)) ** 2)
    return choose(weights / weights.sum(), tilted, CHANCES)


# Flies are outs about four in five, line drives one in three: six in ten together (common knowledge, memory).
def test_balls_in_the_air_are_outs_six_times_in_ten() -> None:
    assert float(pulled(0.2) @ CHANCES[1, ""]) == pytest.approx(0.62, abs=0.06)


@pytest.mark.parametrize("tilt", [0.0, 0.3, 2.0, 4.0, -3.0])
def test_a_hitter_known_well_gets_the_level_that_is_best_for_him(tilt: float) -> None:
    density = pulled(tilt)
    made = chosen(density)
    assert made.outs > max(float(density @ chance) for chance in CHANCES.values()) - 0.0101
    assert made.side == ("" if abs(tilt) < 1 else "pull" if tilt > 0 else "other")


def test_more_pull_never_lowers_the_level() -> None:
    made = [chosen(pulled(tilt), 0.3) for tilt in np.linspace(0, 5, 30)]
    levels = [each.level for each in made]
    assert levels == sorted(levels)
    assert levels[-1] == LEVELS


def test_hang_time_and_legs_are_reach() -> None:
    assert reach_ft(4.0, FielderReach(outfield_first_step_s=1.0, outfield_fps=20.0)) == 60.0
    assert reach_ft(0.5, FielderReach(outfield_first_step_s=0.7)) == 0.0
    quick = out_chances(FIELD.outfield[0], FielderReach(outfield_fps=26.0))
    assert (quick >= CHANCES[1, ""]).all()
    assert quick.mean() > CHANCES[1, ""].mean() + 0.03


def test_the_other_side_is_the_mirror() -> None:
    np.testing.assert_allclose(CHANCES[3, "other"], CHANCES[3, "pull"][::-1])


def test_left_and_right_handed_twins_get_the_same_level() -> None:
    directions = np.array([-40.0] * 30 + [-25.0] * 12)
    rows = [
        {"direction_deg": sign * d, "contact": "fly", "strikes": 0, "batter": name, "bats": bats}
        for name, bats, sign in (("right", "R", 1), ("left", "L", -1))
        for d in directions
    ]
    found = outfield_levels(spray(frame("pitches", *rows, batter_team="harbor")), FIELD)
    whole = found[found["split"].eq("all")].set_index("player")
    assert list(found.columns) == LEVEL_COLUMNS
    assert whole["level"]["right"] == whole["level"]["left"] >= 2
    assert isinstance(found, pd.DataFrame)
