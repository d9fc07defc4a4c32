"""One man's page: what he throws, how he holds runners, how he catches, what people saw."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.book import Chart
from scoutgen.pages.charts import chart_key
from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.facts import facts_address
from scoutgen.pages.findings import Findings
from scoutgen.pages.freshness import Freshness, freshness
from scoutgen.pages.habits import Habit, doors, habits
from scoutgen.pages.heard import Heard, heard
from scoutgen.pages.hitting import Hitting, hitting
from scoutgen.pages.holds import Holds, holds
from scoutgen.pages.locations import LocationSide, location_side
from scoutgen.pages.notes import Notes, notes
from scoutgen.pages.opponent import coming
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.results import PitchLine, SpeedDrop, arsenal, speed_drop
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.sequence import Sequence, sequence
from scoutgen.pages.throws import Throws, throws
from scoutgen.pages.times import Clock, PitcherClocks, clocks, pitcher_clocks, to_go_by
from scoutgen.pages.times_through import Changes, changes
from scoutgen.pages.usage import UsageSide, usage_side
from scoutgen.records.program import Thresholds
from scoutgen.records.season import Season

MIX_TABLES = ("usage", "look_for", "bases", "times_through")


@dataclass(frozen=True)
class Facing:
    """What a pitcher does against hitters of one side; `put_away` are the pitches their strikeouts ended on."""

    mix: UsageSide
    arsenal: tuple[PitchLine, ...]
    location: LocationSide
    put_away: tuple[Claim, ...]


@dataclass(frozen=True)
class Pitching:
    """A pitcher's part of the page.

    Attributes:
        unsided: his pitches of which nobody can tell on which side the hitter stood; in none of the sides.
    """

    sides: tuple[Facing, ...]
    unsided: int
    changes: Changes
    sequence: Sequence
    drop: SpeedDrop | None
    clocks: PitcherClocks
    holds: Holds


@dataclass(frozen=True)
class PlayerPage:
    """All that one man's page says; None or empty where a part does not concern him.

    Attributes:
        who: hand, role or positions in words.
        jumps: words and headings of the parts a pitcher's page has, for a row of links.
        home_first: the full-swing time to first to go by; None where never timed.
        address, title, team_name, team_address, infield_address: where it stands and what it is called.
        heard: who of ours can go on him, with each man who may be at work with him.
        running_address: the running page of the coming series; empty where he is not in it.
        evaluation_address: his evaluation; empty where the edition or he has none.
        unknowns: what is still to be charted, most urgent first, with the decision it serves; `asked`: there is a list
            for him at all.
        charts: drawings by key.
    """

    person: Person
    who: str
    address: str
    title: str
    team_name: str
    team_address: str
    infield_address: str
    facts_address: str
    summary: str
    fresh: Freshness | None
    pitching: Pitching | None
    catching: Throws | None
    hitting: Hitting | None
    running: tuple[Clock, ...]
    home_first: Clock | None
    habits: tuple[Habit, ...]
    doors: tuple[Habit, ...]
    heard: tuple[Heard, ...]
    running_address: str
    evaluation_address: str
    notes: Notes
    unknowns: tuple[tuple[str, str], ...]
    asked: bool
    charts: dict[str, Chart]
    jumps: tuple[tuple[str, str], ...]
    built: str
    as_of: date


def player_page(
    person: Person,
    findings: Findings,
    season: Season,
    *,
    with_him: Iterable[Person] = (),
    running_address: str = "",
    evaluation_address: str = "",
    built: str,
) -> PlayerPage:
    """Put one man's page together.

    Args:
        person: who.
        findings: the season's measures.
        season: for his entry and the program's thresholds.
        with_him: whom our runners meet with him: the likely catcher for a pitcher, the probable starters for a catcher.
        running_address: where the running page of the coming series stands; empty where he is not in it.
        evaluation_address: where his evaluation stands; empty for none.
        built: when, in words.
    """
    team, man, limits = person.team, person.man, season.program.thresholds
    who = (team.key, man.key)
    entry = season.entries.get(who)
    pitching = _pitching(person, findings, season) if person.pitches else None
    catching = None
    if person.catches:
        catching = throws(
            limits,
            times=findings.of("throw_times", *who),
            accuracy=findings.of("accuracy", *who),
            results=findings.of("throw_results", *who),
            returns=findings.of("returns", *who),
        )
    found = habits(findings.of("habits", *who), findings.of("feet", *who), season.habit_kinds, team, limits)
    bats = hitting(team, man.key, person.title, findings, limits)
    drawn = _charts(pitching, bats)
    runs = [r for r in findings.of("times", *who) if _running(r)]
    to_first = clocks([r for r in runs if r["measure"] == "home_first" and r["style"] == "full"], "{measure}")
    seen = notes(entry, as_of=season.as_of)
    return PlayerPage(
        person=person,
        who=_who(person),
        address=person.address,
        title=person.title,
        team_name=team.name,
        team_address=team_address(team),
        infield_address=infield_address(team),
        facts_address=facts_address(person),
        summary=(entry.summary or "") if entry else "",
        fresh=freshness(findings.of("fresh", *who), as_of=season.as_of, limits=limits),
        pitching=pitching,
        catching=catching,
        hitting=bats,
        running=clocks(runs, "{measure}, {style}"),
        home_first=to_go_by(to_first),
        habits=found,
        doors=doors(found),
        heard=tuple(line for other in with_him if (line := _heard(person, other, findings, season))),
        running_address=running_address,
        evaluation_address=evaluation_address,
        notes=seen,
        unknowns=tuple((r["text"], r["why"]) for r in findings.of("unknowns", *who)),
        asked=person.pitches or person.catches or _in_likely_lineup(who, season),
        charts={chart_key(chart): chart for chart in drawn},
        jumps=_jumps(pitching, seen) if pitching else _hitters_jumps(bats, found, runs, seen),
        built=built,
        as_of=season.as_of,
    )


def _heard(person: Person, other: Person, findings: Findings, season: Season) -> Heard | None:
    pitcher, catcher = (person, other) if person.pitches else (other, person)
    return heard(pitcher, catcher, other, findings, season)


def _in_likely_lineup(who: tuple[str, str], season: Season) -> bool:
    nearest = coming(season.series, season.as_of)[:1]
    return any(who[0] == series.opponent and who[1] in series.lineup for series in nearest)


def _who(person: Person) -> str:
    """Hand and role in words; a role says more than "pitcher"."""
    role = person.man.role
    return person.hand.replace("-handed pitcher", f"-handed {role}") if role else person.hand


def _jumps(pitching: Pitching, seen: Notes) -> tuple[tuple[str, str], ...]:
    sides = pitching.sides
    parts = (
        ("Counts", "Counts", any(s.mix.n for s in sides)),
        ("Pitches", "Pitches", any(s.arsenal for s in sides)),
        ("Where", "Location", any(s.location.lines for s in sides)),
        ("Times through", "Times through the order", any(t.n for s in sides for t in s.mix.times_through)),
        ("Clock", "Clock", bool(pitching.clocks.go_by)),
        ("Holding", "Holding runners", pitching.holds.charted),
        ("Notes", "Notes", bool(seen.topics or seen.old)),
        ("To chart", "Not known yet", True),
    )
    return tuple((words, heading) for words, heading, there in parts if there)


def _hitters_jumps(
    bats: Hitting | None, found: tuple[Habit, ...], runs: Rows, seen: Notes
) -> tuple[tuple[str, str], ...]:
    if bats is None:
        return ()
    parts = (
        ("Where", "Where he hits it", any(side.ground or side.air for side in bats.sides)),
        ("Swings", "At the plate", True),
        ("Habits", "Habits", bool(found)),
        ("Runs", "On the bases", bool(runs)),
        ("Notes", "Notes", bool(seen.topics or seen.old)),
    )
    return tuple((words, heading) for words, heading, there in parts if there)


def _pitching(person: Person, findings: Findings, season: Season) -> Pitching:
    who, limits = (person.team.key, person.man.key), season.program.thresholds
    mixes = [
        usage_side(side, limits, **{table: findings.of(table, *who) for table in MIX_TABLES}) for side in ("L", "R")
    ]
    bands, results = findings.of("bands", *who), findings.of("results", *who)
    grid, places = findings.of("grid", *who), findings.of("places", *who)
    ended = findings.of("put_away", *who)
    sides = tuple(
        Facing(
            mix=mix,
            arsenal=arsenal(mix.whole, mix.side, limits, bands=bands, results=results, places=places),
            location=location_side(mix, person.title, limits, grid=grid, places=places),
            put_away=_put_away([row for row in ended if row["bats"] == mix.side], limits),
        )
        for mix in mixes
    )
    all_told = max((row["n"] for row in findings.of("usage", *who) if row["bats"] == row["count"] == "all"), default=0)
    return Pitching(
        sides=sides,
        unsided=all_told - sum(mix.n for mix in mixes),
        changes=changes(findings.of("changes", *who)),
        sequence=sequence(findings.of("sequence", *who), limits),
        drop=speed_drop(findings.of("drops", *who)),
        clocks=pitcher_clocks(findings.of("times", *who), findings.of("readings", *who), person.title),
        holds=holds(
            limits,
            looks=findings.of("looks", *who),
            times=findings.of("hold_times", *who),
            moves=findings.of("moves", *who),
            slides=findings.of("slide_steps", *who),
        ),
    )


def _put_away(rows: Rows, limits: Thresholds) -> tuple[Claim, ...]:
    """The pitches strikeouts ended on, the commonest first."""
    return tuple(sorted((c for c in claims(rows, "pitch", limits) if c.k), key=lambda c: (-c.k, c.what)))


def _running(row: Row) -> bool:
    """A live time on the bases; home to first by its style, the others have none."""
    if row["warmup"] or row["bases"] != "all":
        return False
    if row["measure"] == "home_first":
        return bool(row["style"] != "all")
    return row["measure"] in ("first_second", "second_third", "third_home") and row["style"] == "all"


def _charts(pitching: Pitching | None, bats: Hitting | None) -> list[Chart]:
    drawn = [pitching.clocks.strip, *(facing.location.chart for facing in pitching.sides)] if pitching else []
    drawn += bats.charts if bats else ()
    return [chart for chart in drawn if chart is not None]
