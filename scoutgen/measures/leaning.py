"""Counts that lean on what is expected of them, by an amount learned from how far such counts stray from it."""

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy import special

from scoutgen.measures.intervals import Floats
from scoutgen.measures.usual import AT_HAND, Usual

#: How many independent pitches a game can say about a departure from what is expected in it.
GAME_SAYS: Final = 40.0

#: Strengths of leaning that are weighed against each other, in pitches, and what is thought of them beforehand where
#: nothing else is said: half of the units lean by less than a hundred. That counts for as much as this many units.
STRENGTHS: Final[Floats] = np.array([6.0, 15.0, 40.0, 100.0, 250.0, 600.0, 1500.0, 4000.0])
_USUAL_STRENGTH: Final = 100.0
_PRIOR_UNITS: Final = 5.0

_LEARN_FROM: Final = 600
_ROUNDS: Final = 30


class Leaning(NamedTuple):
    """Estimates that lean on what was expected.

    Attributes:
        share: units x pitches; rows sum to 1.
        variance: what is left open about each share, were the expected one right.
        pull: how far the estimate still rests on the expected share, 0-1, one a unit.
    """

    share: Floats
    variance: Floats
    pull: Floats


def lean(
    k: Floats,
    expected: Floats,
    *,
    usual_strength: float = _USUAL_STRENGTH,
    prior_units: float = _PRIOR_UNITS,
    usual: Usual = AT_HAND,
) -> Leaning:
    """Which shares do the counts tell, where each unit may depart from what is expected of it?

    A unit's counts are Dirichlet-multinomial about its expected shares. How strongly units hold to them is learned
    from all: the weights of a handful of strengths. Each unit then has its own weights by how its counts fit, so that
    one man's real departure is not shrunk away because nobody else departs.

    Args:
        k: counts, or what they are worth, units x pitches.
        expected: shares expected, units x pitches; rows sum to 1. A pitch not expected at all keeps a share of 0.
        usual_strength: half of the units are thought beforehand to hold to what is expected by less than this.
        prior_units: how many units that thought counts for.
        usual: how strongly units hold to what is expected; learned from these where it is not known.

    Source:
        Minka, Estimating a Dirichlet distribution (2000); weights by EM, Laird, JASA 73 (1978) 805-811.
    """
    n = k.sum(axis=1)
    weights = _weights(_fit(k, expected, n), n, usual_strength, prior_units, usual)
    held = weights * (STRENGTHS / (STRENGTHS + n[:, None]))
    freed = weights / (STRENGTHS + n[:, None])
    share = held.sum(axis=1)[:, None] * expected + freed.sum(axis=1)[:, None] * k
    share /= share.sum(axis=1, keepdims=True)  # 1 but for rounding
    variance = np.zeros_like(share)
    for at, strength in enumerate(STRENGTHS):
        each = (strength * expected + k) / (strength + n)[:, None]
        inside = each * (1 - each) / (strength + n + 1)[:, None] + (each - share) ** 2
        variance += weights[:, at, None] * inside
    return Leaning(share, variance, held.sum(axis=1))


def _fit(k: Floats, expected: Floats, n: Floats) -> Floats:
    """Log-likelihood of each unit's counts under each strength: units x strengths."""
    logs = np.zeros((len(k), len(STRENGTHS)))
    # Only counts that are there have a term; most are not.
    unit, pitch = np.nonzero((k > 0) & (expected > 0))
    for at, strength in enumerate(STRENGTHS):
        alpha = strength * expected[unit, pitch]
        each = special.gammaln(alpha + k[unit, pitch]) - special.gammaln(alpha)
        logs[:, at] = np.bincount(unit, weights=each, minlength=len(k))
        logs[:, at] += special.gammaln(strength) - special.gammaln(strength + n)
    return logs


def _weights(logs: Floats, n: Floats, usual_strength: float, prior_units: float, usual: Usual) -> Floats:
    """Weight of each strength for each unit, by its own counts and by what all units say: units x strengths."""
    likelihood = np.exp(logs - logs.max(axis=1, keepdims=True, initial=-np.inf))
    prior = STRENGTHS * usual_strength / (STRENGTHS + usual_strength) ** 2
    prior /= prior.sum()

    def learned() -> Floats:
        # Thousands of units say no more about eight weights than a few hundred of the largest.
        most = likelihood[np.argsort(-n, kind="stable")[:_LEARN_FROM]]
        overall = prior
        for _ in range(_ROUNDS):
            each = most * overall
            each = each / each.sum(axis=1, keepdims=True)
            overall = (prior_units * prior + each.sum(axis=0)) / (prior_units + len(most))
        return overall

    common = usual.of("strengths", learned)
    own = likelihood * (prior if common is None else common)
    return np.asarray(own / own.sum(axis=1, keepdims=True), dtype=np.float64)


def worth(n_by_game: Floats, game_says: float = GAME_SAYS) -> Floats:
    """Independent pitches that the pitches of one game are worth, beyond what is expected of that game."""
    return np.asarray(n_by_game * (game_says + 1) / (n_by_game + game_says), dtype=np.float64)


def surprise(k: Floats, n: Floats, expected: Floats) -> Floats:
    """Two-sided chance of counts as far out as k of n, were the expected share right (binomial tails, doubled).

    k and n may be fractions of pitches. 1 where nothing was counted or nothing could differ.
    """
    usable = (n > 0) & (expected > 0) & (expected < 1)
    share = np.where(usable, expected, 0.5)
    at_least = np.where(k > 0, special.betainc(np.maximum(k, 1e-9), n - k + 1, share), 1.0)
    at_most = np.where(k < n, special.betaincc(k + 1, np.maximum(n - k, 1e-9), share), 1.0)
    return np.where(usable, np.minimum(1.0, 2 * np.minimum(at_least, at_most)), 1.0)


def can_tell(chances: Floats, family: NDArray[np.int64], *, among: float = 0.05) -> NDArray[np.bool_]:
    """Which of many comparisons stand out, so that of those named at most a share `among` is chance?

    Args:
        chances: a p-value each.
        family: comparisons made together (one pitcher's) have one code.
        among: expected share of false ones among those named.

    Source:
        Benjamini and Hochberg, Journal of the Royal Statistical Society B 57 (1995) 289-300.
    """
    if not len(chances):
        return np.zeros(0, dtype=bool)
    order = np.lexsort((chances, family))
    sizes = np.bincount(family)
    starts = np.concatenate([[0], np.cumsum(sizes)[:-1]])
    sorted_family = family[order]
    rank = np.arange(len(order)) - starts[sorted_family] + 1
    passes = chances[order] <= among * rank / sizes[sorted_family]
    # All up to the last that passes, not only those that pass.
    last = np.zeros(len(sizes), dtype=np.int64)
    np.maximum.at(last, sorted_family, np.where(passes, rank, 0))
    told = np.empty(len(order), dtype=bool)
    told[order] = rank <= last[sorted_family]
    return told
