"""The blank sheets as a printer gets them: how many, how high a row is, and that a sheet is full."""

import io
from collections.abc import Callable
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
MM = 96 / 25.4
# Page, tables each on a sheet of its own, and width and height of the paper in points.
SHEETS = [
    ("charting/pitches/", ("Pitches",), (792, 612)),
    ("charting/times/", ("Times", "Catcher's throws"), (612, 792)),
    ("charting/looks/", ("Looks and holds", "Habits", "Where they stood"), (612, 792)),
]


@pytest.fixture(scope="module")
def base(serve: Callable[[Path], str], demo_site: Path) -> str:
    return serve(demo_site)


def opened(browser: Browser, address: str, *, width: int) -> Page:
    page = browser.new_page(viewport={"width": width, "height": 740})
    page.goto(address)
    return page


@pytest.mark.parametrize(("path", "titles", "paper"), SHEETS)
def test_each_table_is_one_sheet_of_letter_paper(
    browser: Browser, base: str, path: str, titles: tuple[str, ...], paper: tuple[int, int]
) -> None:
    page = opened(browser, base + path, width=1000)
    read = pypdf.PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    names = page.locator("table.tbl-blank").evaluate_all(
        "tables => tables.map(t => [...t.querySelectorAll('thead th')].map(e => e.textContent))"
    )
    page.close()
    assert len(read.pages) == len(titles) == len(names)
    for sheet, title, headings in zip(read.pages, titles, names, strict=True):
        box = sheet.mediabox
        assert (round(float(box.width)), round(float(box.height))) == paper
        text = "".join(sheet.extract_text().split())
        for said in (title, "Game", "Date", "Opponent", "Charted by", "Source, mark one: video", "Bold: what the pen"):
            assert "".join(said.split()) in text
        for heading in headings:
            assert "".join(heading.split()) in text
        assert "Thispageisforprinting" not in text


@pytest.mark.parametrize(("path", "titles", "paper"), SHEETS)
def test_a_pen_fits_into_every_row_and_the_rows_fill_the_sheet(
    browser: Browser, base: str, path: str, titles: tuple[str, ...], paper: tuple[int, int]
) -> None:
    # As wide as the paper without its margins of 10 mm.
    page = opened(browser, base + path, width=round(paper[0] * 96 / 72 - 20 * MM))
    page.emulate_media(media="print")
    rows = page.locator("table.tbl-blank tbody tr").evaluate_all(
        "rows => rows.map(r => r.getBoundingClientRect().height)"
    )
    assert len(rows) >= 20 * len(titles)
    assert min(rows) >= 6 * MM
    # A row more would not have fitted: what is stretched is less than what one row needs.
    for table in page.locator("table.tbl-blank").all():
        count = table.locator("tbody tr").count()
        height = table.locator("tbody").evaluate("body => body.getBoundingClientRect().height")
        assert height / MM <= (count + 4) * 6.2
    sizes = page.locator(":is(.box-sheet-wide, .box-sheet-tall) :is(th, td, li, p, h2)").evaluate_all(
        "all => all.map(e => parseFloat(getComputedStyle(e).fontSize))"
    )
    assert min(sizes) >= 8 * 96 / 72 - 0.01
    cut = page.locator("table.tbl-blank thead th").evaluate_all(
        "all => all.filter(e => e.scrollWidth > e.clientWidth + 1)"
    )
    assert cut == []
    page.close()


def test_on_a_phone_the_page_lists_the_columns_and_no_blank_table(browser: Browser, base: str) -> None:
    page = opened(browser, base + "charting/pitches/", width=360)
    text = page.locator("main").inner_text()
    assert "This page is for printing: letter paper, landscape" in text
    assert "b ball, cas called_strike" in text
    assert not page.locator("table.tbl-blank").is_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.close()
