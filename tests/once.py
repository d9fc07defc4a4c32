"""What is made once for all processes of a test run, though each of them asks for it: a site, a download."""

import fcntl
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest


def shared_folder(factory: pytest.TempPathFactory) -> Path:
    """The folder that all processes of this run have in common; each has one of its own within it."""
    own = factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@contextmanager
def one_at_a_time(lock: Path) -> Iterator[None]:
    """Nobody else is here meanwhile. The system opens the lock of a process that ends, however it ends."""
    lock.parent.mkdir(parents=True, exist_ok=True)
    with lock.open("w") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        yield


def once(place: Path, make: Callable[[Path], object]) -> Path:
    """A file or folder, made by whoever asks first while others wait; what failed is tried again by the next."""
    done = place.with_name(f"{place.name}.done")
    with one_at_a_time(place.with_name(f"{place.name}.lock")):
        if not done.is_file():
            shutil.rmtree(place, ignore_errors=True)
            make(place)
            done.touch()
    return place
