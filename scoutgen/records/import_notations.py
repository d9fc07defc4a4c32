"""In which notation are the cells of somebody else's column: days, counts, numbers; and which of them are not?"""

import re
from collections import Counter
from collections.abc import Collection, Sequence

from scoutgen.records.import_cells import CellError, converted, day, is_two_numbers, number
from scoutgen.records.import_columns import Column
from scoutgen.records.import_words import COUNT

# Of the filled rows, not of the different cells: one total below a night's one date is half of its different cells. A
# fifth is more than totals and slips come to, and an odd cell then has four that fit beside it.
NEARLY_ALL = 0.8
_ORDERS = ("year-month-day", "day.month.year", "day/month/year", "month/day/year", "serial")
_COUNT = re.compile(r"[0-3]\s*([-–/.])\s*[0-2]", re.ASCII)
_SERIAL = re.compile(r"\d{5}(\.\d+)?$", re.ASCII)
_LIKE_A_DAY = re.compile(r"\d{1,4}\s*[./-]\s*\d{1,2}\s*[./-]", re.ASCII)
_TWO_NUMBERS = re.compile(r"\d+\s*[-–/.]\s*\d+", re.ASCII)
# A pitch this fast was not thrown by anybody, so the numbers are kilometres.
FASTEST_MPH = 110


def nearly_all(column: Column, odd: Collection[str]) -> bool:
    """Whether a column is of a kind although these of its cells are not; one without cells is of none."""
    rows = column.rows(column.cells)
    return rows > 0 and rows - column.rows(odd) >= NEARLY_ALL * rows


def count_split(column: Column) -> tuple[str, list[str]] | None:
    """The sign between balls and strikes, and the cells that must be mended; None for no column of counts.

    Days that a spreadsheet made of counts must be mended too, but do not speak against it: they may be many.
    """
    signs: Counter[str] = Counter()
    for cell in column.cells:
        if found := _COUNT.fullmatch(cell):
            signs[found[1]] += column.rows([cell])
    if not signs:
        return None
    split = signs.most_common(1)[0][0]
    open_ = [cell for cell in column.cells if not ((found := _COUNT.fullmatch(cell)) and found[1] == split)]
    odd = [cell for cell in open_ if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", cell, re.ASCII)]
    # Scores and decimals are two numbers too, of which some go beyond 3-2.
    if not says_count(column) and any(_TWO_NUMBERS.fullmatch(cell) and not _COUNT.fullmatch(cell) for cell in odd):
        return None
    return (split, open_) if nearly_all(column, odd) else None


def says_count(column: Column) -> bool:
    """Whether its header is one of a count."""
    return column.words in COUNT or "count" in column.words.split()


def date_forms(column: Column, played: Collection[str] = ()) -> tuple[list[str], list[str]]:
    """The notations that fit most cells, of those that fit nearly all, and the cells that not all of them can read.

    Args:
        column: theirs.
        played: days of games; where they fit one notation and no other, it is that.
    """
    odd = {form: [cell for cell in column.cells if not _is_day(cell, form)] for form in _ORDERS}
    odd = {form: cells for form, cells in odd.items() if nearly_all(column, cells)}
    least = min(map(column.rows, odd.values()), default=0)
    forms = [form for form, cells in odd.items() if column.rows(cells) == least]
    if "year-month-day" in forms:
        forms = ["year-month-day"]
    # Points stand between day and month where the day comes first; of slashes the games may tell.
    days = {form: {day(cell, form) for cell in column.cells if cell not in odd[form]} for form in forms}
    of_games = [form for form in forms if days[form] <= set(played)]
    forms = of_games if len(of_games) == 1 else forms
    return forms, [cell for cell in column.cells if any(cell in odd[form] for form in forms)]


def _is_day(cell: str, form: str) -> bool:
    if not (_SERIAL if form == "serial" else _LIKE_A_DAY).match(cell):
        return False
    sign = {"day.month.year": ".", "day/month/year": "/", "month/day/year": "/"}.get(form, "")
    if sign not in cell and not re.match(r"\d{4}-", cell):
        return False
    try:
        day(cell, form)
    except CellError:
        return False
    return True


def no_numbers(
    name: str, column: Column, low: float | None, high: float | None, *, unit: str = "", sign: str = ""
) -> list[str]:
    """Cells that are no number of a column of ours, without dashes and what can be read in two ways.

    Args:
        name: ours.
        column: theirs.
        low: the least, in our unit.
        high: the greatest.
        unit: theirs, if it is another.
        sign: the one before decimals, where it must be said.
    """
    found = []
    for cell in column.cells:
        if is_two_numbers(cell) or not re.search(r"\w", cell):
            continue
        try:
            size = float(converted(cell, name, unit or None, sign or None))
        except CellError:
            found.append(cell)
            continue
        if (low is not None and size < low) or (high is not None and size > high):
            found.append(cell)
    return found


def unit_by_size(name: str, column: Column) -> str:
    """kph, where more speeds than slips come to are such as nobody throws in miles an hour."""
    if name != "speed_mph" or not column.cells:
        return ""
    return "" if nearly_all(column, [cell for cell in column.cells if _is_above(cell, FASTEST_MPH)]) else "kph"


def _is_above(cell: str, most: float) -> bool:
    try:
        return float(number(cell)) > most
    except CellError:
        return False


def decimal_sign(cells: Sequence[str]) -> tuple[str, list[str]]:
    """The sign before decimals, comma or point, as far as it must be said, and the cells for which it must.

    Those are cells such as 1,320, and 1.320 where commas stand elsewhere. What the others have before their decimals is
    the sign; it is empty where they have both or neither.
    """
    open_ = [cell for cell in cells if is_two_numbers(cell)]
    clear = {_sign_of(cell) for cell in cells if cell not in open_} - {""}
    with_comma = [cell for cell in open_ if "," in cell]
    if clear <= {"point"}:
        open_ = with_comma if clear or not with_comma else open_
    return (next(iter(clear)) if open_ and len(clear) == 1 else ""), open_


def _sign_of(cell: str) -> str:
    """The sign that stands before the decimals of a number that can be read in one way."""
    try:
        number(cell)
    except CellError:
        return ""
    signs = re.sub(r"[^.,]", "", cell)
    if not signs:
        return ""
    # A sign that comes twice parts thousands, so the other one is before decimals.
    is_comma = (signs[-1] == ",") == (signs.count(signs[-1]) == 1)
    return "comma" if is_comma else "point"
