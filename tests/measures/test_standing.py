"""Choosing among settings whose worth is plain."""

import numpy as np
import pytest

from scoutgen.measures.directions import BINS
from scoutgen.measures.standing import STRAIGHT, choose, settings

#: Three tilts, and how likely each is; a ball goes to the first, the middle or the last bins.
WEIGHTS = np.array([0.2, 0.5, 0.3])
TILTED = np.zeros((3, BINS))
TILTED[0, :6], TILTED[1, 6:12], TILTED[2, 12:] = 1 / 6, 1 / 6, 1 / 6


def chances(**gains: tuple[float, float, float]) -> dict[tuple[int, str], np.ndarray]:
    """Out chances that differ from straight up by so much for each tilt: pull_2 is level 2 to the pull side."""
    made = {STRAIGHT: np.full(BINS, 0.5)}
    for name, gain in gains.items():
        side, level = name.split("_")
        made[int(level), side] = 0.5 + np.repeat(gain, 6)
    return made


def test_every_setting_stands_once() -> None:
    assert settings(1) == [STRAIGHT]
    assert settings(3) == [STRAIGHT, (2, "pull"), (3, "pull"), (2, "other"), (3, "other")]


def test_the_best_is_taken_and_the_lower_where_it_is_as_good() -> None:
    made = choose(WEIGHTS, TILTED, chances(pull_2=(0.05,) * 3, pull_3=(0.08,) * 3, other_2=(-0.1,) * 3))
    assert (made.level, made.side, made.outs, made.straight) == (3, "pull", pytest.approx(0.58), 0.5)
    assert choose(WEIGHTS, TILTED, chances(pull_2=(0.075,) * 3, pull_3=(0.08,) * 3)).level == 2
    assert choose(WEIGHTS, TILTED, chances(pull_2=(0.005,) * 3, pull_3=(0.008,) * 3)).level == 1
    assert choose(WEIGHTS, TILTED, chances(pull_2=(-0.01,) * 3, other_2=(0.04,) * 3)).side == "other"


def test_a_gain_that_may_be_chance_is_not_taken() -> None:
    # A gain with a chance of seven in ten, then with one of eight.
    assert choose(WEIGHTS, TILTED, chances(pull_2=(0.2, 0.2, -0.01))).level == 1
    assert choose(WEIGHTS, TILTED, chances(pull_2=(-0.01, 0.2, 0.2))).level == 2


def test_what_the_next_level_would_add_is_weighed_and_has_its_ends() -> None:
    made = choose(WEIGHTS, TILTED, chances(pull_2=(-0.3, 0.05, 0.02)))
    assert made.level == 1
    assert made.next_gain == pytest.approx(0.2 * -0.3 + 0.5 * 0.05 + 0.3 * 0.02)
    assert (made.next_low, made.next_high) == (pytest.approx(-0.3), pytest.approx(0.05))
    last = choose(WEIGHTS, TILTED, chances(pull_2=(0.1,) * 3))
    assert (last.next_gain, last.next_low, last.next_high) == (0, 0, 0)
