"""One zip that opens from a folder by a double click, for handing over by cable or stick."""

import json
import re
import zipfile
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from scoutgen.pages.built import time_of
from scoutgen.records.scratch import scratch
from scoutgen.records.writing import growing, naming
from scoutgen.site.build import Built, build_site
from scoutgen.site.output import MARKER, OutputError, check_out
from scoutgen.site.search import fold

READ_ME = "READ-ME.txt"
# Says of a zip that it is one of ours, so that it may be written over.
_OURS = b"scoutgen pack"
# Before it a zip knows no time.
_FIRST_TIME = datetime(1980, 1, 1)  # noqa: DTZ001 - zips know no zone


@dataclass(frozen=True)
class Packed:
    """A written zip, and the build that is in it."""

    out: Path
    folder: str
    files: int
    size_bytes: int
    built: Built


def pack_site(project: Path, out: Path | None = None, **options: Any) -> Packed:  # noqa: ANN401 - as build_site
    """Build a project's site for opening from a folder, and put it into one zip.

    The same input, day and time of build give the same bytes; the environment's SOURCE_DATE_EPOCH sets the time.

    Args:
        project: as in build_site.
        out: the zip; by default the name of its folder, in the project.
        options: as_of, edition, skip_bad_rows, strict, progress as in build_site.

    Raises:
        OutputError: the zip cannot be written there, or something else stands there.
        Exception: whatever build_site raises.
    """
    if out is not None:
        _check_zip(out, project)
    with scratch(project, "pack") as place:
        built = build_site(project, place / "site", for_disk=True, memory="read", **options)
        seal = json.loads((built.out / MARKER).read_text(encoding="utf-8"))
        folder = folder_name(built.site_name, seal["edition"], seal["as_of"])
        if out is None:
            out = project / f"{folder}.zip"
            _check_zip(out, project)
        files = {READ_ME: _read_me(built.site_name, seal).encode()}
        for path in built.out.rglob("*"):
            name = path.relative_to(built.out).as_posix()
            if path.is_file() and name != MARKER:
                files[name] = path.read_bytes()
        _write_zip(out, folder, files, max(time_of(seal["built"]), _FIRST_TIME))
    return Packed(out, folder, len(files), out.stat().st_size, built)


def folder_name(site_name: str, edition: str, as_of: str) -> str:
    """What the folder in the zip is called: whose, which edition, as of when."""
    team = re.sub(r"[^a-z0-9]+", "-", fold(site_name)).strip("-") or "scouting"
    return f"{team}-{edition}-as-of-{as_of}"


def _check_zip(out: Path, project: Path) -> None:
    """Refuse to write over what is not ours.

    Raises:
        OutputError: something else stands there, or the place is part of what the project is read from.
    """
    if out.is_dir():
        raise OutputError(f"{out}: is a folder; name a file that ends in .zip")
    if not out.parent.is_dir():
        raise OutputError(f"{out}: there is no folder {out.parent}")
    if out.parent.resolve() != project.resolve():
        check_out(out.parent / ".scoutgen-pack", project)
    if out.exists():
        try:
            with zipfile.ZipFile(out) as there:
                ours = there.comment == _OURS
        except (zipfile.BadZipFile, OSError):
            ours = False
        if not ours:
            raise OutputError(f"{out}: stands there already and is no zip of scoutgen; choose another name")


def _write_zip(out: Path, folder: str, files: dict[str, bytes], time: datetime) -> None:
    """Write beside and rename: killed or out of room, the last zip still stands."""
    with (
        naming(out),
        growing(out) as beside,
        zipfile.ZipFile(beside, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as zipped,
    ):
        zipped.comment = _OURS
        for name in sorted(files):
            entry = zipfile.ZipInfo(f"{folder}/{name}", time.timetuple()[:6])
            entry.compress_type = zipfile.ZIP_DEFLATED
            # As if made on one system, whatever this one is; readable by all.
            entry.create_system, entry.external_attr = 3, 0o644 << 16
            zipped.writestr(entry, files[name])


def _read_me(site_name: str, seal: dict[str, str]) -> str:
    # Line ends that every editor shows, the oldest included.
    return (
        f"{site_name}\n{seal['edition']} edition, as of {seal['as_of']}, built {seal['built']}\n\n"
        "To read it on a computer:\n"
        "1. Unpack the zip (on Windows: right click, Extract All; on a Mac: double click).\n"
        "2. Open the folder and double click index.html. Everything works without a network, search included.\n\n"
        "Confidential scouting. Whoever has this folder can read all of it: hand it over, do not post it,\n"
        "and delete the zip as well as the folder when you are done.\n"
    ).replace("\n", "\r\n")
