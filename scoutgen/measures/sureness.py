"""How sure an estimate is, in the one word the pages go by."""

from typing import Final, Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray

SURENESS: Final[tuple[str, ...]] = ("firm", "usable", "lean", "thin")


class SurenessLimits(Protocol):
    """The widest half-width of the 90 % interval that still counts as firm, usable and a lean."""

    @property
    def firm(self) -> float:
        """Half-width, 0-1."""
        ...

    @property
    def usable(self) -> float:
        """Half-width, 0-1."""
        ...

    @property
    def lean(self) -> float:
        """Half-width, 0-1."""
        ...


def sureness(low: ArrayLike, high: ArrayLike, thresholds: SurenessLimits) -> NDArray[np.str_]:
    """Is the estimate between `low` and `high` firm, usable, a lean, or too thin to print as a percent?

    Args:
        low: lower ends of the 90 % intervals, 0-1.
        high: upper ends.
        thresholds: `firm`, `usable` and `lean`, half-widths in the same unit.

    Returns:
        "firm", "usable", "lean" or "thin", one for each interval; "thin" where an end is missing.
    """
    half = (np.asarray(high, dtype=np.float64) - np.asarray(low, dtype=np.float64)) / 2
    # An interval of exactly twice the threshold must not fall to the next word by a rounding in the last digit.
    limits = np.array([thresholds.firm, thresholds.usable, thresholds.lean]) + 1e-9
    # NaN sorts after every limit, so a missing interval is thin.
    return np.array(SURENESS)[np.searchsorted(limits, half, side="left")]
