"""A site made in parts: some opponents' pages built alone, on any machine, and joined by the build that has them all.

A part holds what builds keep between them, by the names that say what each thing comes from: the opponents' shares of
the book, their drawings and their finished pages, and of a large season what was measured of them. The joining build
asks for all of it by name, as it asks for what an earlier build has kept; so a part made from other input, or by
another version, is never used, and the joined site is the same byte for byte as one built whole.
"""

import json
import os
import re
import shutil
import zipfile
import zlib
from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Final

from scoutgen.pages.built import time_of
from scoutgen.records.fields import KEY_PATTERN
from scoutgen.records.scratch import scratch
from scoutgen.site.build import build_part
from scoutgen.site.output import OutputError
from scoutgen.site.zips import check_zip, is_ours, write_zip

_OURS: Final = b"scoutgen part"
# What stands in a part: a folder of .scoutgen/ and a hash. Anything else is not of ours and goes nowhere.
_NAME: Final = re.compile(r"(?:charts|books/[a-z]+|tables/[a-z]+|rendered/[a-z]+(?:-disk)?)/[0-9a-f]{64}(?:\.svg)?")
_HEAD: Final = "part.json"
_DAY: Final = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
# A part larger than this when unpacked is none of ours: a season's site is a hundredth of it.
_MOST_BYTES: Final = 20_000_000_000


@dataclass(frozen=True)
class Part:
    """A written part: whose pages, how many there are, and for whom."""

    out: Path
    edition: str
    teams: tuple[str, ...]
    pages: int
    size_bytes: int
    warnings: tuple[str, ...]


def make_part(project: Path, teams: Collection[str], out: Path, **options: Any) -> Part:  # noqa: ANN401 - as build_site
    """Build some opponents' pages alone.

    Args:
        project: as in build_site.
        teams: the opponents, by key.
        out: the part's file.
        options: as_of, edition, skip_bad_rows, progress as in build_site.

    Raises:
        OutputError: the part cannot be written there, or something else stands there.
        TeamError: nobody we play has that key.
        Exception: whatever build_site raises.
    """
    check_zip(out, project, _OURS)
    with scratch(project, "part") as place:
        made = build_part(project, place / "site", teams, **options)
    kept = project.resolve() / ".scoutgen"
    files = {
        file.relative_to(kept).as_posix(): file.read_bytes()
        for some in made.kept
        for file in some.files
        if file.is_file()
    }
    # Also says in the joined build whether they were what it asked for.
    made_for = made.edition_book
    head = {"edition": made_for.edition, "as_of": made_for.as_of.isoformat(), "teams": sorted(teams)}
    files[_HEAD] = json.dumps(head).encode()
    write_zip(out, files, _OURS, time_of(made.edition_book.built), level=1)
    return Part(
        out,
        made.edition_book.edition,
        tuple(sorted(teams)),
        made.pages,
        out.stat().st_size,
        tuple(map(str, made.edition_book.warnings)),
    )


@dataclass(frozen=True)
class Taken:
    """A part whose pages a build was given: for whom and which day, of which teams, and the files with their books."""

    part: Path
    edition: str
    as_of: str
    teams: tuple[str, ...]
    books: tuple[Path, ...]

    def told(self, edition: str, as_of: date) -> str:
        """What a finished build of an edition and a day made of it: a build forgets what it had no use for."""
        names = ", ".join(self.teams)
        if edition != self.edition:
            return f"{self.part}: is of the {self.edition} edition; nothing of it was used"
        if len(self.books) < len(self.teams) or not all(book.is_file() for book in self.books):
            day = as_of.isoformat()
            why = (
                f"made for {self.as_of}, not {day}"
                if self.as_of != day
                else "made from other input or by another version"
            )
            return f"{self.part}: {why}; pages of {names} were made anew"
        return f"{self.part}: pages of {names} taken"


def take_parts(project: Path, parts: Sequence[Path]) -> list[Taken]:
    """Lay what is in some parts where the next build of the project looks for what is kept.

    Raises:
        OutputError: one of them is no part; nothing was taken of any.
        OSError: the disk is full or cannot be written.
    """
    kept = project.resolve() / ".scoutgen"
    for part in parts:
        if not part.exists():
            raise OutputError(f"{part}: there is no such file; name the part as it was written")
        if not is_ours(part, _OURS):
            raise OutputError(f"{part}: is no part, or cut off; write one with: scoutgen build --only TEAM --out FILE")
    # Every one is read through before anything of the first is laid.
    taken = [_checked(part, kept) for part in parts]
    for part in parts:
        with _opened(part) as there:
            for name, place in _places(there, kept):
                if not place.is_file():
                    # Cut off by a full disk, it would not be what its seal says.
                    _lay(place, _content(there, name), kept)
    return taken


def _checked(part: Path, kept: Path) -> Taken:
    """What a part says of itself, where its head and every file that would be laid can be read."""
    with _opened(part) as there:
        if sum(entry.file_size for entry in there.infolist()) > _MOST_BYTES:
            raise OutputError(f"{part}: is too large for a part")
        head = json.loads(_content(there, _HEAD))
        edition, day, teams = head["edition"], head["as_of"], tuple(head["teams"])
        if not all(re.fullmatch(KEY_PATTERN, name) for name in (edition, *teams)) or not _DAY.fullmatch(day):
            raise OutputError(f"{part}: is damaged; write it again")
        books: list[Path] = []
        for name, place in _places(there, kept):
            if not place.is_file():
                # For its checksum alone; a file at a time, since a part may be larger than the memory.
                _content(there, name)
            if name.startswith("books/"):
                books.append(place)
    return Taken(part, edition, day, teams, tuple(books))


def _places(there: zipfile.ZipFile, kept: Path) -> list[tuple[str, Path]]:
    """What of a part is of ours, and where each file of it belongs."""
    names = [entry.filename for entry in there.infolist()]
    return [(name, kept / name) for name in names if _NAME.fullmatch(name)]


@contextmanager
def _opened(part: Path) -> Iterator[zipfile.ZipFile]:
    """A part to be read; whatever is found to be wrong in it is damage."""
    try:
        with zipfile.ZipFile(part) as there:
            yield there
    except (zipfile.BadZipFile, zlib.error, KeyError, ValueError, TypeError, EOFError, RuntimeError) as damaged:
        # RuntimeError: it asks for a passphrase or an unknown method, or its head is nested too deep.
        raise OutputError(f"{part}: is damaged; write it again") from damaged


def _lay(place: Path, content: bytes, kept: Path) -> None:
    """Write a file where builds keep theirs; what else stands in its way in there is no use to anybody."""
    for way in (place.parent.parent, place.parent):
        if way != kept and not way.is_dir():
            way.unlink(missing_ok=True)
    place.parent.mkdir(parents=True, exist_ok=True)
    if place.is_dir() and not place.is_symlink():
        shutil.rmtree(place)
    half = place.with_name(f".{place.name}.{os.getpid()}")
    try:
        half.write_bytes(content)
        half.replace(place)
    finally:
        half.unlink(missing_ok=True)


def _content(there: zipfile.ZipFile, name: str) -> bytes:
    """A file in a part; what the system refuses is the part's fault here, as it is the disk's in writing."""
    try:
        return there.read(name)
    except OSError as nowhere:
        raise zipfile.BadZipFile(str(nowhere)) from nowhere
