"""How is a number or a date of theirs written in our notation?

Each function takes the text of one cell and gives the text that the charting format has for it, or raises
`CellError` with what is wrong in words. Blank stays blank.
"""

import re
from datetime import date, timedelta
from typing import Literal, TypeAlias

from scoutgen.records.check import quoted
from scoutgen.records.vocabulary import EARLIEST_YEAR

Unit: TypeAlias = Literal["mph", "kph", "m/s", "ft", "m", "cm", "in", "yd", "s", "ms"]
DateForm: TypeAlias = Literal["year-month-day", "day.month.year", "day/month/year", "month/day/year", "serial"]

# 1 mi = 1.609344 km, 1 ft = 0.3048 m, 1 in = 2.54 cm, 1 yd = 0.9144 m, all exact: A. Thompson and B. N. Taylor, Guide
# for the Use of the International System of Units, NIST Special Publication 811 (2008), appendix B.
KM_PER_MILE = 1.609344
METRES_PER_FOOT = 0.3048
# What is measured, and what one of it is in the unit the format has: miles an hour, feet, seconds.
UNITS: dict[str, tuple[str, float]] = {
    "mph": ("speed", 1.0),
    "kph": ("speed", 1 / KM_PER_MILE),
    "m/s": ("speed", 3.6 / KM_PER_MILE),
    "ft": ("length", 1.0),
    "m": ("length", 1 / METRES_PER_FOOT),
    "cm": ("length", 0.01 / METRES_PER_FOOT),
    "in": ("length", 0.0254 / METRES_PER_FOOT),
    "yd": ("length", 0.9144 / METRES_PER_FOOT),
    "s": ("time", 1.0),
    "ms": ("time", 0.001),
}
# More decimals than any radar gun, tape or watch has.
DECIMALS = {"speed": 2, "length": 2, "time": 3}
# Spreadsheets count days from here, having taken 1900 for a leap year: right from 1 March 1900 on (ECMA-376 part 1,
# 18.17.4.1).
DAY_NOUGHT = date(1899, 12, 30)
_NUMBER = re.compile(r"[+-]?(\d{1,9}(\.\d{0,20})?|\.\d{1,20})", re.ASCII)
# No group of thousands begins with a nought.
_POINTED_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(\.\d{3})+(,\d*)?", re.ASCII)
_COMMA_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(,\d{3})+(\.\d*)?", re.ASCII)
_CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,2}):(\d{1,2}(?:[.,]\d{1,9})?)", re.ASCII)
_MINUS = str.maketrans("−–", "--")
_ORDERS = {"year-month-day": "ymd", "day.month.year": "dmy", "day/month/year": "dmy", "month/day/year": "mdy"}


class CellError(ValueError):
    """A cell that cannot be read as what it should be; the text says why."""


def unit_kind(column: str) -> str:
    """What a column of ours measures: speed, length or time; nothing where its numbers have no unit to convert."""
    if column == "speed_mph":
        return "speed"
    if column == "seconds" or column.endswith("_seconds"):
        return "time"
    return "length" if column == "feet" or column.endswith("_ft") else ""


def number(text: str, decimal: str | None = None) -> str:
    """A number with a decimal point: of 1,32 and 1.234,5 and 1,234.5 and 91.0.

    Args:
        text: as written, blanks at its ends taken off.
        decimal: "comma" or "point", where the map says it. It settles what can be read in two ways and changes nothing
            else: 1.5 in a column of commas is one and a half, as workbooks have it.

    Raises:
        CellError: no number, none with that sign before its decimals, or 1,320, which could be two.
    """
    bare = text.translate(_MINUS).replace("\u00a0", "").replace(" ", "")
    if decimal is None and "," in bare and is_two_numbers(bare):
        raise CellError(f"{quoted(text)} can be read in two ways; say decimal: comma or decimal: point in the map")
    found = _with_a_point(bare, decimal)
    if not _NUMBER.fullmatch(found):
        how = f" with a decimal {decimal}" if decimal and re.fullmatch(r"[+-]?[\d.,]+", bare, re.ASCII) else ""
        raise CellError(f"{quoted(text)} is not a number{how}")
    return plain(found)


def is_two_numbers(text: str) -> bool:
    """Whether the one sign in it can stand before decimals or before thousands: 1,320 and 1.320, but not 0,320."""
    return re.fullmatch(r"[+-]?[1-9]\d{0,2}[.,]\d{3}", text, re.ASCII) is not None


def _with_a_point(bare: str, decimal: str | None) -> str:
    open_ = decimal is None and is_two_numbers(bare)
    if decimal != "point" and not open_ and _POINTED_THOUSANDS.fullmatch(bare):
        return bare.replace(".", "").replace(",", ".")
    if decimal != "comma" and not open_ and _COMMA_THOUSANDS.fullmatch(bare):
        return bare.replace(",", "")
    return bare.replace(",", ".")


def plain(text: str) -> str:
    """Digits without a plus, nor noughts at the end that say nothing."""
    bare = text.removeprefix("+")
    return (bare.rstrip("0").rstrip(".") or "0") if "." in bare else bare


def seconds(text: str, decimal: str | None = None) -> str:
    """Seconds as one number: of 1.32 and 1,32 and of a clock's 0:01.32 and 0:00:01.32.

    Raises:
        CellError: no time.
    """
    clock = _CLOCK.fullmatch(text)
    if not clock:
        return number(text, decimal)
    hours, minutes, rest = (float((part or "0").replace(",", ".")) for part in clock.groups())
    return plain(f"{hours * 3600 + minutes * 60 + rest:.3f}")


def converted(text: str, column: str, unit: str | None, decimal: str | None = None) -> str:
    """A measured number in the unit of our column.

    Args:
        text: as written.
        column: ours, whose name has the unit.
        unit: theirs; None for the same.
        decimal: as in `number`.

    Raises:
        CellError: no number.
    """
    kind = unit_kind(column)
    found = seconds(text, decimal) if kind == "time" else number(text, decimal)
    if unit is None or UNITS[unit][1] == 1:
        return found
    return plain(f"{float(found) * UNITS[unit][1]:.{DECIMALS[kind]}f}")


def day(text: str, form: str | None) -> str:
    """A day as year-month-day; a time of day after it is left off.

    Args:
        text: as written.
        form: the notation; None reads year-month-day alone. Days that a workbook has as days come as year-month-day
            and are read whatever the notation.

    Raises:
        CellError: no day in that notation.
    """
    iso = re.fullmatch(r"(\d{4})-(\d{2})-(\d{2})(?:[T ]\d.*)?", text, re.ASCII)
    if iso and form != "serial":
        return _calendar(text, *map(int, iso.groups()))
    if form == "serial":
        found = re.fullmatch(r"(\d{1,6})(?:\.\d+)?", text, re.ASCII)
        if iso:
            return _calendar(text, *map(int, iso.groups()))
        if not found or int(found[1]) < 61:
            raise CellError(f"{quoted(text)} is not a day as spreadsheets count them, like 46087")
        there = DAY_NOUGHT + timedelta(days=int(found[1]))
        return _calendar(text, there.year, there.month, there.day)
    order = _ORDERS.get(form or "year-month-day", "ymd")
    parts = re.fullmatch(r"(\d{1,4})\s*[./-]\s*(\d{1,2})\s*[./-]\s*(\d{1,4})(?:[T ,]+\d.*)?", text, re.ASCII)
    if not parts:
        raise CellError(f"{quoted(text)} is not a date written {form or 'year-month-day'}")
    by_letter = dict(zip(order, parts.groups(), strict=True))
    if order == "ymd" and len(by_letter["y"]) != 4:
        # 03/06/26 begins with no year.
        raise CellError(f"{quoted(text)} is not a date written year-month-day with four digits of the year")
    year = int(by_letter["y"])
    if len(by_letter["y"]) == 2:
        year += 2000
    return _calendar(text, year, int(by_letter["m"]), int(by_letter["d"]))


def _calendar(text: str, year: int, month: int, day_: int) -> str:
    try:
        found = date(year, month, day_)
    except ValueError:
        raise CellError(f"{quoted(text)} is not a day of the calendar in this notation") from None
    if year < EARLIEST_YEAR:
        raise CellError(f"{quoted(text)} is before {EARLIEST_YEAR}; correct the year")
    return found.isoformat()


def part_of(text: str, split: str, part: int) -> str:
    """One part of a cell, as the balls of a count 1-2.

    Raises:
        CellError: there are not so many parts; or a spreadsheet made a date of a count.
    """
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text, re.ASCII):
        raise CellError(f"{quoted(text)} is a date: a spreadsheet has read a count as one; type it anew as text")
    parts = text.split(split)
    if part > len(parts):
        raise CellError(f"{quoted(text)} has no part {part} with {quoted(split)} between them")
    return parts[part - 1].strip()
