"""An opponent's share of the book: his page, his infield, what is not known of him, and a page on each of his men."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from scoutgen.pages.book import Page, SearchEntry, TeamBook
from scoutgen.pages.charts import chart_key
from scoutgen.pages.facts import facts, facts_address
from scoutgen.pages.finding import (
    ANYBODY,
    IN_SERIES,
    NOT_KNOWN_WORDS,
    PROBABLE,
    infield_entry,
    opponent_entry,
    player_entry,
)
from scoutgen.pages.findings import TABLES, Findings
from scoutgen.pages.infield import InfieldPage, infield_page
from scoutgen.pages.markdown import render
from scoutgen.pages.not_known import MENU as NOT_KNOWN_MENU
from scoutgen.pages.not_known import NotKnownPage, not_known_address, not_known_page
from scoutgen.pages.opponent import OpponentPage, opponent_page, opponents_in_order
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.player import PlayerPage, player_page
from scoutgen.pages.said import Said
from scoutgen.pages.sayings import sayings_of_team
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series


@dataclass(frozen=True)
class Graded:
    """Of a man with an evaluation: where it stands, and what his facts say of it."""

    address: str
    facts: Mapping[str, Any]


@dataclass(frozen=True)
class TeamSources:
    """All that an opponent's pages come from, but for what was found of him and when the build was.

    Attributes:
        team: who.
        men: his men.
        season: what his pages may ask of it, from `season_about`.
        nearest: the series we play next; none where the season is over.
        order: whom we meet first, by team and key.
        running: where the page of who can go stands; empty for none.
        graded: his men with an evaluation, by the address of their page.
    """

    team: Team
    men: Sequence[Person]
    season: Season
    nearest: Sequence[Series]
    order: Mapping[tuple[str, str], int]
    running: str
    graded: Mapping[str, Graded]

    @property
    def met_next(self) -> Series | None:
        """The nearest series, if it is with this team."""
        return next((series for series in self.nearest if series.opponent == self.team.key), None)

    @property
    def ahead(self) -> Series | None:
        """The same, if it is not over."""
        return self.met_next if self.met_next and self.met_next.end >= self.season.as_of else None


def season_about(season: Season, team: Team) -> Season:
    """A season without what no page on a team asks for: charts, and of the other teams all but their names."""
    nothing: dict[str, Any] = {name: getattr(season, name).iloc[:0] for name in (*TABLES, "games")}
    return replace(
        season,
        teams={
            key: one if key == team.key else Team(key, one.name, own=one.own, listed=one.listed)
            for key, one in season.teams.items()
        },
        entries={who: entry for who, entry in season.entries.items() if who[0] == team.key},
        pages=(),
        warnings=(),
        skipped=(),
        **nothing,
    )


def team_outline(sources: TeamSources) -> TeamBook:
    """The pages of a team as the menu and links know them, with nothing on them."""
    team = sources.team
    return TeamBook(
        (
            Page(team_address(team), team.name, "", menu=("Opponents", team.name)),
            Page(infield_address(team), "", ""),
            Page(not_known_address(team), "", "", menu=NOT_KNOWN_MENU if sources.ahead else ()),
            *(Page(person.address, person.title, "") for person in sources.men),
        )
    )


def team_said(sources: TeamSources, findings: Findings, *, built: str) -> Said:
    """What a team's pages would say, without writing them; arguments as in `team_book`."""
    return _Writer(sources, findings, built).said()


def team_book(
    sources: TeamSources, findings: Findings, *, built: str, written: Callable[[int], None] | None = None
) -> TeamBook:
    """Write a team's pages.

    Args:
        sources: what they come from.
        findings: what was found of the team.
        built: when, in words.
        written: called with 1 after each page.
    """
    writer = _Writer(sources, findings, built)
    pages = []
    for page in writer.pages():
        pages.append(page)
        if written:
            written(1)
    charts = {key: chart for man in writer.men for key, chart in man.charts.items()}
    numbers = {facts_address(man.person): writer.facts(man) for man in writer.men}
    return TeamBook(tuple(pages), charts, numbers, writer.said())


class _Writer:
    def __init__(self, sources: TeamSources, findings: Findings, built: str) -> None:
        self._sources, self._findings, self._built = sources, findings, built
        team, men, season = sources.team, sources.men, sources.season
        self._about: OpponentPage = opponent_page(team, men, findings, season, built=built)
        self._field: InfieldPage = infield_page(team, men, findings, season, built=built)
        self.men = [self._man(person) for person in men]

    def said(self) -> Said:
        return sayings_of_team(self._about, self._field, self.men, self._sources.order)

    def pages(self) -> Iterator[Page]:
        sources, about, field = self._sources, self._about, self._field
        near = IN_SERIES if sources.met_next else ANYBODY
        text, menu = render("opponent.md.j2", page=about), ("Opponents", sources.team.name)
        yield Page(about.address, about.title, text, (opponent_entry(about, nearness=near),), menu)
        text = render("infield.md.j2", page=field)
        yield Page(field.address, field.title, text, (infield_entry(field, nearness=near),))
        teams = opponents_in_order(sources.season)
        yield _list_page(
            not_known_page(
                sources.team,
                sources.men,
                self._findings,
                sources.season,
                series=sources.ahead,
                teams=teams,
                built=self._built,
            )
        )
        starters = {probable.pitcher for probable in sources.met_next.probables} if sources.met_next else set()
        for man in self.men:
            text = render("player.md.j2", page=man, chart_key=chart_key)
            entry = player_entry(man, nearness=PROBABLE if man.person.man.key in starters else near)
            yield Page(man.address, man.title, text, (entry,))

    def facts(self, man: PlayerPage) -> str:
        graded = self._sources.graded.get(man.address)
        beside = graded.facts if graded else {}
        return facts(man.person, self._findings, as_of=self._sources.season.as_of, built=self._built, beside=beside)

    def _man(self, person: Person) -> PlayerPage:
        sources = self._sources
        graded = sources.graded.get(person.address)
        return player_page(
            person,
            self._findings,
            sources.season,
            with_him=self._with_him(person),
            running_address=sources.running if sources.met_next else "",
            evaluation_address=graded.address if graded else "",
            built=self._built,
        )

    def _with_him(self, person: Person) -> list[Person]:
        """Whom our runners meet beside him: the likely catcher, or of a catcher the coming series' starters."""
        men, series = self._sources.men, self._sources.met_next
        if person.pitches:
            catchers = [other for other in men if other.catches]
            named = [other for other in catchers if series and other.man.key == series.catcher]
            return (named or catchers)[:1]
        if person.catches and series:
            starters = [probable.pitcher for probable in series.probables]
            return sorted((p for p in men if p.man.key in starters), key=lambda p: starters.index(p.man.key))
        return []


def _list_page(asked: NotKnownPage) -> Page:
    """A team's charting list; of those to be found the next game's comes first."""
    entry = SearchEntry(
        asked.title,
        NOT_KNOWN_WORDS,
        boost=PROBABLE if asked.series else ANYBODY,
        keys="what to chart next charting list to-do",
    )
    return Page(asked.address, asked.title, render("not-known.md.j2", page=asked), (entry,), asked.menu)
