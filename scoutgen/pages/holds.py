"""How he holds runners, in rows a page can print."""

from dataclasses import dataclass
from datetime import date

from scoutgen.measures.holds import LOOKS
from scoutgen.pages.claims import Claim, claim, claims
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.words import MOVE_WORDS, RUNNER_ON_WORDS, RUNNER_WORDS
from scoutgen.records.program import Thresholds

# Runners there often enough to print; the others are among the facts.
_COMMON = ("all", "1", "2", "12", "13")
_BEAT_WORDS = {True: "on a beat", False: "varies", None: "few holds"}
_SPLIT_WORDS = {"bases": "{}", "count": "count: {}", "looks": "looks: {}"}


# The sets that a steal of second is made from.
_ALONE = "1"
_SETS = {_ALONE: "with a man on first alone"}


@dataclass(frozen=True)
class Looks:
    """Looks at the runner before he goes, with runners where `bases` says.

    `pattern`: the mode is one to go by; see `scoutgen.measures.holds.looks`.
    """

    bases: str
    n: int
    mode: int
    k_mode: int
    pattern: bool
    fewest: int
    most: int
    spread: tuple[tuple[int, int], ...]
    last_seen: date | None


@dataclass(frozen=True)
class HoldTime:
    """How long he holds the ball once set, in seconds; `beat` says whether it is regular."""

    bases: str
    n: int
    median: float
    p10: float
    p90: float
    sd: float | None
    beat: str


@dataclass(frozen=True)
class Hold:
    """What he does with runners on: looks, hold time and slide steps, each None where not charted.

    `state`: the base state or "all"; `bases`: the same in words.
    """

    state: str
    bases: str
    looks: Looks | None
    time: HoldTime | None
    slide: Claim | None


@dataclass(frozen=True)
class Move:
    """How often he throws over, steps off, balks or slide-steps in one situation; `label` says both in words."""

    move: str
    label: str
    claim: Claim


@dataclass(frozen=True)
class Holds:
    """All of it.

    Attributes:
        rows: looks, hold time and slide step side by side, by runners.
        second: the looks with a runner on second alone, else on first and second, which a steal of third asks for.
        over_to_first: throws over of his sets with a man on first alone, else with first occupied; `what` says which.
    """

    rows: tuple[Hold, ...]
    looks: tuple[Looks, ...]
    second: Looks | None
    times: tuple[HoldTime, ...]
    moves: tuple[Move, ...]
    splits: tuple[Move, ...]
    slide_steps: tuple[Move, ...]
    over_to_first: Claim | None

    @property
    def charted(self) -> bool:
        """Anything at all."""
        return bool(self.looks or self.times or self.moves or self.slide_steps)

    @property
    def once_set(self) -> tuple[Move, ...]:
        """The moves one by one: throws over to any base are their sum."""
        return tuple(m for m in self.moves if m.move != "pickoff")

    @property
    def slide_step(self) -> Claim | None:
        """Slide steps of his sets that ended in a pitch, with a man on first alone; `what` says which sets are counted.

        Of all sets with runners on where it was never seen in any of them, or first alone was never charted; None where
        nothing was.
        """
        anywhere = self.slide_steps[0].claim if self.slide_steps else None
        if anywhere is None or anywhere.k == 0:
            return anywhere
        return next((m.claim for m in self.slide_steps if m.move == _ALONE), anywhere)


def holds(limits: Thresholds, *, looks: Rows, times: Rows, moves: Rows, slides: Rows) -> Holds:
    """One pitcher's holds.

    Args:
        limits: how sure a percent must be.
        looks: his rows of `looks`.
        times: his rows of `hold_times`.
        moves: his rows of `hold_moves`.
        slides: his rows of `slide_steps`.
    """
    looked = {r["bases"]: _looks(r) for r in looks}
    # With a man on third too, or on third alone, it is another look.
    second = next((looked[b] for b in ("2", "12") if b in looked), None)
    timed = {r["bases"]: _hold_time(r) for r in times}
    slid = {r["bases"]: claim(r, "slide step", limits) for r in slides}
    return Holds(
        rows=tuple(
            Hold(b, words, looked.get(b), timed.get(b), slid.get(b))
            for b, words in RUNNER_ON_WORDS.items()
            if b in looked or b in timed or b in slid
        ),
        looks=tuple(looked[b] for b in ("1", "2", "12", "3", "13", "23", "123") if b in looked),
        second=second,
        times=tuple(_hold_time(r) for r in times if r["bases"] in _COMMON),
        moves=_moves([m for m in moves if m["split"] == "all"], limits),
        splits=_moves([m for m in moves if m["move"] == "pickoff_1" and m["split"] in ("count", "looks")], limits),
        slide_steps=tuple(
            Move(row["bases"], RUNNER_WORDS[row["bases"]], claim(row, _SETS.get(row["bases"], "sets"), limits))
            for row in slides
            if row["bases"] in _COMMON
        ),
        over_to_first=_over_to_first(moves, limits),
    )


def _over_to_first(moves: Rows, limits: Thresholds) -> Claim | None:
    first = [row for row in moves if row["move"] == "pickoff_1"]
    alone = [row for row in first if (row["split"], row["value"]) == ("bases", _ALONE)]
    whole = [row for row in first if row["split"] == "all"]
    asked = [*((_SETS[_ALONE], row) for row in alone), *(("with first occupied", row) for row in whole)]
    return next((claim(row, words, limits) for words, row in asked), None)


def _looks(row: Row) -> Looks:
    spread = tuple((i, row[column]) for i, column in enumerate(LOOKS) if row[column])
    return Looks(
        bases=RUNNER_WORDS[row["bases"]],
        n=row["n"],
        mode=row["mode"],
        k_mode=row["k_mode"],
        pattern=row["pattern"],
        fewest=row["minimum"],
        most=row["maximum"],
        spread=spread,
        last_seen=row["last_seen"],
    )


def _hold_time(row: Row) -> HoldTime:
    return HoldTime(
        bases=RUNNER_WORDS[row["bases"]],
        n=row["n"],
        median=row["median"],
        p10=row["p10"],
        p90=row["p90"],
        sd=row["sd"],
        beat=_BEAT_WORDS[row["regular"]],
    )


def _moves(rows: Rows, limits: Thresholds) -> tuple[Move, ...]:
    return tuple(
        Move(
            move=row["move"],
            label=found.what if row["split"] == "all" else _SPLIT_WORDS[row["split"]].format(row["value"]),
            claim=found,
        )
        for row, found in zip(rows, claims(rows, "move", limits, MOVE_WORDS), strict=True)
    )
