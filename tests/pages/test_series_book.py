"""The pages of a series: which there are, in which order, and the marks on its cards."""

from collections.abc import Sequence

import pytest

from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.people import people
from scoutgen.pages.printed import CHANGED, Printed, Sheet, cells_of
from scoutgen.pages.sayings import Shown
from scoutgen.pages.series import SeriesPage, series_pages
from scoutgen.pages.series_book import series_book
from scoutgen.records.season import Season

HITTERS = "cards/gannet-harbor/hitters"


@pytest.fixture(scope="module")
def fronts(demo_season: Season, demo_findings: Findings) -> Sequence[SeriesPage]:
    return list(series_pages(people(demo_season), demo_findings, demo_season, edition="staff", built="now"))


def pages_of(
    front: SeriesPage, season: Season, findings: Findings, shown: Shown, printed: dict[str, Printed] | None = None
) -> list[Page]:
    everybody = people(season)
    return list(
        series_book(front, everybody, findings, season, shown, printed=printed or {}, edition="staff", built="now")
    )


def test_the_coming_series_has_every_page_in_the_order_of_the_menu(
    fronts: Sequence[SeriesPage], demo_season: Season, demo_findings: Findings
) -> None:
    shown = Shown()
    pages = pages_of(fronts[0], demo_season, demo_findings, shown)
    assert [page.menu for page in pages if page.menu] == [
        ("Tonight",), ("Who can go",), ("Cards",), ("Where to stand",),
    ]  # fmt: skip
    assert pages[0].address == "index"
    assert HITTERS in {page.address for page in pages}
    assert all(page.search for page in pages)
    assert (len(shown.running), len(shown.levels)) == (1, 1)


def test_another_series_stands_in_the_menu_with_its_front_alone(
    fronts: Sequence[SeriesPage], demo_season: Season, demo_findings: Findings
) -> None:
    other = next(front for front in fronts if not front.home)
    pages = pages_of(other, demo_season, demo_findings, Shown())
    assert [page.menu for page in pages if page.menu] == [("Series", other.title)]


def test_a_card_is_marked_where_it_says_something_else_than_the_sheet(
    fronts: Sequence[SeriesPage], demo_season: Season, demo_findings: Findings
) -> None:
    plain = {page.address: page.markdown for page in pages_of(fronts[0], demo_season, demo_findings, Shown())}
    cells = cells_of(plain[HITTERS])
    other = next(iter(cells))
    printed = {HITTERS: Printed(Sheet("2026-04-06 21:40", {**cells, other: "something else"}))}
    marked = {page.address: page.markdown for page in pages_of(fronts[0], demo_season, demo_findings, Shown(), printed)}
    assert CHANGED not in plain[HITTERS]
    assert 1 <= marked[HITTERS].count(f"{CHANGED} ") <= 3
    assert "changed since 6 Apr, 21:40" in marked[HITTERS]
    assert {address for address in plain if plain[address] != marked[address]} == {HITTERS}
