"""How far a share seen k times in n may be from the truth: intervals for one proportion."""

from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import special

Floats: TypeAlias = NDArray[np.float64]

LEVEL = 0.90


class Interval(NamedTuple):
    """Lower and upper ends, one of each for every k and n given; NaN where n is 0."""

    low: Floats
    high: Floats


def wilson(k: ArrayLike, n: ArrayLike, *, level: float = LEVEL) -> Interval:
    """Between which shares does the truth lie, when k of n were seen? The score interval, best for small n.

    Args:
        k: times seen.
        n: times looked; 0 gives NaN.
        level: coverage, 0-1.

    Source:
        Wilson (1927); recommended by Brown, Cai and DasGupta, Statistical Science 16 (2001) 101-133.
    """
    seen, looked = _checked(k, n)
    z = float(special.ndtri(0.5 + level / 2))
    share = seen / looked
    middle = (share + z**2 / (2 * looked)) / (1 + z**2 / looked)
    half = z / (1 + z**2 / looked) * np.sqrt(share * (1 - share) / looked + z**2 / (4 * looked**2))
    # Rounding may leave 1e-18 where the ends are exactly 0 and 1.
    low = np.where(seen == 0, 0.0, middle - half)
    high = np.where(seen == looked, 1.0, middle + half)
    return Interval(_blank_where_nothing(low, looked), _blank_where_nothing(high, looked))


def beta(a: ArrayLike, b: ArrayLike, *, level: float = LEVEL) -> Interval:
    """The middle `level` of a beta distribution: what a posterior with a hits and b misses leaves open."""
    tail = (1 - level) / 2
    hits, misses = np.asarray(a, dtype=np.float64), np.asarray(b, dtype=np.float64)
    return Interval(
        np.asarray(special.betaincinv(hits, misses, tail), dtype=np.float64),
        np.asarray(special.betaincinv(hits, misses, 1 - tail), dtype=np.float64),
    )


def beta_of_moments(
    mean: ArrayLike,
    variance: ArrayLike,
    *,
    level: float = LEVEL,
    tails: tuple[ArrayLike, ArrayLike] | None = None,
) -> Interval:
    """The middle `level` of the beta distribution that has this mean and variance, and always the mean.

    `tails` says how much to leave out below and above instead of half of the rest each.

    A mean of exactly 0 or 1, or a variance of 0, leaves nothing open: both ends are the mean.
    A variance that no beta distribution of that mean can have is cut to just under the largest.
    """
    centre, spread = np.broadcast_arrays(np.asarray(mean, dtype=np.float64), np.asarray(variance, dtype=np.float64))
    most = centre * (1 - centre)
    sure = (most <= 0) | (spread <= 0)
    bounded = np.where(sure, 0.5, np.clip(spread / np.where(most > 0, most, 1.0), 1e-9, 0.999))
    strength = 1 / bounded - 1
    inside = np.where(sure, 0.5, centre)
    below, above = ((1 - level) / 2,) * 2 if tails is None else map(np.asarray, tails)
    hits, misses = inside * strength, (1 - inside) * strength
    low = np.minimum(special.betaincinv(hits, misses, below), centre)
    # Taken from the other end: 1 - above would lose the digits of a small tail.
    high = np.maximum(1 - special.betaincinv(misses, hits, above), centre)
    return Interval(np.where(sure, centre, low), np.where(sure, centre, high))


def weighted(values: Floats, weights: Floats) -> Floats:
    """Weighted sums of rows, each worked out by itself.

    A library's product of matrices adds up in an order that hangs on how many rows there are, and a man's last digit
    would hang on who is asked about beside him.

    Args:
        values: rows x whatever is added up.
        weights: one for each of these, or several columns of them.
    """
    return np.asarray(np.einsum("ij,j...->i...", values, weights), dtype=np.float64)


def never_seen(n: ArrayLike) -> Floats:
    """How often may it still happen, when it was not seen in n looks? An upper bound at 95 %, 0-1.

    The rule of three rather than the exact 1 - .05 ** (1 / n), which is a little lower: a reader checks 3 in n in his
    head.

    Args:
        n: times looked; 0 gives NaN, fewer than three leave everything open.

    Source:
        Hanley and Lippman-Hand, JAMA 249 (1983) 1743-1745.
    """
    _, looked = _checked(0, n)
    return np.minimum(3 / looked, 1.0)


def _checked(k: ArrayLike, n: ArrayLike) -> tuple[Floats, Floats]:
    """K and n as floats of one shape, n of 0 as NaN."""
    seen, looked = np.broadcast_arrays(np.asarray(k, dtype=np.float64), np.asarray(n, dtype=np.float64))
    if bool(np.any((seen < 0) | (seen > looked))):
        raise ValueError("k must lie between 0 and n")
    # NaN carries through all arithmetic without a warning, unlike a division by 0.
    return seen, np.where(looked == 0, np.nan, looked)


def _blank_where_nothing(ends: Floats, looked: Floats) -> Floats:
    return np.where(np.isnan(looked), np.nan, ends)
