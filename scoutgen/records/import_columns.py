"""What columns does a file of somebody else's have, on which row and sheets, and which of ours can a header mean?"""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, islice
from pathlib import Path

from scoutgen.records.import_file import UNSAVED, Line, Sheet, UnreadableError, csv_sheet, header_of, is_workbook
from scoutgen.records.import_words import COUNT, HEADERS, TIMED
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


@dataclass(frozen=True)
class Column:
    """One of their columns.

    Attributes:
        header: its name.
        words: the bare words of it.
        unit: its unit, if it says one.
        cells: its different cells.
        lines: by cell the rows it stands in, as `x_source` has them.
    """

    header: str
    words: str
    unit: str
    cells: tuple[str, ...]
    lines: Mapping[str, Sequence[str]] = field(default_factory=dict)

    def rows(self, cells: Collection[str]) -> int:
        """In how many rows one of these cells stands."""
        return sum(len(self.lines.get(cell, (cell,))) for cell in cells)


@dataclass(frozen=True)
class Look:
    """A first look at a file.

    Attributes:
        line: the row that names the columns.
        columns: those with a name.
        rows: how many rows were looked at.
        again: rows that name the columns once more, as `x_source` has them; no cell of theirs is in the columns.
        sheets: sheets of a workbook with these columns; none of a text file.
        others: its other sheets.
    """

    line: int
    columns: list[Column]
    rows: int
    again: tuple[str, ...] = ()
    sheets: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


def first_look(file: Path) -> Look:
    """The columns of a file, of a workbook those of the sheet that says most in the trade's words, and its likes.

    Raises:
        UnreadableError: the file cannot be read.
    """
    if not is_workbook(file):
        text = csv_sheet(file)
        first = list(islice(text.rows, HEADER_WITHIN))
        return _look([Sheet(text.file, chain(first, text.rows))], _header_row(first)[1])
    names = sheet_names(file)
    tops = {name: list(islice(_sheet(file, name).rows, HEADER_WITHIN)) for name in names[:SHEETS_LOOKED_AT]}
    if not any(tops.values()):
        raise UnreadableError("has no sheet with cells")
    best = max(tops, key=lambda name: _header_row(tops[name])[0])
    header = next(row for row in tops[best] if row[0] == _header_row(tops[best])[1])
    same = tuple(name for name, top in tops.items() if header in top)
    others = tuple(name for name in names if name not in same)
    return replace(_look(workbook_sheets(file, same), header[0]), sheets=same, others=others)


def _sheet(file: Path, name: str) -> Sheet:
    return workbook_sheets(file, [name])[0]


def _look(sheets: Sequence[Sheet], line: int) -> Look:
    """The columns of sheets whose header stands in the same line."""
    lines: list[dict[str, list[str]]] = []
    header: list[str] = []
    again: list[str] = []
    rows = 0
    for sheet in sheets:
        if rows == ROWS_LOOKED_AT:
            break
        line, header = header_of(sheet, line)
        lines = lines or [{} for _ in header]
        for at, row in islice(sheet.rows, ROWS_LOOKED_AT - rows):
            rows += 1
            where = f"{sheet.file}:{at}"
            if row == header:
                again.append(where)
                continue
            for seen, cell in zip(lines, row, strict=False):
                if cell and cell != UNSAVED:
                    seen.setdefault(cell, []).append(where)
    named = [(name, seen) for name, seen in zip(header, lines, strict=True) if name]
    return Look(line, [column_of(name, tuple(seen), seen) for name, seen in named], rows, tuple(again))


def _header_row(first: Sequence[Line]) -> tuple[int, int]:
    """How many words of the trade the row has that names the columns, and its line: a title may stand above it."""
    words = [sum(1 for cell in cells if cell and _is_known(column_of(cell))) for _, cells in first]
    return (max(words), first[words.index(max(words))][0]) if first else (0, 1)


def _is_known(column: Column) -> bool:
    return bool(meant_by(column)) or column.words in COUNT or any(column.words in words for words in TIMED.values())


def column_of(header: str, cells: tuple[str, ...] = (), lines: Mapping[str, Sequence[str]] | None = None) -> Column:
    """A column by its header, its different cells and the rows they stand in."""
    words = folded(header)
    unit = next((key for key in sorted(_UNITS, key=len, reverse=True) if re.search(rf"(?:^| ){key}$", words)), "")
    bare = words.removesuffix(unit).strip() if unit else words
    return Column(header, bare or words, _UNITS.get(unit, ""), cells, lines or {})


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
