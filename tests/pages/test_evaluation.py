"""One man's evaluation: grades now and later, what was seen of each tool, and what was measured beside it."""

import html
import json

import pytest

from scoutgen.pages.book import Book, Page
from scoutgen.pages.evaluation import NOTES_ON_THE_SHEET, evaluation_address, evaluation_facts, evaluation_page
from scoutgen.pages.evaluations import evaluation_pages
from scoutgen.pages.markdown import render
from scoutgen.pages.measured import find_measured
from scoutgen.pages.people import people
from scoutgen.records.editions import for_edition
from scoutgen.records.opponents import Entry, Observation
from scoutgen.records.season import Season


@pytest.fixture(scope="module")
def pages(scouts_book: Book) -> dict[str, Page]:
    return {page.address: page for page in scouts_book.pages}


def text(page: Page) -> str:
    return html.unescape(page.markdown).replace("\N{NO-BREAK SPACE}", " ")


def test_each_tool_has_now_later_what_was_seen_and_what_was_measured(
    pages: dict[str, Page], demo_season: Season
) -> None:
    page = text(pages[evaluation_address("harbor", "iker-nunez")])
    grades = demo_season.entries["harbor", "iker-nunez"].grades
    assert grades is not None
    rows = {row.split(" | ")[0].strip("| ").lower(): row for row in page.splitlines() if row.startswith("| ")}
    for tool, grade in grades.tools.items():
        if tool == "overall":
            assert f"**Overall {grade.now}, {grade.later} later**" in page
            continue
        assert f"| **{grade.now}** | {grade.later or '–'} |" in rows[tool]
        assert (grade.saw or "") in rows[tool]
    assert "Speed **92 mph** (90 to 93, 136 pitches), last 3 Apr 2026" in rows["fastball"]
    assert "Missed 22 of 50 swings, last 3 Apr 2026" in rows["slider"]
    assert "| To the plate, stretch | **1.45 s** (30 readings, frames), last 3 Apr 2026 |" in page
    assert "graded by CV, Fri 3 Apr 2026, video" in page
    assert f"**Body:** {grades.body}" in page
    assert f"**Role:** {grades.role}" in page


def test_every_page_begins_with_the_caution_and_says_what_the_scale_means(pages: dict[str, Page]) -> None:
    evaluations = [page for address, page in pages.items() if address.startswith(("evaluations/", "index"))]
    assert len(evaluations) > 20
    for page in evaluations:
        words = text(page)
        assert 0 < words.index("[box:contact]") < words.index("[table:")
        assert "The compliance staff decides; ask them first." in words
        assert "50 is the average of Division I college baseball" in words


def test_a_man_with_notes_alone_has_a_page_that_says_so(pages: dict[str, Page]) -> None:
    page = text(pages[evaluation_address("slatefield", "nils-abernathy-roy")])
    assert "Noted, not graded." in page
    assert "## Grades" not in page
    assert "not enough seen for a grade. (CV, Sun 22 Mar 2026, video, hunch)" in page


def test_notes_beyond_what_a_sheet_holds_open_on_a_tap(demo_season: Season) -> None:
    scouts = for_edition(demo_season, "recruiting")
    person = next(p for p in people(scouts)["harbor"] if p.man.key == "iker-nunez")
    note = scouts.entries["harbor", "iker-nunez"].observations[0]
    many: tuple[Observation, ...] = tuple(note.model_copy(update={"text": f"Look {i}."}) for i in range(8))
    page = evaluation_page(
        person, Entry("harbor", "iker-nunez", observations=many), (), level="x", as_of=scouts.as_of, built="now"
    )
    assert (len(page.first), len(page.more)) == (NOTES_ON_THE_SHEET, 3)
    written = render("evaluation.md.j2", page=page)
    assert "[fold:3 older notes]" in written
    assert [written.count(f"Look {i}.") for i in range(8)] == [1] * 8


def test_facts_have_the_grades_and_every_measure_with_its_sample(demo_season: Season) -> None:
    scouts = for_edition(demo_season, "recruiting")
    made = {page.person.man.key: page for page in evaluation_pages(scouts, find_measured(scouts), built="now")}
    facts = json.loads(evaluation_facts(made["iker-nunez"]))
    assert facts["grades"]["tools"]["fastball"] == {
        "now": 55,
        "later": 60,
        "saw": "Carries at the top of the zone, loses a couple of miles after the fourth.",
    }
    assert (facts["grades"]["by"], facts["grades"]["source"], facts["grades"]["seen"]) == ("CV", "video", "2026-04-03")
    assert {"tool", "measure", "unit", "k", "n", "median", "low", "high", "few", "last_seen"} == set(
        facts["measured"][0]
    )
    assert all(row["n"] for row in facts["measured"])
    assert json.loads(evaluation_facts(made["nils-abernathy-roy"]))["grades"] is None
