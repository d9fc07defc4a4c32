"""Which table a file is, and what was timed in it."""

import pytest

from scoutgen.records.import_columns import column_of
from scoutgen.records.import_table import likely_table, timed
from scoutgen.records.import_words import TIMED
from scoutgen.records.times import LIMITS_SECONDS

WATCH = ("1,32", "0:01.44", "1.4")


def test_no_columns_are_pitches() -> None:
    assert likely_table([]) == "pitches"


@pytest.mark.parametrize(
    ("headers", "table"),
    [
        (("Date", "Pitcher", "To plate", "Delivery", "Count"), "times"),
        (("Date", "Pitcher", "Batter", "Count", "Delivery time (s)"), "times"),
        (("Pitcher", "Batter", "Count", "Time"), "times"),
        (("Date", "Catcher", "Batter", "Count", "Pop"), "throws"),
        # A chart of pitches may time some of them too.
        (("Pitcher", "Count", "Pitch", "Velo", "Result", "Time to plate"), "pitches"),
        (("Date", "Pitcher", "Velo", "Time to plate"), "pitches"),
        (("Pitcher", "Batter", "Count", "Result", "To plate"), "pitches"),
    ],
)
def test_times_tell_a_table_where_no_pitch_is_charted(headers: tuple[str, ...], table: str) -> None:
    cells = dict.fromkeys(("To plate", "Delivery time (s)", "Time to plate", "Time"), WATCH) | {"Pop": ("1,98", "2.1")}
    assert likely_table([column_of(header, cells.get(header, ())) for header in headers]) == table


def test_a_time_of_day_is_no_reading() -> None:
    columns = [column_of("Pitcher"), column_of("Batter"), column_of("Count"), column_of("Time", ("19:05", "19:06"))]
    assert likely_table(columns) == "pitches"


def test_a_header_names_a_measure_where_the_cells_can_be_its_times() -> None:
    assert timed(column_of("To Plate (sec)", WATCH)) == "plate"
    assert timed(column_of("Home to 1st", ("4,32",))) == "home_first"
    assert timed(column_of("To plate", ("91", "88"))) == ""
    assert timed(column_of("To plate")) == ""
    assert set(TIMED) <= set(LIMITS_SECONDS)
