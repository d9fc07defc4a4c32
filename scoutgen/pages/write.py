"""A season as a book: every page's markdown, charts, facts and search entries."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from scoutgen.pages.book import Book, Page, SearchEntry
from scoutgen.pages.changed import MENU as CHANGED_MENU
from scoutgen.pages.changed import NOT_COMPARED, ChangedPage, Earlier, changed_page
from scoutgen.pages.charting_sheets import SheetsPage, charting_sheets
from scoutgen.pages.data_quality import data_quality
from scoutgen.pages.evaluation import ALONE, BESIDE, grades_and_measures
from scoutgen.pages.evaluations import Evaluations, evaluation_book, evaluations
from scoutgen.pages.facts import team_facts, team_facts_address
from scoutgen.pages.finding import CHANGED_WORDS, CHARTING_WORDS
from scoutgen.pages.findings import Findings
from scoutgen.pages.guide import guide_pages
from scoutgen.pages.kept_findings import kept_or_found
from scoutgen.pages.markdown import render
from scoutgen.pages.measured import find_measured
from scoutgen.pages.not_known import MENU as NOT_KNOWN_MENU
from scoutgen.pages.opponent import coming, opponents_in_order
from scoutgen.pages.people import Person, asked_about, people
from scoutgen.pages.printed import Printed
from scoutgen.pages.said import Said, Saying
from scoutgen.pages.sayings import Shown, sayings
from scoutgen.pages.series import SeriesPage, series_pages
from scoutgen.pages.series_book import series_book
from scoutgen.pages.table_bytes import TableShelf
from scoutgen.pages.team_books import TeamBooks
from scoutgen.pages.team_pages import Graded
from scoutgen.pages.team_text import Shelf
from scoutgen.pages.teams import ADDRESS as TEAMS_ADDRESS
from scoutgen.pages.teams import MENU as TEAMS_MENU
from scoutgen.pages.teams import TEAMS_WORDS, teams_page
from scoutgen.pages.teams import TITLE as TEAMS_TITLE
from scoutgen.records.editions import SHOWS, evaluation_part, for_edition, game_part
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series


def write_book(
    season: Season,
    *,
    edition: str,
    built: str,
    compared_with: Callable[[Said], Earlier] = lambda _: NOT_COMPARED,
    printed: Mapping[str, Printed] | None = None,
    tables: TableShelf | None = None,
    shelf: Shelf | None = None,
    only: Collection[str] | None = None,
    of_teams: bool = False,
    progress: Callable[[int, int], None] | None = None,
) -> Book:
    """Write every page of one edition.

    Args:
        season: the validated season.
        edition: for whom; what it may not know is left out before anything is measured.
        built: when, in words, as it stands on every page.
        compared_with: from what this build says to what an earlier one said, for the page of what changed.
        printed: cards printed before, by the address of their page.
        tables: where measures are kept between builds; they are worked out anew without one.
        shelf: where opponents' shares of the book are kept between builds; they are written anew without one.
        only: the teams whose pages are asked for; of all others there are addresses and nothing on them.
        of_teams: the facts have those of whole teams too, as an export does.
        progress: called with the pages written so far and the pages to write.
    """
    season = for_edition(season, edition)
    if not SHOWS[edition].game_plan:
        return evaluation_book(season, edition=edition, built=built, compared_with=compared_with, progress=progress)
    game = _measured(season, edition=edition, built=built, printed=printed or {}, tables=tables, only=only)
    book = _game_book(game, game.books(shelf, only), compared_with=compared_with, progress=progress)
    return replace(book, facts={**book.facts, **_of_teams(game)}) if of_teams else book


def write_said(season: Season, *, edition: str, built: str) -> Said:
    """What the book of this season would say, without writing its pages; arguments as in `write_book`."""
    season = for_edition(season, edition)
    if not SHOWS[edition].game_plan:
        return evaluations(season, find_measured(season), place=ALONE, built=built).sayings()
    game = _measured(season, edition=edition, built=built, printed={})
    return _said(game, game.books().said(game.teams))


@dataclass(frozen=True)
class _Game:
    """What is worked out before an opponent's pages can be written, the pages on series among it.

    Attributes:
        season: as the pages about a game may know it.
        everybody: the men of every team by its key.
        teams: those we play, as the menu has them.
        nearest: the series we play next; none where the season is over.
        fronts, shown: the series, and the view models of their pages.
        first: the pages of the series we play next, or of the last one.
        others: those of the other series.
        evaluated: the evaluations; None where the edition has none.
    """

    season: Season
    edition: str
    built: str
    everybody: Mapping[str, Sequence[Person]]
    teams: Sequence[Team]
    nearest: Sequence[Series]
    findings: Findings
    fronts: Sequence[SeriesPage]
    shown: Shown
    first: Sequence[Page]
    others: Sequence[Page]
    evaluated: Evaluations | None

    @property
    def persons(self) -> list[Person]:
        """Every man of every team."""
        return [person for men in self.everybody.values() for person in men]

    def books(self, shelf: Shelf | None = None, only: Collection[str] | None = None) -> TeamBooks:
        """What writes the opponents' pages; arguments as there."""
        men = self.evaluated.men if self.evaluated else ()
        return TeamBooks(
            self.everybody,
            self.findings,
            self.season,
            fronts=self.fronts,
            nearest=self.nearest,
            running=next((front.running_address for front in self.fronts if front.running_address), ""),
            graded={page.person.address: Graded(page.address, grades_and_measures(page)) for page in men},
            built=self.built,
            shelf=shelf,
            only=only,
        )


def _measured(
    whole: Season,
    *,
    edition: str,
    built: str,
    printed: Mapping[str, Printed],
    tables: TableShelf | None = None,
    only: Collection[str] | None = None,
) -> _Game:
    """Measure a season as an edition with the game plan may know it, and write the pages of its series."""
    # Grades are kept apart before anything is measured, so that no page about a game can show one.
    season = game_part(whole)
    everybody, teams = people(season), opponents_in_order(season)
    nearest = coming(season.series, season.as_of)[:1]
    persons = [person for men in everybody.values() for person in men]
    # The pages of the series ask for whom they are with, whoever's pages are made.
    met = {one.opponent for one in season.series}
    asked = asked_about(persons, teams)
    findings = kept_or_found(season, asked, nearest[0] if nearest else None, tables, only=only, beside=met)
    evaluated = None
    if SHOWS[edition].evaluations:
        evaluated = evaluations(evaluation_part(whole), findings, place=BESIDE, built=built, only=only)
    fronts = series_pages(everybody, findings, season, edition=edition, built=built)
    shown = Shown(list(fronts))
    first, *others = (
        tuple(series_book(front, everybody, findings, season, shown, printed=printed, edition=edition, built=built))
        for front in fronts
    )
    return _Game(
        *(season, edition, built, everybody, teams, nearest, findings, fronts, shown),
        first=first,
        others=[page for pages in others for page in pages],
        evaluated=evaluated,
    )


def _of_teams(game: _Game) -> dict[str, str]:
    as_of, built = game.season.as_of, game.built
    return {team_facts_address(team): team_facts(team, game.findings, as_of=as_of, built=built) for team in game.teams}


def _said(game: _Game, of_teams: Iterable[Said]) -> dict[str, Saying]:
    """All that is said, evaluations last."""
    said = sayings(game.shown, of_teams, game.season)
    return said | game.evaluated.sayings() if game.evaluated else said


def _game_book(
    game: _Game,
    books: TeamBooks,
    *,
    compared_with: Callable[[Said], Earlier],
    progress: Callable[[int, int], None] | None,
) -> Book:
    """The book of an edition with the game plan, in the order of the menu."""
    season, edition, built = game.season, game.edition, game.built
    blanks = charting_sheets(season, built=built)
    # Of a part nobody reads the example, and to look for one would measure team after team.
    examples = _near_first(game.persons, game.nearest) if books.only is None else []
    guides = tuple(guide_pages(examples, game.findings, season, edition=edition))
    sides = len(game.first) + len(game.others) + len(blanks) + len(guides) + SHOWS[edition].data_quality
    graded = len(game.evaluated.men) + 2 if game.evaluated else 0
    # The page of what changed too, and that of all teams.
    total = sides + graded + len(game.persons) + 3 * len(game.teams) + 1 + bool(game.teams)
    pages = [*game.first, *game.others]
    done = len(pages)

    def written(more: int) -> None:
        nonlocal done
        done += more
        if progress:
            progress(done, total)

    def put(more: Iterable[Page]) -> None:
        for page in more:
            pages.append(page)
            written(1)

    if game.teams:
        put([_teams_page(game) if books.only is None else Page(TEAMS_ADDRESS, TEAMS_TITLE, "", menu=TEAMS_MENU)])
    of_teams = books.of(game.teams, written)
    pages += [page for book in of_teams for page in book.pages]
    if game.evaluated:
        put(game.evaluated.pages())
    put(_blank_page(blank) for blank in blanks)
    put(guides)
    put(data_quality(season, edition=edition, built=built))
    said = _said(game, [book.said for book in of_teams])
    front = game.fronts[0]
    news = changed_page(
        compared_with(said), said, {page.address for page in pages}, coming=_against(front), built=built,
        as_of=season.as_of,
    )  # fmt: skip
    put([_news_page(news)])
    home = replace(pages[0], markdown=render("series.md.j2", page=front, news=news))
    return Book(
        pages=(home, *_early_first(pages[1:], len(game.first) - 1)),
        charts={key: chart for book in of_teams for key, chart in book.charts.items()},
        facts={address: text for book in of_teams for address, text in book.facts.items()},
        said=said,
        policy=season.program.policy.short,
        asked=books.asked(of_teams),
    )


def _against(home: SeriesPage) -> str:
    """Whom we meet next, by name; empty where no series is ahead."""
    return home.team.name if home.team and not home.past else ""


def _teams_page(game: _Game) -> Page:
    every = teams_page(game.teams, game.nearest, game.findings, game.season, built=game.built)
    entry = SearchEntry(every.title, TEAMS_WORDS, keys="opponents all")
    return Page(every.address, every.title, render("teams.md.j2", page=every), (entry,), TEAMS_MENU)


def _news_page(news: ChangedPage) -> Page:
    entry = SearchEntry(news.title, CHANGED_WORDS, keys="new since last night")
    return Page(news.address, news.title, render("changed.md.j2", page=news), (entry,), CHANGED_MENU)


def _early_first(pages: Sequence[Page], place: int) -> Iterator[Page]:
    """What changed and what is not known yet, which are written late, stand in the menu behind the coming series."""
    early = [page for page in reversed(pages) if page.menu in (CHANGED_MENU, NOT_KNOWN_MENU)]
    yield from (*pages[:place], *early, *(page for page in pages[place:] if page not in early))


def _blank_page(blank: SheetsPage) -> Page:
    entry = SearchEntry(blank.title, CHARTING_WORDS)
    return Page(blank.address, blank.title, render("charting-sheets.md.j2", page=blank), (entry,), blank.menu)


def _near_first(persons: Sequence[Person], nearest: Sequence[Series]) -> list[Person]:
    """Everybody: the coming starters in their order, then those of their team and then all who were charted most."""
    opponent = nearest[0].opponent if nearest else None
    starters = [p.pitcher for p in nearest[0].probables] if nearest else []

    def place(person: Person) -> tuple[bool, int, int]:
        theirs = person.team.key == opponent
        start = starters.index(person.man.key) if theirs and person.man.key in starters else len(starters)
        return not theirs, start, -person.charted

    return sorted(persons, key=place)
