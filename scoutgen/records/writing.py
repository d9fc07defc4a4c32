"""Files written whole or not at all, with the file's name in what is said when the disk refuses."""

import errno
import os
import re
import shutil
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path


@contextmanager
def naming(file: Path) -> Iterator[None]:
    """Let what the disk refuses name a file: a write that finds no room knows none of its own.

    Raises:
        OSError: as it was raised, with the name.
    """
    try:
        yield
    except shutil.Error as several:
        # Of a copied folder; each is [from, to, why], and the first says enough.
        [_, place, why], *_ = several.args[0]
        reason = re.sub(r"^\[Errno \d+\] |: '.*", "", str(why))
        raise OSError(errno.EIO, reason, os.fspath(place)) from several
    except OSError as refused:
        # Of a copy, what was written and not what was read; and a name of its own says more than ours, but for that
        # under which the file grows.
        known = refused.filename2 or refused.filename
        refused.filename, refused.filename2 = known, None
        grows = isinstance(known, str) and Path(known).parent == file.parent
        if known is None or (grows and Path(known).name.startswith(f".{file.name}.")):
            refused.filename = os.fspath(file)
        raise


def write_whole(file: Path, content: bytes) -> None:
    """Write a file in one step, beside it, onto the disk and then renamed: readers see the former or the new one.

    Raises:
        OSError: the disk is full or cannot be written; what stood there stands.
    """
    with naming(file):
        file.parent.mkdir(parents=True, exist_ok=True)
        with growing(file) as beside, beside.open("wb") as opened:
            opened.write(content)
            opened.flush()
            os.fsync(opened.fileno())


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write files in their order, all of them or none.

    Where the disk refuses one, new ones before it are taken back with the folders made for them. One that is written
    over cannot be, so it comes last.

    Raises:
        OSError: the disk is full or cannot be written; what stood there stands.
    """
    made: list[Path] = []
    try:
        for file, content in files.items():
            made += [folder for folder in reversed(file.parents) if not folder.exists()]
            is_new = not os.path.lexists(file)
            write_whole(file, content)
            made += [file] if is_new else []
    except BaseException:
        for place in reversed(made):
            with suppress(OSError):
                if place.is_dir():
                    place.rmdir()
                else:
                    place.unlink()
        raise


@contextmanager
def growing(file: Path) -> Iterator[Path]:
    """A place beside a file that takes the file's name at the end, and is gone where that is not reached.

    What a process that was killed left there goes first.
    """
    clear_halves(file.parent, re.escape(file.name))
    beside = file.with_name(f".{file.name}.{os.getpid()}")
    try:
        yield beside
        beside.replace(file)
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)


def clear_halves(folder: Path, names: str) -> None:
    """Take away what killed processes left growing in a folder.

    Args:
        folder: where to look; it need not be there.
        names: regular expression of the files that grew.
    """
    with suppress(OSError):
        for place in folder.iterdir():
            half = re.fullmatch(rf"\.(?:{names})\.(\d+)", place.name)
            if half and not still_runs(int(half[1]), place) and place.is_file():
                place.unlink(missing_ok=True)


def still_runs(process: int, mark: Path) -> bool:
    """Whether a process other than this one runs, as far as can be known.

    Args:
        process: its number.
        mark: what it left; where nobody can be asked (Windows), an hour without a word is taken for an end.
    """
    if process == os.getpid():
        return False
    if os.name == "nt":
        # Signal 0 would end the process there.
        with suppress(OSError):
            return time.time() - mark.stat().st_mtime < 3600
        return False
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except PermissionError:
        return True
    return True
