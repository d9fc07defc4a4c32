"""One opponent: the staff in order, what the team likes to do, the park, everybody on the roster."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.findings import Findings
from scoutgen.pages.freshness import Freshness, freshness
from scoutgen.pages.habits import Habit, doors, habits
from scoutgen.pages.notes import Notes, notes
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.times import Clock, clocks, to_go_by
from scoutgen.records.opponents import Entry, Park, Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series


@dataclass(frozen=True)
class StaffLine:
    """One pitcher in a list: how much is charted, his first pitch by side, how quick he is to the plate."""

    person: Person
    summary: str
    fresh: Freshness | None
    first_pitch: tuple[tuple[str, Claim | None], ...]
    two_strikes: tuple[tuple[str, Claim | None], ...]
    stretch: Clock | None
    slide_step: Clock | None


@dataclass(frozen=True)
class CatcherLine:
    """One catcher in a list: pop to second, and the habits of his that open a door."""

    person: Person
    fresh: Freshness | None
    pop: Clock | None
    doors: tuple[Habit, ...]


@dataclass(frozen=True)
class OpponentPage:
    """All that an opponent's page says."""

    address: str
    title: str
    team: Team
    infield_address: str
    fresh: Freshness | None
    staff: tuple[StaffLine, ...]
    catchers: tuple[CatcherLine, ...]
    others: tuple[Person, ...]
    doors: tuple[Habit, ...]
    tendencies: Notes
    park: Park
    series: tuple[Series, ...]
    built: str
    as_of: date


def opponent_page(
    team: Team, people: Sequence[Person], findings: Findings, season: Season, *, edition: str, built: str
) -> OpponentPage:
    """Put one team's page together; the staff stands in the order in which we will meet it."""
    limits = season.program.thresholds
    series = tuple(s for s in season.series if s.opponent == team.key)
    rotation = [p.pitcher for s in coming(series, season.as_of)[:1] for p in s.probables]
    order = {key: place for place, key in enumerate(dict.fromkeys(rotation))}
    staff = sorted((p for p in people if p.pitches), key=lambda p: (order.get(p.man.key, len(order)), p.staff_place))
    found = habits(
        findings.of_team("habits", team.key), findings.of_team("feet", team.key), season.habit_kinds, team, limits
    )
    tendencies = Entry(team.key, "", None, team.tendencies)
    return OpponentPage(
        address=team_address(team),
        title=team.name,
        team=team,
        infield_address=infield_address(team),
        fresh=freshness(findings.of_team("team_fresh", team.key), as_of=season.as_of, limits=limits),
        staff=tuple(staff_line(p, findings, season) for p in staff),
        catchers=tuple(catcher_line(p, findings, season) for p in people if p.catches),
        others=tuple(p for p in people if not p.pitches and not p.catches),
        doors=doors(found, limits),
        tendencies=notes(tendencies, edition=edition, as_of=season.as_of),
        park=team.park,
        series=series,
        built=built,
        as_of=season.as_of,
    )


def coming(series: Sequence[Series], as_of: date) -> list[Series]:
    """Series by nearness to a day: the one that runs or comes next first, then later ones, then past ones backwards."""
    ahead = sorted((s for s in series if s.end >= as_of), key=lambda s: (s.start, s.name))
    past = sorted((s for s in series if s.end < as_of), key=lambda s: (-s.end.toordinal(), s.name))
    return ahead + past


def staff_line(person: Person, findings: Findings, season: Season) -> StaffLine:
    """What a list says of one pitcher."""
    who, limits = (person.team.key, person.man.key), season.program.thresholds
    entry = season.entries.get(who)
    rows = findings.of("look_for", *who)
    best = {(r["bats"], r["count"]): c for r, c in zip(rows, claims(rows, "pitch", limits), strict=True)}
    times = findings.of("times", *who)
    plate = [r for r in times if r["measure"] == "plate" and r["bases"] == "all" and not r["warmup"]]
    return StaffLine(
        person=person,
        summary=(entry.summary or "") if entry else "",
        fresh=freshness(findings.of("fresh", *who), as_of=season.as_of, limits=limits),
        first_pitch=tuple((side, best.get((side, "first pitch"))) for side in ("L", "R")),
        two_strikes=tuple((side, best.get((side, "two strikes"))) for side in ("L", "R")),
        stretch=to_go_by(clocks([r for r in plate if r["style"] == "stretch"], "{style}")),
        slide_step=to_go_by(clocks([r for r in plate if r["style"] == "slide_step"], "{style}")),
    )


def catcher_line(person: Person, findings: Findings, season: Season) -> CatcherLine:
    """What a list says of one catcher."""
    who, limits = (person.team.key, person.man.key), season.program.thresholds
    times = findings.of("throw_times", *who)
    pops = [r for r in times if r["measure"] == "pop" and r["to"] == "2" and not r["warmup"]]
    found = habits(findings.of("habits", *who), findings.of("feet", *who), season.habit_kinds, person.team, limits)
    return CatcherLine(
        person=person,
        fresh=freshness(findings.of("fresh", *who), as_of=season.as_of, limits=limits),
        pop=to_go_by(clocks(pops, "pop to second")),
        doors=doors(found, limits),
    )
