"""Which files under data/ belong to a table, and can they be read as text at all?"""

import codecs
import hashlib
import os
import stat
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from scoutgen.records.check import listed, nearest
from scoutgen.records.problems import Problem

MOST_BYTES = 1_000_000_000
LONGEST_LINE_BYTES = 1_000_000
SAVE_AS = "in the spreadsheet choose Save As and then CSV UTF-8 (comma delimited)"


@dataclass(frozen=True)
class DataFile:
    """One file of a table: where it is, and what problems call it."""

    path: Path
    name: str


@dataclass(frozen=True)
class BadText:
    """Why a file is not text, and the line."""

    line: int
    text: str


def shown_path(path: Path, root: Path) -> str:
    """The path relative to the project, with forward slashes and nothing unprintable in it."""
    text = path.relative_to(root).as_posix()
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)


def _listing(folder: Path, root: Path) -> tuple[list[Path], list[Problem]]:
    """What a folder holds, by name; or why that cannot be seen."""
    try:
        return sorted(folder.iterdir(), key=lambda path: path.name), []
    except OSError as error:
        return [], [_unseen(folder, root, error)]


def walked(folder: Path, root: Path) -> tuple[list[Path], list[Problem]]:
    """What a folder and the folders in it hold, in the order of paths, and what of it cannot be seen.

    Hidden names are left out, and links are not followed.
    """
    found: list[Path] = []
    problems: list[Problem] = []
    folders = [folder]
    while folders:
        inside, wrong = _listing(folders.pop(), root)
        problems += wrong
        for path in inside:
            if path.name.startswith("."):
                continue
            try:
                mode = path.lstat().st_mode
            except OSError as error:
                problems.append(_unseen(path, root, error))
                continue
            found.append(path)
            folders += [path] if stat.S_ISDIR(mode) else []
    return sorted(found), problems


def _unseen(path: Path, root: Path, error: OSError) -> Problem:
    return Problem(shown_path(path, root), 0, "", f"cannot be looked into: {error.strerror or 'unknown reason'}")


def table_files(root: Path, table: str) -> tuple[list[DataFile], list[Problem]]:
    """The files of one table: `data/<table>.csv` and `data/<table>/*.csv`, in order of their names."""
    found: list[DataFile] = []
    problems: list[Problem] = []
    folder = root / "data" / table
    single = root / "data" / f"{table}.csv"
    paths = [single] if os.path.lexists(single) else []
    if folder.is_dir() and _inside(folder, root):
        inside, found_wrong = _listing(folder, root)
        paths += inside
        problems += found_wrong
    elif os.path.lexists(folder):
        problems.append(
            Problem(shown_path(folder, root), 0, "", "is not a folder of this project; put the files themselves here")
        )
    for path in paths:
        name = shown_path(path, root)
        if path.name.startswith((".", "~")) or path.suffix.lower() == ".md":
            continue
        if path.suffix.lower() != ".csv" and path.is_dir():
            if any(inner.suffix.lower() == ".csv" for inner in _listing(path, root)[0]):
                text = f"is a folder inside data/{table}, which is not read; move its files up into data/{table}"
                problems.append(Problem(name, 0, "", text))
        elif path.suffix.lower() != ".csv":
            problems.append(
                Problem(name, 0, "", f"is not read: only .csv files are; {SAVE_AS}, or move it away", "warning")
            )
        elif why := _why_not_a_file(path, root):
            problems.append(Problem(name, 0, "", why))
        else:
            found.append(DataFile(path, name))
    return found, problems


def stray_files(root: Path, tables: Sequence[str]) -> list[Problem]:
    """CSV files under data/ that no table reads, most likely misnamed."""
    data = root / "data"
    if not data.is_dir():
        text = "is not a folder; the charts stand in a folder of this name"
        return [Problem("data", 0, "", text)] if os.path.lexists(data) else []
    paths, problems = _listing(data, root)
    for path in paths:
        stem = path.name if path.is_dir() else path.stem
        inside, unseen = _listing(path, root) if path.is_dir() else ([], [])
        # Of a folder that cannot be looked into nobody knows that it holds no charts.
        is_table = bool(unseen) or any(p.suffix.lower() == ".csv" for p in inside)
        if (
            path.name.startswith((".", "~"))
            or stem in tables
            or path.stem in tables
            or not (is_table or path.suffix.lower() == ".csv")
        ):
            continue
        close = nearest(stem, tables, cutoff=0.75)
        meant = f'; did you mean "{close[0]}"? Tables' if close else "; tables"
        text = f"is not read: no table has this name{meant} are {listed(tables, 'and')}"
        problems.append(Problem(shown_path(path, root), 0, "", text, "error" if close else "warning"))
    return problems


def same_files(files: Sequence[DataFile]) -> list[tuple[DataFile, DataFile]]:
    """Files with rows that hold exactly the same bytes as an earlier one (later, earlier)."""
    by_size: dict[int, list[DataFile]] = defaultdict(list)
    for file in files:
        by_size[file.path.stat().st_size].append(file)
    twins: list[tuple[DataFile, DataFile]] = []
    for group in by_size.values():
        seen: dict[bytes, DataFile] = {}
        for file in group if len(group) > 1 else []:
            with file.path.open("rb") as stream:
                # Headers alone are alike because no row is there yet.
                if not (stream.readline(LONGEST_LINE_BYTES) and stream.read(LONGEST_LINE_BYTES).strip()):
                    continue
                stream.seek(0)
                digest = hashlib.file_digest(stream, "sha256").digest()
            if digest in seen and _has_rows(file.path):
                twins.append((file, seen[digest]))
            seen.setdefault(digest, file)
    return twins


def _has_rows(path: Path) -> bool:
    with path.open("rb") as stream:
        return len(list(islice(filter(bytes.strip, stream), 2))) > 1


def why_not_text(file: DataFile) -> BadText | None:
    """What keeps the file from being UTF-8 text of reasonable lines, with the line; None where nothing does."""
    decoder = codecs.getincrementaldecoder("utf-8")()
    line, since_break, before = 1, 0, b""
    try:
        with file.path.open("rb") as stream:
            while block := stream.read(LONGEST_LINE_BYTES):
                if not before and block[:2] in (b"\xff\xfe", b"\xfe\xff"):
                    return BadText(1, f"is saved as UTF-16; {SAVE_AS}")
                # A Windows line end cut in two by the blocks is one line end.
                line -= before.endswith(b"\r") and block.startswith(b"\n")
                decoder.decode(block)
                last = max(block.rfind(b"\n"), block.rfind(b"\r"))
                since_break = since_break + len(block) if last < 0 else len(block) - last
                if since_break > LONGEST_LINE_BYTES:
                    return BadText(line, f"has a line longer than {LONGEST_LINE_BYTES:,} bytes; no charted row is")
                line += _breaks(block)
                before = block
            decoder.decode(b"", final=True)
    except UnicodeDecodeError as error:
        byte = error.object[error.start]
        text = f"is not UTF-8 text: the byte 0x{byte:02X} in this line; {SAVE_AS}"
        return BadText(line + _breaks(error.object[: error.start]), text)
    except OSError as error:
        return BadText(0, f"cannot be read: {error.strerror or 'unknown reason'}")
    return None


def _breaks(block: bytes) -> int:
    """Line ends as an editor counts them: Unix, Windows or old Mac."""
    returns = block.count(b"\r")
    return block.count(b"\n") + (returns - block.count(b"\r\n") if returns else 0)


def _inside(path: Path, root: Path) -> bool:
    try:
        return path.resolve(strict=True).is_relative_to(root.resolve())
    except (OSError, RuntimeError):
        return False


def _why_not_a_file(path: Path, root: Path) -> str:
    if not _inside(path, root):
        return "points outside the project's folder, or nowhere; copy the file itself here"
    try:
        facts = path.stat()
    except OSError as error:
        return f"cannot be read: {error.strerror or 'unknown reason'}"
    if not stat.S_ISREG(facts.st_mode):
        return "is not a plain file; copy the file itself here"
    if facts.st_size > MOST_BYTES:
        return f"is {facts.st_size:,} bytes large; at most {MOST_BYTES:,} are read; split it by game or by month"
    return ""
