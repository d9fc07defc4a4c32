"""What is left for pitches not shown."""

import numpy as np
from scipy import integrate, stats

from scoutgen.measures.mix_unseen import unseen_shares, worth_of_games

VOCABULARY = ("fastball", "slider", "change")


def test_bayes_rule_by_numerical_integration() -> None:
    # Has it with chance .225, a share drawn from Beta(1, 3) if he has; not seen in 20 looks.
    thrown = np.array([[True, False, True]])
    share, _ = unseen_shares(np.array([20.0]), thrown, VOCABULARY)
    prior = stats.beta(1, 3)
    silent = integrate.quad(lambda p: prior.pdf(p) * (1 - p) ** 20, 0, 1)[0]
    shown = integrate.quad(lambda p: p * prior.pdf(p) * (1 - p) ** 20, 0, 1)[0]
    expected = 0.225 * shown / (0.225 * silent + 0.775)
    assert abs(share[0, 1] - expected) < 0.001
    assert share[0, 0] == 0
    assert share[0, 2] == 0


def test_the_more_is_seen_the_less_is_left_but_never_nothing() -> None:
    looks = np.array([1.0, 5.0, 20.0, 100.0, 1000.0])
    share, variance = unseen_shares(looks, np.zeros((5, 3), dtype=bool), VOCABULARY)
    assert (np.diff(share, axis=0) < 0).all()
    assert (share > 0).all()
    assert (variance >= 0).all()
    # "Never seen in n" bounds a rate near 3 / n: what is expected must lie far under it.
    assert (share < 3 / (looks + 3)[:, None]).all()


def test_one_long_game_says_less_than_two_short_ones() -> None:
    assert worth_of_games(np.array([100.0]))[0] < worth_of_games(np.array([50.0, 50.0])).sum()
