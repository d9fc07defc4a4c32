"""One zip that opens from a folder by a double click, for handing over by cable or stick."""

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scoutgen.pages.built import time_of
from scoutgen.records.scratch import scratch
from scoutgen.site.build import Built, build_site
from scoutgen.site.output import MARKER
from scoutgen.site.search import fold
from scoutgen.site.zips import check_zip, write_zip

READ_ME = "READ-ME.txt"
# Says of a zip that it is one of ours, so that it may be written over.
_OURS = b"scoutgen pack"


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
        check_zip(out, project, _OURS)
    with scratch(project, "pack") as place:
        built = build_site(project, place / "site", for_disk=True, memory="read", **options)
        seal = json.loads((built.out / MARKER).read_text(encoding="utf-8"))
        folder = folder_name(built.site_name, seal["edition"], seal["as_of"])
        if out is None:
            out = project / f"{folder}.zip"
            check_zip(out, project, _OURS)
        files = {READ_ME: _read_me(built.site_name, seal).encode()}
        for path in built.out.rglob("*"):
            name = path.relative_to(built.out).as_posix()
            if path.is_file() and name != MARKER:
                files[name] = path.read_bytes()
        inside = {f"{folder}/{name}": content for name, content in files.items()}
        write_zip(out, inside, _OURS, time_of(seal["built"]))
    return Packed(out, folder, len(files), out.stat().st_size, built)


def folder_name(site_name: str, edition: str, as_of: str) -> str:
    """What the folder in the zip is called: whose, which edition, as of when."""
    team = re.sub(r"[^a-z0-9]+", "-", fold(site_name)).strip("-") or "scouting"
    return f"{team}-{edition}-as-of-{as_of}"


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
