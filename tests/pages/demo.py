"""The demo's measures and pages as the tests of single pages ask for them."""

import re
from collections.abc import Callable

from scoutgen.pages.book import Book, Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.kept_findings import TableShelf, kept_or_found
from scoutgen.pages.level_card import LevelCard, level_card
from scoutgen.pages.opponent import coming, opponents_in_order
from scoutgen.pages.people import asked_about, people
from scoutgen.pages.run_values import win_values
from scoutgen.pages.running import RunningPage, running_page
from scoutgen.pages.series import series_pages
from scoutgen.records.editions import for_edition, game_part
from scoutgen.records.season import Season

# From an edition to its book and how far it was said to be while it was written.
Written = Callable[[str], tuple[Book, list[tuple[int, int]]]]


def findings_of(season: Season, shelf: TableShelf | None = None) -> Findings:
    """Every measure of a season, as its book would have them; found on the shelf where they are there."""
    season = game_part(for_edition(season, "staff"))
    men = [person for team in people(season).values() for person in team]
    nearest = coming(season.series, season.as_of)
    return kept_or_found(season, asked_about(men, opponents_in_order(season)), nearest[0], shelf)


def running_page_of(season: Season, findings: Findings) -> RunningPage:
    """The running page of the coming series."""
    everybody = people(season)
    front = series_pages(everybody, findings, season, edition="staff", built="now")[0]
    assert front.series is not None
    men, values = everybody[front.series.opponent], win_values(season.program.run_environment)
    return running_page(front.series, front, men, findings, season, values=values, built="now")


def level_card_of(season: Season, findings: Findings) -> LevelCard:
    """Where to stand in the coming series."""
    everybody = people(season)
    front = series_pages(everybody, findings, season, edition="staff", built="now")[0]
    assert front.series is not None
    return level_card(front, front.series, everybody[front.series.opponent], findings, season, built="now")


def plain(text: str) -> str:
    """Markdown as a reader sees it, on lines that break anywhere."""
    return text.replace("\N{NO-BREAK SPACE}", " ").replace("<br>", " ").replace("**", "")


def section(page: Page, heading: str) -> str:
    """What stands under a heading, up to the next one, or in the part of that name that opens on a tap."""
    text = plain(page.markdown)
    if f"[fold:{heading}]\n" in text:
        return text.split(f"[fold:{heading}]\n")[1].split("[fold:end]")[0]
    return re.split(r"\n##+ ", text.split(f"# {heading}\n")[1])[0]
