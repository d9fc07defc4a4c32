"""A season as a book: every page's markdown, charts, facts and search entries."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from scoutgen.pages.book import Book, Page, SearchEntry
from scoutgen.pages.changed import MENU as CHANGED_MENU
from scoutgen.pages.changed import NOT_COMPARED, ChangedPage, Earlier, changed_page
from scoutgen.pages.charting_sheets import SheetsPage, charting_sheets
from scoutgen.pages.charts import chart_key
from scoutgen.pages.data_quality import data_quality
from scoutgen.pages.evaluation import BESIDE, EvaluationPage, grades_and_measures
from scoutgen.pages.evaluations import Evaluations, evaluation_book, evaluations
from scoutgen.pages.facts import facts, facts_address
from scoutgen.pages.finding import (
    ANYBODY,
    CHANGED_WORDS,
    CHARTING_WORDS,
    IN_SERIES,
    NOT_KNOWN_WORDS,
    PROBABLE,
    infield_entry,
    opponent_entry,
    player_entry,
)
from scoutgen.pages.findings import Findings, find
from scoutgen.pages.guide import guide_pages
from scoutgen.pages.infield import infield_page
from scoutgen.pages.markdown import render
from scoutgen.pages.not_known import MENU as NOT_KNOWN_MENU
from scoutgen.pages.not_known import NotKnownPage, not_known_page
from scoutgen.pages.opponent import coming, opponent_page, opponents_in_order
from scoutgen.pages.people import Person, asked_about, people
from scoutgen.pages.player import player_page
from scoutgen.pages.printed import Printed
from scoutgen.pages.said import Said
from scoutgen.pages.sayings import Shown, sayings
from scoutgen.pages.series import SeriesPage, series_pages
from scoutgen.pages.series_book import series_book
from scoutgen.pages.teams import MENU as TEAMS_MENU
from scoutgen.pages.teams import TEAMS_WORDS, TeamsPage, teams_page
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
    progress: Callable[[int, int], None] | None = None,
) -> Book:
    """Write every page of one edition.

    Args:
        season: the validated season.
        edition: for whom; what it may not know is left out before anything is measured.
        built: when, in words, as it stands on every page.
        compared_with: from what this build says to what an earlier one said, for the page of what changed.
        printed: cards printed before, by the address of their page.
        progress: called with the pages written so far and the pages to write.
    """
    season = for_edition(season, edition)
    if not SHOWS[edition].game_plan:
        return evaluation_book(season, edition=edition, built=built, compared_with=compared_with, progress=progress)
    evaluated = None
    if SHOWS[edition].evaluations:
        evaluated = evaluations(evaluation_part(season), place=BESIDE, built=built)
    return _game_book(
        game_part(season),
        evaluated,
        edition=edition,
        built=built,
        compared_with=compared_with,
        printed=printed or {},
        progress=progress,
    )


def _game_book(
    season: Season,
    evaluated: Evaluations | None,
    *,
    edition: str,
    built: str,
    compared_with: Callable[[Said], Earlier],
    printed: Mapping[str, Printed],
    progress: Callable[[int, int], None] | None,
) -> Book:
    """The book of an edition with the game plan, from the season as it may know it; evaluations where it has them."""
    everybody = people(season)
    persons = [person for men in everybody.values() for person in men]
    teams = opponents_in_order(season)
    nearest = coming(season.series, season.as_of)[:1]
    findings = find(season, asked_about(persons, teams), nearest[0] if nearest else None)
    blanks = charting_sheets(season, built=built)
    guides = tuple(guide_pages(_near_first(persons, nearest), findings, season, edition=edition))
    # Not known before the series' pages, of which there are few, have been written.
    total = 0
    pages: list[Page] = []

    def put(more: Iterable[Page]) -> None:
        for page in more:
            pages.append(page)
            if progress and total:
                progress(len(pages), total)

    fronts = series_pages(everybody, findings, season, edition=edition, built=built)
    shown = Shown(list(fronts))
    news_at = 0
    for front in fronts:
        put(series_book(front, everybody, findings, season, shown, printed=printed, edition=edition, built=built))
        news_at = news_at or len(pages)
    running = next((front.running_address for front in fronts if front.running_address), "")
    total = len(pages) + len(persons) + 3 * len(teams) + len(blanks) + len(guides) + 1 + SHOWS[edition].data_quality
    total += (len(evaluated.men) + 2 if evaluated else 0) + bool(teams)
    graded = {page.person.address: page for page in evaluated.men} if evaluated else {}
    if teams:
        put([_teams_page(teams_page(teams, nearest, findings, season, built=built))])
    for team in teams:
        put(
            _of_team(
                team,
                everybody[team.key],
                findings,
                season,
                shown,
                graded=graded,
                nearest=nearest,
                running=running,
                built=built,
            )
        )
    if evaluated:
        put(evaluated.pages())
    put(_blank_page(blank) for blank in blanks)
    put(guides)
    put(data_quality(season, edition=edition, built=built))
    said = sayings(shown, season) | (evaluated.sayings() if evaluated else {})
    news = changed_page(
        compared_with(said), said, {page.address for page in pages}, coming=_against(fronts[0]), built=built,
        as_of=season.as_of,
    )  # fmt: skip
    put([_news_page(news)])
    home = replace(pages[0], markdown=render("series.md.j2", page=fronts[0], news=news))
    ordered = (home, *_early_first(pages[1:], news_at - 1))
    charts = {key: chart for man in shown.men for key, chart in man.charts.items()}
    numbers = {
        facts_address(man.person): facts(
            man.person, findings, as_of=season.as_of, built=built, beside=_with_grades(graded.get(man.address))
        )
        for man in shown.men
    }
    return Book(ordered, charts, numbers, said, policy=season.program.policy.short)


def _of_team(
    team: Team,
    men: Sequence[Person],
    findings: Findings,
    season: Season,
    shown: Shown,
    *,
    graded: Mapping[str, EvaluationPage],
    nearest: Sequence[Series],
    running: str,
    built: str,
) -> Iterator[Page]:
    """An opponent's page, his infield, what is not known of him, and a page on each of his men."""
    ours = next((series for series in nearest if series.opponent == team.key), None)
    ahead = ours if ours and ours.end >= season.as_of else None
    near = IN_SERIES if ours else ANYBODY
    about = opponent_page(team, men, findings, season, built=built)
    text = render("opponent.md.j2", page=about)
    yield Page(about.address, about.title, text, (opponent_entry(about, nearness=near),), ("Opponents", team.name))
    field = infield_page(team, men, findings, season, built=built)
    text = render("infield.md.j2", page=field)
    yield Page(field.address, field.title, text, (infield_entry(field, nearness=near),))
    shown.teams.append((about, field))
    yield _list_page(
        not_known_page(team, men, findings, season, series=ahead, teams=opponents_in_order(season), built=built)
    )
    starters = {probable.pitcher for probable in ours.probables} if ours else set()
    for person in men:
        his = player_page(
            person,
            findings,
            season,
            with_him=_with_him(person, men, nearest),
            running_address=running if ours else "",
            evaluation_address=graded[person.address].address if person.address in graded else "",
            built=built,
        )
        shown.men.append(his)
        text = render("player.md.j2", page=his, chart_key=chart_key)
        entry = player_entry(his, nearness=PROBABLE if person.man.key in starters else near)
        yield Page(his.address, his.title, text, (entry,))


def _with_grades(page: EvaluationPage | None) -> dict[str, Any]:
    """A man's grades with what was measured beside them; nothing where the edition or he has none."""
    return grades_and_measures(page) if page else {}


def _against(home: SeriesPage) -> str:
    """Whom we meet next, by name; empty where no series is ahead."""
    return home.team.name if home.team and not home.past else ""


def _teams_page(every: TeamsPage) -> Page:
    entry = SearchEntry(every.title, TEAMS_WORDS, keys="opponents all")
    return Page(every.address, every.title, render("teams.md.j2", page=every), (entry,), TEAMS_MENU)


def _news_page(news: ChangedPage) -> Page:
    entry = SearchEntry(news.title, CHANGED_WORDS, keys="new since last night")
    return Page(news.address, news.title, render("changed.md.j2", page=news), (entry,), CHANGED_MENU)


def _list_page(todo: NotKnownPage) -> Page:
    """A team's charting list; of those to be found the next game's comes first."""
    entry = SearchEntry(
        todo.title,
        NOT_KNOWN_WORDS,
        boost=PROBABLE if todo.series else ANYBODY,
        keys="what to chart next charting list to-do",
    )
    return Page(todo.address, todo.title, render("not-known.md.j2", page=todo), (entry,), todo.menu)


def _early_first(pages: Sequence[Page], place: int) -> Iterator[Page]:
    """What changed and what is not known yet, which are written late, stand in the menu behind the coming series."""
    early = [page for page in reversed(pages) if page.menu in (CHANGED_MENU, NOT_KNOWN_MENU)]
    yield from (*pages[:place], *early, *(page for page in pages[place:] if page not in early))


def _with_him(person: Person, men: Sequence[Person], nearest: Sequence[Series]) -> list[Person]:
    """Whom our runners meet beside him: the likely catcher, or of a catcher the coming series' starters."""
    series = next((s for s in nearest if s.opponent == person.team.key), None)
    if person.pitches:
        catchers = [other for other in men if other.catches]
        named = [other for other in catchers if series and other.man.key == series.catcher]
        return (named or catchers)[:1]
    if person.catches and series:
        starters = [probable.pitcher for probable in series.probables]
        return sorted((p for p in men if p.man.key in starters), key=lambda p: starters.index(p.man.key))
    return []


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
