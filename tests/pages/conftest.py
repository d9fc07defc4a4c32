"""The demo season as a book, written once for all tests of the pages."""

import pickle
from datetime import date
from functools import cache
from pathlib import Path

import pytest
from pages.demo import Written, findings_of
from small_season import write_small_season

from scoutgen.pages.book import Book, Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.write import _Game, _measured, write_book
from scoutgen.records.season import Season, read_season
from scoutgen.site.shelf import TableShelf

ROOT = Path(__file__).parents[2]
AS_OF = date(2026, 4, 9)
BUILT = "Thu 9 Apr 2026, 21:40"  # as `measured_demo` has it


@pytest.fixture(scope="session")
def demo_season() -> Season:
    return read_season(ROOT, as_of=AS_OF)


@pytest.fixture(scope="session")
def measured(measured_demo: Path) -> TableShelf:
    """Where what was measured of the demo is kept for all tests."""
    return TableShelf(measured_demo, "staff")


@pytest.fixture(scope="session")
def demo_book(measured_demo: Path) -> Book:
    """The staff's book of the demo, of measures worked out for it."""
    return pickle.loads((measured_demo / "book").read_bytes())  # type: ignore[no-any-return]  # noqa: S301 - our own


@pytest.fixture(scope="session")
def written(demo_season: Season, measured: TableShelf) -> Written:
    """A function from an edition to its book, written with a look at how far it is."""

    @cache
    def write(edition: str) -> tuple[Book, list[tuple[int, int]]]:
        steps: list[tuple[int, int]] = []
        # `demo_book` was measured anew: what comes from the shelf must be what is worked out.
        book = write_book(
            demo_season, edition=edition, built=BUILT, tables=measured, progress=lambda *counts: steps.append(counts)
        )
        return book, steps

    return write


@pytest.fixture(scope="session")
def players_book(written: Written) -> Book:
    return written("players")[0]


@pytest.fixture(scope="session")
def scouts_book(demo_season: Season) -> Book:
    return write_book(demo_season, edition="recruiting", built="now")


@pytest.fixture(scope="session")
def demo_pages(demo_book: Book) -> dict[str, Page]:
    return {page.address: page for page in demo_book.pages}


@pytest.fixture(scope="session")
def demo_findings(demo_season: Season, measured: TableShelf) -> Findings:
    return findings_of(demo_season, measured)


@pytest.fixture(scope="session")
def small_season(tmp_path_factory: pytest.TempPathFactory) -> Season:
    return read_season(write_small_season(tmp_path_factory.mktemp("small")), as_of=AS_OF)


@pytest.fixture(scope="session")
def small_game(small_season: Season) -> _Game:
    """What its opponents are written from, as the staff may know it."""
    return _measured(small_season, edition="staff", built="2026-04-09 21:40", printed={})
