"""Where fielders stand: the usual settings, a program's own in steps, and the mirror."""

import numpy as np
import pytest

from scoutgen.measures.stands import USUAL_INFIELD, USUAL_OUTFIELD, at_level, field_of, steps_moved
from scoutgen.records.positioning import InfieldStand, Levels

OWN = Levels(
    infield=2,
    outfield=2,
    step_ft=3.0,
    infield_stands=(
        InfieldStand(steps=(0, 0, 0, 0)),
        InfieldStand(steps=(1, 2, 20, 0), depth_ft=(110, 150, 155, 112)),
    ),
    outfield_steps=(0, 10),
)


def test_the_usual_levels_run_from_straight_up_to_everything_however_many_they_are() -> None:
    for levels in (2, 3, 4, 7):
        field = field_of(Levels(infield=levels, outfield=levels))
        assert field.infield.shape == (levels, 4, 2)
        np.testing.assert_allclose(field.infield[0], USUAL_INFIELD[0])
        np.testing.assert_allclose(field.infield[-1], USUAL_INFIELD[-1])
        np.testing.assert_allclose(field.outfield[0], USUAL_OUTFIELD)
        # Every man goes to the pull side from one level to the next.
        assert (np.diff(field.infield[:, :, 0], axis=0) < 0).all()
    one = field_of(Levels(infield=1, outfield=1))
    np.testing.assert_allclose(one.infield, USUAL_INFIELD[:1])
    np.testing.assert_allclose(one.outfield[0], USUAL_OUTFIELD)


def test_steps_are_feet_along_the_arc_where_a_man_plays() -> None:
    field = field_of(OWN)
    np.testing.assert_allclose(field.infield[0], USUAL_INFIELD[0])
    second = field.infield[1, 2]
    # Sixty feet at 155 are 22.18 degrees, by arithmetic.
    assert second == pytest.approx([14.8 - 22.18, 155.0], abs=0.01)
    assert field.infield[1, 3] == pytest.approx([36.0, 112.0])
    np.testing.assert_allclose(steps_moved(field.infield, 3.0), [[0, 0, 0, 0], [1, 2, 20, 0]], atol=1e-9)
    np.testing.assert_allclose(steps_moved(field.outfield, 3.0)[:, 1], [0, 10], atol=1e-9)
    # As one: everybody turns by the same angle.
    assert np.ptp(field.outfield[1, :, 0] - field.outfield[0, :, 0]) == pytest.approx(0)


@pytest.mark.parametrize("levels", [Levels(), OWN])
def test_the_opposite_side_is_the_field_in_a_mirror(levels: Levels) -> None:
    for stands in (field_of(levels).infield, field_of(levels).outfield):
        for level in range(1, len(stands) + 1):
            moved = at_level(stands, level, "pull") - stands[0]
            mirrored = at_level(stands, level, "other") - stands[0]
            np.testing.assert_allclose(mirrored[::-1] * np.array([-1.0, 1.0]), moved)
        np.testing.assert_allclose(at_level(stands, 1, ""), stands[0])
