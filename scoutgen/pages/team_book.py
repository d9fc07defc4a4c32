"""An opponent as a share of the book: his page, his infield, what is not known of him, a page on each of his men."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from scoutgen.pages.book import Chart, Page, SearchEntry
from scoutgen.pages.charts import chart_key
from scoutgen.pages.evaluation import EvaluationPage, grades_and_measures
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
from scoutgen.pages.findings import Findings
from scoutgen.pages.infield import InfieldPage, infield_page
from scoutgen.pages.markdown import render
from scoutgen.pages.not_known import NotKnownPage, not_known_page
from scoutgen.pages.opponent import OpponentPage, opponent_page, opponents_in_order
from scoutgen.pages.people import Person
from scoutgen.pages.player import PlayerPage, player_page
from scoutgen.pages.said import Saying
from scoutgen.pages.sayings import order_of, sayings_of_team
from scoutgen.pages.series import SeriesPage
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series
from scoutgen.records.side_by_side import shares, side_by_side


@dataclass(frozen=True)
class TeamBook:
    """What the book has of one opponent; as in `Book`."""

    pages: tuple[Page, ...] = ()
    charts: Mapping[str, Chart] = field(default_factory=dict)
    facts: Mapping[str, str] = field(default_factory=dict)
    said: Mapping[str, Saying] = field(default_factory=dict)


@dataclass(frozen=True)
class TeamBooks:
    """Writes opponents one by one.

    Attributes:
        everybody: the men of every team by its key.
        findings: the season's measures.
        season: as the edition may know it.
        fronts: the series, as their own pages have them.
        nearest: the series we play next; none where the season is over.
        running: where its page of who can go stands; empty for none.
        graded: what was found of the men with an evaluation, by the address of their page.
        built: when, in words.
        said_only: what the pages say is asked for, and not the pages.
    """

    everybody: Mapping[str, Sequence[Person]]
    findings: Findings
    season: Season
    fronts: Sequence[SeriesPage]
    nearest: Sequence[Series]
    running: str
    graded: Mapping[str, EvaluationPage]
    built: str
    said_only: bool = False

    def of(self, teams: Sequence[Team], written: Callable[[int], None] | None = None) -> list[TeamBook]:
        """The books of some teams, in their order, worked out side by side.

        Args:
            teams: whose.
            written: called with the number of pages more that are written.
        """
        runs = shares(teams, lambda team: 1 + len(self.everybody[team.key]))
        # A copy has nobody to tell how far it is.
        books = side_by_side([partial(self._some, run, None if at else written) for at, run in enumerate(runs)])
        if written:
            written(sum(len(book.pages) for some in books[1:] for book in some))
        return [book for some in books for book in some]

    def _some(self, teams: Sequence[Team], written: Callable[[int], None] | None) -> list[TeamBook]:
        return [self._one(team, written) for team in teams]

    def _one(self, team: Team, written: Callable[[int], None] | None) -> TeamBook:
        men, season = self.everybody[team.key], self.season
        about = opponent_page(team, men, self.findings, season, built=self.built)
        field_page = infield_page(team, men, self.findings, season, built=self.built)
        every = [self._man(person, men) for person in men]
        said = sayings_of_team(about, field_page, every, order_of(self.fronts))
        if self.said_only:
            return TeamBook(said=said)
        pages = []
        for page in (*self._of_the_team(about, field_page, men), *map(self._written, every)):
            pages.append(page)
            if written:
                written(1)
        charts = {key: chart for man in every for key, chart in man.charts.items()}
        numbers = {facts_address(man.person): self._facts(man) for man in every}
        return TeamBook(tuple(pages), charts, numbers, said)

    def _of_the_team(self, about: OpponentPage, field_page: InfieldPage, men: Sequence[Person]) -> Iterator[Page]:
        team, season = about.team, self.season
        ours = self._met_next(team.key)
        near = IN_SERIES if ours else ANYBODY
        text = render("opponent.md.j2", page=about)
        yield Page(about.address, about.title, text, (opponent_entry(about, nearness=near),), ("Opponents", team.name))
        text = render("infield.md.j2", page=field_page)
        yield Page(field_page.address, field_page.title, text, (infield_entry(field_page, nearness=near),))
        ahead = ours if ours and ours.end >= season.as_of else None
        teams = opponents_in_order(season)
        yield _list_page(not_known_page(team, men, self.findings, season, series=ahead, teams=teams, built=self.built))

    def _man(self, person: Person, men: Sequence[Person]) -> PlayerPage:
        graded = self.graded.get(person.address)
        return player_page(
            person,
            self.findings,
            self.season,
            with_him=self._with_him(person, men),
            running_address=self.running if self._met_next(person.team.key) else "",
            evaluation_address=graded.address if graded else "",
            built=self.built,
        )

    def _written(self, man: PlayerPage) -> Page:
        ours = self._met_next(man.person.team.key)
        starters = {probable.pitcher for probable in ours.probables} if ours else set()
        near = PROBABLE if man.person.man.key in starters else IN_SERIES if ours else ANYBODY
        text = render("player.md.j2", page=man, chart_key=chart_key)
        return Page(man.address, man.title, text, (player_entry(man, nearness=near),))

    def _facts(self, man: PlayerPage) -> str:
        graded = self.graded.get(man.address)
        beside = grades_and_measures(graded) if graded else {}
        return facts(man.person, self.findings, as_of=self.season.as_of, built=self.built, beside=beside)

    def _met_next(self, team: str) -> Series | None:
        return next((series for series in self.nearest if series.opponent == team), None)

    def _with_him(self, person: Person, men: Sequence[Person]) -> list[Person]:
        """Whom our runners meet beside him: the likely catcher, or of a catcher the coming series' starters."""
        series = self._met_next(person.team.key)
        if person.pitches:
            catchers = [other for other in men if other.catches]
            named = [other for other in catchers if series and other.man.key == series.catcher]
            return (named or catchers)[:1]
        if person.catches and series:
            starters = [probable.pitcher for probable in series.probables]
            return sorted((p for p in men if p.man.key in starters), key=lambda p: starters.index(p.man.key))
        return []


def _list_page(todo: NotKnownPage) -> Page:
    """A team's charting list; of those to be found the next game's comes first."""
    entry = SearchEntry(
        todo.title,
        NOT_KNOWN_WORDS,
        boost=PROBABLE if todo.series else ANYBODY,
        keys="what to chart next charting list to-do",
    )
    return Page(todo.address, todo.title, render("not-known.md.j2", page=todo), (entry,), todo.menu)
