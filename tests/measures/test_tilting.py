"""Tilts against draws from the prior weighed by their exact likelihood, and against none."""

import numpy as np
import pytest

from scoutgen.measures.tilting import SIZES, kernels, tilt, tilted

STEADILY = np.array([-1.0, 0.0, 1.0])
USUAL = np.array([0.5, 0.3, 0.2])
PLACES = 6


def drawn(tilts: np.ndarray, n: int, *, seed: int = 3) -> np.ndarray:
    """Counts of n pitches in each place: players x places x pitches."""
    rng = np.random.default_rng(seed)
    shares = USUAL * np.exp(tilts)
    shares /= shares.sum(axis=2, keepdims=True)
    return rng.multinomial(n, shares).astype(float)


def expected(players: int) -> np.ndarray:
    return np.tile(USUAL, (players, PLACES, 1))


def alone(k: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Shares of one man's tilts and their spread, by weighing many draws of the prior by his counts."""
    rng = np.random.default_rng(11)
    sides = (0.6, 0.2, 0.2)
    sizes = (0.30, 0.20, 0.20, 0.15, 0.10, 0.05)
    shares, logs, weights = [], [], []
    for kernel, kernel_weight in zip(kernels(STEADILY), sides, strict=True):
        root = np.linalg.cholesky(kernel)
        for size, size_weight in zip(SIZES, sizes, strict=True):
            draws = size * np.einsum("cd,ndk->nck", root, rng.standard_normal((20_000, PLACES, len(USUAL))))
            share = USUAL * np.exp(draws)
            share /= share.sum(axis=2, keepdims=True)
            shares.append(share)
            logs.append((k * np.log(share)).sum(axis=(1, 2)))
            weights.append(np.full(len(share), kernel_weight * size_weight))
    log = np.concatenate(logs)
    weight = np.concatenate(weights) * np.exp(log - log.max())
    weight /= weight.sum()
    every = np.concatenate(shares)
    mean = np.einsum("n,nck->ck", weight, every)
    return mean, np.sqrt(np.einsum("n,nck->ck", weight, (every - mean) ** 2))


# One man moves the overall weights by 1 in 41 of what he says, which is within the tolerance.
@pytest.mark.parametrize("steps", [0.0, 0.25, 0.5])
def test_estimates_are_those_of_the_prior_weighed_by_the_counts(steps: float) -> None:
    made = np.zeros((1, PLACES, 3))
    made[0, :, 1] = steps * np.tile(STEADILY, 2)
    k = drawn(made, 60)
    by_draws, spread = alone(k[0])
    found = tilted(expected(1), tilt(k, expected(1), STEADILY))
    np.testing.assert_allclose(found.share[0], by_draws, atol=0.025)
    open_ = np.sqrt(np.diagonal(found.covariance[0], axis1=1, axis2=2)).T
    np.testing.assert_allclose(open_, spread, atol=0.02)


def test_one_mans_tilt_is_not_shrunk_away_because_nobody_else_tilts() -> None:
    made = np.zeros((50, PLACES, 3))
    made[0, :, 1] = 0.6 * np.tile(STEADILY, 2)
    found = tilt(drawn(made, 60), expected(50), STEADILY)
    rise = found.log[:, [2, 5], 1] - found.log[:, [0, 3], 1]
    assert (rise[0] > 0.5).all()
    assert np.abs(rise[1:]).mean() < 0.05


def test_a_tilt_against_one_side_only_stays_there() -> None:
    made = np.zeros((50, PLACES, 3))
    made[0, 3:, 1] = 0.8 * STEADILY
    found = tilt(drawn(made, 60), expected(50), STEADILY)
    rise = found.log[0, [2, 5], 1] - found.log[0, [0, 3], 1]
    assert rise[1] > 0.7
    assert abs(rise[0]) < rise[1] / 2


def test_nothing_charted_leaves_the_shares_as_expected_with_the_prior_open() -> None:
    k = np.zeros((2, PLACES, 3))
    k[1] = drawn(np.zeros((1, PLACES, 3)), 40)[0]
    found = tilted(expected(2), tilt(k, expected(2), STEADILY))
    np.testing.assert_allclose(found.share[0], expected(1)[0], atol=1e-9)
    wide, narrow = np.diagonal(found.covariance, axis1=2, axis2=3)
    assert (wide > narrow).all()


def test_pitches_not_thrown_stay_out() -> None:
    k, share = np.zeros((1, PLACES, 4)), np.zeros((1, PLACES, 4))
    k[..., :3], share[..., :3] = drawn(np.zeros((1, PLACES, 3)), 40), USUAL
    four = tilt(k, share, STEADILY)
    three = tilt(k[..., :3], share[..., :3], STEADILY)
    np.testing.assert_allclose(four.log[..., :3], three.log, atol=1e-12)
    assert not four.log[..., 3].any()
    assert not four.covariance.reshape(1, PLACES, 4, PLACES, 4)[:, :, 3].any()


def test_no_players_no_tilts() -> None:
    empty = np.zeros((0, PLACES, 3))
    assert tilt(empty, empty, STEADILY).log.shape == (0, PLACES, 3)
