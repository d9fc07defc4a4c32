"""What stands in a CSV file or workbook of somebody else's, row by row, whoever made it and however it is broken?

Nothing in it is run or worked out: of a formula the value counts that was saved with it. What could fill the memory is
refused by its size before it is read.
"""

import codecs
import csv
import io
import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from scoutgen.records.check import quoted
from scoutgen.records.csvlines import LONGEST_CELL_READ, Trouble, longest_cell, numbered_rows
from scoutgen.records.folder import shown_path
from scoutgen.records.problems import Problem

MOST_BYTES = 200_000_000
MOST_ROWS = 1_000_000
MOST_COLUMNS = 500
MOST_MERGED_NAMED = 10
DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "bar": "|"}
QUOTES = 'the quotes (") of this row do not match; write a quote in a text twice'
_LONG = f"a cell of this row has more than {LONGEST_CELL_READ:,} characters; shorten it, or close its quotes"
NO_FILE = "a pipe, a folder or a device; save what it gives as a file, and name that"
_ZIP, _OLD_OFFICE = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"

# Stands for a formula whose value was not saved with the workbook; no cell holds it by itself.
UNSAVED = "\0formula"

Line = tuple[int, list[str]]


class UnreadableError(Exception):
    """The file, or the rest of it, cannot be read; the text says why and what to do, `line` where (0: as a whole)."""

    def __init__(self, text: str, line: int = 0) -> None:
        super().__init__(text)
        self.line = line


@dataclass(frozen=True)
class Sheet:
    """One table of cells.

    Attributes:
        file: what problems and x_source call it, e.g. `march.xlsx:Bullpen`.
        rows: lines with their cells, stripped, rows of blanks left out; reading them may raise UnreadableError.
        merged: ranges of merged cells, first and last line and as the spreadsheet names it, `B3:B6`.
    """

    file: str
    rows: Iterator[Line]
    merged: tuple[tuple[int, int, str], ...] = ()

    def problem(self, line: int, column: str, text: str) -> Problem:
        """A problem in a row of it."""
        return Problem(self.file, line, column, text)


def is_workbook(path: Path) -> bool:
    """Whether it is a workbook by its first bytes, whatever its name says.

    Raises:
        UnreadableError: an old or locked workbook, or nothing that can be opened.
    """
    try:
        # Opening a pipe might wait for ever.
        if not stat.S_ISREG(path.stat().st_mode):
            raise UnreadableError(f"is {NO_FILE}")
        with path.open("rb") as stream:
            start = stream.read(4)
        if path.stat().st_size > MOST_BYTES:
            raise UnreadableError(f"is larger than {MOST_BYTES:,} bytes; split it by month")
    except OSError as error:
        raise UnreadableError(f"cannot be opened: {error.strerror or 'unknown reason'}") from None
    if start == _OLD_OFFICE:
        raise UnreadableError("is a workbook of an old kind or one with a password; save it as .xlsx or as CSV UTF-8")
    return start == _ZIP


def name_of(path: Path) -> str:
    """The file's name as problems and x_source show it."""
    return shown_path(path, path.parent)


def csv_sheet(path: Path, *, delimiter: str | None = None, encoding: str | None = None, header: int = 1) -> Sheet:
    """A CSV file.

    Args:
        path: the file.
        delimiter: the character between cells; None finds it in the header row.
        encoding: utf-8, utf-16 or latin-1; None finds it.
        header: the row with the names of the columns.

    Raises:
        UnreadableError: the file cannot be read as text.
    """
    try:
        data = path.read_bytes()
    except OSError as error:
        raise UnreadableError(f"cannot be opened: {error.strerror or 'unknown reason'}") from None
    text = _decoded(data, encoding)
    del data
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        raise UnreadableError("holds a NUL character; it is no text file, or was damaged on its way", line)
    return Sheet(name_of(path), _csv_rows(text, delimiter or _delimiter(text, header)))


def _decoded(data: bytes, encoding: str | None) -> str:
    try:
        if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            return data.decode("utf-16")
        if data.startswith(codecs.BOM_UTF8) or encoding == "utf-8":
            return data.decode("utf-8-sig")
        if encoding == "utf-16":
            return data.decode("utf-16-le")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise UnreadableError(f"is not {error.encoding} text; save it again as CSV UTF-8", line) from None
    if encoding is None:
        try:
            return data.decode("utf-8")
        except UnicodeDecodeError:
            pass
    try:
        # What spreadsheets of the West save: Latin-1 with dashes and quotes where it has control characters.
        return data.decode("cp1252")
    except UnicodeDecodeError:
        return data.decode("latin-1")


def _delimiter(text: str, header: int) -> str:
    """What separates the cells of the header row: whatever stands there most often, outside quotes."""
    stream = io.StringIO(text, newline="")
    line = ""
    for _ in range(header):
        line = stream.readline(100_000)
    outside = "".join(line.split('"')[::2])
    return max(DELIMITERS.values(), key=outside.count)


def _csv_rows(text: str, delimiter: str) -> Iterator[Line]:
    try:
        with longest_cell():
            for number, (start, row) in enumerate(numbered_rows(io.StringIO(text, newline=""), 0, delimiter)):
                if isinstance(row, Trouble):
                    raise UnreadableError(_LONG if row.is_long else QUOTES, start)
                if number >= MOST_ROWS:
                    raise UnreadableError(f"has more than {MOST_ROWS:,} rows; split it by month", start)
                if len(row) > MOST_COLUMNS:
                    raise UnreadableError(f"has more than {MOST_COLUMNS} columns in this row", start)
                cells = [cell.strip() for cell in row]
                if any(cells):
                    yield start, cells
    except csv.Error as error:
        raise UnreadableError(f"cannot be read as CSV ({error})") from None


def header_of(sheet: Sheet, header: int) -> tuple[int, list[str]]:
    """The row that names the columns, and its line; what stands before it is passed over.

    Raises:
        UnreadableError: there is no such row, or a name stands in it twice.
    """
    for line, cells in sheet.rows:
        if line < header:
            continue
        named = [cell for cell in cells if cell]
        twice = sorted({cell for cell in named if named.count(cell) > 1})
        if twice:
            raise UnreadableError(f"two columns are called {quoted(twice[0])}; give each a name of its own", line)
        return line, cells
    raise UnreadableError("has no row that names its columns" if header == 1 else f"has no row {header}")


def refuse_merged(sheet: Sheet, header: int) -> None:
    """Refuse a sheet in whose rows cells are merged over several: only the first of them would hold the text.

    Raises:
        UnreadableError: there are such below the header.
    """
    below = [(first, name) for first, last, name in sorted(sheet.merged) if first > header and last > first]
    if below:
        names = [name for _, name in below[:MOST_MERGED_NAMED]]
        more = f" and {len(below) - MOST_MERGED_NAMED:,} more" if len(below) > MOST_MERGED_NAMED else ""
        raise UnreadableError(
            f"{', '.join(names)}{more}: merged over several rows, of which only the first would have the text; "
            "unmerge them and fill the text down",
            below[0][0],
        )
