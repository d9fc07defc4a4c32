"""How do imported rows stand in a file of ours, and was such a file changed by hand since?

Beside the charted columns each row has `x_source`, the file and line it came from, `x_map`, the map it came through,
`x_row`, its number among the rows written, and `x_check`, a sum over the row: where a sum does not fit, the row was
changed by somebody, where a number is missing, it was deleted, and neither is ever undone.
"""

import csv
import hashlib
import io
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from scoutgen.records.import_map import NOTES
from scoutgen.records.import_rows import ImportedRow

SOURCE, MAP, ROW, CHECK = "x_source", "x_map", "x_row", "x_check"
# Columns in which a text of any kind may stand.
FREE_TEXTS = NOTES | {SOURCE, MAP}
_PLACE = re.compile(r"(\d{1,9})(?: of (\d{1,9}))?", re.ASCII)
_RUN_BY_SPREADSHEETS = re.compile(r"\s*[=+\-@＝＋－＠]|[\t\r\n]")


class WriteError(Exception):
    """The file may not or cannot be written; the text says why."""


@dataclass(frozen=True)
class Written:
    """The text of a file of imported rows, and the line each row begins in."""

    text: str
    lines: tuple[int, ...]


def safe_text(text: str) -> str:
    """A text that no spreadsheet takes for a formula: an apostrophe before = + - @; numbers stay as they are.

    Source:
        OWASP, "CSV Injection", https://owasp.org/www-community/attacks/CSV_Injection.
    """
    if re.fullmatch(r"[+-]?\d+(?:\.\d+)?", text, re.ASCII):
        return text
    return f"'{text}" if _RUN_BY_SPREADSHEETS.match(text) else text


def as_csv(columns: Sequence[str], rows: Sequence[ImportedRow], map_name: str) -> Written:
    """Imported rows as CSV; equal rows have equal bytes."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow([*columns, SOURCE, MAP, ROW, CHECK])
    lines: list[int] = []
    line = 2
    for number, row in enumerate(rows, 1):
        # How many there are stands in the first row alone, so that a file that grew differs in that and in what is new.
        place = f"1 of {len(rows)}" if number == 1 else str(number)
        texts = {**row.cells, SOURCE: f"{row.file}:{row.line}", MAP: map_name, ROW: place}
        cells = [safe_text(texts[name]) if name in FREE_TEXTS else texts[name] for name in (*columns, SOURCE, MAP, ROW)]
        # A line end of a cell as the reader will count it.
        cells = [cell.replace("\r\n", "\n").replace("\r", "\n") for cell in cells]
        writer.writerow([*cells, _sum(cells)])
        lines.append(line)
        line += 1 + sum(cell.count("\n") for cell in cells)
    return Written(stream.getvalue(), tuple(lines))


def _sum(cells: Sequence[str]) -> str:
    # A letter before it, or spreadsheets read some of them as numbers.
    return "c" + hashlib.sha256("\x1f".join(cells).encode()).hexdigest()[:10]


@dataclass(frozen=True)
class Difference:
    """What a new import of a file says otherwise than the one before.

    Attributes:
        new: how many rows were not there.
        gone: the places in their file, then, of rows that are there no more, or not as they were.
    """

    new: int
    gone: tuple[str, ...]


def difference(former: str, now: str) -> Difference:
    """Compare two texts that `as_csv` wrote, row by row; where a row stands, and blanks, say nothing."""
    before, after = _rows_of(former), _rows_of(now)
    lost = Counter(row for row, _ in before) - Counter(row for row, _ in after)
    come = Counter(row for row, _ in after) - Counter(row for row, _ in before)
    gone = []
    for row, source in before:
        if lost[row] > 0:
            lost[row] -= 1
            gone.append(source)
    return Difference(come.total(), tuple(gone))


def _rows_of(text: str) -> list[tuple[frozenset[tuple[str, str]], str]]:
    """Each row by what is filled in it, whatever the order of the columns, and where it came from."""
    header, *rows = list(csv.reader(io.StringIO(text, newline="")))
    own = header[:-4]
    return [
        (frozenset((name, cell) for name, cell in zip(own, row[:-4], strict=True) if cell), row[-4]) for row in rows
    ]


def why_not_over(path: Path, file: str, map_name: str) -> str:
    """Why a file that stands there may not be replaced by a new import of the same file; empty where it may.

    Args:
        path: the file of an earlier import, or of somebody.
        file: the name of the foreign file.
        map_name: that of the map.
    """
    try:
        rows = list(csv.reader(io.StringIO(path.read_text(encoding="utf-8"), newline=""), strict=True))
    except (OSError, UnicodeDecodeError, csv.Error):
        return f"stands there and cannot be read, {_ANOTHER}"
    if not rows or rows[0][-4:] != [SOURCE, MAP, ROW, CHECK]:
        return f"stands there and was not written by an import, {_ANOTHER}"
    for number, row in enumerate(rows[1:], 2):
        if len(row) != len(rows[0]) or row[-1] != _sum(row[:-1]):
            first = f"row {number}" if len(row) != len(rows[0]) else f"row {number}, from {row[-4]}"
            return f"was changed by hand since it was imported (first in {first}), {_OUT_OF_THE_WAY}"
        source, map_, _, _ = row[-4:]
        if not _PLACE.fullmatch(row[-2]):
            return f"stands there and was not written by an import (row {number} has no number), {_ANOTHER}"
        if map_ != safe_text(map_name) or not re.match(rf"{re.escape(safe_text(file))}:", source):
            return f"came from another file or map ({source} with {map_}), {_ANOTHER}"
    return _missing(rows[1:])


_ANOTHER = "so nothing was written; move it away, or give the map a name: of its own"
_OUT_OF_THE_WAY = (
    "so nothing was written. Mend it in their file instead, move this one away and import again; or, to keep what you "
    "wrote, name those rows of their file under without: in the map, put yours into a file of your own, and move this "
    "one away"
)


def _missing(rows: Sequence[Sequence[str]]) -> str:
    """Where rows are gone that an import wrote, or one stands twice; empty where each is there once."""
    by_number: list[tuple[int, str]] = []
    written = 0
    for row in rows:
        if place := _PLACE.fullmatch(row[-2]):
            by_number.append((int(place[1]), row[-4]))
            written = max(written, int(place[2] or 0))
    by_number.sort()
    before = "the head"
    for expected, (number, source) in enumerate(by_number, 1):
        if number != expected:
            return f"has lost or doubled rows since it was imported (first behind {before}), {_OUT_OF_THE_WAY}"
        before = source
    if len(by_number) != written:
        return f"has lost rows since it was imported (behind {before}), {_OUT_OF_THE_WAY}"
    return ""
