"""The coming series: who pitches when, what to look for, what opens a door, how fresh it all is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.findings import Findings
from scoutgen.pages.habits import Habit, doors, habits
from scoutgen.pages.opponent import CatcherLine, StaffLine, catcher_line, coming, staff_line
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.positions import OffBag, off_bag
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season
from scoutgen.records.series import BullpenState, PlanLine, Probable, Series


@dataclass(frozen=True)
class Game:
    """One game of a series and their probable starter; `line` is None where he has no page."""

    label: str
    day: date | None
    line: StaffLine | None
    pitcher: str


@dataclass(frozen=True)
class Rest:
    """How rested one of their relievers is."""

    name: str
    person: Person | None
    state: BullpenState


@dataclass(frozen=True)
class SeriesPage:
    """All that a series' page says; the home page is the one of the coming series.

    Attributes:
        home: it is the home page.
        series: None on the home page of a project without a series.
        doors: habits of theirs that open something, the surest first.
        corners: feet off the bag of the corner infielders with a runner there.
    """

    address: str
    title: str
    home: bool
    program: str
    banner: str
    series: Series | None
    team: Team | None
    team_address: str
    infield_address: str
    games: tuple[Game, ...]
    catcher: CatcherLine | None
    doors: tuple[Habit, ...]
    corners: tuple[OffBag, ...]
    lineup: tuple[Person | str, ...]
    plan: tuple[PlanLine, ...]
    bullpen: tuple[Rest, ...]
    others: tuple[tuple[str, str], ...]
    opponents: tuple[tuple[str, str], ...]
    built: str
    as_of: date


def series_pages(
    people: Mapping[str, Sequence[Person]], findings: Findings, season: Season, *, edition: str, built: str
) -> tuple[SeriesPage, ...]:
    """The home page first, then a page for every other series."""
    order = coming(season.series, season.as_of)
    nearest = order[0] if order else None
    rest = tuple((s.title, series_address(s)) for s in order[1:])
    home = _page(nearest, "index", people, findings, season, edition=edition, built=built, others=rest)
    others = [
        _page(s, series_address(s), people, findings, season, edition=edition, built=built, others=())
        for s in order[1:]
    ]
    return (home, *others)


def series_address(series: Series) -> str:
    """Where a series' page stands, unless it is the coming one, which is the home page."""
    return f"series/{series.name}"


def _page(
    series: Series | None,
    address: str,
    people: Mapping[str, Sequence[Person]],
    findings: Findings,
    season: Season,
    *,
    edition: str,
    built: str,
    others: tuple[tuple[str, str], ...],
) -> SeriesPage:
    team = season.teams.get(series.opponent) if series else None
    mine = {person.man.key: person for person in people.get(team.key, ())} if team else {}
    found: tuple[Habit, ...] = ()
    corners: tuple[OffBag, ...] = ()
    if team:
        rates, feet = findings.of_team("habits", team.key), findings.of_team("feet", team.key)
        found = habits(rates, feet, season.habit_kinds, team, season.program.thresholds)
        corners = off_bag(findings.of_team("off_bag", team.key), team)
    catcher = mine.get(series.catcher) if series and series.catcher else None
    return SeriesPage(
        address=address,
        title=series.title if series else season.program.name,
        home=address == "index",
        program=season.program.name,
        banner=season.program.policy.sentence,
        series=series,
        team=team,
        team_address=team_address(team) if team else "",
        infield_address=infield_address(team) if team else "",
        games=tuple(_game(p, mine, findings, season) for p in series.probables) if series else (),
        catcher=catcher_line(catcher, findings, season) if catcher else None,
        doors=doors(found, season.program.thresholds),
        corners=corners,
        lineup=tuple(mine.get(key, key) for key in series.lineup) if series else (),
        plan=tuple(line for line in series.plan if edition in line.editions) if series else (),
        bullpen=tuple(_rest(state, mine) for state in series.bullpen) if series else (),
        others=others,
        opponents=tuple((t.name, team_address(t)) for t in season.teams.values() if not t.own),
        built=built,
        as_of=season.as_of,
    )


def _game(probable: Probable, mine: Mapping[str, Person], findings: Findings, season: Season) -> Game:
    person = mine.get(probable.pitcher)
    line = staff_line(person, findings, season) if person else None
    return Game(probable.game, probable.date, line, probable.pitcher)


def _rest(state: BullpenState, mine: Mapping[str, Person]) -> Rest:
    person = mine.get(state.player)
    return Rest(person.title if person else state.player, person, state)
