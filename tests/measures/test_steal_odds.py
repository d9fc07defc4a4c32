"""Chances of a steal against worked cases, drawn attempts and published bands."""

import numpy as np
import pytest
from scipy import stats

from scoutgen.measures.steal_odds import (
    OFF_BAG_S,
    PICKED_WHEN_THROWN_OVER,
    TAG_S,
    TAG_SPREAD_S,
    Chance,
    Seconds,
    StealInputs,
    mixed_odds,
    steal_odds,
)

# Typical of a college battery and a man who is sent; common practice, from memory, as `steals` has them.
CATCHER = Seconds(2.03, 0.04, 0.07)
WIDE, LOST, OVER = Chance(0.30, 0.06), Chance(0.03, 0.01), Chance(0.08, 0.02)


def attempt(total_s: float, run_s: float = 3.40) -> StealInputs:
    """Plate and pop together `total_s`."""
    plate = Seconds(total_s - CATCHER.mean, 0.03, 0.06)
    return StealInputs(Seconds(run_s, 0.04, 0.08), plate, CATCHER, WIDE, LOST, OVER)


# Worked by arithmetic: an even bet at plate 1.30, and a tenth of a second at a joint spread of .157 s.
@pytest.mark.parametrize(("plate", "safe"), [(1.20, 0.26), (1.30, 0.50), (1.40, 0.74), (1.50, 0.90)])
def test_a_tenth_of_a_second(plate: float, safe: float) -> None:
    own = np.sqrt((0.157**2 - TAG_SPREAD_S**2) / 3)
    found = steal_odds(StealInputs(Seconds(3.40, 0, own), Seconds(plate, 0, own), Seconds(2.00, 0, own)))
    assert found.margin_s == pytest.approx(plate + 2.00 + TAG_S - 3.40)
    assert found.p_safe == pytest.approx(safe, abs=0.005)
    assert found.low == pytest.approx(found.high)


@pytest.mark.parametrize("total", [3.20, 3.40, 3.60])
def test_drawing_attempts_gives_the_same(total: float) -> None:
    given, rng, times = attempt(total), np.random.default_rng(4), 400_000

    def seconds(of: Seconds) -> np.ndarray:
        return rng.normal(of.mean, of.mean_sd, times) + rng.normal(0, of.own_sd, times)

    def happens(of: Chance, factor: float = 1.0) -> np.ndarray:
        strength = of.share * (1 - of.share) / of.sd**2 - 1
        share = rng.beta(of.share * strength, (1 - of.share) * strength, times)
        return rng.random(times) < factor * share

    ball = seconds(given.plate) + seconds(given.pop) + rng.normal(TAG_S, TAG_SPREAD_S, times)
    ball += OFF_BAG_S * happens(given.off_bag)
    safe = (ball > seconds(given.run)) | happens(given.lost)
    safe &= ~happens(given.thrown_over, PICKED_WHEN_THROWN_OVER)
    found = steal_odds(given)
    assert found.p_safe == pytest.approx(safe.mean(), abs=0.005)
    assert found.low < found.p_safe < found.high


# Worked by arithmetic with the same joint spread: three timed deliveries leave the even bet between .21 and .79 at
# 90 %, ten between .28 and .72 (deliveries by a watch, error .10 s and own .06 s; pop and run known to .05 s).
@pytest.mark.parametrize(("readings", "low", "high"), [(3, 0.21, 0.79), (10, 0.28, 0.72)])
def test_few_deliveries_leave_it_open(readings: int, low: float, high: float) -> None:
    own = np.sqrt((0.157**2 - TAG_SPREAD_S**2) / 3)
    plate = Seconds(1.30, float(np.hypot(0.10, 0.06) / np.sqrt(readings)), own)
    found = steal_odds(StealInputs(Seconds(3.40, 0.02, own), plate, Seconds(2.00, 0.04, own)))
    assert found.low == pytest.approx(low, abs=0.05)
    assert found.high == pytest.approx(high, abs=0.05)


# 61.4, 68.7, 73.9 and 77.1 % of 2,554 attempts at plate and pop under 3.25, to 3.40, to 3.55 and over (Dewan, Timing
# pitchers and catchers, 2013). Runners choose: the faster go on the quicker batteries, so that published success rises
# by less than the clock's answer for one runner.
def test_success_rises_over_the_published_bands_and_more_steeply_for_one_runner() -> None:
    published = np.array([0.614, 0.687, 0.739, 0.771])
    ours = np.array([steal_odds(attempt(total)).p_safe for total in (3.20, 3.325, 3.475, 3.60)])
    assert (np.diff(ours) > 0).all()
    assert ours[-1] - ours[0] > published[-1] - published[0]


def test_a_typical_attempt_succeeds_as_often_as_they_do() -> None:
    # League success .693 (1999) to .802 (2023), Lahman database; men who are sent run about 3.4 s (Kansas City Star,
    # 26 March 2014) on plate and pop of 3.40, the middle of Dewan's bands.
    found = [steal_odds(attempt(3.40, run)).p_safe for run in (3.35, 3.40, 3.45)]
    assert 0.69 <= np.mean(found) <= 0.802


def test_throws_over_and_throws_lost_pull_their_ways() -> None:
    plain = StealInputs(Seconds(3.4, 0, 0.1), Seconds(1.35, 0, 0.06), CATCHER)
    held = StealInputs(plain.run, plain.plate, plain.pop, thrown_over=Chance(0.2))
    wild = StealInputs(plain.run, plain.plate, plain.pop, lost=Chance(0.2))
    base = steal_odds(plain)
    assert steal_odds(held).p_safe == pytest.approx(base.p_safe * (1 - 0.2 * PICKED_WHEN_THROWN_OVER))
    assert steal_odds(wild).p_safe == pytest.approx(0.2 + 0.8 * base.p_safe)
    assert steal_odds(held).p_clock == base.p_clock


def test_the_clocks_answer_is_the_normal_tables() -> None:
    given = attempt(3.40)
    parts = (given.run, given.plate, given.pop)
    spread = np.sqrt(sum(p.mean_sd**2 + p.own_sd**2 for p in parts) + TAG_SPREAD_S**2)
    assert steal_odds(given).p_clock == pytest.approx(stats.norm.cdf((3.40 + TAG_S - 3.40) / spread), abs=0.003)


def test_mixed_lies_between_and_is_no_surer_than_either() -> None:
    slow = steal_odds(attempt(3.50))
    quick = steal_odds(attempt(3.25))
    both = mixed_odds(slow, quick, Chance(0.25, 0.05))
    assert quick.p_safe < both.p_safe < slow.p_safe
    assert both.p_safe == pytest.approx(0.75 * slow.p_safe + 0.25 * quick.p_safe)
    assert both.low < both.p_safe < both.high
    assert mixed_odds(slow, quick, Chance(0.0)).low == pytest.approx(slow.low)


def test_a_share_of_slide_steps_hardly_known_leaves_more_open() -> None:
    slow, quick = steal_odds(attempt(3.60)), steal_odds(attempt(3.10))
    known, guessed = (mixed_odds(slow, quick, Chance(0.4, sd)) for sd in (0.0, 0.2))
    assert guessed.p_safe == known.p_safe
    assert guessed.low < known.low < known.p_safe < known.high < guessed.high
    # One standard deviation of the share moves the chance by that much of what lies between the two.
    reach = stats.norm.ppf(0.95) * 0.2 * (slow.p_safe - quick.p_safe)
    for end, other in ((guessed.low, known.low), (guessed.high, known.high)):
        assert abs(end - guessed.p_safe) == pytest.approx(np.hypot(other - known.p_safe, reach))
