"""The folder a site is written to: built beside, swapped in whole, one build at a time."""

import contextlib
import json
import os
import re
import shutil
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from scoutgen.records.scratch import is_mine
from scoutgen.records.writing import clear_halves, naming, still_runs

MARKER = ".scoutgen-site"
# The marker of a locked site: enough to know it for one of ours, and no more.
LOCKED_SEAL = {"scoutgen": "locked"}


class OutputError(Exception):
    """The site cannot be written where it was asked for; the text says why."""


def check_out(out: Path, project: Path, *, locked: bool = False) -> None:
    """Refuse to write where something of the user's own would be lost, or given away.

    Raises:
        OutputError: the folder holds the project, is part of what it reads or of another site, or holds files that no
            build made; or it holds a locked site, which a site that is not `locked` would replace.
    """
    out, project = out.resolve(), project.resolve()
    if is_mine(out):
        return
    if out == project or out in project.parents:
        raise OutputError(f"{out}: the site would be written over the project itself")
    for name in ("content", "data", ".scoutgen", ".git"):
        # Also where the project's own folder is a link to another place.
        if {out, *out.parents} & {project / name, (project / name).resolve()}:
            raise OutputError(f"{out}: the site would be written into {name}/, which the project is read from")
    for place in (out, *out.parents):
        if place.exists() and not place.is_dir():
            raise OutputError(f"{place}: is a file, not a folder")
        if place != out and (place / MARKER).is_file():
            raise OutputError(f"{out}: is inside the site {place}, which the next build replaces; choose another")
    if out.is_dir() and any(out.iterdir()) and not (out / MARKER).is_file():
        raise OutputError(f"{out}: not empty and not made by scoutgen; choose another folder or empty this one")
    if not locked and _is_locked(out):
        raise OutputError(
            f"{out}: holds a locked site, and this build could be read by anybody; give --passphrase-file, choose "
            "another folder with --out, or delete this one"
        )


def _is_locked(out: Path) -> bool:
    with contextlib.suppress(OSError, ValueError):
        return bool(json.loads((out / MARKER).read_text(encoding="utf-8")) == LOCKED_SEAL)
    return False


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
        # A build leaves no link; what one leads to is somebody else's.
        whole = [p for p in (next_site, former) if (p / MARKER).is_file() and not p.is_symlink()]
        if whole:
            whole[0].rename(out)
            put_back = True
    for leftover in (next_site, former):
        if leftover.is_dir() and not leftover.is_symlink():
            shutil.rmtree(leftover)
        elif os.path.lexists(leftover):
            leftover.unlink()
    return put_back


def seal(site: Path, facts: Mapping[str, str]) -> None:
    """Say that a site is whole and who made it; the last file written before the swap."""
    (site / MARKER).write_text(json.dumps(dict(facts), indent=1) + "\n", encoding="utf-8", newline="\n")


def edition_at(out: Path) -> str:
    """The edition whose finished site stands there; empty where there is none or its marker cannot be read."""
    try:
        facts = json.loads((out / MARKER).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return ""
    return str(facts.get("edition", "")) if isinstance(facts, dict) else ""


def swap_in(out: Path) -> None:
    """Put the finished site in the place of the former one.

    Killed between the two renames, the next build or serve finds both and puts one back.
    """
    next_site, former = building_place(out), _former_place(out)
    if out.exists():
        out.rename(former)
    next_site.rename(out)
    shutil.rmtree(former, ignore_errors=True)


def claim(project: Path, out: Path) -> tuple[Path, ...]:
    """Hold the project and the folder its site goes to for one build.

    Both, since the drawings are the project's, and two projects may write to one folder.

    Raises:
        OutputError: another build that still runs holds one of them.
    """
    locks: list[Path] = []
    killed = _out_named(project / ".scoutgen" / "lock")
    # Always in this order: of two builds that want both, one gets both.
    for place, what in ((project / ".scoutgen" / "lock", "of this project"), (_lock_beside(out), f"into {out}")):
        try:
            with naming(place):
                locks.append(_hold(place, what, out))
        except BaseException:
            release(locks)
            raise
    if killed is not None and killed != out:
        _clear_after(killed)
    return tuple(locks)


def _lock_beside(out: Path) -> Path:
    return out.with_name(f".{out.name}.scoutgen-lock")


def _out_named(lock: Path) -> Path | None:
    """The folder that the build which holds or held a project goes to."""
    try:
        if not lock.is_file():
            return None
        _, _, out = lock.read_text(encoding="utf-8").partition("\n")
    except (OSError, ValueError):
        return None
    return Path(out.strip()) if out.strip() else None


def _clear_after(out: Path) -> None:
    """Set right what a killed build left beside another folder than this build's: its lock, half a site."""
    lock = _lock_beside(out)
    if lock.is_file():
        with contextlib.suppress(OSError, OutputError), held(lock, f"into {out}"):
            recover(out)


def _hold(place: Path, what: str, out: Path | None = None) -> Path:
    place.parent.mkdir(parents=True, exist_ok=True)
    # Beside it under a name of this process, and first what killed ones left so.
    bare = place.name.removeprefix(".")
    clear_halves(place.parent, rf"{re.escape(bare)}(?:\.stale)?")
    mine = place.with_name(f".{bare}.{os.getpid()}")
    try:
        mine.write_text(f"{os.getpid()}\n{out or ''}", encoding="utf-8")
        for _ in range(2):
            try:
                _link(mine, place)
            except FileExistsError:
                _take_away_if_stale(place, what)
                continue
            return place
        raise OutputError(f"another build {what} is starting; try again, or delete {place}")
    finally:
        mine.unlink(missing_ok=True)


def _link(mine: Path, place: Path) -> None:
    """Put the lock in its place whole: one that is made first and written to later looks stale in between."""
    try:
        os.link(mine, place)
    except FileExistsError:
        raise
    except OSError:
        # A stick or a share that knows no second name of a file: made first after all.
        with place.open("x", encoding="utf-8") as lock:
            lock.write(mine.read_text(encoding="utf-8"))


def _take_away_if_stale(place: Path, what: str) -> None:
    """Remove the lock of a build that has ended.

    Raises:
        OutputError: its build still runs.
    """
    holder = _holder(place)
    if holder is None:
        # Moved first: of two builds that find the same stale lock only one gets it, and what it got is looked at
        # again, since the other may have put its own lock there meanwhile.
        away = place.with_name(f".{place.name.removeprefix('.')}.stale.{os.getpid()}")
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
        raise OutputError(f"another build {what} is running (process {holder}); if that is no build, delete {place}")


@contextlib.contextmanager
def held(lock: Path, what: str) -> Iterator[None]:
    """Hold a lock for as long as it takes.

    Raises:
        OutputError: another process that still runs holds it.
    """
    locks = (_hold(lock, what),)
    try:
        yield
    finally:
        release(locks)


def release(locks: Iterable[Path]) -> None:
    """Let the next build begin."""
    for lock in locks:
        with contextlib.suppress(OSError):
            lock.unlink()


def _holder(lock: Path) -> int | None:
    """The process that holds the lock, None where it has ended or is this one, or where that is no file of ours."""
    try:
        # To open a pipe might wait for ever.
        if not lock.is_file():
            return None
        process = int(lock.read_text(encoding="utf-8").partition("\n")[0])
    except (OSError, ValueError):
        return None
    return process if still_runs(process, lock) else None
