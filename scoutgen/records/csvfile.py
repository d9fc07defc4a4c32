"""What do a table's CSV files hold, cell by cell, and in which line as an editor counts it?

Strict RFC 4180 by the standard library's reader: quoted commas, doubled quotes, line breaks in quotes, any line
ends. Every column is kept as numbers that point into its list of different texts, filled chunk by chunk, so that a
million rows are never in memory as texts.
"""

import codecs
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from scoutgen.records.check import listed, quoted
from scoutgen.records.csvheader import Header, read_header
from scoutgen.records.csvlines import Trouble, in_words, longest_cell, numbered_rows
from scoutgen.records.folder import DataFile, why_not_text
from scoutgen.records.plainfiles import Together, plain_file
from scoutgen.records.plainlines import Codes, Column, all_blank, is_plain_line, plain_blocks
from scoutgen.records.problems import Problem

# Small enough to stay in the processor's cache: larger chunks are three times slower.
CHUNK_ROWS = 1_000
ABSENT = -1
# A file with more rows that cannot be taken apart has one fault, and telling it of each row would fill the memory.
MOST_BROKEN_ROWS = 1_000


class Texts(dict[str, int]):
    """The different texts of a column, numbered in order of appearance; asking for a new one numbers it."""

    def __missing__(self, text: str) -> int:
        number = self[text] = len(self)
        return number


@dataclass
class CodedTable:
    """All files of one table as they were written.

    Attributes:
        files: their names as problems show them, in order of reading.
        texts: per column, its different texts.
        codes: per column, for every row the number of its text; ABSENT where the row's file has no such column.
        file: for every row the position of its file.
        line: for every row the line it begins in.
        problems: what was wrong with files and rows as such.
        lame: files that lack a column they must have, or have one twice; their rows are checked but cannot be used.
        unread: files of which nothing, or not everything, could be read.
        torn: rows that could not be taken apart and are none of the rows here.
    """

    files: list[str] = field(default_factory=list)
    texts: dict[str, Texts] = field(default_factory=dict)
    codes: dict[str, Codes] = field(default_factory=dict)
    file: Codes = field(default_factory=lambda: np.empty(0, np.int32))
    line: Codes = field(default_factory=lambda: np.empty(0, np.int32))
    problems: list[Problem] = field(default_factory=list)
    lame: set[int] = field(default_factory=set)
    unread: set[int] = field(default_factory=set)
    torn: int = 0


def read_csv_files(files: Sequence[DataFile], columns: Sequence[str], required: Sequence[str]) -> CodedTable:
    """Read every file of a table.

    Args:
        files: the files, in the order their rows shall have.
        columns: the columns the table may have.
        required: those that must stand in every header.

    Returns:
        The table; whatever is wrong is among its problems, never raised.
    """
    table = CodedTable(files=[file.name for file in files], texts={name: Texts() for name in columns})
    parts = _Parts({name: [] for name in columns})
    together: dict[tuple[str, ...], tuple[Header, Together]] = {}
    for number, file in enumerate(files):
        plain = plain_file(file.path)
        if plain is not None and plain.header not in together:
            header = read_header([cell.strip() for cell in plain.header], columns, required)
            together[plain.header] = header, Together(len(plain.header))
        if plain is None or not together[plain.header][0].is_fine:
            for starts, coded in _Reading(file, number, table, required).chunks():
                parts.add(np.full(len(starts), number, np.int32), starts, coded)
        elif together[plain.header][1].add(number, plain.lines):
            _read_together(*together[plain.header], table, parts)
    for header, gathered in together.values():
        _read_together(header, gathered, table, parts)
    table.file, table.line, table.codes = parts.joined()
    return table


def _read_together(header: Header, gathered: Together, table: CodedTable, parts: "_Parts") -> None:
    """Read the files of one header that were gathered."""
    for file, line, columns in gathered.read():
        coded = {}
        for name, place in header.places.items():
            numbers, texts = columns[place]
            coded[name] = np.array([table.texts[name][text] for text in texts], np.int32)[numbers]
        parts.add(file, line, coded)


@dataclass
class _Parts:
    """Rows read so far, in pieces: per piece each row's file and line, and the numbers of the texts by column."""

    columns: dict[str, list[Codes]]
    files: list[Codes] = field(default_factory=list)
    lines: list[Codes] = field(default_factory=list)

    def add(self, file: Codes, line: Codes, coded: Mapping[str, Codes]) -> None:
        self.files.append(file)
        self.lines.append(line)
        for name, pieces in self.columns.items():
            codes = coded.get(name)
            pieces.append(np.full(len(file), ABSENT, np.int32) if codes is None else codes)

    def joined(self) -> tuple[Codes, Codes, dict[str, Codes]]:
        """All rows in the order of files, and within a file in that of lines; the pieces are used up."""
        empty = np.empty(0, np.int32)
        file, line = (np.concatenate([empty, *pieces]) for pieces in (self.files, self.lines))
        codes = {name: np.concatenate([empty, *self.columns.pop(name)]) for name in list(self.columns)}
        if (np.diff(file) < 0).any():
            order = np.argsort(file, kind="stable")
            file, line = file[order], line[order]
            codes = {name: column[order] for name, column in codes.items()}
        return file, line, codes


Chunk = tuple[Codes, dict[str, Codes]]


@dataclass
class _Reading:
    """One file being read."""

    file: DataFile
    number: int
    table: CodedTable
    required: Sequence[str]
    header: list[str] = field(default_factory=list)
    places: dict[str, int] = field(default_factory=dict)
    nameless: list[int] = field(default_factory=list)
    broken: int = 0

    def say(self, line: int, text: str, *, column: str = "", unread: bool = False) -> None:
        self.table.problems.append(Problem(self.file.name, line, column, text))
        if unread:
            self.table.unread.add(self.number)

    def chunks(self) -> Iterator[Chunk]:
        """The file in pieces: the lines the rows begin in, and the numbers of their texts by column."""
        if bad := why_not_text(self.file):
            self.say(bad.line, bad.text, unread=True)
            return
        try:
            with self.file.path.open("rb") as stream:
                first = stream.readline().removeprefix(codecs.BOM_UTF8)
                cells = first.decode("utf-8").rstrip("\r\n").split(",")
                lines = 0
                if is_plain_line(first) and any(map(str.strip, cells)):
                    if not self.take_header(cells, 1):
                        return
                    lines = 1
                    for columns in plain_blocks(stream, len(cells)):
                        yield self.plain_chunk(columns, lines)
                        lines += len(columns[0][0])
                else:
                    stream.seek(0)
                rest = io.TextIOWrapper(stream, encoding="utf-8" if lines else "utf-8-sig", newline="")
                with longest_cell():
                    yield from self.rows(rest, lines)
        except (OSError, UnicodeDecodeError):
            self.say(0, "cannot be read to its end; was it changed or taken away meanwhile?", unread=True)

    def take_header(self, cells: Sequence[str], line: int) -> bool:
        """Read the first row; whether it is worth reading on."""
        self.header = [cell.strip() for cell in cells]
        found = read_header(self.header, list(self.table.texts), self.required)
        for column, text in found.problems:
            self.say(line, text, column=column, unread=found.hopeless)
        if found.lacking or found.doubled:
            self.table.lame.add(self.number)
        self.places, self.nameless = found.places, found.nameless
        return not found.hopeless

    def plain_chunk(self, columns: list[Column], before: int) -> Chunk:
        """Number the texts of a block that needed no CSV reader."""
        starts = np.arange(before + 1, before + 1 + len(columns[0][0]), dtype=np.int32)
        blank = all_blank(columns)
        kept = slice(None) if blank is None else ~blank
        for place in self.nameless:
            numbers, texts = columns[place]
            self.nameless_cells(place, [texts[number] for number in numbers], starts)
        coded = {}
        for name, place in self.places.items():
            numbers, texts = columns[place]
            coded[name] = np.array([self.table.texts[name][text] for text in texts], np.int32)[numbers][kept]
        return starts[kept], coded

    def nameless_cells(self, place: int, cells: Sequence[str], starts: Codes) -> None:
        """A column without a name may only be empty, as spreadsheets leave them."""
        filled = next((i for i, cell in enumerate(cells) if cell.strip()), None)
        if filled is not None:
            text = f"{quoted(cells[filled])} stands in column {place + 1}, which has no name in the header"
            self.say(int(starts[filled]), f"{text}; name it or empty it")

    def rows(self, stream: Iterable[str], before: int) -> Iterator[Chunk]:
        """Read by the standard library's reader.

        Args:
            stream: lines with their ends.
            before: lines of the file that have been read already.
        """
        starts: list[int] = []
        rows: list[list[str]] = []
        width = len(self.header) or -1
        for start, row in numbered_rows(stream, before):
            if isinstance(row, Trouble):
                self.say(start, in_words(row, start, self.file.path))
                self.table.torn += bool(self.header)
                if row.is_over or not self.header or self.too_many_broken(start):
                    self.table.unread.add(self.number)
                    break
            elif len(row) == width:
                rows.append(row)
                starts.append(start)
                if len(rows) >= CHUNK_ROWS:
                    yield self.chunk(starts, rows)
                    starts, rows = [], []
            elif any(map(str.strip, row)):
                if not self.other_row(start, row):
                    break
                width = len(self.header)
        if not self.header and self.number not in self.table.unread:
            self.say(0, "is empty; its first row must name the columns, e.g. " + ",".join(self.required), unread=True)
        if rows:
            yield self.chunk(starts, rows)

    def other_row(self, start: int, row: list[str]) -> bool:
        """A row that is the header, or is not as wide as it; whether to read on."""
        if not self.header:
            return self.take_header(row, start)
        self.say(start, _wrong_width(row, self.header))
        self.table.torn += 1
        return not self.too_many_broken(start)

    def too_many_broken(self, start: int) -> bool:
        """Count a row that cannot be taken apart; whether to give the file up."""
        self.broken += 1
        if self.broken < MOST_BROKEN_ROWS:
            return False
        self.say(start, f"{self.broken:,} rows were like this; nothing from here on was read", unread=True)
        return True

    def chunk(self, starts: list[int], rows: list[list[str]]) -> Chunk:
        """Turn rows into numbered columns; rows of blanks, which spreadsheets leave behind, are left out."""
        if any(not row[0] for row in rows):
            kept = [i for i, row in enumerate(rows) if row[0] or any(map(str.strip, row))]
            starts, rows = [starts[i] for i in kept], [rows[i] for i in kept]
        begins = np.array(starts, np.int32)
        columns = list(zip(*rows, strict=True)) or [()] * len(self.header)
        for place in self.nameless:
            self.nameless_cells(place, columns[place], begins)
        texts = self.table.texts
        numbers = {
            name: np.fromiter(map(texts[name].__getitem__, columns[place]), np.int32, len(rows))
            for name, place in self.places.items()
        }
        return begins, numbers


def _wrong_width(row: list[str], header: list[str]) -> str:
    have, want = len(row), len(header)
    text = f"has {have:,} {'cell' if have == 1 else 'cells'} where the header has {want:,}"
    if have > want:
        return f"{text}; put quotes around a cell that holds a comma"
    bare = header[have:]
    more = [f"{len(bare) - 3:,} more"] if len(bare) > 3 else []
    missing = listed([*map(quoted, bare[:3]), *more], "and")
    return f"{text}: nothing stands for {missing}; write a comma for every blank cell"
