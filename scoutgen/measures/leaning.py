"""Counts that lean on what is expected of them, by an amount learned from how far such counts stray from it."""

from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy import special

from scoutgen.measures.intervals import LEVEL, Floats, Interval, beta_of_moments

#: Middle of the prior for the strength of leaning, in pitches.
USUAL_LEANING: Final = 100.0

#: How many independent pitches a game can say about a departure from what is expected in it.
GAME_SAYS: Final = 40.0

_STRENGTHS: Final[Floats] = np.exp(np.linspace(np.log(5.0), np.log(5000.0), 36))
_LEARN_FROM: Final = 600


def leaning_strength(k: Floats, expected: Floats, *, usual: float = USUAL_LEANING) -> float:
    """How many pitches is the expected share worth beside those counted?

    Each row of counts is Dirichlet-multinomial about its expected shares with one strength for all, which has the
    proper prior s / (M + s)^2; its posterior median is given.

    Args:
        k: counts, units x pitches.
        expected: shares expected, units x pitches; rows sum to 1. Columns where it is 0 are left out.
        usual: middle of the prior, in pitches.

    Source:
        Minka, Estimating a Dirichlet distribution (2000); prior of Christiansen and Morris, JASA 92 (1997) 618-632.
    """
    n = k.sum(axis=1)
    # Thousands of units say no more about one number than a few hundred of the largest.
    most = np.argsort(-n, kind="stable")[:_LEARN_FROM]
    counted, mean, looked = k[most], expected[most], n[most]
    possible = mean > 0
    prior = np.log(_STRENGTHS) - 2 * np.log(_STRENGTHS + usual)
    evidence = np.empty(len(_STRENGTHS))
    for at, strength in enumerate(_STRENGTHS):
        alpha = np.where(possible, mean, 1.0) * strength
        each = np.where(possible, special.gammaln(alpha + counted) - special.gammaln(alpha), 0.0)
        evidence[at] = each.sum() + (special.gammaln(strength) - special.gammaln(strength + looked)).sum()
    weight = np.exp(evidence + prior - (evidence + prior).max())
    return float(np.exp(np.interp(0.5, (weight / weight.sum()).cumsum(), np.log(_STRENGTHS))))


def worth(n_by_game: Floats) -> Floats:
    """Independent pitches that the pitches of one game are worth, beyond what is expected of that game."""
    return np.asarray(n_by_game * (GAME_SAYS + 1) / (n_by_game + GAME_SAYS), dtype=np.float64)


def leaning_interval(
    share: Floats, looked: Floats, strength: float, expected_variance: Floats, *, level: float = LEVEL
) -> Interval:
    """Between which shares does the truth lie, where what is expected is itself open?

    Args:
        share: estimate that leans on the expected share with `strength` pitches.
        looked: pitches counted (or what they are worth).
        strength: what the leaning is worth, in pitches.
        expected_variance: variance of the expected share.
        level: coverage of the interval, 0-1.
    """
    own = share * (1 - share) / (strength + looked + 1)
    return beta_of_moments(share, own + (strength / (strength + looked)) ** 2 * expected_variance, level=level)


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
