"""Numbers and dates of other notations."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.records.import_cells import (
    CellError,
    converted,
    day,
    number,
    part_of,
    seconds,
    unit_kind,
)


# NIST Special Publication 811 (2008), appendix B.8:
# 1 mi/h = 1.609344 km/h, 1 ft = 0.3048 m, 1 in = 0.0254 m, 1 yd = 0.9144 m.
@pytest.mark.parametrize(
    ("text", "column", "unit", "expected"),
    [
        ("160.9344", "speed_mph", "kph", "100"),
        ("44.704", "speed_mph", "m/s", "100"),
        ("91", "speed_mph", "mph", "91"),
        ("30.48", "distance_ft", "m", "100"),
        ("3048", "depth_ft", "cm", "100"),
        ("12", "feet", "in", "1"),
        ("1", "off_bag_ft", "yd", "3"),
        ("-0.3048", "plate_x_ft", "m", "-1"),
        ("1320", "seconds", "ms", "1.32"),
        ("1,32", "pop_seconds", "s", "1.32"),
        ("0:01.32", "hold_seconds", None, "1.32"),
    ],
)
def test_a_unit_is_converted_by_the_published_factor(text: str, column: str, unit: str | None, expected: str) -> None:
    assert converted(text, column, unit) == expected


@pytest.mark.parametrize(
    ("text", "decimal", "expected"),
    [
        ("1,32", None, "1.32"),
        ("1.320", None, "1.32"),
        ("-0,5", None, "-0.5"),
        ("−3", None, "-3"),
        ("1.234,5", "comma", "1234.5"),
        ("1,234.5", "point", "1234.5"),
        ("0,320", None, "0.32"),
        ("91.0", None, "91"),
        ("+2", None, "2"),
        ("100", None, "100"),
        ("1.5", "comma", "1.5"),
        ("1,5", "point", "1.5"),
        ("30.25", "comma", "30.25"),
        ("1.320", "comma", "1320"),
        ("1,320", "comma", "1.32"),
        ("1.320", "point", "1.32"),
        ("1,320", "point", "1320"),
        ("0.320", "comma", "0.32"),
        ("1234.567", "comma", "1234.567"),
        ("1.234,5", None, "1234.5"),
        ("1,234.5", None, "1234.5"),
        ("-1.234.567,5", None, "-1234567.5"),
        ("1,234,567", None, "1234567"),
    ],
)
def test_a_number_in_any_notation(text: str, decimal: str | None, expected: str) -> None:
    assert number(text, decimal) == expected


@pytest.mark.parametrize("text", ["1,320", "1.2.3", "n/a", "1e5", "nan", "١", "=1+1", "", "-"])
def test_what_is_no_number_or_two_is_refused(text: str) -> None:
    with pytest.raises(CellError, match=r"is not a number|two ways"):
        number(text)


@pytest.mark.parametrize(
    ("text", "decimal"),
    [("1.2.3", "comma"), ("1,2,3", "point"), ("1,234.5", "comma"), ("1.234,5", "point"), ("1,234,567", "comma")],
)
def test_what_is_no_number_with_that_sign_before_its_decimals_is_refused(text: str, decimal: str) -> None:
    with pytest.raises(CellError) as told:
        number(text, decimal)
    assert str(told.value) == f'"{text}" is not a number with a decimal {decimal}'


@pytest.mark.parametrize(
    ("text", "expected"), [("1.32", "1.32"), ("0:01,32", "1.32"), ("0:00:01.320", "1.32"), ("1:02", "62")]
)
def test_a_watch_reading(text: str, expected: str) -> None:
    assert seconds(text) == expected


@pytest.mark.parametrize(
    ("text", "form", "expected"),
    [
        ("07.04.2026", "day.month.year", "2026-04-07"),
        ("7/4/26", "day/month/year", "2026-04-07"),
        ("4/7/2026 19:05", "month/day/year", "2026-04-07"),
        ("2026/4/7", "year-month-day", "2026-04-07"),
        ("2026-04-07T19:05", "month/day/year", "2026-04-07"),
        # 1 March 1900 is 61: ECMA-376 part 1, 18.17.4.1. 46119 was worked out by calendar: 7 April 2026.
        ("61", "serial", None),
        ("46119", "serial", "2026-04-07"),
        ("46119.75", "serial", "2026-04-07"),
    ],
)
def test_a_day_in_the_notation_that_the_map_names(text: str, form: str, expected: str | None) -> None:
    if expected is None:
        with pytest.raises(CellError, match="before 1950"):
            day(text, form)
    else:
        assert day(text, form) == expected


@pytest.mark.parametrize(
    ("text", "form"),
    [("13/14/2026", "month/day/year"), ("soon", None), ("60", "serial"), ("1-2", "day.month.year")],
)
def test_no_day(text: str, form: str | None) -> None:
    with pytest.raises(CellError):
        day(text, form)


def test_a_count_is_parted_and_one_that_became_a_date_is_told() -> None:
    assert [part_of("1-2", "-", part) for part in (1, 2)] == ["1", "2"]
    with pytest.raises(CellError, match="read a count as one"):
        part_of("2026-01-02", "-", 1)
    with pytest.raises(CellError, match="no part 2"):
        part_of("12", "-", 2)


def test_what_a_column_measures() -> None:
    assert [unit_kind(name) for name in ("speed_mph", "seconds", "feet", "plate_x_ft", "outs", "speed_kph")] == [
        "speed",
        "time",
        "length",
        "length",
        "",
        "",
    ]


@given(st.text(max_size=12), st.sampled_from([None, "comma", "point"]))
def test_any_text_is_a_number_or_told(text: str, decimal: str | None) -> None:
    for read in (number, seconds):
        try:
            float(read(text, decimal))
        except CellError as told:
            assert str(told)  # noqa: PT017 - a number is as good an answer
