"""What columns does a file of somebody else's have, on which row and sheets, and which of ours can a header mean?"""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path

from scoutgen.records.check import field_checks
from scoutgen.records.import_cells import CellError, day, is_two_numbers, number
from scoutgen.records.import_file import UNSAVED, Line, Sheet, UnreadableError, csv_sheet, header_of, is_workbook
from scoutgen.records.import_map import RECORDS
from scoutgen.records.import_words import COUNT, HEADERS, TELLING
from scoutgen.records.import_workbook import sheet_names, workbook_sheets

ROWS_LOOKED_AT = 2_000
HEADER_WITHIN = 20
SHEETS_LOOKED_AT = 20
# Units as they stand in headers, in brackets or behind the word.
_UNITS = {
    "kph": "kph", "kmh": "kph", "km h": "kph", "mph": "mph", "m s": "m/s", "m": "m", "metres": "m", "meters": "m",
    "cm": "cm", "ft": "ft", "feet": "ft", "in": "in", "inches": "in", "yd": "yd", "yards": "yd", "s": "s", "sec": "s",
    "ms": "ms",
}  # fmt: skip
_ORDERS = ("year-month-day", "day.month.year", "day/month/year", "month/day/year")
COUNTS = re.compile(r"[0-3]\s*([-–/.])\s*[0-2]", re.ASCII)
# A pitch this fast was not thrown by anybody, so the numbers are kilometres.
FASTEST_MPH = 110


@dataclass(frozen=True)
class Column:
    """One of their columns: its name, the bare words of it, its unit if it says one, and its different cells."""

    header: str
    words: str
    unit: str
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Look:
    """A first look at a file.

    Attributes:
        line: the row that names the columns.
        columns: those with a name.
        rows: how many rows were looked at.
        sheets: sheets of a workbook with these columns; none of a text file.
        others: its other sheets.
    """

    line: int
    columns: list[Column]
    rows: int
    sheets: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


def first_look(file: Path) -> Look:
    """The columns of a file, of a workbook those of the sheet that says most in the trade's words.

    Raises:
        UnreadableError: the file cannot be read.
    """
    if not is_workbook(file):
        return _look(csv_sheet(file))
    names = sheet_names(file)
    tops = {name: list(islice(_sheet(file, name).rows, HEADER_WITHIN)) for name in names[:SHEETS_LOOKED_AT]}
    if not any(tops.values()):
        raise UnreadableError("has no sheet with cells")
    best = max(tops, key=lambda name: _header_row(tops[name])[0])
    found = _look(_sheet(file, best))
    header = next(cells for line, cells in tops[best] if line == found.line)
    same = tuple(name for name, top in tops.items() if (found.line, header) in top)
    return Look(found.line, found.columns, found.rows, same, tuple(name for name in names if name not in same))


def _sheet(file: Path, name: str) -> Sheet:
    return workbook_sheets(file, [name])[0]


def _look(sheet: Sheet) -> Look:
    first = list(islice(sheet.rows, HEADER_WITHIN))
    line = _header_row(first)[1]
    _, header = header_of(Sheet(sheet.file, iter(first)), line)
    cells: list[dict[str, None]] = [{} for _ in header]
    rows = 0
    below = (row for row in chain(first, sheet.rows) if row[0] > line)
    for _, row in islice(below, ROWS_LOOKED_AT):
        rows += 1
        for seen, cell in zip(cells, row, strict=False):
            if cell and cell != UNSAVED:
                seen.setdefault(cell)
    columns = [column_of(name, tuple(seen)) for name, seen in zip(header, cells, strict=True) if name]
    return Look(line, columns, rows)


def _header_row(first: Sequence[Line]) -> tuple[int, int]:
    """How many words of the trade the row has that names the columns, and its line: a title may stand above it."""
    words = [sum(1 for cell in cells if cell and _is_known(column_of(cell))) for _, cells in first]
    return (max(words), first[words.index(max(words))][0]) if first else (0, 1)


def _is_known(column: Column) -> bool:
    return bool(meant_by(column)) or column.words in COUNT


def column_of(header: str, cells: tuple[str, ...] = ()) -> Column:
    """A column by its header and its different cells."""
    words = folded(header)
    unit = next((key for key in sorted(_UNITS, key=len, reverse=True) if re.search(rf"(?:^| ){key}$", words)), "")
    bare = words.removesuffix(unit).strip() if unit else words
    return Column(header, bare or words, _UNITS.get(unit, ""), cells)


def folded(text: str) -> str:
    """Words without capitals, signs and the seams of JoinedWords."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text)
    return " ".join(re.sub(r"[^a-z0-9]+", " ", parted.casefold()).split())


def meant_by(column: Column) -> list[str]:
    """Our columns that its header can mean, over all tables."""
    own = [name for name in HEADERS if column.words == folded(name) or folded(column.header) == folded(name)]
    found = own or [name for name, words in HEADERS.items() if column.words in words]
    if not found and column.unit in ("mph", "kph"):
        found = ["speed_mph"]
    return found


def likely_table(columns: Sequence[Column]) -> str:
    """The table that most of the telling columns point to; pitches where nothing tells."""
    there = {name for column in columns for name in meant_by(column)} | {"count" for c in columns if c.words in COUNT}
    known = {table: set(field_checks(record)) for table, record in RECORDS.items()}
    return max(
        sorted(RECORDS, key=lambda name: name != "pitches"),
        key=lambda table: 3 * len(there & set(TELLING[table])) + len(there & known[table]),
    )


def is_count(column: Column) -> bool:
    """Whether every cell is a count, or a day that a spreadsheet made of one."""
    counts = [cell for cell in column.cells if COUNTS.fullmatch(cell)]
    days = [cell for cell in column.cells if re.fullmatch(r"\d{4}-\d{2}-\d{2}", cell, re.ASCII)]
    return bool(counts) and len(counts) + len(days) == len(column.cells)


def date_forms(cells: Sequence[str], played: Collection[str] = ()) -> list[str]:
    """The notations all of the cells can be read in.

    Args:
        cells: different cells of a column.
        played: days of games; where they fit one notation and no other, it is that.
    """
    if not cells:
        return []
    if all(re.fullmatch(r"\d{5}(\.\d+)?", cell) for cell in cells):
        return ["serial"]
    fitting: dict[str, set[str]] = {}
    for form in _ORDERS:
        sign = {"day.month.year": ".", "day/month/year": "/", "month/day/year": "/"}.get(form)
        try:
            if sign is None or all(sign in cell or re.match(r"\d{4}-", cell) for cell in cells):
                fitting[form] = {day(cell, form) for cell in cells}
        except CellError:
            continue
    if "year-month-day" in fitting:
        return ["year-month-day"]
    # Points stand between day and month where the day comes first; of slashes the games may tell.
    of_games = [form for form, days in fitting.items() if days <= set(played)]
    return of_games if len(of_games) == 1 else list(fitting)


def unit_by_size(name: str, cells: Sequence[str]) -> str:
    """kph, where speeds are such as nobody throws in miles an hour."""
    if name != "speed_mph":
        return ""
    sizes = []
    for cell in cells:
        try:
            sizes.append(float(number(cell)))
        except CellError:
            continue
    return "kph" if sizes and max(sizes) > FASTEST_MPH else ""


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
