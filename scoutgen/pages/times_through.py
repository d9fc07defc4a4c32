"""What changes the second and third time through, as far as the data can tell."""

from collections.abc import Mapping
from dataclasses import dataclass

from scoutgen.pages.rows import Row, Rows

WHEN_WORDS = {"2nd": "Second time through", "3rd+": "Third time through"}
WHOM_WORDS = {"all": "", "L": "to left-handed hitters", "R": "to right-handed hitters"}

# How much a verdict says; one that is open is not worth a line.
_WEIGHT = {"proven": 2, "likely": 1, "open": 0}


@dataclass(frozen=True)
class Change:
    """One change against the first time through.

    Attributes:
        when, whom: which time and against whom, in words; `whom` is empty where it goes for both sides.
        pitch: what changes.
        k, n: how often that time; first_k, first_n: how often the first time.
        change, low, high: the change of the share with its 90 % interval, what the counts explain taken out.
        proven: the interval lies to one side of none; otherwise the change is likely, no more.
    """

    when: str
    whom: str
    pitch: str
    k: int
    n: int
    first_k: int
    first_n: int
    change: float
    low: float
    high: float
    proven: bool

    @property
    def up(self) -> bool:
        """More of it than before."""
        return self.change > 0


@dataclass(frozen=True)
class Changes:
    """What changes; `n` pitches of the second time through or later were charted.

    Attributes:
        told: one a pitch, the surest and largest first.
        sides: all that is proven or likely against the hitters of each side.
    """

    n: int
    told: tuple[Change, ...]
    sides: Mapping[str, tuple[Change, ...]]


def changes(rows: Rows) -> Changes:
    """One pitcher's changes.

    Args:
        rows: his rows of `times_through_changes`.
    """
    seen = {row["times"]: row["n"] for row in rows if row["bats"] == "all"}
    worth = [row for row in rows if _WEIGHT[row["verdict"]]]
    surest: dict[str, Row] = {}
    for row in sorted(worth, key=_weight, reverse=True):
        surest.setdefault(row["pitch"], row)
    sides = {side: tuple(_change(row) for row in worth if row["bats"] == side) for side in "LR"}
    return Changes(n=sum(seen.values()), told=tuple(_change(row) for row in surest.values()), sides=sides)


def _weight(row: Row) -> tuple[int, bool, bool, float]:
    """The surest first; of those what goes for both sides, then what has come furthest, then the largest."""
    return _WEIGHT[row["verdict"]], row["bats"] == "all", row["times"] == "3rd+", abs(row["change"])


def _change(row: Row) -> Change:
    return Change(
        when=WHEN_WORDS[row["times"]],
        whom=WHOM_WORDS[row["bats"]],
        pitch=row["pitch"],
        k=row["k"],
        n=row["n"],
        first_k=row["first_k"],
        first_n=row["first_n"],
        change=row["change"],
        low=row["low"],
        high=row["high"],
        proven=row["verdict"] == "proven",
    )
