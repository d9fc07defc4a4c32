"""The one form of a date, and what the foot of every page and the marker of a site say."""

from datetime import date, datetime

import pytest
import sample_book

from scoutgen.site.edition_book import DateError, _built_at, read_date
from scoutgen.site.sheets import with_sheet_lines


def test_a_day_is_year_month_day_or_today() -> None:
    assert read_date("2026-04-09") == date(2026, 4, 9)
    before = datetime.now().astimezone().date()
    assert before <= read_date(None) <= datetime.now().astimezone().date()


@pytest.mark.parametrize(
    "text", ["", " ", "20260409", "2026-W15-4", "2026-4-9", "2026-02-30", "0000-01-01", "2026-04-09\n"]
)
def test_any_other_form_is_refused_with_the_one_allowed(text: str) -> None:
    with pytest.raises(DateError, match="write year-month-day, like 2026-04-09"):
        read_date(text)


def test_foot_and_marker_say_edition_and_day() -> None:
    made = sample_book.edition_book()
    assert made.built_line.startswith("staff edition, as of 2026-04-09, built ")
    assert made.seal["edition"] == "staff"
    assert made.seal["as_of"] == "2026-04-09"


def test_the_time_of_a_build_can_be_given_so_that_its_bytes_come_out_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1775770800")
    assert _built_at().strftime("%Y-%m-%d %H:%M") == "2026-04-09 21:40"
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "tonight")
    with pytest.raises(DateError, match="SOURCE_DATE_EPOCH is 'tonight'; give whole seconds"):
        _built_at()
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    assert abs((datetime.now().astimezone() - _built_at()).total_seconds()) < 3600


def test_what_every_page_says_of_its_build_is_listed_the_longest_first() -> None:
    made = sample_book.edition_book()
    assert made.stamps[0] == made.built_line
    assert made.stamps[1] in with_sheet_lines("<html lang=en>", who="", edition=made.built_line)
    assert made.stamps[2] == made.built
    assert made.built in made.built_line
