"""What follows what: only the departures from the count that the data can tell."""

from dataclasses import dataclass

from scoutgen.pages.rows import Rows
from scoutgen.pages.words import BEFORE_WORDS
from scoutgen.records.program import Thresholds


@dataclass(frozen=True)
class Follow:
    """One departure.

    Attributes:
        after: the pitch before and what came of it, in words.
        pitch: what follows more, or less, often.
        k, n: how often, of how many pitches that followed.
        share: the estimate; `expected`: what the counts alone would give there.
    """

    after: str
    pitch: str
    k: int
    n: int
    share: float
    expected: float

    @property
    def more(self) -> bool:
        """More often than the counts alone would give."""
        return self.share > self.expected


@dataclass(frozen=True)
class Sequence:
    """One pitcher's sequences.

    Attributes:
        n: pitches charted that followed another in the same plate appearance; `few`: too few to tell anything.
        follows: the departures the data can tell, the largest first.
    """

    n: int
    few: bool
    follows: tuple[Follow, ...]


def sequence(rows: Rows, limits: Thresholds) -> Sequence:
    """What follows what, as far as the data can tell.

    Args:
        rows: one pitcher's rows of `sequence`.
        limits: how few pitches are too few.
    """
    # Every pitch that followed another is once among "any": each next pitch of a pitch before has one row.
    followed = sum(row["k"] for row in rows if row["result"] == "any")
    found = [
        Follow(
            after=f"a {row['after']}{BEFORE_WORDS[row['result']]}",
            pitch=row["pitch"],
            k=row["k"],
            n=row["n"],
            share=row["share"],
            expected=row["expected"],
        )
        for row in rows
        if row["told"]
    ]
    return Sequence(
        n=followed,
        few=followed < limits.few_pitches,
        follows=tuple(sorted(found, key=lambda f: (-abs(f.share - f.expected), f.after, f.pitch))),
    )
