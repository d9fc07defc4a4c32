"""How many pitches tell two apart, held against an interval that the formula does not know."""

from math import sqrt

import pytest

from scoutgen.measures.intervals import wilson
from scoutgen.measures.told_apart import MOST_TIMES, to_tell_apart


# Against an interval from outside the formula: Wilson's, whose low end is worked out anew at the size it gives.
@pytest.mark.parametrize(("n", "share", "second"), [(50, 0.42, 0.34), (40, 0.50, 0.30), (80, 0.38, 0.33)])
def test_pitches_that_would_tell_two_apart_do(n: int, share: float, second: float) -> None:
    low = float(wilson(round(share * n), n)[0])
    need = to_tell_apart(n, share, low, second)
    assert need is not None
    for size, told in ((need * 1.15, True), (need * 0.85, False)):
        assert (float(wilson(share * size, size)[0]) > second) is told


def test_two_too_near_are_said_to_be() -> None:
    half = 0.10
    assert to_tell_apart(50, 0.40, 0.40 - half, 0.40 - half / sqrt(MOST_TIMES) - 0.001) is not None
    assert to_tell_apart(50, 0.40, 0.40 - half, 0.40 - half / sqrt(MOST_TIMES) + 0.001) is None
    assert to_tell_apart(50, 0.40, 0.30, 0.40) is None


def test_told_apart_already_needs_no_more() -> None:
    need = to_tell_apart(50, 0.50, 0.40, 0.30)
    assert need is not None
    assert need <= 50


def test_a_share_known_without_doubt_is_told_apart_from_any_lesser() -> None:
    assert to_tell_apart(50, 0.50, 0.50, 0.49) == 0
    assert to_tell_apart(50, 0.50, 0.50, 0.50) is None
