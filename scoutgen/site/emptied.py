"""The former site with nothing left in its files, filled anew by the next build of the same edition.

To make a file and its folder takes many a disk ten times as long as to write one that is there, and a season's site has
thousands. What stands in a file is gone before it is kept, so that nothing old can be shown, or found, where a build
should fail to fill it.
"""

import errno
import os
import shutil
import stat
from collections.abc import Collection, Iterable
from contextlib import suppress
from pathlib import Path


def retire(site: Path, away: Path) -> None:
    """Take a site away and empty its files; where that cannot be, it is deleted.

    Args:
        site: the folder that nobody shows any more.
        away: where it is kept; what is there goes.
    """
    delete(away)
    try:
        # On Windows a folder may be another one's second name without being a link.
        if os.name != "nt":
            away.parent.mkdir(parents=True, exist_ok=True)
            site.rename(away)
            _empty(away)
    except OSError:
        # Another disk, or one that refuses.
        delete(away)
    delete(site)


def furnish(place: Path, away: Path, addresses: Collection[str]) -> None:
    """Put an emptied site where the next one is to be written; no more is lost than time where that cannot be.

    Args:
        place: the next site's folder, which is not there yet, or holds nothing.
        away: where the emptied site is kept.
        addresses: of all files that will be written for certain; no other stays.
    """
    with suppress(OSError):
        if place.exists():
            place.rmdir()
        away.rename(place)
        try:
            _empty(place, set(addresses))
        except OSError:
            delete(place)


def clear_unfilled(place: Path, addresses: Iterable[str]) -> None:
    """Delete those of these files that stayed empty, as of a page that a build has passed by after all."""
    for address in addresses:
        with suppress(OSError):
            if (file := place / address).stat().st_size == 0:
                file.unlink()


def delete(folder: Path) -> None:
    """Take a folder away with all that is in it, as far as the disk lets go of it."""
    shutil.rmtree(folder, ignore_errors=True)


def _empty(folder: Path, addresses: Collection[str] | None = None) -> None:
    """Empty the files of a folder that are as this process would make them; delete all others, and empty folders.

    Args:
        folder: of a site.
        addresses: of the files that stay, from that folder on; None for all.

    Raises:
        OSError: the folder itself is not as this process would make it, or something cannot be deleted.
    """
    mask = os.umask(0o077)
    os.umask(mask)

    def is_own(told: os.stat_result, kind: int, mode: int) -> bool:
        return told.st_mode == kind | mode & ~mask and told.st_uid == os.geteuid()

    def empty(within: str, way: str) -> bool:
        """Whether anything is left there."""
        with os.scandir(within) as found:
            entries = list(found)
        left = False
        for entry in entries:
            told, address = entry.stat(follow_symlinks=False), f"{way}{entry.name}"
            if stat.S_ISDIR(told.st_mode):
                if is_own(told, stat.S_IFDIR, 0o777) and empty(entry.path, f"{address}/"):
                    left = True
                else:
                    shutil.rmtree(entry.path)
                continue
            # A second name of the file, as in somebody's copy of the site, would be emptied with it.
            own = is_own(told, stat.S_IFREG, 0o666) and told.st_nlink == 1
            if own and (addresses is None or address in addresses):
                os.truncate(entry.path, 0)
                left = True
            else:
                os.unlink(entry.path)  # noqa: PTH108 - a Path for each takes longer than the rest
        return left

    if not is_own(folder.lstat(), stat.S_IFDIR, 0o777):
        raise OSError(errno.EPERM, "made by somebody else, or for others", os.fspath(folder))
    empty(os.fspath(folder), "")
