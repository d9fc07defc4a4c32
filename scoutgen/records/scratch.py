"""Where a project's work in progress lies: out of others' sight, in the project, and cleared when nobody works on it.

Half-made pages are as confidential as finished ones. In the system's folder for such things a process that is killed
would leave them for good; here the next command finds them.
"""

import os
import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from scoutgen.records.writing import clear_halves, still_runs

_FOLDER = ".scoutgen/scratch"
_MINE: set[Path] = set()


@contextmanager
def scratch(project: Path, what: str) -> Iterator[Path]:
    """An empty folder for as long as it takes, which only its owner can read.

    Args:
        project: the project's folder.
        what: a word for the work, unlike that of other work of the same process.

    Raises:
        OSError: the disk is full or cannot be written.
    """
    place = take(project, what)
    try:
        yield place
    finally:
        give_back(place)


def take(project: Path, what: str) -> Path:
    """The same for work that ends elsewhere, with `give_back`."""
    sweep(project)
    place = project.resolve() / _FOLDER / f"{what}.{os.getpid()}"
    give_back(place)
    place.parent.mkdir(parents=True, exist_ok=True)
    place.mkdir(mode=0o700)
    _MINE.add(place)
    return place


def give_back(place: Path) -> None:
    """Take the folder away with all that is in it."""
    shutil.rmtree(place, ignore_errors=True)
    _MINE.discard(place)
    with suppress(OSError):
        place.parent.rmdir()


def sweep(project: Path) -> None:
    """Clear what killed processes left in a project: their scratch, and zips that were growing in its folder."""
    folder = project.resolve() / _FOLDER
    with suppress(OSError):
        for place in folder.iterdir():
            owner = re.search(r"\.(\d+)$", place.name)
            if place not in _MINE and not (owner and still_runs(int(owner[1]), place)):
                shutil.rmtree(place, ignore_errors=True)
        folder.rmdir()
    clear_halves(project, r".+\.zip")


def is_mine(place: Path) -> bool:
    """Whether this process has taken a folder, or one that this one is in."""
    return not _MINE.isdisjoint((place.resolve(), *place.resolve().parents))
