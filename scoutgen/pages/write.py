"""A season as a book: every page's markdown, charts, facts and search entries."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

import pandas as pd

from scoutgen.pages.book import Book, Chart, Page, SearchEntry
from scoutgen.pages.charts import chart_key
from scoutgen.pages.facts import facts, facts_address
from scoutgen.pages.finding import (
    ANYBODY,
    IN_SERIES,
    PROBABLE,
    QUALITY_WORDS,
    READING_WORDS,
    infield_entry,
    opponent_entry,
    player_entry,
    series_entry,
)
from scoutgen.pages.findings import TABLES, find
from scoutgen.pages.infield import infield_page
from scoutgen.pages.markdown import render
from scoutgen.pages.opponent import coming, opponent_page, opponents_in_order
from scoutgen.pages.people import asked_about, people
from scoutgen.pages.player import player_page
from scoutgen.pages.series import series_pages
from scoutgen.pages.times import QUICK_S, SLOW_S
from scoutgen.records.problems import Problem
from scoutgen.records.program import Thresholds
from scoutgen.records.season import Season


@dataclass(frozen=True)
class ReadingPage:
    """How to read the pages; what it says of thresholds is what the program set."""

    address: str
    banner: str
    limits: Thresholds
    watch_error_s: float
    quick: float
    slow: float
    warnings: bool
    skipped: bool


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


def write_book(season: Season, *, edition: str, built: str, progress: Callable[[int, int], None] | None = None) -> Book:
    """Write every page of one edition.

    Args:
        season: the validated season.
        edition: for whom; what is marked for others is left out before anything is rendered.
        built: when, in words, as it stands on every page.
        progress: called with the pages written so far and the pages to write.
    """
    everybody = people(season)
    persons = [person for men in everybody.values() for person in men]
    teams = opponents_in_order(season)
    findings = find(season, asked_about(persons, teams))
    nearest = coming(season.series, season.as_of)[:1]
    opponent = nearest[0].opponent if nearest else None
    starters = {p.pitcher for p in nearest[0].probables} if nearest else set()
    total = len(persons) + 2 * len(teams) + 3
    pages: list[Page] = []
    charts: dict[str, Chart] = {}
    numbers: dict[str, str] = {}

    def add(address: str, title: str, markdown: str, entry: SearchEntry | None, menu: tuple[str, ...] = ()) -> None:
        pages.append(Page(address, title, markdown, (entry,) if entry else (), menu))
        if progress:
            progress(len(pages), total)

    for series in series_pages(everybody, findings, season, edition=edition, built=built):
        menu = ("Tonight",) if series.home else ("Series", series.title)
        add(series.address, series.title, render("series.md.j2", page=series), series_entry(series), menu)
    for team in teams:
        near = IN_SERIES if team.key == opponent else ANYBODY
        men = everybody[team.key]
        front = opponent_page(team, men, findings, season, edition=edition, built=built)
        add(front.address, front.title, render("opponent.md.j2", page=front), opponent_entry(front, nearness=near),
            ("Opponents", team.name))  # fmt: skip
        field = infield_page(team, men, findings, season, built=built)
        add(field.address, field.title, render("infield.md.j2", page=field), infield_entry(field, nearness=near))
        for person in men:
            page = player_page(person, findings, season, edition=edition, built=built)
            probable = team.key == opponent and person.man.key in starters
            text = render("player.md.j2", page=page, chart_key=chart_key)
            add(page.address, page.title, text, player_entry(page, nearness=PROBABLE if probable else near))
            charts |= page.charts
            numbers[facts_address(person)] = facts(person, findings, as_of=season.as_of, built=built)
    add("how-to-read", "How to read this", render("how-to-read.md.j2", page=_reading(season)),
        SearchEntry("How to read this", READING_WORDS),
        ("How to read this",))  # fmt: skip
    add("data-quality", "Data quality", render("data-quality.md.j2", page=_quality(season, built)),
        SearchEntry("Data quality", QUALITY_WORDS), ("Data quality",))  # fmt: skip
    return Book(tuple(pages), charts, numbers)


def _reading(season: Season) -> ReadingPage:
    program = season.program
    return ReadingPage(
        address="how-to-read",
        banner=program.policy.sentence,
        limits=program.thresholds,
        watch_error_s=program.watch_error_s,
        quick=QUICK_S,
        slow=SLOW_S,
        warnings=bool(season.warnings),
        skipped=bool(season.skipped),
    )


def _quality(season: Season, built: str) -> QualityPage:
    frames = [(name, getattr(season, name)) for name in ("games", *TABLES)]
    tables = tuple((name, len(frame), int(frame["game"].nunique()), _last(frame)) for name, frame in frames)
    return QualityPage(
        "data-quality", season.warnings, season.skipped, season.rows_left_out, season.files_left_out, tables, built,
        season.as_of,
    )  # fmt: skip


def _last(frame: pd.DataFrame) -> date | None:
    last = frame["date"].max() if len(frame) else pd.NaT
    return None if pd.isna(last) else pd.Timestamp(last).date()
