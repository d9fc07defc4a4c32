"""What changes the second and third time through, as far as the data can tell."""

from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.words import CHANGE_WORDS, SHORT_SIDES

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
class Turn:
    """What changes one time through, against the same hitters: the surest and largest change first."""

    when: str
    whom: str
    changes: tuple[Change, ...]


@dataclass(frozen=True)
class Changes:
    """What changes; `n` pitches of the second time through or later were charted.

    Attributes:
        turns: each pitch once, where its change is surest.
    """

    n: int
    turns: tuple[Turn, ...]


def changes(rows: Rows) -> Changes:
    """One pitcher's changes.

    Args:
        rows: his rows of `times_through_changes`.
    """
    seen = {row["times"]: row["n"] for row in rows if row["bats"] == "all"}
    worth = [row for row in rows if _WEIGHT[row["verdict"]]]
    both = {(row["pitch"], row["times"]) for row in worth if row["bats"] == "L"} & {
        (row["pitch"], row["times"]) for row in worth if row["bats"] == "R"
    }
    surest: dict[str, Row] = {}
    for row in sorted(worth, key=lambda row: _weight(row, both), reverse=True):
        surest.setdefault(row["pitch"], row)
    turns: dict[tuple[str, str], list[Change]] = {}
    for change in map(_change, surest.values()):
        turns.setdefault((change.when, change.whom), []).append(change)
    return Changes(sum(seen.values()), tuple(Turn(*key, tuple(found)) for key, found in turns.items()))


def _weight(row: Row, both: AbstractSet[tuple[str, str]]) -> tuple[int, bool, bool, float]:
    """The surest first; of those what has come furthest, then whom it concerns, then the largest.

    It concerns all hitters only where the same can be told of each side by itself; else the side it comes from.
    """
    everybody = row["bats"] == "all"
    to_whom = everybody == ((row["pitch"], row["times"]) in both)
    return _WEIGHT[row["verdict"]], row["times"] == "3rd+", to_whom, abs(row["change"])


def _change(row: Row) -> Change:
    return Change(
        when=CHANGE_WORDS[row["times"]],
        whom="" if row["bats"] == "all" else f"to {SHORT_SIDES[row['bats']]}",
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
