"""What changes the second and third time through: only what the data can tell."""

from dataclasses import dataclass

from scoutgen.pages.rows import Rows

WHEN_WORDS = {"2nd": "Second time through", "3rd+": "Third time through"}


@dataclass(frozen=True)
class Change:
    """One change against the first time through.

    Attributes:
        when: which time, in words.
        pitch: what changes.
        k, n: how often that time; first_k, first_n: how often the first time.
        change, low, high: the change of the share with its 90 % interval, what the counts explain taken out.
    """

    when: str
    pitch: str
    k: int
    n: int
    first_k: int
    first_n: int
    change: float
    low: float
    high: float

    @property
    def up(self) -> bool:
        """More of it than before."""
        return self.change > 0


@dataclass(frozen=True)
class Changes:
    """What changes; `n` pitches of the second time through or later were charted."""

    n: int
    told: tuple[Change, ...]


def changes(rows: Rows) -> Changes:
    """One pitcher's changes.

    Args:
        rows: his rows of `times_through_changes`.
    """
    told = tuple(
        Change(
            when=WHEN_WORDS[row["times"]],
            pitch=row["pitch"],
            k=row["k"],
            n=row["n"],
            first_k=row["first_k"],
            first_n=row["first_n"],
            change=row["change"],
            low=row["low"],
            high=row["high"],
        )
        for row in rows
        if row["told"]
    )
    return Changes(n=sum({row["times"]: row["n"] for row in rows}.values()), told=told)
