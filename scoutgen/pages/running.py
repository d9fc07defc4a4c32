"""Who of ours can go: every runner by tonight's batteries, the way home on the return throw, and why."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import inf

from scoutgen.measures.win_chance import WinTable
from scoutgen.pages.claims import Claim
from scoutgen.pages.findings import Findings
from scoutgen.pages.habits import Habit
from scoutgen.pages.holds import HoldTime, holds
from scoutgen.pages.opponent import CatcherLine, StaffLine, catcher_line, staff_line
from scoutgen.pages.people import Person
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.run_values import half_of, needs, needs_by_outs, one_run
from scoutgen.pages.series import SeriesPage
from scoutgen.pages.words import RUNNER_ON_WORDS
from scoutgen.records.roster import OwnPlayer
from scoutgen.records.season import Season
from scoutgen.records.series import Probable, Series

# Each call has a shape of its own, so that it reads without colour.
CALL_WORDS = {"go": "▲ go", "only_if": "◆ only if", "no": "✕ not tonight", "unknown": "? not known"}
SHORT_CALLS = {**CALL_WORDS, "no": "✕ no"}
BASE_WORDS = {"2": "second", "3": "third"}
# A run home is a yes where it is enough in nine cases of ten of what is not known, close where in half of them.
_YES, _CLOSE = 0.9, 0.5
_COUNTS = tuple(f"{balls}-{strikes}" for balls in range(4) for strikes in range(3))
_COUNTS_SHOWN = 3
# Names in a sentence before the rest become a number.
_NAMED = 4
# What a runner or a bunter takes; balls in the dirt and extra bases stand on the home page.
_RUNNERS_DOORS = ("steal_second", "steal_third", "delayed_steal", "bigger_lead", "steal_home", "hit_and_run", "bunt")


@dataclass(frozen=True)
class Call:
    """What one runner hears about one battery and base.

    Attributes:
        call, because: see `measures.calls.steal_calls`.
        need: chance of success that is even in a tied game halfway, one out.
        margin_s, p_safe, low, high: with his deliveries mixed as they come.
        stretch_margin_s, stretch_p_safe, slide_margin_s, slide_p_safe: of each delivery; the slide step's are None
            where he was not seen to use it.
        picked: chance that he leaves on a throw over and is out.
        run_s, run_n, plate_n, pop_n: the runner's time and the readings behind each; a run_n of 0 is our roster's time.
    """

    call: str
    because: str
    need: float
    margin_s: float
    p_safe: float
    low: float
    high: float
    stretch_margin_s: float
    stretch_p_safe: float
    slide_margin_s: float | None
    slide_p_safe: float | None
    picked: float
    run_s: float
    run_n: int
    plate_n: int
    pop_n: int

    @property
    def words(self) -> str:
        """The call with its shape."""
        return CALL_WORDS[self.call]

    @property
    def short(self) -> str:
        """The same in a narrow cell."""
        return SHORT_CALLS[self.call]


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
        hold_at_second, over_to_second: how long he holds with a runner on second alone, and how often he throws there.
        by_outs: chance needed with none, one and two out, a steal of second.
        counts: where he throws most that is slow; `later_s` is how much later that arrives.
    """

    label: str
    day: date | None
    pitcher: StaffLine
    catcher: CatcherLine
    calls: Mapping[tuple[str, str], Call]
    hold_at_second: HoldTime | None
    over_to_second: Claim | None
    by_outs: tuple[float, ...]
    counts: tuple[CountToGo, ...]
    later_s: float | None

    @property
    def picked(self) -> float | None:
        """Chance that a man who breaks on first move is out on a throw over; the same for every runner."""
        return next((call.picked for (_, base), call in self.calls.items() if base == "2"), None)

    @property
    def name(self) -> str:
        """The pitcher's family name, for a column."""
        return self.pitcher.person.man.name.split()[-1]


@dataclass(frozen=True)
class Heard:
    """The short version on a man's own page: who of ours can take second with him and `other` at work.

    Attributes:
        other: the catcher on a pitcher's page, the pitcher on a catcher's.
        go: our runners who can go, with their chance, the surest first.
        only_if, no, unknown: how many hear the other answers.
    """

    other: Person
    go: tuple[tuple[OwnPlayer, float], ...]
    only_if: int
    no: int
    unknown: int

    @property
    def named(self) -> tuple[tuple[OwnPlayer, float], ...]:
        """The surest of those who can go; the rest are a number."""
        return self.go[:_NAMED]

    @property
    def more(self) -> int:
        """How many more can go."""
        return len(self.go) - len(self.named)


def heard(pitcher: Person, catcher: Person, other: Person, findings: Findings, season: Season) -> Heard | None:
    """What our runners hear of one battery, a steal of second; None where none of ours has a time."""
    calls = calls_of(findings.of("calls", pitcher.team.key, pitcher.man.key), catcher.man.key)
    second = {runner: call for (runner, base), call in calls.items() if base == "2"}
    if not second:
        return None
    going = sorted((key for key, call in second.items() if call.call == "go"), key=lambda k: (-second[k].p_safe, k))
    men = {man.key: man for man in season.program.roster}
    answers = [call.call for call in second.values()]
    return Heard(
        other=other,
        go=tuple((men[key], second[key].p_safe) for key in going),
        only_if=answers.count("only_if"),
        no=answers.count("no"),
        unknown=answers.count("unknown"),
    )


@dataclass(frozen=True)
class HomeWay:
    """Seconds of one runner on the way home on the return throw; see `measures.home_plays`.

    `enough`: how likely his true chance is as high as needed with two out.
    """

    runner: OwnPlayer
    start_ft: float
    run_s: float
    margin_s: float
    p_safe: float
    low: float
    high: float
    enough: float

    @property
    def words(self) -> str:
        """Yes, close or no, each with a shape."""
        return "▲ yes" if self.enough >= _YES else "◆ close" if self.enough >= _CLOSE else "✕ no"

    @property
    def short_s(self) -> float:
        """Seconds he is late; negative where he has some to spare."""
        return -self.margin_s


@dataclass(frozen=True)
class HomeBudget:
    """The defence's side of a run home on the return throw, and every runner's.

    Attributes:
        third_baseman: his name; None where nobody was charted there.
        feet_n: looks at his feet.
        ball_s: all they need; flight_s (of flight_n timed lobs), turn_s, throw_s and tag_s are its parts.
        look_k of look_n returns without a look, lob_k of lob_n lobbed; `there`: both together.
        need: chance that is even with two out in a tied game halfway.
        ways: every runner, the surest first.
        straight: the surest of them straight home on the windup.
    """

    third_baseman: str | None
    feet_n: int
    ball_s: float
    flight_s: float
    flight_n: int
    turn_s: float
    throw_s: float
    tag_s: float
    look_k: int
    look_n: int
    lob_k: int
    lob_n: int
    there: float
    need: float
    ways: tuple[HomeWay, ...]
    straight: HomeWay | None


@dataclass(frozen=True)
class RunningPage:
    """All that the running page of a series says.

    Attributes:
        risk_address: the staff's table of risk; empty in an edition without it.
        runners: those with a time, the fastest first.
        untimed: our men without one, who are on no list.
        relievers: what our runners hear of those who may come in, with the likely catcher.
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
        _battery(probable, (pitcher, catcher), findings, season, needs_by_outs(values, half, "2"))
        for probable in series.probables
        if catcher is not None and (pitcher := mine.get(probable.pitcher)) is not None
    )
    heard = {runner for battery in batteries for runner, _ in battery.calls}
    seconds = {runner: call.run_s for b in batteries for (runner, base), call in b.calls.items() if base == "2"}
    hitters = [man for man in season.program.roster if "P" not in man.positions or man.key in heard]
    timed = sorted((man for man in hitters if man.key in heard), key=lambda m: (seconds.get(m.key, inf), m.name))
    return RunningPage(
        address=front.running_address,
        title=f"Who can go: {series.title}",
        series=series,
        series_address=front.address,
        risk_address=front.risk_address,
        banner=season.program.policy.sentence,
        runners=tuple(timed),
        untimed=tuple(man for man in hitters if man.key not in heard),
        batteries=batteries,
        relievers=_relievers(series, mine, catcher, findings, season),
        doors=tuple(door for door in front.doors if door.kind.opens in _RUNNERS_DOORS),
        pages={person.man.key: person.address for person in people},
        infield_address=front.infield_address,
        first_and_third=needs_by_outs(values, half, "2", others="3"),
        bunt_for_hit=one_run(values, half, leads=(0,))[0].bunt_for_hit,
        need=needs(values, half),
        few_readings=season.program.thresholds.few_readings,
        home=_home(batteries, findings, season, need=needs_by_outs(values, half, "home")[2]),
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


def calls_of(rows: Rows, catcher: str) -> dict[tuple[str, str], Call]:
    """One pitcher's calls with one catcher, by runner and base."""
    return {(row["runner"], row["base"]): _call(row) for row in rows if row["catcher"] == catcher}


def _call(row: Row) -> Call:
    return Call(**{name: row[name] for name in Call.__dataclass_fields__})


def _battery(
    game: Probable, men: tuple[Person, Person], findings: Findings, season: Season, by_outs: tuple[float, ...]
) -> Battery:
    pitcher, catcher = men
    who = (pitcher.team.key, pitcher.man.key)
    limits = season.program.thresholds
    held = holds(
        limits,
        looks=(),
        times=findings.of("hold_times", *who),
        moves=findings.of("moves", *who),
        slides=(),
    )
    slow = [row for row in findings.of("slow", *who) if row["count"] in _COUNTS and row["n"]]
    enough = [row for row in slow if row["n"] >= limits.few_pitches]
    best = sorted(enough, key=lambda row: (-row["share"], row["count"]))[:_COUNTS_SHOWN]
    return Battery(
        label=game.game,
        day=game.date,
        pitcher=staff_line(pitcher, findings, season),
        catcher=catcher_line(catcher, findings, season),
        calls=calls_of(findings.of("calls", *who), catcher.man.key),
        hold_at_second=next((row.time for row in held.rows if row.bases == RUNNER_ON_WORDS["2"]), None),
        over_to_second=next((move.claim for move in held.moves if move.move == "pickoff_2"), None),
        by_outs=by_outs,
        counts=tuple(CountToGo(**{name: row[name] for name in CountToGo.__dataclass_fields__}) for row in best),
        later_s=slow[0]["later_s"] if slow else None,
    )


def _home(batteries: Sequence[Battery], findings: Findings, season: Season, *, need: float) -> HomeBudget | None:
    """On the first game's battery: the return throw is the catcher's and the same in all."""
    if not batteries:
        return None
    first = batteries[0]
    who = (first.pitcher.person.team.key, first.pitcher.person.man.key)
    rows = [r for r in findings.of("home", *who) if r["catcher"] == first.catcher.person.man.key]
    slow = sorted((r for r in rows if r["play"] == "return throw"), key=lambda r: (-r["p_safe"], r["runner"]))
    if not slow:
        return None
    straight = max((r for r in rows if r["play"] == "windup"), key=lambda r: (r["margin_s"], r["runner"]), default=None)
    at = slow[0]
    third = first.pitcher.person.team.player(at["third_baseman"]) if at["third_baseman"] else None
    same = ("feet_n", "ball_s", "flight_s", "flight_n", "turn_s", "throw_s", "tag_s", "look_k", "look_n", "lob_k",
            "lob_n", "there")  # fmt: skip
    return HomeBudget(
        third_baseman=third.name if third else None,
        need=need,
        ways=tuple(_way(row, season) for row in slow),
        straight=_way(straight, season) if straight else None,
        **{name: at[name] for name in same},
    )


def _way(row: Row, season: Season) -> HomeWay:
    man = season.program.player(row["runner"])
    assert man is not None, "rows are made of our own roster"  # noqa: S101 - says so to the type checker
    amounts = {name: row[name] for name in ("start_ft", "run_s", "margin_s", "p_safe", "low", "high", "enough")}
    return HomeWay(runner=man, **amounts)
