"""What must hold of every man's page of the demo, whatever his numbers."""

import json
import re
from datetime import date
from pathlib import Path

import pytest

from scoutgen.pages.book import Book, Page
from scoutgen.pages.write import write_book
from scoutgen.records.season import read_season

STARTER = "teams/harbor/players/iker-nunez"
PERCENT = re.compile(r"(\d+)\s%")


def men(demo_book: Book) -> list[Page]:
    return [page for page in demo_book.pages if "/players/" in page.address]


def tables(page: Page, kind: str) -> list[list[str]]:
    """The rows of each table of a kind, header and rule left out."""
    found = re.findall(rf"^\[table:{kind} [^\n]*\n((?:\|[^\n]*\n?|\n(?=\|))+)", page.markdown, re.MULTILINE)
    return [[line for line in table.splitlines() if line][2:] for table in found]


def test_percents_of_a_row_of_counts_add_up_to_about_a_hundred(demo_book: Book) -> None:
    rows = [row for page in men(demo_book) for table in tables(page, "counts") for row in table if "%" in row]
    assert len(rows) > 50
    for row in rows:
        if " of " not in row:
            cells = row.split("|")[2:-1]
            whole = [0 if "under" in cell else int(PERCENT.findall(cell)[0]) for cell in cells]
            assert abs(sum(whole) - 100) <= len(cells), row


def test_a_thin_cell_says_its_tally_also_where_it_is_nought(demo_pages: dict[str, Page]) -> None:
    (left, _) = tables(demo_pages[STARTER], "counts")
    thin = [row for row in left if row.startswith("| 2-0 ")]
    assert thin == ["| 2-0 | 3 of 3 |" + " 0 of 3 |" * 3]


def test_two_are_bold_at_a_glance_where_the_data_cannot_tell_them_apart(demo_book: Book) -> None:
    looked = 0
    for page in men(demo_book):
        for side, place in (("Lefties", "L"), ("Righties", "R")):
            unclear = re.search(rf"{side}: first pitch ([\w-]+) or ([\w-]+)", page.search[0].text)
            if unclear:
                part = page.markdown.split(f"[side:{place}]")[1].split("[side:end]")[0]
                row = re.search(r"^\| First pitch .*$", part, re.MULTILINE)
                assert row
                assert f"**{unclear[1]}**" in row[0]
                assert f"**{unclear[2]}**" in row[0]
                looked += 1
    assert looked


def test_a_drawing_of_places_says_how_many_it_shows(demo_book: Book) -> None:
    drawn = [json.loads(chart.spec)["datasets"] for chart in demo_book.charts.values() if "where each" in chart.title]
    assert drawn
    assert all(re.fullmatch(r"n \d+", frame["n"]) for data in drawn for frame in data["frames"])


def test_who_was_never_pitched_or_charted_is_not_said_to_have_thrown_nought(demo_book: Book) -> None:
    for page in men(demo_book):
        assert not re.search(r"\b0 pitches\b|\b0 readings\b", page.markdown), page.address
        if "Never charted yet" in page.markdown and "pitcher" not in page.markdown.split("## Notes")[0]:
            assert re.search(r"chart|Chart", page.markdown.split("## Notes")[0]), page.address


@pytest.mark.parametrize(
    ("side", "said"),
    [
        ("L", "No pitch to right-handed hitters charted yet."),
        (
            "",
            "No pitch to right-handed hitters charted yet; of 3 pitches nobody charted on which side the hitter stood.",
        ),
    ],
)
def test_where_nobody_charted_the_side_that_is_said(tmp_path: Path, side: str, said: str) -> None:
    (tmp_path / "data").mkdir()
    head = "game,inning,half,pitcher,batter,bats,balls,strikes,pitch\n"
    rows = [f"g1,{inning},top,Ada,Bo,{side},0,0,fastball\n" for inning in (1, 3, 5)]
    (tmp_path / "data/pitches.csv").write_text(head + "".join(rows), encoding="utf-8")
    book = write_book(read_season(tmp_path, as_of=date(2026, 4, 1)), edition="staff", built="now")
    [text] = [page.markdown for page in book.pages if page.address.endswith("/ada")]
    # At a glance, counts, pitches and times through the order.
    assert text.count(said) == 4
    assert "were not charted, so" not in text.partition("[side:R]")[2]
