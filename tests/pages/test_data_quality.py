"""What was read, as the staff sees it, and that nobody else does."""

from dataclasses import replace
from datetime import date

import pytest

from scoutgen.pages.data_quality import data_quality, quality_page
from scoutgen.pages.findings import TABLES
from scoutgen.records.editions import SHOWS
from scoutgen.records.problems import Problem
from scoutgen.records.season import Season


@pytest.mark.parametrize("edition", SHOWS)
def test_only_an_edition_that_shows_it_has_the_page(demo_season: Season, edition: str) -> None:
    found = [page.address for page in data_quality(demo_season, edition=edition, built="now")]
    assert found == (["data-quality"] if edition == "staff" else [])


def test_every_table_is_counted(demo_season: Season) -> None:
    page = quality_page(demo_season, built="now")
    tables = {name: (rows, games, last) for name, rows, games, last in page.tables}
    assert list(tables) == ["games", *TABLES]
    pitches = demo_season.pitches
    assert tables["pitches"] == (len(pitches), len(set(pitches["game"])), date(2026, 4, 7))


def test_a_table_without_rows_has_no_last_day(demo_season: Season) -> None:
    page = quality_page(replace(demo_season, holds=demo_season.holds.iloc[:0]), built="now")
    assert ("holds", 0, 0, None) in page.tables


def test_what_looked_odd_and_what_was_left_out_stand_on_it(demo_season: Season) -> None:
    odd = Problem("data/pitches.csv", 3, "mph", "looks odd to whoever reads it", "warning")
    out = Problem("data/pitches.csv", 5, "balls", "cannot be a count", "error")
    season = replace(demo_season, warnings=(odd,), skipped=(out,), rows_left_out=1)
    (page,) = data_quality(season, edition="staff", built="now")
    assert page.markdown.startswith("# Data quality")
    assert "looks odd to whoever reads it" in page.markdown
    assert "cannot be a count" in page.markdown
    assert page.menu == ("Data quality",)
