"""What a fitted mix leaves open: mean and covariance of the shares, in the long run and in the next game."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy import linalg, special

from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_centre import CELLS
from scoutgen.measures.mix_fit import Fit, softmax

_PRIMES_UP_TO: Final = 5000


@dataclass(frozen=True)
class Moments:
    """Of players who all throw the same number of pitches (K).

    Attributes:
        mean: expected share, players x cells x K.
        lasting: covariance between cells of what is not known about his usual share, players x K x cells x cells.
        tonight: the same with what the next game adds.
    """

    mean: Floats
    lasting: Floats
    tonight: Floats


def moments(fit: Fit) -> Moments:
    """Mean and covariance of the shares under the normal posterior of the log-shares.

    The shares are averaged over a fixed set of points that have exactly the mean and covariance of the normal
    distribution: plus and minus each row of a rotation, at the distance of a typical draw. Nothing is random, so
    the same data give the same digits.

    Source:
        Points of the third-degree spherical rule: Stroud, Approximate Calculation of Multiple Integrals (1971).
    """
    players, _, pitches = fit.centre.shape
    size = CELLS * pitches
    points = spherical_points(size + pitches)
    ours, games = points[:, :size], points[:, None, size:]
    mean = np.empty_like(fit.centre)
    lasting, tonight = (np.empty((players, pitches, CELLS, CELLS)) for _ in range(2))
    for at in range(players):
        strayed = linalg.solve_triangular(fit.factor[at], ours.T, lower=True, trans="T", check_finite=False).T.reshape(
            -1, CELLS, pitches
        )
        logs = fit.centre[at] + strayed
        lasting[at] = _covariance(softmax(logs))
        shares = softmax(logs + games * fit.spread[at])
        tonight[at] = _covariance(shares)
        mean[at] = shares.mean(axis=0)
    return Moments(mean, lasting, tonight)


def spherical_points(size: int) -> Floats:
    """2 * size points in `size` dimensions with mean 0 and covariance 1; rows are points."""
    # Normal deviates spread evenly (Weyl's sequence on the square roots of primes), made orthogonal. The signs of
    # the factorisation are fixed, since they are free otherwise and differ between machines.
    even = np.modf(np.outer(np.arange(1, size + 1), np.sqrt(_primes(size))))[0]
    rotation, upper = np.linalg.qr(special.ndtri(even))
    rotation = rotation * np.sign(np.diag(upper)) * np.sqrt(size)
    return np.concatenate([rotation, -rotation])


def _covariance(shares: Floats) -> Floats:
    """Covariance between cells for each pitch; shares are points x cells x pitches."""
    apart = (shares - shares.mean(axis=0)).transpose(2, 1, 0)
    return np.asarray(apart @ apart.transpose(0, 2, 1) / len(shares), dtype=np.float64)


def _primes(count: int) -> Floats:
    sieve = np.ones(_PRIMES_UP_TO, dtype=bool)
    sieve[:2] = False
    for number in range(2, int(_PRIMES_UP_TO**0.5) + 1):
        sieve[number * number :: number] = False
    return np.flatnonzero(sieve)[:count].astype(np.float64)
