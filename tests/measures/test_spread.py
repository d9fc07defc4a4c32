"""Intervals of the next reading and of the mean, and the spread learnt from everybody, against references."""

import numpy as np
import pytest
from scipy import stats
from statsmodels.api import OLS
from statsmodels.stats.weightstats import DescrStatsW

from scoutgen.measures.spread import UsualSpread, learn_usual_spread, mean_between, moderated_variance, next_one

READINGS = [[1.31, 1.42], [1.25, 1.33, 1.28], [1.18, 1.22, 1.41, 1.30, 1.29, 1.36]]


@pytest.mark.parametrize("readings", READINGS)
def test_the_next_one_without_leaning_is_students_predictive_interval(readings: list[float]) -> None:
    # Reference: scipy.stats.t, and the prediction interval of statsmodels' least squares on a constant alone.
    x, n = np.array(readings), len(readings)
    low, high = next_one(np.array([x.mean()]), np.array([x.var(ddof=1)]), np.array([n - 1.0]), np.array([n]))
    expected = stats.t.interval(0.90, n - 1, loc=x.mean(), scale=x.std(ddof=1) * np.sqrt(1 + 1 / n))
    np.testing.assert_allclose([low[0], high[0]], expected, rtol=1e-9)
    fitted = OLS(x, np.ones((n, 1))).fit().get_prediction(np.ones((1, 1))).summary_frame(alpha=0.10)
    np.testing.assert_allclose([low[0], high[0]], fitted[["obs_ci_lower", "obs_ci_upper"]].to_numpy()[0], rtol=1e-9)


@pytest.mark.parametrize("readings", READINGS)
def test_the_mean_without_leaning_is_students_interval(readings: list[float]) -> None:
    # Reference: statsmodels.stats.weightstats.DescrStatsW.
    x, n = np.array(readings), len(readings)
    low, high = mean_between(np.array([x.mean()]), np.array([x.var(ddof=1)]), np.array([n - 1.0]), np.array([n]))
    np.testing.assert_allclose([low[0], high[0]], DescrStatsW(x).tconfint_mean(alpha=0.10), rtol=1e-9)


def test_one_reading_says_nothing_about_the_next() -> None:
    ends = [
        *next_one(np.array([1.3]), np.array([0.01]), np.array([4.0]), np.array([1])),
        *mean_between(np.array([1.3]), np.array([0.01]), np.array([4.0]), np.array([1])),
    ]
    assert np.isnan(ends).all()


def test_five_ten_and_twenty_watch_readings_leave_the_mean_as_open_as_the_trade_says() -> None:
    # Common practice: with .10 s of watch error and .06 s of real variation, 95 % lies within .10, .07 and .05 s
    # of the mean of 5, 10 and 20 readings. Spread taken as known, as in that rule of thumb.
    n = np.array([5, 10, 20])
    low, high = mean_between(np.zeros(3), np.full(3, 0.06**2 + 0.10**2), np.full(3, 1e9), n, level=0.95)
    np.testing.assert_allclose((high - low) / 2, [0.10, 0.07, 0.05], atol=0.005)


def test_nobody_measured_twice_leaves_what_is_stated() -> None:
    usual = learn_usual_spread(np.array([np.nan, np.nan]), np.array([1, 1]), stated_s=0.117)
    assert usual == UsualSpread(0.117, 4.0)


@pytest.mark.parametrize(("scale", "weight"), [(0.08, 4.0), (0.15, 16.0)])
def test_scale_and_weight_of_many_men_are_recovered(scale: float, weight: float) -> None:
    # The model of Smyth (2004): a man's variance is scale² weight / chi-square(weight).
    rng = np.random.default_rng(5)
    n = rng.integers(3, 12, 3000)
    variance = scale**2 * weight / rng.chisquare(weight, 3000)
    sd = np.sqrt(variance * rng.chisquare(n - 1) / (n - 1))
    usual = learn_usual_spread(sd, n, stated_s=0.117)
    assert usual.scale_s == pytest.approx(scale, rel=0.06)
    assert usual.weight == pytest.approx(weight, rel=0.45)


def test_men_with_two_readings_each_say_what_is_usual_together() -> None:
    rng = np.random.default_rng(12)
    sd = rng.normal(0, 0.2, (500, 2)).std(axis=1, ddof=1)
    assert learn_usual_spread(sd, np.full(500, 2), stated_s=0.117).scale_s == pytest.approx(0.2, rel=0.12)


def test_equal_readings_do_not_break_the_spread() -> None:
    usual = learn_usual_spread(np.zeros(4), np.array([3, 3, 4, 5]), stated_s=0.117)
    assert 0 < usual.scale_s < 0.117


def test_a_man_leans_on_the_usual_by_its_weight() -> None:
    # By hand: (2 x .01 + 4 x .04) / 6 = .03, with 6 degrees of freedom; a man with one reading has the usual alone.
    variance, freedom = moderated_variance(np.array([0.1, np.nan]), np.array([3, 1]), UsualSpread(0.2, 4.0))
    np.testing.assert_allclose(variance, [0.03, 0.04])
    np.testing.assert_allclose(freedom, [6.0, 4.0])
