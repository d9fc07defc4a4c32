"""The word for how sure an estimate is."""

from dataclasses import dataclass

import numpy as np

from scoutgen.measures.intervals import wilson
from scoutgen.measures.sureness import sureness


@dataclass(frozen=True)
class Limits:
    firm: float = 0.10
    usable: float = 0.15
    lean: float = 0.20


def test_the_half_width_decides() -> None:
    low = np.array([0.4, 0.4, 0.4, 0.4, 0.4, np.nan])
    high = low + 2 * np.array([0.05, 0.10, 0.101, 0.20, 0.21, 0.0])
    assert sureness(low, high, Limits()).tolist() == ["firm", "firm", "usable", "lean", "thin", "thin"]


def test_the_limits_are_the_callers() -> None:
    assert sureness([0.4], [0.7], Limits(lean=0.15, usable=0.01, firm=0.001)).tolist() == ["lean"]


def test_what_scouts_call_thin_is_thin() -> None:
    # Common practice: six of ten says little, thirty of fifty is usable, eighty of a hundred firm.
    assert sureness(*wilson([6, 30, 80], [10, 50, 100]), Limits()).tolist() == ["thin", "usable", "firm"]
