"""Notations of cells in files that nobody agreed on, and the cells that are in none."""

import pytest

from scoutgen.records.import_columns import Column, column_of
from scoutgen.records.import_notations import (
    count_split,
    date_forms,
    decimal_sign,
    nearly_all,
    no_numbers,
    unit_by_size,
)


def column(header: str, rows: dict[str, int]) -> Column:
    """A column of cells, each in so many rows."""
    lines = {cell: [f"{cell}:{n}" for n in range(many)] for cell, many in rows.items()}
    return column_of(header, tuple(lines), lines)


@pytest.mark.parametrize(
    ("cells", "played", "forms"),
    [
        (["2026-03-06"], [], ["year-month-day"]),
        (["6.3.2026", "07.03.26"], [], ["day.month.year"]),
        (["13/3/2026"], [], ["day/month/year"]),
        (["3/13/26"], [], ["month/day/year"]),
        (["03/06/26"], [], ["day/month/year", "month/day/year"]),
        (["03/06/26"], ["2026-03-06"], ["month/day/year"]),
        (["03/06/26"], ["2026-06-03", "2026-03-06"], ["day/month/year", "month/day/year"]),
        (["46087", "46088.5"], [], ["serial"]),
        (["Friday"], [], []),
        ([], [], []),
    ],
)
def test_how_days_are_written(cells: list[str], played: list[str], forms: list[str]) -> None:
    assert date_forms(column_of("Day", tuple(cells)), played) == (forms, [])


@pytest.mark.parametrize(
    ("cells", "sign", "open_"),
    [
        (["1,5", "30.5"], "", []),
        (["1.320", "1.5"], "", []),
        (["1.320"], "", []),
        (["1,320"], "", ["1,320"]),
        (["1,320", "1,5"], "comma", ["1,320"]),
        (["1.320", "1,5"], "comma", ["1.320"]),
        (["1,320", "1.320", "1.5"], "point", ["1,320"]),
        (["1,320", "1.5", "1,5"], "", ["1,320"]),
        (["1.320", "1.234.567"], "comma", ["1.320"]),
        (["1,320", "0,320"], "comma", ["1,320"]),
        (["1,320", "n/a", "12"], "", ["1,320"]),
    ],
)
def test_the_sign_before_decimals_as_far_as_it_must_be_said(cells: list[str], sign: str, open_: list[str]) -> None:
    assert decimal_sign(cells) == (sign, open_)


def test_nearly_all_is_counted_in_rows() -> None:
    assert nearly_all(column("D", {"a": 4, "b": 1}), ["b"])
    assert not nearly_all(column("D", {"a": 3, "b": 1}), ["b"])
    assert nearly_all(column("D", {"a": 1}), [])
    assert not nearly_all(column("D", {}), [])


@pytest.mark.parametrize(
    ("rows", "forms", "odd"),
    [
        ({"3/6/26": 60, "3/13/26": 2, "Total": 1}, ["month/day/year"], ["Total"]),
        ({"13/3/26": 50, "3/13/26": 1}, ["day/month/year"], ["3/13/26"]),
        ({"3/6/26": 9, "Total": 2}, ["day/month/year", "month/day/year"], ["Total"]),
        ({"2026-03-06": 4, "Total": 1}, ["year-month-day"], ["Total"]),
        ({"46087": 4, "6.3.": 1}, ["serial"], ["6.3."]),
        ({"6.3.26": 3, "Total": 1}, [], []),
    ],
)
def test_days_of_which_one_is_none(rows: dict[str, int], forms: list[str], odd: list[str]) -> None:
    assert date_forms(column("Day", rows)) == (forms, odd)


def test_counts_and_what_must_be_mended_of_them() -> None:
    assert count_split(column("C", {"1-2": 1, "2026-02-01": 5})) == ("-", ["2026-02-01"])
    assert count_split(column("C", {"2026-02-01": 5})) is None
    assert count_split(column("C", {"0-0": 4, "Total": 1})) == ("-", ["Total"])
    assert count_split(column("C", {"0-0": 4, "1/2": 1})) == ("-", ["1/2"])
    assert count_split(column("C", {"0-0": 3, "Total": 1})) is None


def test_a_score_is_no_count_unless_its_header_says_so() -> None:
    cells = {"0-0": 30, "1-0": 30, "4-2": 1}
    assert count_split(column("Score", cells)) is None
    assert count_split(column("Count (B-S)", cells)) == ("-", ["4-2"])


def test_cells_that_are_no_number_of_a_column() -> None:
    cells = ("1,32", "0:01.44", "1,320", "-", "two", "132", "1.2 s")
    assert no_numbers("seconds", column_of("T", cells), 0.8, 2.6) == ["two", "132", "1.2 s"]
    assert no_numbers("speed_mph", column_of("V", ("145", "9")), 40, 110, unit="kph") == ["9"]
    assert no_numbers("seconds", column_of("T", ("99",)), None, None) == []


def test_one_slip_makes_no_kilometres_of_miles() -> None:
    assert unit_by_size("speed_mph", column("Velo", {"91": 9, "912": 1, "-": 2})) == ""
    assert unit_by_size("speed_mph", column("Velo", {"146,5": 3, "104": 7})) == "kph"
    assert unit_by_size("speed_mph", column("Velo", {})) == unit_by_size("seconds", column("T", {"146": 1})) == ""
