"""Small files that hold nothing but plain lines, read many at once: a season kept game by game is thousands of them.

What the parser costs before it reads its first line would be paid for each file otherwise; together it is paid once
for each way of writing the header.
"""

import codecs
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path

import numpy as np

from scoutgen.records.plainlines import BLOCK_BYTES, Codes, Column, all_blank, is_plain, is_plain_line, plain_blocks

# Larger ones are read by themselves, block by block.
SMALL_BYTES = 500_000


@dataclass(frozen=True)
class PlainFile:
    """One file: the cells of its header as written, and its lines below, each with its end."""

    header: tuple[str, ...]
    lines: bytes


def plain_file(path: Path) -> PlainFile | None:
    """The file where every line of it is plain; None for all others, which are looked into by themselves."""
    try:
        with path.open("rb") as stream:
            content = stream.read(SMALL_BYTES + 1)
    except OSError:
        return None
    first, end, lines = content.partition(b"\n")
    first = first.removeprefix(codecs.BOM_UTF8)
    if len(content) > SMALL_BYTES or not end or not is_plain_line(first):
        return None
    try:
        header = tuple(first.decode().rstrip("\r\n").split(","))
        lines.decode()
    except UnicodeDecodeError:
        return None
    if not any(map(str.strip, header)) or (lines and not is_plain(lines, len(header))):
        return None
    return PlainFile(header, lines if lines.endswith(b"\n") or not lines else lines + b"\n")


@dataclass
class Together:
    """Files with one header, gathered until they are worth reading.

    Attributes:
        width: cells of a row.
    """

    width: int
    _numbers: list[int] = field(default_factory=list)
    _lines: list[bytes] = field(default_factory=list)
    _size: int = 0

    def add(self, number: int, lines: bytes) -> bool:
        """Take a file's lines in; whether there is enough to read."""
        self._numbers.append(number)
        self._lines.append(lines)
        self._size += len(lines)
        return self._size >= BLOCK_BYTES

    def read(self) -> Iterator[tuple[Codes, Codes, list[Column]]]:
        """What has been gathered, and begin anew.

        Yields:
            Per row the number of its file, the line it begins in, and the columns; rows of blanks are left out.
        """
        counts = [lines.count(b"\n") for lines in self._lines]
        file = np.repeat(np.array(self._numbers, np.int32), counts)
        # The header is line 1.
        line = np.concatenate([np.arange(2, count + 2, dtype=np.int32) for count in (*counts, 0)])
        stream = BytesIO(b"".join(self._lines))
        self._numbers, self._lines, self._size = [], [], 0
        begin = 0
        for columns in plain_blocks(stream, self.width):
            rows = slice(begin, begin + len(columns[0][0]))
            begin = rows.stop
            blank = all_blank(columns)
            kept = slice(None) if blank is None else ~blank
            yield file[rows][kept], line[rows][kept], [(numbers[kept], texts) for numbers, texts in columns]
