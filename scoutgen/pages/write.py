"""A season as a book: every page's markdown, charts, facts and search entries."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import pandas as pd

from scoutgen.pages.book import Book, Chart, Page, SearchEntry
from scoutgen.pages.cards import CardsIndex, CardsPage, card_pages
from scoutgen.pages.changed import MENU as CHANGED_MENU
from scoutgen.pages.changed import NOT_COMPARED, Earlier, changed_page
from scoutgen.pages.charting_sheets import SheetsPage, charting_sheets
from scoutgen.pages.charts import chart_key
from scoutgen.pages.evaluations import evaluation_book
from scoutgen.pages.facts import facts, facts_address
from scoutgen.pages.finding import (
    ANYBODY,
    CHANGED_WORDS,
    CHARTING_WORDS,
    IN_SERIES,
    LEVEL_WORDS,
    NOT_KNOWN_WORDS,
    PROBABLE,
    QUALITY_WORDS,
    RISK_WORDS,
    infield_entry,
    opponent_entry,
    player_entry,
    running_entry,
    series_entry,
)
from scoutgen.pages.findings import TABLES, Findings, find
from scoutgen.pages.guide import guide_pages
from scoutgen.pages.infield import infield_page
from scoutgen.pages.level_card import level_card
from scoutgen.pages.markdown import render
from scoutgen.pages.not_known import MENU as NOT_KNOWN_MENU
from scoutgen.pages.not_known import NotKnownPage, not_known_page
from scoutgen.pages.opponent import coming, opponent_page, opponents_in_order
from scoutgen.pages.people import Person, asked_about, people
from scoutgen.pages.player import player_page
from scoutgen.pages.printed import Printed, cells_of, with_marks
from scoutgen.pages.risk import risk_page
from scoutgen.pages.run_values import win_values
from scoutgen.pages.running import running_page
from scoutgen.pages.said import Said
from scoutgen.pages.sayings import Shown, sayings
from scoutgen.pages.series import SeriesPage, series_pages
from scoutgen.records.editions import SHOWS, for_edition
from scoutgen.records.problems import Problem
from scoutgen.records.season import Season
from scoutgen.records.series import Series


@dataclass(frozen=True)
class QualityPage:
    """What was read, and what was odd about it."""

    address: str
    warnings: tuple[Problem, ...]
    skipped: tuple[Problem, ...]
    rows_left_out: int
    files_left_out: int
    tables: tuple[tuple[str, int, int, date | None], ...]
    built: str
    as_of: date


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
        return evaluation_book(season, built=built, progress=progress)
    return _game_book(
        season,
        edition=edition,
        built=built,
        compared_with=compared_with,
        printed=printed or {},
        progress=progress,
    )


def _game_book(
    season: Season,
    *,
    edition: str,
    built: str,
    compared_with: Callable[[Said], Earlier],
    printed: Mapping[str, Printed],
    progress: Callable[[int, int], None] | None,
) -> Book:
    """The book of an edition with the game plan, from the season as it may know it."""
    everybody = people(season)
    persons = [person for men in everybody.values() for person in men]
    teams = opponents_in_order(season)
    nearest = coming(season.series, season.as_of)[:1]
    findings = find(season, asked_about(persons, teams), nearest[0] if nearest else None)
    opponent = nearest[0].opponent if nearest else None
    ahead = {series.opponent: series for series in nearest if series.end >= season.as_of}
    starters = {p.pitcher for p in nearest[0].probables} if nearest else set()
    blanks = charting_sheets(season, built=built)
    guides = tuple(guide_pages(_near_first(persons, nearest), findings, season, edition=edition))
    # Not known before the series' pages, of which there are few, have been written.
    total = 0
    pages: list[Page] = []
    charts: dict[str, Chart] = {}
    numbers: dict[str, str] = {}

    def put(*more: Page) -> None:
        for page in more:
            pages.append(page)
            if progress and total:
                progress(len(pages), total)

    def add(address: str, title: str, markdown: str, entry: SearchEntry | None, menu: tuple[str, ...] = ()) -> None:
        put(Page(address, title, markdown, (entry,) if entry else (), menu))

    fronts = series_pages(everybody, findings, season, edition=edition, built=built)
    shown = Shown(list(fronts))
    news_at = 0
    for front in fronts:
        for page in _of_series(
            front, everybody, findings, season, shown, printed=printed, edition=edition, built=built
        ):
            add(*page)
        news_at = news_at or len(pages)
    running = next((front.running_address for front in fronts if front.running_address), "")
    total = len(pages) + len(persons) + 3 * len(teams) + len(blanks) + len(guides) + 1 + SHOWS[edition].data_quality
    for team in teams:
        near = IN_SERIES if team.key == opponent else ANYBODY
        men = everybody[team.key]
        about = opponent_page(team, men, findings, season, built=built)
        add(about.address, about.title, render("opponent.md.j2", page=about), opponent_entry(about, nearness=near),
            ("Opponents", team.name))  # fmt: skip
        field = infield_page(team, men, findings, season, built=built)
        add(field.address, field.title, render("infield.md.j2", page=field), infield_entry(field, nearness=near))
        shown.teams.append((about, field))
        put(
            _list_page(
                not_known_page(team, men, findings, season, series=ahead.get(team.key), teams=teams, built=built)
            )
        )
        for person in men:
            his = player_page(
                person,
                findings,
                season,
                with_him=_with_him(person, men, nearest),
                running_address=running if team.key == opponent else "",
                built=built,
            )
            probable = team.key == opponent and person.man.key in starters
            text = render("player.md.j2", page=his, chart_key=chart_key)
            add(his.address, his.title, text, player_entry(his, nearness=PROBABLE if probable else near))
            shown.men.append(his)
            charts |= his.charts
            numbers[facts_address(person)] = facts(person, findings, as_of=season.as_of, built=built)
    put(*(_blank_page(blank) for blank in blanks), *guides)
    put(*_of_quality(season, edition, built))
    said = sayings(shown, season)
    news = changed_page(
        compared_with(said), said, {page.address for page in pages}, coming=_against(fronts[0]), built=built,
        as_of=season.as_of,
    )  # fmt: skip
    add(news.address, news.title, render("changed.md.j2", page=news),
        SearchEntry(news.title, CHANGED_WORDS, keys="new since last night"), CHANGED_MENU)  # fmt: skip
    home = replace(pages[0], markdown=render("series.md.j2", page=fronts[0], news=news))
    ordered = (home, *_early_first(pages[1:], news_at - 1))
    return Book(ordered, charts, numbers, said, policy=season.program.policy.short)


def _against(home: SeriesPage) -> str:
    """Whom we meet next, by name; empty where no series is ahead."""
    return home.team.name if home.team and not home.past else ""


def _of_quality(season: Season, edition: str, built: str) -> Iterator[Page]:
    """What was read, for an edition that shows it."""
    if SHOWS[edition].data_quality:
        title, entry = "Data quality", SearchEntry("Data quality", QUALITY_WORDS)
        text = render("data-quality.md.j2", page=_quality(season, built))
        yield Page("data-quality", title, text, (entry,), (title,))


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


def _of_series(
    front: SeriesPage,
    everybody: Mapping[str, Sequence[Person]],
    findings: Findings,
    season: Season,
    shown: Shown,
    *,
    printed: Mapping[str, Printed],
    edition: str,
    built: str,
) -> Iterator[tuple[str, str, str, SearchEntry, tuple[str, ...]]]:
    """A series' page and those that hang on it: address, title, markdown, search entry and place in the menu."""
    menu: tuple[str, ...] = ("Tonight",) if front.home else ("Series", front.title)
    yield front.address, front.title, render("series.md.j2", page=front, news=None), series_entry(front), menu
    series = front.series
    if series is None:
        return
    men, values = everybody.get(series.opponent, ()), win_values(season.program.run_environment)
    stand = level_card(front, series, men, findings, season, built=built) if front.levels_address else None
    if front.running_address:
        run = running_page(series, front, men, findings, season, values=values, built=built)
        shown.running.append(run)
        menu = ("Who can go",) if front.home else ()
        yield run.address, run.title, render("running.md.j2", page=run), running_entry(run), menu
        theirs = {person.man.key: person for person in men}
        for card in card_pages(
            run, theirs, findings, season, stand=stand, home=front.home, edition=edition, built=built
        ):
            entry = SearchEntry(card.title, card.found_by)
            yield card.address, card.title, _compared(card, printed.get(card.address)), entry, card.menu
    if stand is not None:
        shown.levels.append(stand)
        menu = ("Where to stand",) if front.home else ()
        yield (
            stand.address,
            stand.title,
            render("levels.md.j2", page=stand),
            SearchEntry(stand.title, LEVEL_WORDS),
            menu,
        )
    if front.risk_address:
        risk = risk_page(front, values, season, built=built)
        yield risk.address, risk.title, render("risk.md.j2", page=risk), SearchEntry(risk.title, RISK_WORDS), ()


def _compared(card: CardsPage, printed: Printed | None) -> str:
    """A page of cards, with marks where it says something else than the sheet printed last."""
    text = render(card.template, page=card)
    sheet = printed.to_compare(cells_of(text)) if printed else None
    if sheet is None or isinstance(card, CardsIndex):
        return text
    return with_marks(render(card.template, page=replace(card, since=sheet.when)), sheet.cells)


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


def _quality(season: Season, built: str) -> QualityPage:
    frames = [(name, getattr(season, name)) for name in ("games", *TABLES)]
    tables = tuple((name, len(frame), int(frame["game"].nunique()), _last_day(frame)) for name, frame in frames)
    return QualityPage(
        "data-quality", season.warnings, season.skipped, season.rows_left_out, season.files_left_out, tables, built,
        season.as_of,
    )  # fmt: skip


def _last_day(frame: pd.DataFrame) -> date | None:
    last = frame["date"].max() if len(frame) else pd.NaT
    return None if pd.isna(last) else pd.Timestamp(last).date()
