"""Generated pages on disk and in the menu; addresses that cannot be are refused before anything is written."""

from dataclasses import replace
from pathlib import Path

import pytest

from scoutgen.pages.book import Book, Page
from scoutgen.site.manuscript import Manuscript, ManuscriptError, _menu

BOOK = Book(
    (Page("index", "Home", "# Home\n", (), ("Home",)), Page("teams/a", "A", "# A\n", (), ("Teams", "A"))), {}, {}
)


def test_markdown_is_written_where_it_can_be_read_and_what_is_no_more_goes(tmp_path: Path) -> None:
    folder = tmp_path / ".scoutgen/markdown"
    Manuscript(BOOK, {}, tmp_path).write()
    page = folder / "teams/a.md"
    assert page.read_text() == "# A\n"
    written = page.stat().st_mtime_ns
    Manuscript(BOOK, {}, tmp_path).write()
    assert page.stat().st_mtime_ns == written, "an unchanged page is not written again"
    Manuscript(replace(BOOK, pages=BOOK.pages[:1]), {}, tmp_path).write()
    assert sorted(path.name for path in folder.rglob("*")) == ["index.md"]


@pytest.mark.parametrize("address", ["../a", "A", "a b", "a//b", "/a", "", "a.md", "-a"])
def test_an_address_that_cannot_be_is_refused(tmp_path: Path, address: str) -> None:
    with pytest.raises(ManuscriptError, match="an address is lower-case letters, digits, hyphens and slashes"):
        Manuscript(replace(BOOK, pages=(Page(address, "x", "x"),)), {}, tmp_path)


def test_two_pages_of_one_address_are_refused(tmp_path: Path) -> None:
    with pytest.raises(ManuscriptError, match="index: two pages have this address"):
        Manuscript(replace(BOOK, pages=(BOOK.pages[0], BOOK.pages[0])), {}, tmp_path)


def test_the_menu_follows_the_ways_and_a_section_opens_with_its_own_page() -> None:
    team = Page("teams", "Teams", "# T\n", (), ("Teams",))
    hidden = Page("b", "B", "# B\n")
    assert _menu((*BOOK.pages, team, hidden)) == [
        {"Home": "index.md"},
        {"Teams": [{"Overview": "teams.md"}, {"A": "teams/a.md"}]},
    ]
