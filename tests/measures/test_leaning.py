"""Leaning counts against scipy and statsmodels."""

import numpy as np
import pytest
from scipy import stats

from scoutgen.measures.leaning import STRENGTHS, can_tell, lean, surprise, worth

MEAN = np.array([0.5, 0.3, 0.2])


def drawn(strength: float, units: int = 300, seed: int = 2) -> tuple[np.ndarray, np.ndarray]:
    """Counts, and the true shares of each unit."""
    rng = np.random.default_rng(seed)
    shares = rng.dirichlet(MEAN * strength, units)
    n = rng.integers(20, 200, units)
    return np.array([rng.multinomial(size, p) for size, p in zip(n, shares, strict=True)], dtype=float), shares


def expected(units: int) -> np.ndarray:
    return np.tile(MEAN, (units, 1))


def test_one_units_estimate_is_bayes_rule_over_scipys_likelihoods() -> None:
    k = np.array([[40.0, 3.0, 7.0]])
    found = lean(k, expected(1))
    # With one unit the overall weights settle where prior and unit agree: EM on six "units" by hand.
    likelihood = np.array([stats.dirichlet_multinomial.pmf([40, 3, 7], MEAN * s, 50) for s in STRENGTHS])
    prior = STRENGTHS / (STRENGTHS + 100) ** 2
    prior = prior / prior.sum()
    overall = prior
    for _ in range(30):
        own = overall * likelihood / (overall * likelihood).sum()
        overall = (5 * prior + own) / 6
    own = overall * likelihood / (overall * likelihood).sum()
    by_hand = sum(w * (s * MEAN + k[0]) / (s + 50) for w, s in zip(own, STRENGTHS, strict=True))
    np.testing.assert_allclose(found.share[0], by_hand, atol=1e-9)
    assert found.share.sum() == pytest.approx(1)


@pytest.mark.parametrize("strength", [15.0, 100.0, 1500.0])
def test_units_lean_about_as_much_as_they_should(strength: float) -> None:
    k, shares = drawn(strength)
    found = lean(k, expected(len(k)))
    n = k.sum(axis=1, keepdims=True)
    best = (strength * MEAN + k) / (strength + n)
    # Not knowing the strength costs next to nothing: a third of a point of share at most, in root mean square.
    error, least = (np.sqrt(((share - shares) ** 2).mean()) for share in (found.share, best))
    assert error < least + 0.0033
    covered = np.abs(found.share - shares) <= 1.645 * np.sqrt(found.variance)
    # That a unit may be the odd one out keeps intervals wide where in truth none is.
    assert 0.85 <= covered.mean() <= (0.95 if strength < 1000 else 1.0)


def test_one_real_departure_is_not_shrunk_away_because_nobody_else_departs() -> None:
    k, _ = drawn(1e6)
    k[0] = [5, 5, 90]
    found = lean(k, expected(len(k)))
    assert found.share[0, 2] > 0.8
    assert found.pull[0] < 0.2
    np.testing.assert_allclose(found.share[1:].mean(axis=0), MEAN, atol=0.01)


def test_nothing_counted_gives_what_was_expected() -> None:
    found = lean(np.zeros((2, 3)), expected(2))
    np.testing.assert_allclose(found.share, expected(2))
    np.testing.assert_allclose(found.pull, 1)
    assert lean(np.zeros((0, 3)), np.zeros((0, 3))).share.shape == (0, 3)


def test_surprise_is_twice_scipys_smaller_tail() -> None:
    k, n, share = np.array([0.0, 3, 9, 20]), np.array([10.0, 10, 10, 20]), np.array([0.3, 0.3, 0.4, 0.9])
    tails = np.minimum(stats.binom.cdf(k, n, share), stats.binom.sf(k - 1, n, share))
    np.testing.assert_allclose(surprise(k, n, share), np.minimum(1, 2 * tails))
    np.testing.assert_array_equal(surprise(np.zeros(2), np.array([0.0, 5]), np.array([0.5, 0.0])), 1)


def test_the_guard_is_the_published_one_within_each_family() -> None:
    from statsmodels.stats.multitest import multipletests

    rng = np.random.default_rng(4)
    chances = np.concatenate([rng.random(40), rng.random(15) / 300])
    family = rng.integers(0, 3, 55)
    told = can_tell(chances, family)
    for each in range(3):
        theirs = multipletests(chances[family == each], alpha=0.05, method="fdr_bh")[0]
        np.testing.assert_array_equal(told[family == each], theirs)
    assert told.any()
    assert not told.all()
    assert can_tell(np.zeros(0), np.zeros(0, dtype=int)).tolist() == []


def test_a_game_says_no_more_than_it_can() -> None:
    assert worth(np.array([1.0]))[0] == pytest.approx(1.0)
    assert worth(np.array([1000.0]))[0] < 42
