"""The folder a site is written to: built beside, swapped in whole, one build at a time."""

import contextlib
import json
import os
import shutil
import time
from collections.abc import Mapping
from pathlib import Path

MARKER = ".scoutgen-site"


class OutputError(Exception):
    """The site cannot be written where it was asked for; the text says why."""


def check_out(out: Path, project: Path) -> None:
    """Refuse to write where something of the user's own would be lost.

    Raises:
        OutputError: the folder holds the project, is part of what it reads, or holds files that no build made.
    """
    out, project = out.resolve(), project.resolve()
    if out == project or out in project.parents:
        raise OutputError(f"{out}: the site would be written over the project itself")
    for name in ("content", "data", ".scoutgen", ".git"):
        if out == project / name or project / name in out.parents:
            raise OutputError(f"{out}: the site would be written into {name}/, which the project is read from")
    if out.exists() and not out.is_dir():
        raise OutputError(f"{out}: is a file, not a folder")
    if out.is_dir() and any(out.iterdir()) and not (out / MARKER).is_file():
        raise OutputError(f"{out}: not empty and not made by scoutgen; choose another folder or empty this one")


def building_place(out: Path) -> Path:
    """Where the next site grows: beside, so that swapping is a rename."""
    # A name nobody else uses, since what is left there by a build cut off is deleted.
    return out.with_name(f".{out.name}.scoutgen-next")


def _former_place(out: Path) -> Path:
    return out.with_name(f".{out.name}.scoutgen-former")


def recover(out: Path) -> bool:
    """Set right what a build killed in the middle left; true if a site had to be put back."""
    next_site, former = building_place(out), _former_place(out)
    put_back = False
    if not out.exists():
        whole = [place for place in (next_site, former) if (place / MARKER).is_file()]
        if whole:
            whole[0].rename(out)
            put_back = True
    for leftover in (next_site, former):
        if leftover.exists():
            shutil.rmtree(leftover)
    return put_back


def seal(site: Path, facts: Mapping[str, str]) -> None:
    """Say that a site is whole and who made it; the last file written before the swap."""
    (site / MARKER).write_text(json.dumps(dict(facts), indent=1) + "\n", encoding="utf-8", newline="\n")


def swap_in(out: Path) -> None:
    """Put the finished site in the place of the former one.

    Killed between the two renames, the next build or serve finds both and puts one back.
    """
    next_site, former = building_place(out), _former_place(out)
    if out.exists():
        out.rename(former)
    next_site.rename(out)
    shutil.rmtree(former, ignore_errors=True)


def claim(project: Path) -> Path:
    """Hold the project for one build.

    Raises:
        OutputError: another build that still runs holds it.
    """
    place = project / ".scoutgen" / "lock"
    place.parent.mkdir(parents=True, exist_ok=True)
    mine = place.with_name(f"lock.{os.getpid()}")
    mine.write_text(str(os.getpid()))
    try:
        for _ in range(2):
            try:
                # Linked whole: a lock that is made first and written to later looks stale in between.
                os.link(mine, place)
            except FileExistsError:
                _take_away_if_stale(place)
                continue
            return place
        raise OutputError(f"another build of this project is starting; try again, or delete {place}")
    finally:
        mine.unlink(missing_ok=True)


def _take_away_if_stale(place: Path) -> None:
    """Remove the lock of a build that has ended.

    Raises:
        OutputError: its build still runs.
    """
    holder = _holder(place)
    if holder is None:
        # Moved first: of two builds that find the same stale lock only one gets it, and what it got is looked at
        # again, since the other may have put its own lock there meanwhile.
        away = place.with_name(f"lock.stale.{os.getpid()}")
        try:
            place.rename(away)
        except FileNotFoundError:
            return
        holder = _holder(away)
        if holder is not None:
            away.rename(place)
        else:
            away.unlink()
    if holder is not None:
        raise OutputError(
            f"another build of this project is running (process {holder}); if that is no build, delete {place}"
        )


def release(lock: Path) -> None:
    """Let the next build begin."""
    with contextlib.suppress(OSError):
        lock.unlink()


def _holder(lock: Path) -> int | None:
    """The process that holds the lock, None where it has ended or is this one."""
    try:
        process = int(lock.read_text())
    except (OSError, ValueError):
        return None
    if process == os.getpid():
        return None
    if os.name == "nt":
        # Signal 0 would end the process there; an hour without a word is taken for an end.
        return process if time.time() - lock.stat().st_mtime < 3600 else None
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return None
    except PermissionError:
        return process
    return process
