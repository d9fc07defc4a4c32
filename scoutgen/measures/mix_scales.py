"""How much pitchers differ from the league and their games from each other, learned over the pitchers charted."""

from collections.abc import Callable
from dataclasses import astuple, dataclass, fields, replace
from typing import Final

import numpy as np
from scipy import linalg

from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_centre import CELLS, Scales, directions, kernel
from scoutgen.measures.mix_fit import Fit

#: The usual scales count for as much as this many well-determined differences; what is learned adds to them.
_WEIGHT: Final = 12.0
_SPREAD_WEIGHT: Final = 4.0
_ROUNDS: Final = 4

#: What is learned comes from the pitchers charted most, at most this many: more would hardly move it.
LEARN_FROM: Final = 32


@dataclass(frozen=True)
class Habits:
    """Scales between pitchers, and the usual spread of log-shares between games of one."""

    scales: Scales
    spread: float

    def numbers(self) -> Floats:
        """All of them in one row, as `of_numbers` takes it."""
        return np.array([*astuple(self.scales), self.spread])

    @classmethod
    def of_numbers(cls, numbers: Floats) -> "Habits":
        """The other way round."""
        *scales, spread = numbers.tolist()
        return cls(Scales(*scales), spread)


def learn_scales(start: Habits, fitted: Callable[[Habits], list[tuple[Fit, Floats]]]) -> Habits:
    """Make the evidence for the pitchers at hand as likely as the usual scales let it be.

    Each scale moves to the size of the differences found over the number of them the data determine, both with what
    the usual scale brings; a few rounds are enough. Few pitchers leave the usual scales as they are.

    Args:
        start: the usual scales.
        fitted: fits all pitchers to learn from under given scales: groups of players with one number of pitches,
            each with the log-shares of the league they lean on.

    Source:
        MacKay, Neural Computation 4 (1992) 415-447 (evidence); the prior is scaled inverse chi-square, Gelman and
        others, Bayesian Data Analysis (3rd ed. 2013), section 2.6.
    """
    now = start
    for _ in range(_ROUNDS):
        fits = fitted(now)
        inverse = linalg.inv(kernel(now.scales))
        seen, left_open, size = np.zeros((CELLS, CELLS)), np.zeros((CELLS, CELLS)), 0
        strayed, determined = 0.0, 0.0
        for fit, league in fits:
            away = (fit.centre - league).transpose(1, 0, 2).reshape(CELLS, -1)
            seen += away @ away.T
            for factor in fit.factor:
                left_open += _between_cells(factor)
            size += away.shape[1]
            strayed += float(fit.strayed.sum())
            determined += float(fit.determined.sum())
        spread = np.sqrt((_SPREAD_WEIGHT * start.spread**2 + strayed) / (_SPREAD_WEIGHT + determined))
        now = Habits(_moved(start.scales, now.scales, (inverse, seen, left_open), size), float(spread))
    return now


def _moved(usual: Scales, now: Scales, tables: tuple[Floats, Floats, Floats], size: int) -> Scales:
    """Scales after one round; `tables`: the kernel's inverse, squares found, posterior covariance (cells x cells)."""
    inverse, seen, left_open = tables
    across = directions()
    found = {}
    for name in (field.name for field in fields(Scales) if field.name != "level"):
        columns, variance = across[name], getattr(now, name) ** 2
        through = inverse @ columns
        differences = variance**2 * float(np.einsum("ij,ik,kj->", through, seen, through))
        # Of each direction's variance, the part that data have taken away.
        told = size * variance * float(np.einsum("ij,ij->", columns, through))
        told -= variance * float(np.einsum("ij,ik,kj->", through, left_open, through))
        start = getattr(usual, name) ** 2
        found[name] = float(np.sqrt((_WEIGHT * start + differences) / (_WEIGHT + max(told, 0.0))))
    return replace(now, **found)


def _between_cells(factor: Floats) -> Floats:
    """Posterior covariance between cells, summed over pitches, from the Cholesky factor of the precision."""
    covariance = linalg.cho_solve((factor, True), np.eye(len(factor)), check_finite=False)
    pitches = len(factor) // CELLS
    return np.asarray(np.einsum("ikjk->ij", covariance.reshape(CELLS, pitches, CELLS, pitches)), dtype=np.float64)
