"""Whole pages of the demo as last looked at; `pytest --accept` takes the new ones after a deliberate change."""

from pathlib import Path

import pytest

from scoutgen.pages.book import Page

SNAPSHOTS = Path(__file__).parents[1] / "snapshots"
PAGES = {
    "home": "index",
    "opponent": "teams/saltmarsh/index",
    "infield": "teams/slatefield/infield",
    "catcher": "teams/harbor/players/ruben-castellane",
    "pitcher-thin": "teams/harbor/players/paulo-kealohanui",
    "running": "running",
    "risk": "risk",
    "levels": "levels",
    "hitter": "teams/harbor/players/theo-okonjo",
    "not-known-yet": "not-known-yet/harbor",
}


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_as_it_was_last_looked_at(
    name: str, demo_pages: dict[str, Page], request: pytest.FixtureRequest
) -> None:
    kept = SNAPSHOTS / f"{name}.md"
    written = demo_pages[PAGES[name]].markdown
    if request.config.getoption("--accept"):
        kept.write_text(written, encoding="utf-8", newline="\n")
    assert kept.is_file(), f"no snapshot {kept.name}: look at the page, then run pytest --accept"
    assert written == kept.read_text(encoding="utf-8")
