"""One opponent: the staff in order, what the team likes to do, the park, everybody on the roster, what is not known."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.claims import Claim
from scoutgen.pages.findings import Findings
from scoutgen.pages.freshness import Freshness, freshness
from scoutgen.pages.habits import Habit, doors, habits
from scoutgen.pages.holds import Looks, holds
from scoutgen.pages.notes import Notes, notes
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.positions import OffBag, off_bag
from scoutgen.pages.times import Clock, clocks, to_go_by
from scoutgen.pages.usage import GLANCE, Situation, usage_side
from scoutgen.records.opponents import Entry, Park, Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series


@dataclass(frozen=True)
class StaffLine:
    """One pitcher in a list: what hitters and runners ask of him first.

    Attributes:
        first_pitch, two_strikes: the likeliest pitches by side, "L" and "R".
        stretch, slide_step: to the plate; None where never timed.
        over_to_first, slides: throws to first and slide steps of his sets; None where never charted.
        second: looks with a runner on second.
    """

    person: Person
    summary: str
    fresh: Freshness | None
    first_pitch: tuple[tuple[str, Situation], ...]
    two_strikes: tuple[tuple[str, Situation], ...]
    stretch: Clock | None
    slide_step: Clock | None
    over_to_first: Claim | None
    slides: Claim | None
    second: Looks | None


@dataclass(frozen=True)
class CatcherLine:
    """One catcher in a list: pop to second, and what he does with a runner on third that a steal of home asks for."""

    person: Person
    fresh: Freshness | None
    pop: Clock | None
    third: tuple[Habit, ...]


@dataclass(frozen=True)
class Gaps:
    """What is most urgent to chart about one man, or about the infield; `more` stands on his own page."""

    title: str
    address: str
    texts: tuple[str, ...]
    more: int


FIRST_DOORS = 6


@dataclass(frozen=True)
class OpponentPage:
    """All that an opponent's page says; `first_doors` habits are read, the others open on a tap."""

    address: str
    title: str
    team: Team
    infield_address: str
    fresh: Freshness | None
    staff: tuple[StaffLine, ...]
    catchers: tuple[CatcherLine, ...]
    others: tuple[Person, ...]
    doors: tuple[Habit, ...]
    pages: dict[str, str]
    corners: tuple[OffBag, ...]
    tendencies: Notes
    gaps: tuple[Gaps, ...]
    list_address: str
    park: Park
    series: tuple[Series, ...]
    built: str
    as_of: date
    first_doors: int = FIRST_DOORS


def opponent_page(
    team: Team, people: Sequence[Person], findings: Findings, season: Season, *, built: str
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
        doors=_by_door(doors(h for h in found if h.kind.measured != "feet")),
        pages={person.man.key: person.address for person in people},
        corners=tuple(c for c in off_bag(findings.of_team("off_bag", team.key), team) if c.player == "all"),
        tendencies=notes(tendencies, as_of=season.as_of),
        gaps=_gaps(team, [*staff, *(p for p in people if p.catches and not p.pitches)], findings),
        list_address=f"not-known-yet/{team.key}",
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


def opponents_in_order(season: Season) -> list[Team]:
    """Everybody we play: by nearness of a series with them, then by name, those without a file last."""
    order = [s.opponent for s in coming(season.series, season.as_of)]
    place = {key: rank for rank, key in reversed(list(enumerate(order)))}
    ours = [team for team in season.teams.values() if not team.own]
    return sorted(ours, key=lambda t: (place.get(t.key, len(order)), not t.listed, t.name.casefold()))


def staff_line(person: Person, findings: Findings, season: Season) -> StaffLine:
    """What a list says of one pitcher."""
    who, limits = (person.team.key, person.man.key), season.program.thresholds
    entry = season.entries.get(who)
    used = [r for r in findings.of("usage", *who) if r["count"] in ("all", "first pitch", "two strikes")]
    likeliest = findings.of("look_for", *who)
    mixes = [
        (side, usage_side(side, limits, usage=used, look_for=likeliest, bases=(), times_through=()))
        for side in ("L", "R")
    ]
    asked = {side: dict(zip(GLANCE, mix.glance, strict=True)) for side, mix in mixes}
    held = holds(
        limits,
        looks=findings.of("looks", *who),
        times=findings.of("hold_times", *who),
        moves=findings.of("moves", *who),
        slides=findings.of("slide_steps", *who),
    )
    times = findings.of("times", *who)
    plate = [r for r in times if r["measure"] == "plate" and r["bases"] == "all" and not r["warmup"]]
    return StaffLine(
        person=person,
        summary=(entry.summary or "") if entry else "",
        fresh=freshness(findings.of("fresh", *who), as_of=season.as_of, limits=limits),
        first_pitch=tuple((side, when["first pitch"]) for side, when in asked.items()),
        two_strikes=tuple((side, when["two strikes"]) for side, when in asked.items()),
        stretch=to_go_by(clocks([r for r in plate if r["style"] == "stretch"], "{style}")),
        slide_step=to_go_by(clocks([r for r in plate if r["style"] == "slide_step"], "{style}")),
        over_to_first=held.over_to_first,
        slides=held.slide_step,
        second=held.second,
    )


def catcher_line(person: Person, findings: Findings, season: Season) -> CatcherLine:
    """What a list says of one catcher."""
    who, limits = (person.team.key, person.man.key), season.program.thresholds
    times = findings.of("throw_times", *who)
    pops = [r for r in times if r["measure"] == "pop" and r["to"] == "2" and not r["warmup"]]
    found = habits(findings.of("habits", *who), findings.of("feet", *who), season.habit_kinds, person.team, limits)
    asked = [h for h in found if h.kind.opens == "steal_home" and h.third.n >= limits.few_looks]
    order = list(season.habit_kinds)
    return CatcherLine(
        person=person,
        fresh=freshness(findings.of("fresh", *who), as_of=season.as_of, limits=limits),
        pop=to_go_by(clocks(pops, "pop to second")),
        third=tuple(sorted(asked, key=lambda h: order.index(h.kind.key))),
    )


def _by_door(found: Sequence[Habit]) -> tuple[Habit, ...]:
    """What opens the same side by side, in the order in which each was first named."""
    order = list(dict.fromkeys(habit.kind.opens for habit in found))
    return tuple(sorted(found, key=lambda habit: order.index(habit.kind.opens)))


def _gaps(team: Team, men: Sequence[Person], findings: Findings) -> tuple[Gaps, ...]:
    """The most urgent wants, man by man in the order given, the infield last."""
    rows = findings.of_team("unknowns", team.key)
    asked: list[tuple[str | None, str, str]] = [(p.man.key, p.title, p.address) for p in men]
    asked.append((None, "Infield", infield_address(team)))
    found = []
    for key, title, address in asked:
        mine = [r for r in rows if r["player"] == key]
        urgent = tuple(r["text"] for r in mine if r["priority"] == 1)
        if urgent:
            found.append(Gaps(title, address, urgent, len(mine) - len(urgent)))
    return tuple(found)
