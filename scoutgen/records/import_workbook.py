"""What do the sheets of a workbook say, cell by cell, as text?

Read with openpyxl, sheets streamed: no macro, link or formula is followed. A part that unpacks to more than a season's
charts could hold is refused before anything of it is unpacked.
"""

import re
import warnings
import zipfile
import zlib
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from datetime import date, datetime, time, timedelta
from itertools import islice, zip_longest
from pathlib import Path
from typing import Any

from scoutgen.records.check import did_you_mean, listed, quoted
from scoutgen.records.import_cells import is_two_numbers
from scoutgen.records.import_file import MOST_COLUMNS, MOST_ROWS, UNSAVED, Line, Sheet, UnreadableError, name_of

MOST_PARTS = 5_000
MOST_UNPACKED_BYTES = 500_000_000
# Held in memory as a whole, unlike sheets.
MOST_TEXTS_BYTES = 150_000_000
BLOCK = 1_000_000
LONGEST_TAG = 200
_FORMULA = re.compile(rb"<(?:\w+:)?f[\s>/]")
_CELL = rb"\$?([A-Z]{1,3})\$?(\d{1,7})"
_MERGED = re.compile(rb"<(?:\w+:)?mergeCell\s[^<>]*?ref=[\"']" + _CELL + b":" + _CELL + b"[\"']")
# A row or a cell, and its place; a sheet may leave that out.
_PLACED = re.compile(rb"<(?:\w+:)?(row|c)(?=[\s/>])(?:[^<>]*?\sr=[\"']([A-Z]{0,3})(\d{1,7})[\"'])?")
# Of all rows together, blanks that a sheet names one by one among them.
MOST_CELLS = 50_000_000
_TWICE = (
    "has a row or a cell twice, or out of its order; open the workbook, save it again, and see that all rows are there"
)
_FROM_HERE = "cannot be read from here on; save the workbook again, type this row's cells anew, or save it as CSV UTF-8"
_BROKEN = "is not a workbook that can be read; open it, save it again as .xlsx, or save the sheet as CSV UTF-8"


def sheet_names(path: Path) -> list[str]:
    """The workbook's sheets that hold cells, in order.

    Raises:
        UnreadableError: the workbook cannot be read.
    """
    return list(_parts_by_sheet(path))


def _parts_by_sheet(path: Path) -> dict[str, str]:
    with _opened(path) as book:
        # The library says nowhere else in which part a sheet is.
        return {sheet.title: str(sheet._worksheet_path).removeprefix("/") for sheet in book.worksheets}  # noqa: SLF001


def workbook_sheets(path: Path, names: Sequence[str]) -> list[Sheet]:
    """Sheets of a workbook, read as they are gone through.

    Args:
        path: the workbook.
        names: which; none means the first.

    Raises:
        UnreadableError: the workbook cannot be read or has no such sheet.
    """
    there = _parts_by_sheet(path)
    if not there:
        raise UnreadableError("has no sheet with cells")
    for name in names:
        if name not in there:
            known = listed(map(quoted, list(there)[:20]), "and")
            raise UnreadableError(f"has no sheet {quoted(name)}{did_you_mean(name, there)}; its sheets are {known}")
    wanted = list(dict.fromkeys(names)) or list(there)[:1]
    for name in wanted:
        _check_order(path, there[name])
    shown = {name: f"{name_of(path)}:{_plain_name(name)}" for name in wanted}
    return [Sheet(shown[name], _rows(path, name), _merged(path, there[name])) for name in wanted]


def _plain_name(name: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in name)


@contextmanager
def _opened(path: Path, *, formulas: bool = False) -> Iterator[Any]:
    """The workbook, saved values in the place of formulas unless they are asked for.

    Raises:
        UnreadableError: too large unpacked, or broken, here or in the middle of a sheet.
    """
    from openpyxl import load_workbook  # noqa: PLC0415 - half a second, for workbooks alone

    try:
        # Opened here, since the library leaves a file open that it cannot read.
        with path.open("rb") as stream, warnings.catch_warnings():
            with zipfile.ZipFile(stream) as packed:
                _check_parts(packed)
            # It tells of every decoration that it does not keep.
            warnings.simplefilter("ignore")
            yield load_workbook(stream, read_only=True, data_only=not formulas, keep_links=False)
    except UnreadableError:
        raise
    except Exception:  # noqa: BLE001 - a broken workbook raises whatever the parser met first
        raise UnreadableError(_BROKEN) from None


def _check_parts(packed: zipfile.ZipFile) -> None:
    parts = packed.infolist()
    unpacked = sum(part.file_size for part in parts)
    if len(parts) > MOST_PARTS or unpacked > MOST_UNPACKED_BYTES:
        raise UnreadableError(f"unpacks to {len(parts):,} parts of {unpacked:,} bytes; no season's charts are so large")
    for part in parts:
        if not part.filename.endswith((".xml", ".rels")):
            continue
        if "sheets/" not in part.filename and part.file_size > MOST_TEXTS_BYTES:
            raise UnreadableError(f"holds a part of {part.file_size:,} bytes that must be read at once; split it")
        with packed.open(part) as stream:
            if b"<!" in stream.read(1_000).replace(b"<!--", b""):
                raise UnreadableError("declares a document type, which no workbook needs; save it again as .xlsx")


def _rows(path: Path, name: str) -> Iterator[Line]:
    """Every row that holds something, with its number as the spreadsheet shows it."""
    with ExitStack() as opened:
        saved_rows = _streamed(opened.enter_context(_opened(path))[name])
        written_rows: Iterator[Sequence[object]] = iter(())
        # Twice as long, so only where there is a formula whose value may never have been saved.
        if _has_formulas(path):
            written_rows = _streamed(opened.enter_context(_opened(path, formulas=True))[name])
        both = zip_longest(islice(saved_rows, MOST_ROWS + 1), islice(written_rows, MOST_ROWS + 1), fillvalue=())
        for line, (saved, written) in enumerate(both, 1):
            cells = _told([cell_text(value) for value in saved], written, line)
            if cells:
                yield line, cells


def _streamed(sheet: Any) -> Iterator[Sequence[object]]:  # noqa: ANN401 - the library's own
    """A sheet's rows, however large it says it is: some programs write that once and let the sheet grow.

    Raises:
        UnreadableError: a row cannot be read, or all have too many cells.
    """
    sheet.reset_dimensions()
    line, cells = 0, 0
    rows = iter(sheet.iter_rows(values_only=True))
    while True:
        try:
            row: Sequence[object] = next(rows)
        except StopIteration:
            return
        except Exception:  # noqa: BLE001 - as of the whole workbook
            raise UnreadableError(_FROM_HERE, line + 1) from None
        line, cells = line + 1, cells + len(row)
        if cells > MOST_CELLS:
            raise UnreadableError(f"has more than {MOST_CELLS:,} cells; split it by month", line)
        yield row


def _has_formulas(path: Path) -> bool:
    with zipfile.ZipFile(path) as packed:
        return any(
            next(_found(packed, part.filename, _FORMULA), None) is not None
            for part in packed.infolist()
            if "sheets/" in part.filename and part.filename.endswith(".xml")
        )


@contextmanager
def _unpacked(path: Path) -> Iterator[zipfile.ZipFile]:
    """The parts of a workbook, to be read without the library.

    Raises:
        UnreadableError: one is broken.
    """
    try:
        with zipfile.ZipFile(path) as packed:
            yield packed
    # Zip's own for a way of packing that Python does not know is NotImplementedError.
    except (OSError, KeyError, ValueError, EOFError, NotImplementedError, zipfile.BadZipFile, zlib.error):
        raise UnreadableError(_BROKEN) from None


def _merged(path: Path, part: str) -> tuple[tuple[int, int, str], ...]:
    """A sheet's merged ranges, which the library does not tell of sheets that it streams.

    Raises:
        UnreadableError: the part is broken.
    """
    with _unpacked(path) as packed:
        found = [tuple(map(bytes.decode, match.groups())) for match in _found(packed, part, _MERGED)]
    return tuple((int(first), int(last), f"{a}{first}:{b}{last}") for a, first, b, last in found)


def _check_order(path: Path, part: str) -> None:
    """Refuse a sheet in which a row or a cell stands twice or behind a later one: the library would pass one by.

    Raises:
        UnreadableError: there is such a one, or the part is broken.
    """
    line, column = 0, 0
    with _unpacked(path) as packed:
        for match in _found(packed, part, _PLACED):
            kind, letters, number = match.groups()
            if kind == b"row":
                before, line, column = line, int(number or line + 1), 0
                in_order = line > before
            else:
                before, column = column, _column(letters) if letters else column + 1
                in_order = column > before
            if not in_order:
                raise UnreadableError(_TWICE, line)


def _column(letters: bytes) -> int:
    place = 0
    for letter in letters:
        place = place * 26 + letter - ord("A") + 1
    return place


def _found(packed: zipfile.ZipFile, part: str, wanted: re.Pattern[bytes]) -> Iterator[re.Match[bytes]]:
    """What fits somewhere in a part, read block by block."""
    with packed.open(part) as stream:
        before = b""
        while block := stream.read(BLOCK):
            text = before + block
            # A tag that the block cuts is looked at with the next one.
            cut = text.rfind(b"<")
            end = cut if len(text) - LONGEST_TAG < cut and text.find(b">", cut) < 0 else len(text)
            yield from wanted.finditer(text, 0, end)
            before = text[end:]
        yield from wanted.finditer(before)


def _told(cells: list[str], written: Sequence[object], line: int) -> list[str]:
    """A row's cells, a formula whose value was never saved among them as UNSAVED."""
    if line > MOST_ROWS:
        raise UnreadableError(f"has more than {MOST_ROWS:,} rows; split it by month", line)
    for place, formula in enumerate(written):
        if isinstance(formula, str) and formula.startswith("=") and place < len(cells) and not cells[place]:
            cells[place] = UNSAVED
    while cells and not cells[-1]:
        cells.pop()
    if len(cells) > MOST_COLUMNS:
        raise UnreadableError(f"has more than {MOST_COLUMNS} columns in this row", line)
    return cells


def cell_text(value: object) -> str:  # noqa: PLR0911 - a return for each kind of cell
    """A cell's value as somebody would type it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        text = f"{value:.15g}"
        # A nought behind 1.345, so that no map takes the point of a workbook's own number for thousands.
        return f"{text}0" if is_two_numbers(text) else text
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time() else value.isoformat(" ", "seconds")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, timedelta):
        value = (datetime(2000, 1, 1) + value % timedelta(days=1)).time()  # noqa: DTZ001 - a clock's reading, no moment
    if isinstance(value, time):
        return f"{value.hour}:{value.minute:02}:{value.second + value.microsecond / 1e6:06.3f}"
    return re.sub(r"_x000D_", "", str(value)).strip()
