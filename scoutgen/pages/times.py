"""Clocks as rows a page can print, and the strip of every reading."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.book import Chart
from scoutgen.pages.charts import clock_strip
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.words import BASE_WORDS, MEASURE_WORDS, RUNNER_WORDS, STYLE_WORDS

# Words of comparison only: 1.3 s or less holds most runners, 1.5 s or more gives up many
# (Kansas City Star, 26 March 2014, on the stopwatch and the stolen base).
QUICK_S, SLOW_S = 1.30, 1.50
EXACT_BASES = ("empty", "1", "2", "3", "12", "13", "23", "123")
# Fewer readings than this are no picture of a spread.
ENOUGH_TO_DRAW = 3


@dataclass(frozen=True)
class Clock:
    """One row of readings by one method.

    Attributes:
        label: what was timed, in words.
        n, median, low, high, fastest, slowest: readings, and the 90 % interval of the next one (None with one reading).
        own_sd: his own spread, the watch's error taken out; None with one reading.
        mean_half: half-width of the 90 % interval of the mean; None with one reading.
        few: too few readings to lean on.
        warmup: between innings, never mixed with live ones.
    """

    label: str
    style: str
    bases: str
    method: str
    warmup: bool
    n: int
    median: float
    low: float | None
    high: float | None
    own_sd: float | None
    mean_half: float | None
    fastest: float
    slowest: float
    few: bool
    last_seen: date | None

    @property
    def words(self) -> str:
        """How it was done, in words."""
        return STYLE_WORDS[self.style]

    @property
    def pace(self) -> str:
        """Quick, average or slow to the plate, by common practice; nothing of a few readings."""
        if self.few:
            return ""
        return "quick" if self.median <= QUICK_S else "slow" if self.median >= SLOW_S else "average"


def clocks(rows: Rows, label: str) -> tuple[Clock, ...]:
    """Rows of a summary of readings as clocks, in their order.

    Args:
        rows: rows of `time_summary` or `throw_times`.
        label: what a row is called, over its words: {style}, {measure}, {bases}, {to}.
    """
    return tuple(_clock(row, label) for row in rows)


def _clock(row: Row, label: str) -> Clock:
    words = {
        "style": STYLE_WORDS.get(str(row.get("style")), ""),
        "measure": MEASURE_WORDS[str(row["measure"])],
        "bases": RUNNER_WORDS.get(str(row.get("bases")), ""),
        "to": BASE_WORDS.get(str(row.get("to")), ""),
    }
    return Clock(
        label=label.format(**words),
        style=str(row.get("style", "all")),
        bases=str(row.get("bases", "all")),
        method=str(row["method"]),
        warmup=row["warmup"],
        n=row["n"],
        median=row["median"],
        low=row["low"],
        high=row["high"],
        own_sd=row["own_sd"],
        mean_half=None if row["mean_low"] is None else (row["mean_high"] - row["mean_low"]) / 2,
        fastest=row["fastest"],
        slowest=row["slowest"],
        few=row["few"],
        last_seen=row["last_seen"],
    )


def to_go_by(rows: Sequence[Clock]) -> Clock | None:
    """Of one thing timed by different methods the row to go by.

    Not a few readings where there are more by the other; then the one whose mean is known best, by its interval.
    """
    return min(rows, key=lambda c: (c.few, math.inf if c.mean_half is None else c.mean_half, -c.n), default=None)


@dataclass(frozen=True)
class PitcherClocks:
    """How long he takes.

    Attributes:
        go_by: one row a style to the plate and a base thrown to, by the method to go by; see `to_go_by`.
        plate: to the plate by style, live.
        by_bases: the same by base state, where a style was timed with different runners on.
        pickoffs: pickoff throws by base, live.
        warmups: every warm-up row.
        stretch, slide_step: the live rows a runner asks for; None where never timed. See `to_go_by`.
        strip: a drawing of every live reading to the plate; None under three readings.
    """

    go_by: tuple[Clock, ...]
    plate: tuple[Clock, ...]
    by_bases: tuple[Clock, ...]
    pickoffs: tuple[Clock, ...]
    warmups: tuple[Clock, ...]
    stretch: Clock | None
    slide_step: Clock | None
    strip: Chart | None


def pitcher_clocks(summary: Rows, readings: Rows, name: str) -> PitcherClocks:
    """One pitcher's clocks.

    Args:
        summary: his rows of `time_summary`.
        readings: his rows of the season's `times`.
        name: his name, for the drawing's title.
    """
    live, warm = [r for r in summary if not r["warmup"]], [r for r in summary if r["warmup"]]
    plate = [r for r in live if r["measure"] == "plate"]
    by_style = clocks([r for r in plate if r["bases"] == "all" and r["style"] != "all"], "{style}")
    shown = by_style or clocks([r for r in plate if r["bases"] == "all"], "style not charted")
    by_bases = [r for r in plate if r["bases"] in EXACT_BASES and r["style"] != "all"]
    pickoffs = clocks([r for r in live if _pickoff(r) and r["bases"] == r["style"] == "all"], "{measure}")
    warmups = [r for r in warm if r["bases"] == "all" and (r["style"] != "all" or _pickoff(r))]
    return PitcherClocks(
        go_by=_each_best((*shown, *pickoffs)),
        plate=shown,
        by_bases=clocks(by_bases, "{style}, {bases}"),
        pickoffs=pickoffs,
        warmups=clocks(warmups, "{measure}, {style}"),
        stretch=_best(by_style, "stretch"),
        slide_step=_best(by_style, "slide_step"),
        strip=_strip(readings, name),
    )


def _best(rows: tuple[Clock, ...], style: str) -> Clock | None:
    return to_go_by([c for c in rows if c.style == style])


def _each_best(rows: Sequence[Clock]) -> tuple[Clock, ...]:
    """Of every thing timed the row to go by, in their order."""
    found: dict[str, list[Clock]] = {}
    for row in rows:
        found.setdefault(row.label, []).append(row)
    return tuple(best for same in found.values() if (best := to_go_by(same)))


def _pickoff(row: Row) -> bool:
    return str(row["measure"]).startswith("pickoff")


def _strip(readings: Rows, name: str) -> Chart | None:
    live = [r for r in readings if r["measure"] == "plate" and not r["warmup"] and r["style"]]
    if len(live) < ENOUGH_TO_DRAW:
        return None
    marks = sorted(
        (STYLE_WORDS[r["style"]] + ("" if r["method"] == "watch" else " (frames)"), r["seconds"], r["method"])
        for r in live
    )
    return clock_strip(
        marks,
        title=f"{name}: times to the plate",
        description="A mark for each time read, larger where it was read more often, a bar at the median of each line; "
        "circles are read by watch, triangles counted in frames. The table over it has the numbers.",
    )
