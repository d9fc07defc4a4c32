"""Choosing among settings whose worth is plain."""

import numpy as np
import pytest

from scoutgen.measures.directions import BINS
from scoutgen.measures.standing import STRAIGHT, choose, gain_of, settings

EVEN = np.full(BINS, 1 / BINS)


def chances(**gains: float) -> dict[tuple[int, str], np.ndarray]:
    """Out chances that differ from straight up by so much everywhere: pull_2=0.1 is level 2 to the pull side."""
    made = {STRAIGHT: np.full(BINS, 0.5)}
    for name, gain in gains.items():
        side, level = name.split("_")
        made[int(level), side] = np.full(BINS, 0.5 + gain)
    return made


def test_every_setting_stands_once() -> None:
    assert settings(1) == [STRAIGHT]
    assert settings(3) == [STRAIGHT, (2, "pull"), (3, "pull"), (2, "other"), (3, "other")]


def test_the_best_is_taken_and_the_lower_where_it_is_as_good() -> None:
    made = choose(EVEN, 50, chances(pull_2=0.05, pull_3=0.08, other_2=-0.1))
    assert (made.level, made.side, made.outs, made.straight) == (3, "pull", pytest.approx(0.58), 0.5)
    assert choose(EVEN, 50, chances(pull_2=0.075, pull_3=0.08)).level == 2
    assert choose(EVEN, 50, chances(pull_2=0.005, pull_3=0.008)).level == 1
    assert choose(EVEN, 50, chances(pull_2=-0.01, other_2=0.04)).side == "other"


def test_a_gain_that_may_be_chance_is_not_taken_until_enough_balls_say_so() -> None:
    rng = np.random.default_rng(2)
    density = rng.dirichlet(np.ones(BINS))
    uneven = chances(pull_2=0.0)
    uneven[2, "pull"] = 0.5 + np.where(np.arange(BINS) % 2, 0.3, -0.25)
    assert density @ (uneven[2, "pull"] - 0.5) > 0.02
    assert choose(density, 5, uneven).level == 1
    assert choose(density, 5_000, uneven).level == 2


def test_what_the_next_level_would_add_has_its_interval() -> None:
    uneven = chances(pull_2=0.0)
    uneven[2, "pull"] = 0.5 + np.linspace(-0.3, 0.3, BINS)
    made = choose(EVEN, 30, uneven)
    # By drawing shares of thirty balls.
    gains = np.random.default_rng(4).dirichlet(EVEN * 30, 200_000) @ (uneven[2, "pull"] - 0.5)
    assert made.level == 1
    assert made.next_gain == pytest.approx(gains.mean(), abs=0.002)
    assert (made.next_low, made.next_high) == (
        pytest.approx(np.quantile(gains, 0.05), abs=0.005), pytest.approx(np.quantile(gains, 0.95), abs=0.005)
    )  # fmt: skip
    last = choose(EVEN, 30, chances(pull_2=0.1))
    assert (last.next_gain, last.next_low, last.next_high) == (0, 0, 0)


def test_no_change_gains_nothing() -> None:
    assert gain_of(EVEN, 10, np.zeros(BINS)) == (0, 0, 0)
