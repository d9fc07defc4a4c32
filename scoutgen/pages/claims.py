"""A claim as a page states it: k of n, the estimate with its interval, how sure, and when last seen."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from scoutgen.measures.intervals import never_seen
from scoutgen.measures.sureness import sureness
from scoutgen.pages.rows import Row, Rows
from scoutgen.records.program import Thresholds

# "Mostly, 1 of 1" says more than was seen.
_FEWEST_FOR_A_WORD = 3


@dataclass(frozen=True)
class Claim:
    """One estimated share.

    Attributes:
        what: the thing that has the share: a pitch, a habit, a style.
        k, n: how often seen in how many looks.
        share, low, high: the estimate and its 90 % interval, 0-1; None where nothing is known.
        sure: firm, usable, lean or thin. A thin claim is never printed as a percent.
        tonight_low, tonight_high: where the share of the next game lies, 90 %; None where a measure does not say.
        games, last_seen: in how many games, and when last; None where no game has a date.
        bound: where it was never seen, the share it is probably under; None where the looks say too little.
    """

    what: str
    k: int
    n: int
    share: float | None
    low: float | None
    high: float | None
    sure: str
    games: int = 0
    last_seen: date | None = None
    tonight_low: float | None = None
    tonight_high: float | None = None
    bound: float | None = None

    @property
    def amount(self) -> str:
        """How often, as a word: by the tally it stands beside, so that the two never disagree; none for one or two."""
        if self.n < _FEWEST_FOR_A_WORD:
            return ""
        for least, word in ((0.6, "mostly"), (0.4, "often"), (0.2, "sometimes")):
            if self.k >= least * self.n:
                return word
        return "rarely"

    @property
    def worded(self) -> str:
        """The thing with how often in a word, for claims too thin for a number."""
        return f"{self.amount} {self.what}".lstrip()


def claims(rows: Rows, what: str, limits: Thresholds, words: Mapping[str, str] | None = None) -> list[Claim]:
    """Rows of a measure as claims, in their order.

    Args:
        rows: a measure's rows: the column `what`, k, n, share, low, high, and games, last_seen, tonight_low and
            tonight_high where it has them.
        what: the column that names what has the share.
        limits: how wide an interval may be, and how few looks never make a percent.
        words: how the column's values are said; as they are where left out.
    """
    sure = sureness([_end(row["low"]) for row in rows], [_end(row["high"]) for row in rows], limits)
    return [
        Claim(
            what=words[row[what]] if words else str(row[what]),
            k=row["k"],
            n=row["n"],
            share=row["share"],
            low=row["low"],
            high=row["high"],
            sure="thin" if row["n"] < limits.few_pitches else str(word),
            games=row.get("games", 0),
            last_seen=row.get("last_seen"),
            tonight_low=row.get("tonight_low"),
            tonight_high=row.get("tonight_high"),
            bound=_bound(row["k"], row["n"], limits),
        )
        for row, word in zip(rows, sure, strict=True)
    ]


def claim(row: Row, what: str, limits: Thresholds) -> Claim:
    """One row as a claim about `what`, said in words."""
    return claims([{**row, "what": what}], "what", limits)[0]


def _bound(k: int, n: int, limits: Thresholds) -> float | None:
    """A percent as any other: it takes as many looks, and a bound wider than a lean would say nothing."""
    if k or n < limits.few_pitches:
        return None
    bound = float(never_seen(n))
    return bound if bound <= limits.lean else None


def _end(value: float | None) -> float:
    return math.nan if value is None else value
