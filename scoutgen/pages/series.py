"""The coming series: who pitches when, what to look for, which habits can become a run, how fresh it all is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from scoutgen.pages.findings import Findings
from scoutgen.pages.habits import Habit, doors, habits
from scoutgen.pages.opponent import CatcherLine, StaffLine, catcher_line, coming, opponents_in_order, staff_line
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.positions import OffBag, off_bag
from scoutgen.pages.teams import ADDRESS as TEAMS_ADDRESS
from scoutgen.records.editions import SHOWS
from scoutgen.records.opponents import Team
from scoutgen.records.program import Thresholds
from scoutgen.records.season import Season
from scoutgen.records.series import BullpenState, PlanLine, Probable, Series

_RESTED: Final = {"available": "available", "limited": "limited", "no": "not available"}


@dataclass(frozen=True)
class Game:
    """One game of a series and their probable starter; `line` is None where he has no page."""

    label: str
    day: date | None
    line: StaffLine | None
    pitcher: str


@dataclass(frozen=True)
class Work:
    """Pitches of one man in charted games before the day of the site.

    Attributes:
        last_day, last_pitches: his last day and what he threw on it; `days_ago` from the day of the site.
        recent: pitches of the last four days.
        days_in_a_row: days he pitched without one between, up to the day before.
    """

    last_day: date
    last_pitches: int
    days_ago: int
    recent: int
    days_in_a_row: int


@dataclass(frozen=True)
class Rest:
    """How rested one of their relievers is: what the staff wrote, and what he threw in charted games."""

    name: str
    person: Person | None
    state: BullpenState
    work: Work | None


@dataclass(frozen=True)
class SeriesPage:
    """All that a series' page says; the home page is the one of the coming series.

    Attributes:
        home: it is the home page.
        series: None on the home page of a project without a series.
        past: it is over; the numbers are of all that was charted since, too.
        doors: habits of theirs that open something, the surest first; the catcher's with a runner on third stand with
            him, and feet with the corners.
        corners: feet off the bag of the corner infielders with a runner there: the men of the likely lineup, or
            whoever played there.
        teams_address: the page that lists them.
        opponents: name, address and whether a file describes them; the series' opponent first.
        running_address, risk_address, levels_address: the pages of the running game and of where to stand; empty where
            there is none: a series that is over, an opponent without a file, for the risk an edition other than the
            staff's, for where to stand a series without a lineup.
    """

    address: str
    title: str
    home: bool
    program: str
    banner: str
    series: Series | None
    past: bool
    team: Team | None
    team_address: str
    infield_address: str
    running_address: str
    risk_address: str
    levels_address: str
    games: tuple[Game, ...]
    catcher: CatcherLine | None
    doors: tuple[Habit, ...]
    corners: tuple[OffBag, ...]
    lineup: tuple[Person | str, ...]
    plan: tuple[PlanLine, ...]
    bullpen: tuple[Rest, ...]
    others: tuple[tuple[str, str], ...]
    opponents: tuple[tuple[str, str, bool], ...]
    teams_address: str
    built: str
    as_of: date

    @property
    def rested(self) -> tuple[tuple[str, tuple[Rest, ...]], ...]:
        """Their relievers by how rested they are, who may come in first."""
        by_state = {words: tuple(r for r in self.bullpen if r.state.state == state) for state, words in _RESTED.items()}
        return tuple((words, men) for words, men in by_state.items() if men)


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
    limits = season.program.thresholds
    team = season.teams.get(series.opponent) if series else None
    mine = {person.man.key: person for person in people.get(team.key, ())} if team else {}
    found: tuple[Habit, ...] = ()
    line: CatcherLine | None = None
    corners: tuple[OffBag, ...] = ()
    if team:
        rates, feet = findings.of_team("habits", team.key), findings.of_team("feet", team.key)
        found = habits(rates, feet, season.habit_kinds, team, limits)
        corners = _corners(
            off_bag(findings.of_team("off_bag", team.key), team), series.lineup if series else (), limits
        )
    catcher = mine.get(series.catcher) if series and series.catcher else None
    if catcher:
        line = catcher_line(catcher, findings, season)
        told = {(h.player, h.kind.key) for h in line.third}
        found = tuple(h for h in found if (h.player, h.kind.key) not in told)
    runs = series is not None and team is not None and team.listed and series.end >= season.as_of
    at = f"{address}-" if address != "index" else ""
    return SeriesPage(
        address=address,
        title=series.title if series else season.program.name,
        home=address == "index",
        program=season.program.name,
        banner=season.program.policy.sentence,
        series=series,
        past=series is not None and series.end < season.as_of,
        team=team,
        team_address=team_address(team) if team else "",
        infield_address=infield_address(team) if team else "",
        running_address=f"{at}running" if runs else "",
        risk_address=f"{at}risk" if runs and SHOWS[edition].risk else "",
        levels_address=f"{at}levels" if runs and series is not None and series.lineup else "",
        games=tuple(_game(p, mine, findings, season) for p in series.probables) if series else (),
        catcher=line,
        doors=doors(h for h in found if h.kind.measured != "feet" and _plays(h, series)),
        corners=corners,
        lineup=tuple(mine.get(key, key) for key in series.lineup) if series else (),
        plan=series.plan if series else (),
        bullpen=tuple(_rest(state, mine, findings) for state in series.bullpen) if series else (),
        others=others,
        opponents=tuple((t.name, team_address(t), t.listed) for t in opponents_in_order(season)),
        teams_address=TEAMS_ADDRESS,
        built=built,
        as_of=season.as_of,
    )


def _plays(habit: Habit, series: Series | None) -> bool:
    """Whether a man is named for the series; everybody is where no lineup was written or only his position is known."""
    if series is None or not series.lineup or not habit.player:
        return True
    pitching = {p.pitcher for p in series.probables} | {b.player for b in series.bullpen if b.state != "no"}
    return habit.player in {*series.lineup, *pitching, series.catcher}


def _corners(found: tuple[OffBag, ...], lineup: Sequence[str], limits: Thresholds) -> tuple[OffBag, ...]:
    """At each corner the men of the lineup, or whoever played there; the base nearest home first."""
    enough = [c for c in found if c.n >= limits.few_looks]
    named = [c for c in enough if c.player in lineup]
    at = {c.position for c in named}
    return tuple(sorted([*named, *(c for c in enough if c.player == "all" and c.position not in at)],
                        key=lambda c: (-c.position, c.name)))  # fmt: skip


def _game(probable: Probable, mine: Mapping[str, Person], findings: Findings, season: Season) -> Game:
    person = mine.get(probable.pitcher)
    line = staff_line(person, findings, season) if person else None
    return Game(probable.game, probable.date, line, probable.pitcher)


def _rest(state: BullpenState, mine: Mapping[str, Person], findings: Findings) -> Rest:
    person = mine.get(state.player)
    rows = findings.of("workload", person.team.key, person.man.key) if person else ()
    work = next((Work(**{name: row[name] for name in Work.__dataclass_fields__}) for row in rows), None)
    return Rest(person.title if person else state.player, person, state, work)
