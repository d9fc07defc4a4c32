"""The fit of the mix against reference libraries and a general optimiser."""

import numpy as np
import pytest
from scipy import linalg, optimize, special, stats

from scoutgen.measures.mix_centre import CELLS, Scales, kernel, league_log_shares
from scoutgen.measures.mix_fit import AGEING, USUAL_SPREAD, Fit, fit_mix, softmax


def counted(seed: int = 5, games: int = 4, pitches: int = 3) -> np.ndarray:
    rng = np.random.default_rng(seed)
    shares = softmax(rng.normal(0, 0.7, (CELLS, pitches)))
    looked = rng.poisson(4, (games, CELLS))
    return np.array([[rng.multinomial(n, shares[c]) for c, n in enumerate(game)] for game in looked], dtype=float)


def fitted(table: np.ndarray, covariance: np.ndarray, *, spread: float, league: np.ndarray | None = None) -> Fit:
    games, _, pitches = table.shape
    start = np.zeros((CELLS, pitches)) if league is None else league
    return fit_mix(
        table, np.zeros(games, dtype=int), np.arange(games)[::-1], start[None], covariance, usual_spread=spread
    )


def rarity(table: np.ndarray) -> np.ndarray:
    """How the variance of a game's part differs between pitches: the logs of gamma variables, by scipy."""
    thrown = table.sum(axis=(0, 1)) + 0.5
    return np.clip(stats.loggamma(14 * thrown / thrown.sum()).var() / stats.loggamma(14 / 3).var(), 0.5, 4)


def test_a_ridge_logit_of_scikit_learn_is_the_same_model_without_games() -> None:
    # Normal priors of scale 1 on the coefficients are an L2 penalty with C = 1.
    from sklearn.linear_model import LogisticRegression

    table = counted().sum(axis=0, keepdims=True)
    balls, strikes = (np.tile(x, 2) for x in np.divmod(np.arange(12), 3))
    design = np.column_stack([np.ones(CELLS), balls / 3, strikes / 2, np.repeat([0, 1], 12)])
    rows = np.nonzero(table[0])
    model = LogisticRegression(C=1.0, fit_intercept=False, tol=1e-9, max_iter=5000)
    model.fit(design[rows[0]], rows[1], sample_weight=table[0][rows])
    found = fitted(table, design @ design.T + 1e-6 * np.eye(CELLS), spread=1e-3)
    np.testing.assert_allclose(softmax(found.centre[0]), model.predict_proba(design), atol=0.002)


def test_the_mode_is_where_a_general_optimiser_finds_it() -> None:
    table, covariance = counted(), kernel(Scales())
    league = league_log_shares(["fastball", "slider", "change"])
    found = fitted(table, covariance, spread=0.4, league=league)
    inverse = linalg.inv(covariance)
    variance = (1 + AGEING * np.arange(4)[::-1])[:, None] * found.held[0] ** 2 * rarity(table)

    def cost(place: np.ndarray) -> tuple[float, np.ndarray]:
        centre, game = place[: CELLS * 3].reshape(CELLS, 3), place[CELLS * 3 :].reshape(4, 3)
        logs = league + centre + game[:, None, :]
        total = table.sum(axis=2, keepdims=True)
        fit = (table * (logs - special.logsumexp(logs, axis=2, keepdims=True))).sum()
        missed = table - total * special.softmax(logs, axis=2)
        value = -fit + 0.5 * np.sum(centre * (inverse @ centre)) + 0.5 * (game**2 / variance).sum()
        slope = np.concatenate(
            [(inverse @ centre - missed.sum(axis=0)).ravel(), (game / variance - missed.sum(axis=1)).ravel()]
        )
        return float(value), slope

    best = optimize.minimize(cost, np.zeros(CELLS * 3 + 12), jac=True, method="L-BFGS-B", options={"maxiter": 5000}).x
    ours = np.concatenate([(found.centre[0] - league).ravel(), found.game.ravel()])
    assert cost(ours)[0] == pytest.approx(cost(best)[0], abs=1e-3)
    np.testing.assert_allclose(
        softmax(found.centre[0]), softmax(league + best[: CELLS * 3].reshape(CELLS, 3)), atol=0.005
    )


def test_what_is_left_open_is_the_curvature_with_the_games_eliminated() -> None:
    table, covariance = counted(games=3), kernel(Scales())
    found = fitted(table, covariance, spread=0.4)
    variance = (1 + AGEING * np.arange(3)[::-1])[:, None] * found.held[0] ** 2 * rarity(table)
    shares = softmax(found.centre + found.game[:, None, :])
    size = CELLS * 3
    full = np.zeros((size + 9, size + 9))
    full[:size, :size] = np.kron(linalg.inv(covariance), np.eye(3))
    for game in range(3):
        at = slice(size + 3 * game, size + 3 * game + 3)
        full[at, at] += np.diag(1 / variance[game])
        for cell in range(CELLS):
            p = shares[game, cell]
            block = table[game, cell].sum() * (np.diag(p) - np.outer(p, p))
            own = slice(3 * cell, 3 * cell + 3)
            full[own, own] += block
            full[at, at] += block
            full[own, at] += block
            full[at, own] += block
    expected = linalg.inv(full)[:size, :size]
    got = linalg.cho_solve((found.factor[0], True), np.eye(size))
    # The factor belongs to the point before the last, small step.
    np.testing.assert_allclose(got, expected, atol=0.004)


def test_games_that_stray_are_found_to_stray() -> None:
    rng = np.random.default_rng(8)
    shares = softmax(rng.normal(0, 0.4, (CELLS, 3)))
    for truth, low, high in ((0.05, 0.0, 0.25), (1.0, 0.7, 1.4)):
        logs = np.log(shares) + truth * rng.normal(size=(40, 1, 3))
        table = np.array([[rng.multinomial(4, p) for p in game] for game in softmax(logs)], dtype=float)
        spread = fitted(table, kernel(Scales()), spread=0.45).spread[0]
        assert low <= spread.mean() <= high


def test_players_do_not_disturb_each_other() -> None:
    first, second = counted(1), counted(2, games=3)
    league = np.zeros((2, CELLS, 3))
    both = fit_mix(
        np.concatenate([first, second]),
        np.array([0, 0, 0, 0, 1, 1, 1]),
        np.array([3, 2, 1, 0, 2, 1, 0]),
        league,
        kernel(Scales()),
    )
    alone = fitted(second, kernel(Scales()), spread=USUAL_SPREAD)
    np.testing.assert_allclose(softmax(both.centre[1]), softmax(alone.centre[0]), atol=0.002)
    np.testing.assert_allclose(both.spread[1], alone.spread[0], rtol=0.01)


def test_softmax_is_scipys() -> None:
    values = np.random.default_rng(0).normal(0, 30, (7, 5))
    np.testing.assert_allclose(softmax(values), special.softmax(values, axis=1), atol=1e-14)


def test_a_rare_pitch_strays_as_the_logs_of_a_dirichlet_do() -> None:
    table = np.zeros((1, CELLS, 3))
    table[0, 0] = [70, 25, 5]
    variance = fitted(table, kernel(Scales()), spread=0.45).spread[0] ** 2
    np.testing.assert_allclose(variance / variance[1], rarity(table) / rarity(table)[1], rtol=1e-9)
    assert variance[2] > 2 * variance[0]
