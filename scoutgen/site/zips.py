"""Zips that this program writes and knows again: the same content and time give the same bytes."""

import zipfile
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Final

from scoutgen.records.writing import growing, naming
from scoutgen.site.output import OutputError, check_out

# Before it a zip knows no time.
_FIRST_TIME: Final = datetime(1980, 1, 1)  # noqa: DTZ001 - zips know no zone


def check_zip(out: Path, project: Path, ours: bytes) -> None:
    """Refuse to write over what is not ours.

    Args:
        out: the zip.
        project: the project's folder.
        ours: the comment of the zips that may be written over.

    Raises:
        OutputError: something else stands there, or the place is part of what the project is read from.
    """
    if out.is_dir():
        raise OutputError(f"{out}: is a folder; name a file in it")
    if not out.parent.is_dir():
        raise OutputError(f"{out}: there is no folder {out.parent}")
    if out.parent.resolve() != project.resolve():
        try:
            check_out(out.parent / ".scoutgen-zip", project)
        except OutputError as refused:
            # Of the file that was asked for, not of a name nobody has written.
            _, _, why = str(refused).partition(": ")
            raise OutputError(f"{out}: {why}") from refused
    if out.exists() and not is_ours(out, ours):
        what = ours.decode()
        raise OutputError(f"{out}: stands there already and is no zip of {what}; choose another name")


def is_ours(place: Path, ours: bytes) -> bool:
    """Whether it is a zip with this comment."""
    try:
        # Opening a pipe would wait for whoever writes into it.
        if not place.is_file():
            return False
        with zipfile.ZipFile(place) as there:
            return there.comment == ours
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError):
        # Damaged, it may ask for what no program knows.
        return False


def write_zip(out: Path, files: Mapping[str, bytes], ours: bytes, time: datetime, *, level: int = 9) -> None:
    """Write beside and rename: killed or out of room, the last zip still stands.

    Args:
        out: the zip.
        files: by their names in it.
        ours: its comment.
        time: of every file.
        level: how hard to press, 1-9.
    """
    with (
        naming(out),
        growing(out) as beside,
        zipfile.ZipFile(beside, "w", zipfile.ZIP_DEFLATED, compresslevel=level) as zipped,
    ):
        zipped.comment = ours
        for name in sorted(files):
            entry = zipfile.ZipInfo(name, max(time, _FIRST_TIME).timetuple()[:6])
            entry.compress_type = zipfile.ZIP_DEFLATED
            # As if made on one system, whatever this one is; readable by all.
            entry.create_system, entry.external_attr = 3, 0o644 << 16
            zipped.writestr(entry, files[name])
