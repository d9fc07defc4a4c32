"""What a rate seen k of n times is worth when others like it were seen too: units lean on their group's mean."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import pandas as pd
from numpy.typing import ArrayLike, NDArray
from scipy import special

from scoutgen.measures.intervals import LEVEL, Floats, beta_of_moments, weighted

#: Where the prior for the strength has its middle, in looks. The strengths seen for steals in 2019 lie about it
#: (pitchers 20, runners 35, catchers 47); the prior's middle half runs from a third of it to three times it.
USUAL_STRENGTH: Final = 30.0

_STRENGTHS: Final[Floats] = np.exp(np.linspace(np.log(1.0), np.log(3000.0), 41))
_MIDDLES: Final[Floats] = (np.arange(40) + 0.5) / 40
#: Up to how many factors a logarithm of their product stays far from overflow and cheaper than a gamma function.
_SHORT: Final = 16
#: Units worked out at once, so that thousands stay in the processor's cache.
_AT_ONCE: Final = 64


@dataclass(frozen=True)
class Pool:
    """What a group of units says about one more like them.

    Attributes:
        mean: the rate units lean on, 0-1.
        strength: how many looks that leaning is worth, as the median of its posterior.
    """

    mean: float
    strength: float


def pooled_rates(
    frame: pd.DataFrame,
    *,
    within: Sequence[str] = (),
    level: float = LEVEL,
    usual_strength: float = USUAL_STRENGTH,
) -> pd.DataFrame:
    """What is each unit's rate, when units of one group may lean on each other?

    A beta-binomial model: each unit's rate is drawn about the group's mean with a strength (in looks), both
    unknown. The strength has the proper prior that makes shrinkage uniform for a unit of `usual_strength` looks,
    p(M) = s / (M + s)^2, so that a few units that happen to agree cannot send it to infinity; mean and strength are
    then averaged over, not maximised.

    Args:
        frame: one row a unit: `k` times seen of `n` looks; other columns are kept.
        within: columns that say which units lean on each other; none: all of them.
        level: coverage of the interval, 0-1.
        usual_strength: middle of the prior for the strength, in looks.

    Returns:
        The frame with `share`, `low`, `high` (0-1), `pool_share` (what a unit never seen would be given) and
        `pool_strength` (looks), in the order and with the index it came with. A unit of no looks has its group's.

    Source:
        Efron and Morris, JASA 70 (1975) 311-319; the prior is Christiansen and Morris, JASA 92 (1997) 618-632.
    """
    out = frame.copy()
    columns = ["share", "low", "high", "pool_share", "pool_strength"]
    values = np.full((len(frame), len(columns)), np.nan)
    if within:
        codes = frame.groupby(list(within), observed=True, sort=False, dropna=False).ngroup().to_numpy()
    else:
        codes = np.zeros(len(frame), dtype=np.int64)
    k, n = frame["k"].to_numpy(dtype=np.float64), frame["n"].to_numpy(dtype=np.float64)
    if bool(np.any((k < 0) | (k > n))):
        raise ValueError("k must lie between 0 and n")
    order = np.argsort(codes, kind="stable")
    for rows in np.split(order, np.flatnonzero(np.diff(codes[order])) + 1):
        if len(rows):
            values[rows] = lean(k[rows], n[rows], level=level, usual_strength=usual_strength)
    out[columns] = values
    return out


def pool(k: ArrayLike, n: ArrayLike, *, usual_strength: float = USUAL_STRENGTH) -> Pool:
    """About which rate, and how tightly, do these units lie?"""
    seen, looked = np.asarray(k, dtype=np.float64), np.asarray(n, dtype=np.float64)
    return _pool(_posterior(seen, looked, usual_strength))


def _pool(posterior: tuple[Floats, Floats]) -> Pool:
    means, weight = posterior
    strength = float(np.exp(np.interp(0.5, weight.sum(axis=1).cumsum(), np.log(_STRENGTHS))))
    return Pool(mean=float(weight.sum(axis=0) @ means), strength=strength)


def _posterior(seen: Floats, looked: Floats, usual_strength: float) -> tuple[Floats, Floats]:
    """The means on the grid, and the weight of each strength and mean (sums to 1; strengths x means)."""
    # The means are spread as if every unit were one look: wide enough for any strength, and never so coarse that
    # the peak falls between two points. Dividing by that spread's density leaves the prior for the mean flat.
    units = np.count_nonzero(looked)
    rate = (seen.sum() + 1) / (looked.sum() + 2)
    a, b = rate * (units + 2), (1 - rate) * (units + 2)
    means = np.clip(special.betaincinv(a, b, _MIDDLES), 1e-9, 1 - 1e-9)
    hits, misses = _STRENGTHS[:, None] * means, _STRENGTHS[:, None] * (1 - means)
    # On the log scale of the grid the prior for the strength is M s / (M + s)^2.
    log_weight = (np.log(_STRENGTHS) - 2 * np.log(_STRENGTHS + usual_strength))[:, None] - (
        (a - 1) * np.log(means) + (b - 1) * np.log1p(-means)
    )
    log_weight += _rising(hits, seen) + _rising(misses, looked - seen) - _rising(_STRENGTHS[:, None], looked)
    weight = np.exp(log_weight - log_weight.max())
    return means, np.asarray(weight / weight.sum(), dtype=np.float64)


def _rising(start: Floats, steps: Floats) -> Floats:
    """The sum over `steps` of log(start (start + 1) ... (start + step - 1)), for every start.

    The beta-binomial chance of k of n is three such products (Johnson, Kemp and Kotz, Univariate Discrete
    Distributions, 3rd ed. 2005, 6.2.2), and units share them: each step that differs is worked out once, from the one
    before it, and a short way costs one logarithm in place of three gamma functions a unit.
    """
    different, times = np.unique(steps, return_counts=True)
    total, sofar, at = np.zeros_like(start), np.zeros_like(start), 0.0
    for step, count in zip(different.tolist(), times.tolist(), strict=True):
        gap = step - at
        if gap <= _SHORT and gap == int(gap):
            product = np.ones_like(start)
            for further in range(int(gap)):
                product *= start + (at + further)
            sofar = sofar + np.log(product)
        else:
            sofar = special.gammaln(start + step) - special.gammaln(start)
        total += count * sofar
        at = step
    return total


def lean(
    seen: Floats,
    looked: Floats,
    *,
    among: tuple[Floats, Floats] | None = None,
    level: float = LEVEL,
    usual_strength: float = USUAL_STRENGTH,
) -> NDArray[np.float64]:
    """As `pooled_rates` for the units of one group: columns share, low, high, pool_share, pool_strength.

    `among`: seen and looked of those who say what the units have in common; the units themselves where not given.
    """
    means, grid = _posterior(*((seen, looked) if among is None else among), usual_strength)
    weight = grid.ravel()
    hits, misses = ((_STRENGTHS[:, None] * part).ravel() for part in (means, 1 - means))
    # What carries next to no weight is left out, so that thousands of units stay cheap.
    kept = weight > weight.max() * 1e-6
    weight, hits, misses = weight[kept] / weight[kept].sum(), hits[kept], misses[kept]
    pairs, place = np.unique(np.column_stack([seen, looked]), axis=0, return_inverse=True)
    mean, variance = np.empty(len(pairs)), np.empty(len(pairs))
    for some in range(0, len(pairs), _AT_ONCE):
        rows = slice(some, some + _AT_ONCE)
        k, n = pairs[rows, :1], pairs[rows, 1:]
        total = hits + misses + n
        each = (hits + k) / total
        mean[rows] = weighted(each, weight)
        variance[rows] = weighted(each * (1 - each) / (total + 1) + (each - mean[rows, None]) ** 2, weight)
    low, high = beta_of_moments(mean, variance, level=level)
    found = _pool((means, grid))
    units = np.column_stack([mean, low, high])[place.ravel()]
    return np.column_stack([units, np.tile([found.mean, found.strength], (len(units), 1))])
