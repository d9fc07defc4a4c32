"""The budget of seconds against worked cases and drawn attempts."""

import numpy as np
import pytest
from scipy import integrate, optimize, stats

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
    parts_sd = [p.own_sd for p in parts]
    assert found.scatter == pytest.approx(np.sqrt(np.square([*parts_sd, START.own_sd]).sum()))


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


def flight_s(mph: float, feet: float = 57.0) -> float:
    """Seconds to the same height: a ball of 145 g and 73 mm in air of 1.2 kg a cubic metre, drag coefficient .35."""
    pull = 0.5 * 1.2 * np.pi * 0.0366**2 * 0.35 / 0.145

    def moves(_: float, at: np.ndarray) -> list[float]:
        speed = np.hypot(at[2], at[3])
        return [at[2], at[3], -pull * speed * at[2], -9.81 - pull * speed * at[3]]

    def there(_: float, at: np.ndarray) -> float:
        return at[0] - feet * 0.3048

    there.terminal = True

    def thrown(degrees: float) -> tuple[float, float]:
        speed, angle = mph * 0.44704, np.radians(degrees)
        start = [0, 0, speed * np.cos(angle), speed * np.sin(angle)]
        found = integrate.solve_ivp(moves, (0, 5), start, events=there, max_step=0.01)
        return found.t[-1], found.y[1, -1]

    # The flatter of the two ways.
    angle = optimize.brentq(lambda degrees: thrown(degrees)[1], 0, 40 if mph > 40 else 33)
    return thrown(angle)[0]


# Shared checks have 1.34, .97 and .78 s for the same speeds with drag, to other heights.
@pytest.mark.parametrize(("style", "mph", "shared"), [("lob", 35, 1.34), ("knees", 45, 0.97), ("firm", 55, 0.78)])
def test_a_return_throw_never_timed_is_a_ball_in_flight(style: str, mph: float, shared: float) -> None:
    assert USUAL_RETURN[style].mean == pytest.approx(flight_s(mph), abs=0.01)
    assert USUAL_RETURN[style].mean == pytest.approx(shared, abs=0.06)
