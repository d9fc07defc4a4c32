"""Every team we play on one page, with the ways to what is known of it."""

import re

from pages.demo import plain

from scoutgen.pages.book import Book, Page
from scoutgen.pages.teams import ADDRESS


def test_whom_we_meet_next_stands_first_with_when_each_was_last_seen(demo_pages: dict[str, Page]) -> None:
    lines = re.findall(r"^- \[.+$", plain(demo_pages[ADDRESS].markdown), flags=re.MULTILINE)
    assert lines[0].startswith("- [Gannet Harbor](harbor/index.md), this series")
    assert "[infield](harbor/infield.md)" in lines[0]
    assert "[not known yet](../not-known-yet/harbor.md)" in lines[0]
    assert len(lines) == 7
    assert sum("no team file, from charts only" in line for line in lines) == 4
    assert all("Last seen" in line for line in lines)


def test_the_list_is_the_overview_of_the_opponents_and_home_leads_there(demo_book: Book) -> None:
    first = next(page for page in demo_book.pages if page.menu[:1] == ("Opponents",))
    assert (first.address, first.menu) == (ADDRESS, ("Opponents",))
    assert "[All teams](teams/index.md)" in demo_book.pages[0].markdown
