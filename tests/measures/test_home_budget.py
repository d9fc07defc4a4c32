"""The budget of seconds against worked cases and drawn attempts."""

import numpy as np
import pytest
from scipy import integrate, stats

from scoutgen.measures.home_budget import (
    START,
    TO_SPEED_S,
    USUAL_RETURN,
    return_budget,
    seconds_to_run,
    top_speed,
    windup_budget,
)
from scoutgen.measures.steal_odds import Chance, Seconds

ALWAYS = Chance(1.0)


def exact(seconds: float) -> Seconds:
    return Seconds(seconds, 0.0, 0.05)


def test_running_time_is_speed_summed_up() -> None:
    seconds = seconds_to_run(60, 29)
    covered, _ = integrate.quad(lambda t: 29 * (1 - np.exp(-t / TO_SPEED_S)), 0, seconds)
    assert covered == pytest.approx(60, abs=1e-6)
    assert top_speed(seconds, 60) == pytest.approx(29)
    assert seconds_to_run(0, 29) == 0
    assert seconds_to_run(72, 29) > seconds


# Flight of a lob over 57 ft with drag: 1.34 s at 35 mph, 1.11 at 40, .78 at 55; turn .90, throw .60 and tag .20
# assumed; a runner with a top speed of 29 ft/s: safe from 30 ft with .82, .55 and .14, from 18 ft with .28, .08, .00
# (shared checks, worked there with spreads that are not given: hence the wide tolerance).
@pytest.mark.parametrize(
    ("start", "flight", "safe"),
    [(30, 1.34, 0.82), (30, 1.11, 0.55), (30, 0.78, 0.14), (18, 1.34, 0.28), (18, 1.11, 0.08), (18, 0.78, 0.0)],
)
def test_home_on_a_lob(start: float, flight: float, safe: float) -> None:
    found = return_budget(29, start, Seconds(flight, 0.1, 0.15), no_look=ALWAYS, lobs=ALWAYS)
    assert found.p_safe == pytest.approx(safe, abs=0.14)


def test_margin_is_the_balls_way_less_the_runners() -> None:
    found = return_budget(29, 22, exact(1.2), no_look=Chance(0.8), lobs=Chance(0.5))
    assert found.margin_s == pytest.approx(1.2 + 0.9 + 0.6 + 0.2 - seconds_to_run(68, 29))
    assert [name for name, _ in found.ball] == ["return throw", "pitcher's turn", "throw home", "tag"]
    assert found.there == pytest.approx(0.4)
    assert found.low < found.p_safe < found.high


def test_drawing_attempts_gives_the_same() -> None:
    found = return_budget(30, 24, USUAL_RETURN["lob"], no_look=ALWAYS, lobs=ALWAYS)
    rng, times = np.random.default_rng(6), 400_000
    parts = [part for _, part in found.ball]
    ball = sum(rng.normal(p.mean, p.mean_sd, times) + rng.normal(0, p.own_sd, times) for p in parts)
    run = found.run.mean + rng.normal(0, START.mean_sd, times) + rng.normal(0, START.own_sd, times)
    assert found.p_safe == pytest.approx((ball > run).mean(), abs=0.005)


def test_straight_home_hardly_ever_beats_the_pitch() -> None:
    assert windup_budget(29, 16, Seconds(1.85, 0.02, 0.06)).p_safe < 0.01
    assert windup_budget(29, 16, Seconds(1.85, 0.02, 0.06)).margin_s < -0.5
    assert windup_budget(31, 45, Seconds(2.2, 0.02, 0.06)).p_safe > 0.5


def test_how_likely_it_is_enough_is_the_share_of_true_chances_that_are() -> None:
    found = return_budget(30, 24, USUAL_RETURN["lob"], no_look=ALWAYS, lobs=ALWAYS)
    margins = found.margin_s + found.unsure * np.random.default_rng(3).standard_normal(200_000)
    true = stats.norm.cdf(margins / found.scatter)
    assert found.enough(0.4) == pytest.approx((true >= 0.4).mean(), abs=0.005)
    assert np.quantile(true, [0.05, 0.95]) == pytest.approx([found.low, found.high], abs=0.01)
