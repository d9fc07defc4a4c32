"""Row by row through CSV of any kind, with the line each row begins in, and what broken quotes mean in words."""

import csv
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

LONGEST_CELL_READ = 1_000_000


@dataclass(frozen=True)
class Trouble:
    """Where the standard library's reader gave up, and its words.

    Attributes:
        error: the reader's words.
        last: the line it had read to.
    """

    error: str
    last: int

    @property
    def is_long(self) -> bool:
        """Whether a cell is longer than any is read."""
        return "field larger" in self.error

    @property
    def is_over(self) -> bool:
        """Whether reading on would only read the inside of a quote."""
        return "expected after" not in self.error


def numbered_rows(
    stream: Iterable[str], before: int, delimiter: str = ","
) -> Iterator[tuple[int, list[str] | Trouble]]:
    """The rows with the line each begins in; a row that cannot be read comes as a `Trouble`.

    Args:
        stream: lines with their ends, as they stand in the file.
        before: lines of the file that have been read already.
        delimiter: what stands between cells.
    """
    reader = csv.reader(stream, strict=True, delimiter=delimiter)
    last = before
    while True:
        try:
            for row in reader:
                yield last + 1, row
                last = before + reader.line_num
        except csv.Error as error:
            start, last = last + 1, before + reader.line_num
            yield start, Trouble(str(error), last)
        else:
            return


@contextmanager
def longest_cell() -> Iterator[None]:
    """The standard library keeps this limit for the whole program: set it and put it back."""
    before = csv.field_size_limit(LONGEST_CELL_READ)
    try:
        yield
    finally:
        csv.field_size_limit(before)


def in_words(trouble: Trouble, start: int, path: Path) -> str:
    """What a trouble means.

    Args:
        trouble: what the reader said.
        start: the line the row begins in.
        path: the file, to look for the quote that opened.
    """
    opened = opening_line(path, start) if trouble.is_over else 0
    if "field larger" in trouble.error:
        why = f'; probably the quote (") opened in line {opened} is never closed' if opened else ""
        text = f"a cell in this row is longer than {LONGEST_CELL_READ:,} characters{why}"
    elif opened:
        text = (
            f'the quote (") opened in line {opened} is never closed; close it, '
            "or write a quote that belongs to the text twice"
        )
    elif not trouble.is_over:
        where = f" from line {start} to line {trouble.last}" if trouble.last > start else ""
        return (
            f'text follows the closing quote of a cell{where}; a quote (") inside a quoted cell is written twice, '
            'e.g. "he said ""now"""'
        )
    else:
        text = f"cannot be read as CSV here ({trouble.error})"
    return f"{text}; nothing from here on was read"


def opening_line(path: Path, start: int) -> int:
    """The line of the last quote that opens and does not close, looked for from a row's first line; 0 where none is."""
    opened, inside = 0, False
    with path.open(encoding="utf-8-sig", newline="") as stream:
        for number, line in enumerate(stream, 1):
            quotes = line.replace('""', "").count('"') if number >= start else 0
            inside ^= quotes % 2 == 1
            opened = number if inside and quotes else opened
    return opened if inside else 0
