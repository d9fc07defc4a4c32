"""Intervals for a share against scipy, statsmodels and published values."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scoutgen.measures.intervals import beta, beta_of_moments, never_seen, wilson

CASES = [(k, n) for n in (1, 2, 5, 10, 29, 45, 148, 400) for k in {0, 1, n // 3, n // 2, n - 1, n}]


# Newcombe, Statistics in Medicine 17 (1998) 857-872, table I (from memory; scipy and statsmodels agree).
def test_wilson_gives_newcombes_published_ends() -> None:
    low, high = wilson([81, 15, 0, 1], [263, 148, 20, 29], level=0.95)
    np.testing.assert_allclose(low, [0.2553, 0.0624, 0, 0.0061], atol=5e-5)
    np.testing.assert_allclose(high, [0.3662, 0.1605, 0.1611, 0.1718], atol=5e-5)


# Common practice: 60 % seen in 10 is anywhere from 31 to 83 %, in 30 from 42 to 75, in 100 from 50 to 69.
def test_wilson_gives_the_sample_sizes_scouts_quote() -> None:
    low, high = wilson([6, 18, 60], [10, 30, 100], level=0.95)
    np.testing.assert_allclose(low, [0.31, 0.42, 0.50], atol=0.005)
    np.testing.assert_allclose(high, [0.83, 0.75, 0.69], atol=0.005)


@pytest.mark.parametrize("level", [0.80, 0.90, 0.95])
def test_statsmodels_agrees(level: float) -> None:
    from statsmodels.stats.proportion import proportion_confint

    for k, n in CASES:
        low, high = proportion_confint(k, n, alpha=1 - level, method="wilson")
        got = wilson(k, n, level=level)
        np.testing.assert_allclose(got.low, low, atol=1e-10)
        np.testing.assert_allclose(got.high, high, atol=1e-10)


def test_beta_is_scipys_and_moments_find_it_again() -> None:
    a, b = np.array([0.5, 3, 40]), np.array([7, 3, 2.5])
    theirs = stats.beta(a, b)
    np.testing.assert_allclose(beta(a, b), theirs.interval(0.9), atol=1e-10)
    np.testing.assert_allclose(beta_of_moments(theirs.mean(), theirs.var()), theirs.interval(0.9), atol=1e-8)


def test_moments_that_leave_nothing_open_give_the_mean() -> None:
    low, high = beta_of_moments([0.0, 1.0, 0.3], [0.0, 0.1, 0.0])
    np.testing.assert_array_equal(low, [0, 1, 0.3])
    np.testing.assert_array_equal(high, [0, 1, 0.3])


# Hanley and Lippman-Hand, JAMA 249 (1983): not seen in n bounds the rate near 3 / n.
def test_never_seen_is_the_rule_of_three_and_on_the_safe_side_of_the_exact_bound() -> None:
    looked = np.array([3, 15, 30, 100, 1000])
    bound = never_seen(looked)
    np.testing.assert_allclose(bound, [1.0, 0.2, 0.1, 0.03, 0.003])
    exact = stats.beta.ppf(0.95, 1, looked)
    assert (exact <= bound).all()
    np.testing.assert_allclose(bound[2:], exact[2:], rtol=0.06)
    assert never_seen(1) == 1


def test_nothing_looked_at_is_missing_and_not_zero() -> None:
    for ends in (*wilson(0, 0), never_seen(0)):
        assert np.isnan(ends)


def test_more_seen_than_looked_is_refused() -> None:
    with pytest.raises(ValueError, match="between 0 and n"):
        wilson(3, 2)


@given(st.integers(1, 3000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_share_lies_inside_and_ends_inside_0_and_1(case: tuple[int, int]) -> None:
    k, n = case
    low, high = wilson(k, n)
    assert 0 <= low <= k / n <= high <= 1


def test_wilson_covers_ninety_percent_on_average() -> None:
    # Averaged over shares the coverage is 90 %: Brown, Cai and DasGupta (2001), figure 8.
    shares = (np.arange(400) + 0.5) / 400
    for n in (8, 30, 100):
        k = np.arange(n + 1)
        low, high = wilson(k, n)
        inside = (low[:, None] <= shares) & (shares <= high[:, None])
        covered = (stats.binom.pmf(k[:, None], n, shares) * inside).sum(axis=0)
        assert 0.885 <= covered.mean() <= 0.915
