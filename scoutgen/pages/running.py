"""Who of ours can go: every runner by tonight's batteries, the way home on the return throw, and why."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import inf

from scoutgen.measures.counts import COUNTS
from scoutgen.measures.risk import needs, needs_by_outs, one_run
from scoutgen.measures.steals import WIDE
from scoutgen.measures.win_chance import WinTable
from scoutgen.pages.claims import Claim, claim
from scoutgen.pages.extra_base import ExtraBase, extra_base
from scoutgen.pages.findings import Findings
from scoutgen.pages.habits import Habit
from scoutgen.pages.heard import Call, Heard, calls_of, heard
from scoutgen.pages.holds import HoldTime, holds
from scoutgen.pages.home_budget import HomeBudget, home_budget
from scoutgen.pages.opponent import CatcherLine, StaffLine, catcher_line, staff_line
from scoutgen.pages.people import Person
from scoutgen.pages.rows import Rows
from scoutgen.pages.run_values import half_of
from scoutgen.pages.series import SeriesPage
from scoutgen.records.roster import OwnPlayer
from scoutgen.records.season import Season
from scoutgen.records.series import Probable, Series

# How many counts are named as the ones to go in.
_COUNTS_SHOWN = 3
# What a runner or a bunter takes; balls in the dirt and extra bases stand on the home page.
_RUNNERS_DOORS = ("steal_second", "steal_third", "delayed_steal", "bigger_lead", "steal_home", "hit_and_run", "bunt")


@dataclass(frozen=True)
class CountToGo:
    """A count in which he throws something slow: k of n, the estimate and its 90 % interval."""

    count: str
    k: int
    n: int
    share: float
    low: float
    high: float


@dataclass(frozen=True)
class Battery:
    """One game's battery and what our runners hear of it.

    Attributes:
        label, day: the game.
        calls: by runner and base.
        slides, over_to_first: slide steps and throws to first of his sets with a man on first alone.
        wide: throws of the catcher to second that cost the fielder time, k of n live ones; None where none was charted.
        hold_at_second, over_to_second: how long he holds with a runner on second alone, and how often he throws there.
        by_outs, third_by_outs: chance needed with none, one and two out, a steal of second and of third.
        third: what our runners hear of a steal of third, on `pops_to_third` timed throws; None where none has a time.
        counts: where he throws most that is slow; `later_s` is how much later that arrives.
    """

    label: str
    day: date | None
    pitcher: StaffLine
    catcher: CatcherLine
    calls: Mapping[tuple[str, str], Call]
    slides: Claim | None
    over_to_first: Claim | None
    wide: tuple[int, int] | None
    hold_at_second: HoldTime | None
    over_to_second: Claim | None
    by_outs: tuple[float, ...]
    third_by_outs: tuple[float, ...]
    third: Heard | None
    pops_to_third: int
    counts: tuple[CountToGo, ...]
    later_s: float | None

    @property
    def to_second(self) -> Call | None:
        """What is the same for every runner to second: times to the plate, and the chance to be picked off."""
        return next((call for (_, base), call in self.calls.items() if base == "2"), None)

    @property
    def two_strikes(self) -> bool:
        """Some count to go in has two strikes."""
        return any(count.count.endswith("-2") for count in self.counts)

    @property
    def name(self) -> str:
        """The pitcher's family name, for a column."""
        return self.pitcher.person.man.name.split()[-1]


@dataclass(frozen=True)
class RunningPage:
    """All that the running page of a series says.

    Attributes:
        risk_address: the staff's table of risk; empty in an edition without it.
        runners: those with a time, the fastest first.
        untimed: our men without one, who are on no list.
        relievers: what our runners hear of those who may come in, with the likely catcher.
        extra: their outfield.
        doors: habits of theirs that help a runner; `pages` are the addresses of their men.
        first_and_third: chance that is even with none, one and two out where the man on first goes.
        bunt_for_hit: chance of a bunt hit that is even late in a tied game, nobody on and none out.
        need: chance that is even, by base; tied, halfway, one out.
    """

    address: str
    title: str
    series: Series
    series_address: str
    risk_address: str
    banner: str
    runners: tuple[OwnPlayer, ...]
    untimed: tuple[OwnPlayer, ...]
    batteries: tuple[Battery, ...]
    relievers: tuple[Heard, ...]
    extra: ExtraBase
    doors: tuple[Habit, ...]
    pages: Mapping[str, str]
    infield_address: str
    first_and_third: tuple[float, ...]
    bunt_for_hit: float
    need: Mapping[str, float]
    few_readings: int
    home: HomeBudget | None
    built: str
    as_of: date

    @property
    def tonight(self) -> Battery | None:
        """The battery that is met next: the first that is not over, or the first of all."""
        ahead = (b for b in self.batteries if b.day is None or b.day >= self.as_of)
        return next(ahead, self.batteries[0] if self.batteries else None)


def running_page(
    series: Series,
    front: SeriesPage,
    people: Sequence[Person],
    findings: Findings,
    season: Season,
    *,
    values: WinTable,
    built: str,
) -> RunningPage:
    """Put a series' running page together.

    Args:
        series: the series.
        front: the series' own page.
        people: the opponent's men.
        findings: the season's measures.
        season: the validated season.
        values: chances to win.
        built: when, in words.
    """
    mine = {person.man.key: person for person in people}
    half = half_of(series)
    catcher = mine.get(series.catcher or "") or next((p for p in people if p.catches), None)
    batteries = tuple(
        _battery(
            probable,
            (pitcher, catcher),
            findings,
            season,
            (needs_by_outs(values, half, "2"), needs_by_outs(values, half, "3")),
        )
        for probable in series.probables
        if catcher is not None and (pitcher := mine.get(probable.pitcher)) is not None
    )
    asked = {runner for battery in batteries for runner, _ in battery.calls}
    seconds = {runner: call.run_s for b in batteries for (runner, base), call in b.calls.items() if base == "2"}
    hitters = [man for man in season.program.roster if "P" not in man.positions or man.key in asked]
    timed = sorted((man for man in hitters if man.key in asked), key=lambda m: (seconds.get(m.key, inf), m.name))
    return RunningPage(
        address=front.running_address,
        title=f"Who can go: {series.title}",
        series=series,
        series_address=front.address,
        risk_address=front.risk_address,
        banner=season.program.policy.sentence,
        runners=tuple(timed),
        untimed=tuple(man for man in hitters if man.key not in asked),
        batteries=batteries,
        relievers=_relievers(series, mine, catcher, findings, season),
        extra=extra_base(series, mine, findings, season, values=values, half=half),
        doors=tuple(door for door in front.doors if door.kind.opens in _RUNNERS_DOORS),
        pages={person.man.key: person.address for person in people},
        infield_address=front.infield_address,
        first_and_third=needs_by_outs(values, half, "2", others="3"),
        bunt_for_hit=one_run(values, half, leads=(0,))[0].bunt_for_hit,
        need=needs(values, half),
        few_readings=season.program.thresholds.few_readings,
        home=_home(batteries[0], findings, season, needs_by_outs(values, half, "home")) if batteries else None,
        built=built,
        as_of=season.as_of,
    )


def _relievers(
    series: Series, mine: Mapping[str, Person], catcher: Person | None, findings: Findings, season: Season
) -> tuple[Heard, ...]:
    men = [mine[state.player] for state in series.bullpen if state.state != "no" and state.player in mine]
    if catcher is None:
        return ()
    return tuple(line for man in men if (line := heard(man, catcher, man, findings, season)))


def _battery(
    game: Probable,
    men: tuple[Person, Person],
    findings: Findings,
    season: Season,
    by_outs: tuple[tuple[float, ...], ...],
) -> Battery:
    pitcher, catcher = men
    who = (pitcher.team.key, pitcher.man.key)
    limits = season.program.thresholds
    calls = calls_of(findings.of("calls", *who), catcher.man.key)
    held = holds(
        limits,
        looks=(),
        times=findings.of("hold_times", *who),
        moves=findings.of("moves", *who),
        slides=(),
    )
    alone = [row for row in findings.of("slide_steps", *who) if row["bases"] == "1"]
    over = [row for row in findings.of("moves", *who) if (row["move"], row["value"]) == ("pickoff_1", "1")]
    slow = [row for row in findings.of("slow", *who) if row["count"] in COUNTS and row["n"]]
    enough = [row for row in slow if row["n"] >= limits.few_pitches]
    best = sorted(enough, key=lambda row: (-row["share"], row["count"]))[:_COUNTS_SHOWN]
    return Battery(
        label=game.game,
        day=game.date,
        pitcher=staff_line(pitcher, findings, season),
        catcher=catcher_line(catcher, findings, season),
        calls=calls,
        slides=next((claim(row, "slide step", limits) for row in alone), None),
        over_to_first=next((claim(row, "throw to first", limits) for row in over), None),
        wide=_wide(findings.of("accuracy", catcher.team.key, catcher.man.key)),
        hold_at_second=next((row.time for row in held.rows if row.state == "2"), None),
        over_to_second=next((move.claim for move in held.moves if move.move == "pickoff_2"), None),
        by_outs=by_outs[0],
        third_by_outs=by_outs[1],
        third=heard(pitcher, catcher, catcher, findings, season, base="3"),
        pops_to_third=next((call.pop_n for (_, base), call in calls.items() if base == "3"), 0),
        counts=tuple(CountToGo(**{name: row[name] for name in CountToGo.__dataclass_fields__}) for row in best),
        later_s=slow[0]["later_s"] if slow else None,
    )


def _wide(accuracy: Rows) -> tuple[int, int] | None:
    rows = [row for row in accuracy if row["to"] == "2" and row["accuracy"] in WIDE and not row["warmup"]]
    return (sum(row["k"] for row in rows), rows[0]["n"]) if rows else None


def _home(first: Battery, findings: Findings, season: Season, need: tuple[float, ...]) -> HomeBudget | None:
    """On the first game's battery: the return throw is the catcher's and the same in all."""
    return home_budget(first.pitcher.person, first.catcher.person, findings, season, need=need)
