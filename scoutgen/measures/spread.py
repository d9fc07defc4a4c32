"""How far a man's readings scatter, when only a few were taken.

Three readings say little about their own spread. The spreads of everybody's readings of the same kind say what is
usual; a man's own spread is averaged with the usual one, each with the weight the data give it.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt
from scipy import special

Floats = npt.NDArray[np.float64]

# A reading is written to the hundredth of a second: two equal readings do not mean no spread at all.
ROUNDING_S: Final = 0.005
# The usual spread is held to within a factor of about 1.6 of what is stated by hand until the data say otherwise,
# its weight to a handful of readings.
SCALE_TOLERANCE: Final = 0.5
WEIGHT_CENTRE: Final = 4.0
WEIGHT_TOLERANCE: Final = 1.0
_SCALES: Final = np.exp(np.linspace(-1.5, 1.5, 31))
_WEIGHTS: Final = np.exp2(np.linspace(0.0, 6.0, 13))


@dataclass(frozen=True)
class UsualSpread:
    """What readings of one kind scatter by.

    Attributes:
        scale_s: the usual standard deviation of readings of one man, seconds.
        weight: how many degrees of freedom it is worth beside a man's own readings.
    """

    scale_s: float
    weight: float


def learn_usual_spread(sd_s: Floats, n: npt.NDArray[np.int64], *, stated_s: float) -> UsualSpread:
    """How much do readings of this kind usually scatter, and how alike are the men in it?

    Args:
        sd_s: a man's standard deviation of readings, seconds; NaN where he has fewer than two.
        n: his number of readings.
        stated_s: the spread expected before any reading; what comes back when nobody has two.

    Returns:
        The most probable scale and weight.
    Source:
        Variances of samples around a scaled inverse chi-square: s2 / scale2 follows F(n - 1, weight). Smyth,
        Statistical Applications in Genetics and Molecular Biology 3(1) (2004), article 3; here by posterior mode on a
        grid with a log-normal prior on both, so that a handful of men gives a usable answer.
    """
    known = (n >= 2) & np.isfinite(sd_s)
    freedom = (n[known] - 1).astype(float)[:, None, None]
    variance = np.maximum(sd_s[known], ROUNDING_S)[:, None, None] ** 2
    scale = (_SCALES * stated_s)[None, :, None]
    weight = _WEIGHTS[None, None, :]
    ratio = variance / scale**2
    likelihood = (
        freedom / 2 * np.log(freedom)
        + weight / 2 * np.log(weight)
        + (freedom / 2 - 1) * np.log(ratio)
        - (freedom + weight) / 2 * np.log(weight + freedom * ratio)
        - special.betaln(freedom / 2, weight / 2)
        - 2 * np.log(scale)
    ).sum(axis=0)
    prior = (
        -0.5 * (np.log(_SCALES)[:, None] / SCALE_TOLERANCE) ** 2
        - 0.5 * (np.log(_WEIGHTS / WEIGHT_CENTRE)[None, :] / WEIGHT_TOLERANCE) ** 2
    )
    best = np.unravel_index(int(np.argmax(likelihood + prior)), prior.shape)
    return UsualSpread(float(_SCALES[best[0]] * stated_s), float(_WEIGHTS[best[1]]))


def moderated_variance(sd_s: Floats, n: npt.NDArray[np.int64], usual: UsualSpread) -> tuple[Floats, Floats]:
    """A man's variance averaged with the usual one, and the degrees of freedom the two have together."""
    own = np.where(n >= 2, n - 1, 0).astype(float)
    freedom = own + usual.weight
    return (own * np.nan_to_num(sd_s) ** 2 + usual.weight * usual.scale_s**2) / freedom, freedom


def next_one(
    mean_s: Floats, variance: Floats, freedom: Floats, n: npt.NDArray[np.int64], *, level: float = 0.90
) -> tuple[Floats, Floats]:
    """Between which times the next reading of the same kind falls, at `level`; unknown under two readings.

    Source: Student's t predictive, mean ± t sd sqrt(1 + 1/n); Gelman et al., Bayesian Data Analysis, 3rd ed. (2013),
    3.2-3.3.
    """
    half = _half_width(variance * (1 + 1 / n), freedom, n, level)
    return mean_s - half, mean_s + half


def mean_between(
    mean_s: Floats, variance: Floats, freedom: Floats, n: npt.NDArray[np.int64], *, level: float = 0.90
) -> tuple[Floats, Floats]:
    """Between which times his long-run mean lies, at `level`; unknown under two readings. Source: as `next_one`."""
    half = _half_width(variance / n, freedom, n, level)
    return mean_s - half, mean_s + half


def _half_width(variance: Floats, freedom: Floats, n: npt.NDArray[np.int64], level: float) -> Floats:
    t = np.asarray(special.stdtrit(freedom, (1 + level) / 2), dtype=np.float64)
    return np.where(n >= 2, t * np.sqrt(variance), np.nan)
