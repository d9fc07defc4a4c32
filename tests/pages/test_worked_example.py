"""The example of how to read a line is a line of the project."""

import pytest
from pages.demo import plain

from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.people import Person, people
from scoutgen.pages.worked_example import worked_example
from scoutgen.records.program import Thresholds
from scoutgen.records.season import Season


def men(season: Season) -> list[Person]:
    return [person for team in people(season).values() for person in team]


def test_the_example_stands_on_the_page_it_names(
    demo_season: Season, demo_findings: Findings, demo_pages: dict[str, Page]
) -> None:
    harbor = [person for person in men(demo_season) if person.team.key == "harbor"]
    example = worked_example(harbor, demo_findings, demo_season.program.thresholds)
    assert example is not None
    assert example.claim.sure != "thin"
    page = plain(demo_pages[example.person.address].markdown)
    assert f"({example.claim.k} of {example.claim.n})" in page
    claim = example.claim
    assert claim.share is not None
    assert example.charted_share == claim.k / claim.n
    assert example.others_in_ten / 10 + claim.share == pytest.approx(1)
    assert example.half_points == pytest.approx(100 * example.half)
    assert example.thin is not None
    assert f"{example.thin.k} of {example.thin.n}" in page
    assert example.thin.n < demo_season.program.thresholds.few_pitches or example.thin.sure == "thin"
    assert example.clock is not None
    assert f"{example.clock.median:.2f}" in page


def test_it_is_of_the_first_starter_we_meet(demo_pages: dict[str, Page]) -> None:
    text = demo_pages["how-to-read"].markdown
    assert "(teams/harbor/players/iker-nunez.md)" in text.split("## ")[1]
    assert "58 %" in plain(text.split("## ")[1])


def test_nobody_charted_enough_is_no_example(demo_season: Season, demo_findings: Findings) -> None:
    assert worked_example([], demo_findings, demo_season.program.thresholds) is None
    assert worked_example(men(demo_season), demo_findings, Thresholds(few_pitches=1000)) is None
