"""What was read, and what was odd about it: the page of an edition that may know it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.book import Page, SearchEntry
from scoutgen.pages.finding import QUALITY_WORDS
from scoutgen.pages.findings import TABLES
from scoutgen.pages.markdown import render
from scoutgen.records.editions import SHOWS
from scoutgen.records.problems import Problem
from scoutgen.records.season import Season
from scoutgen.records.until import last_day


@dataclass(frozen=True)
class QualityPage:
    """All that the page says.

    Attributes:
        warnings: rows that were read and looked odd.
        skipped: rows and files that were left out.
        tables: name, rows, games and the last day of each table.
    """

    address: str
    warnings: tuple[Problem, ...]
    skipped: tuple[Problem, ...]
    rows_left_out: int
    files_left_out: int
    tables: tuple[tuple[str, int, int, date | None], ...]
    built: str
    as_of: date


def data_quality(season: Season, *, edition: str, built: str) -> Iterator[Page]:
    """The page, for an edition that shows it; nothing for the others."""
    if SHOWS[edition].data_quality:
        title, entry = "Data quality", SearchEntry("Data quality", QUALITY_WORDS)
        text = render("data-quality.md.j2", page=quality_page(season, built=built))
        yield Page("data-quality", title, text, (entry,), (title,))


def quality_page(season: Season, *, built: str) -> QualityPage:
    """Count what was read, table by table."""
    frames = [(name, getattr(season, name)) for name in ("games", *TABLES)]
    return QualityPage(
        address="data-quality",
        warnings=season.warnings,
        skipped=season.skipped,
        rows_left_out=season.rows_left_out,
        files_left_out=season.files_left_out,
        tables=tuple((name, len(frame), int(frame["game"].nunique()), last_day(frame)) for name, frame in frames),
        built=built,
        as_of=season.as_of,
    )
