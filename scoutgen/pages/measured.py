"""What was measured of a man, by the tool that it speaks of: the clock and the count beside a grade."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from scoutgen.measures import hitting, results, speeds, throws, times
from scoutgen.pages.findings import Findings
from scoutgen.pages.hitter_tables import with_hands
from scoutgen.pages.rows import Row, Table
from scoutgen.pages.times import clocks, to_go_by
from scoutgen.pages.words import BASE_WORDS
from scoutgen.records.season import Season

# A reading of a watch: measure, style, the tool it speaks of, and how it is called.
_CLOCKED: Final = (
    ("plate", "stretch", "delivery", "To the plate, stretch"),
    ("plate", "slide_step", "delivery", "To the plate, slide step"),
    ("pickoff_1", "all", "pickoff", "Pickoff to first"),
    ("home_first", "full", "run", "Home to first"),
    ("home_first", "bunt", "run", "Home to first, bunt"),
    ("first_second", "all", "run", "First to second"),
    ("second_third", "all", "run", "Second to third"),
)
_THROWN: Final = (("pop", "2"), ("pop", "3"), ("exchange", "2"))


@dataclass(frozen=True)
class Measured:
    """One thing measured; the sample always travels with it.

    Attributes:
        tool: the tool it speaks of, as grades name it.
        key: what it is called in facts, e.g. `home_first full`, `speed fastball`, `whiff slider`.
        what: the same in words; `beside` in fewer, beside the tool's own name.
        unit: s and mph carry a median and, from two readings on, the spread from `low` to `high` (of times the 90 %
            interval of the next reading, of speeds the middle 80 % of the pitches); "of" carries `k` of `n`.
        n: readings, pitches, or what k is counted among.
        among: what n counts, in words.
        few: too few readings to lean on.
    """

    tool: str
    key: str
    what: str
    unit: Literal["s", "mph", "of"]
    n: int
    among: str
    last_seen: date | None
    median: float | None = None
    low: float | None = None
    high: float | None = None
    k: int | None = None
    few: bool = False
    short: str = ""

    @property
    def beside(self) -> str:
        """What was measured, where the tool is named already."""
        return self.short or self.what


def find_measured(season: Season) -> Findings:
    """The measures that an evaluation shows, and no others.

    Args:
        season: as the edition may know it (`records.editions.for_edition`).
    """
    error, few = season.program.watch_error_s, season.program.thresholds.few_readings
    tables = {
        "times": times.time_summary(season.times, watch_error_s=error, few_readings=few),
        "throw_times": throws.throw_times(season.throws, watch_error_s=error, few_readings=few),
        "bands": speeds.speed_bands(season.pitches),
        "results": results.results(season.pitches),
        "hitting": hitting.hitting(with_hands(season)),
    }
    return Findings({name: Table(table) for name, table in tables.items()})


def measured(findings: Findings, team: str, player: str, *, few_readings: int) -> tuple[Measured, ...]:
    """Everything measured of one man, pitches first, then arm and legs, then the bat.

    Args:
        findings: what `find_measured` found, or all that `findings.find` did.
        team: his team's key.
        player: his key.
        few_readings: fewer speeds than this are few; of times the measure says it.
    """
    who = (team, player)
    found = [*_speeds(findings.of("bands", *who), few_readings), *_pitches(findings.of("results", *who))]
    times_of = [r for r in findings.of("times", *who) if not r["warmup"] and r["bases"] == "all"]
    for measure, style, tool, what in _CLOCKED:
        rows = [r for r in times_of if r["measure"] == measure and r["style"] == style]
        found += _clock(rows, tool, f"{measure} {style}", what)
    thrown = [r for r in findings.of("throw_times", *who) if not r["warmup"]]
    for measure, base in _THROWN:
        rows = [r for r in thrown if r["measure"] == measure and r["to"] == base]
        found += _clock(rows, "throw", f"{measure} {base}", f"{measure.capitalize()} to {BASE_WORDS[base]}")
    return (*found, *_bat(findings.of("hitting", *who)))


def _clock(rows: list[Row], tool: str, key: str, what: str) -> Iterator[Measured]:
    best = to_go_by(clocks(rows, "{measure}"))
    if best is not None:
        yield Measured(
            tool, key, what, "s", best.n, _readings(best.n, best.method), best.last_seen, median=best.median,
            low=best.low, high=best.high, few=best.few,
        )  # fmt: skip


def _readings(n: int, method: str) -> str:
    return f"{'reading' if n == 1 else 'readings'}, {method}"


def _speeds(rows: Iterable[Row], few_readings: int) -> Iterator[Measured]:
    for r in sorted(rows, key=lambda r: (-r["n"], r["pitch"])):
        yield Measured(
            r["pitch"], f"speed {r['pitch']}", f"{r['pitch'].capitalize()} speed", "mph", r["n"],
            "pitch" if r["n"] == 1 else "pitches", r["last_seen"], median=r["median_mph"],
            low=r["p10_mph"] if r["n"] > 1 else None, high=r["p90_mph"] if r["n"] > 1 else None,
            few=r["n"] < few_readings, short="Speed",
        )  # fmt: skip


def _pitches(rows: Iterable[Row]) -> Iterator[Measured]:
    """Strikes of all he threw, misses of the swings at each pitch."""
    told: Mapping[tuple[str, str], Row] = {(r["pitch"], r["measure"]): r for r in rows if r["bats"] == "all"}
    if strikes := told.get(("all", "strike")):
        yield _count(strikes, "control", "strike all", "Strikes", "pitches")
    for (pitch, measure), row in told.items():
        if measure == "whiff" and pitch != "all":
            yield _count(row, pitch, f"whiff {pitch}", f"Missed, {pitch}", "swings", short="Missed")


def _bat(rows: Iterable[Row]) -> Iterator[Measured]:
    told = {r["measure"]: r for r in rows if r["split"] == "all" and r["bats"] == "all"}
    if miss := told.get("miss"):
        yield _count(miss, "hit", "miss", "Misses", "swings")
    if hard := told.get("hard"):
        yield _count(hard, "power", "hard", "Hits hard", "swings")
    if swing := told.get("swing"):
        yield _count(swing, "eye", "swing", "Swings", "pitches")


def _count(row: Row, tool: str, key: str, what: str, among: str, *, short: str = "") -> Measured:
    return Measured(tool, key, what, "of", row["n"], among, row["last_seen"], k=row["k"], short=short)
