"""How do imported rows stand in a file of ours, and was such a file changed by hand since?

Beside the charted columns each row has `x_source`, the file and line it came from, `x_map`, the map it came through,
and `x_check`, a sum over the row: a row whose sum does not fit was changed by somebody, and is never written over.
"""

import csv
import hashlib
import io
import os
import re
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from scoutgen.records.import_rows import ImportedRow

SOURCE, MAP, CHECK = "x_source", "x_map", "x_check"
# Columns in which a text of any kind may stand.
FREE_TEXTS = frozenset({"clip", "note", "charted_by", SOURCE, MAP})
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
    writer.writerow([*columns, SOURCE, MAP, CHECK])
    lines: list[int] = []
    line = 2
    for row in rows:
        texts = {**row.cells, SOURCE: f"{row.file}:{row.line}", MAP: map_name}
        cells = [safe_text(texts[name]) if name in FREE_TEXTS else texts[name] for name in (*columns, SOURCE, MAP)]
        # A line end of a cell as the reader will count it.
        cells = [cell.replace("\r\n", "\n").replace("\r", "\n") for cell in cells]
        writer.writerow([*cells, _sum(cells)])
        lines.append(line)
        line += 1 + sum(cell.count("\n") for cell in cells)
    return Written(stream.getvalue(), tuple(lines))


def _sum(cells: Sequence[str]) -> str:
    # A letter before it, or spreadsheets read some of them as numbers.
    return "c" + hashlib.sha256("\x1f".join(cells).encode()).hexdigest()[:10]


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
        return "stands there and cannot be read"
    if not rows or rows[0][-3:] != [SOURCE, MAP, CHECK]:
        return "stands there and was not written by an import"
    for number, row in enumerate(rows[1:], 2):
        if len(row) != len(rows[0]) or row[-1] != _sum(row[:-1]):
            return f"was changed by hand since it was imported (first in row {number})"
        if row[-2] != safe_text(map_name) or not re.match(rf"{re.escape(safe_text(file))}:", row[-3]):
            return f"came from another file or map ({row[-3]} with {row[-2]})"
    return ""


def write_whole(path: Path, text: str) -> None:
    """Write a file in one step: whoever reads sees the former or the new one.

    Raises:
        OSError: the disk is full or cannot be written.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        with beside.open("w", encoding="utf-8", newline="") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        beside.replace(path)
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
