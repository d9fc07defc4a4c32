"""Means and variances of the shares against a large simulation."""

import numpy as np
from scipy import linalg

from scoutgen.measures.mix_centre import CELLS, Scales, kernel, league_log_shares
from scoutgen.measures.mix_fit import fit_mix, softmax
from scoutgen.measures.mix_moments import moments, spherical_points


def test_the_points_have_the_mean_and_covariance_of_the_normal() -> None:
    for size in (3, 50, 125):
        points = spherical_points(size)
        np.testing.assert_allclose(points.mean(axis=0), 0, atol=1e-12)
        np.testing.assert_allclose(points.T @ points / len(points), np.eye(size), atol=1e-10)


def test_the_points_are_the_same_every_time() -> None:
    np.testing.assert_array_equal(spherical_points(40), spherical_points(40))


def test_moments_are_those_of_a_simulation() -> None:
    rng = np.random.default_rng(3)
    league = league_log_shares(["fastball", "slider", "change"])[None]
    table = np.array([[rng.multinomial(3, p) for p in softmax(league[0])] for _ in range(2)], dtype=float)
    fit = fit_mix(table, np.array([0, 0]), np.array([1, 0]), league, kernel(Scales()))
    found = moments(fit)
    covariance = linalg.cho_solve((fit.factor[0], True), np.eye(CELLS * 3))
    drawn = fit.centre[0] + rng.multivariate_normal(np.zeros(CELLS * 3), covariance, 40_000).reshape(-1, CELLS, 3)
    usual = softmax(drawn)
    tonight = softmax(drawn + rng.normal(size=(40_000, 1, 3)) * fit.spread[0])
    np.testing.assert_allclose(found.mean[0], tonight.mean(axis=0), atol=0.01)
    lasting_sd = np.sqrt(np.diagonal(found.lasting[0], axis1=1, axis2=2).T)
    tonight_sd = np.sqrt(np.diagonal(found.tonight[0], axis1=1, axis2=2).T)
    np.testing.assert_allclose(lasting_sd, usual.std(axis=0), rtol=0.12)
    np.testing.assert_allclose(tonight_sd, tonight.std(axis=0), rtol=0.12)
