"""Things done at once, on as many processors as there are: the first in this process, the others in copies of it.

A copy begins with everything that is in memory and costs a few milliseconds, so that work can be shared that takes
seconds. Only what a copy returns comes back; what it changes in memory is lost with it.
"""

import os
import signal
import sys
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from multiprocessing import get_context, parent_process
from multiprocessing.connection import Connection
from multiprocessing.context import ForkProcess
from typing import TypeVar

_MOST = 4
_T = TypeVar("_T")
_Item = TypeVar("_Item")


def side_by_side(tasks: Sequence[Callable[[], _T]]) -> list[_T]:
    """Do all tasks, as far as may be at the same time, and return what they return in their order.

    A task whose copy fails, is killed or runs out of memory is done here instead, so that its error is seen as if
    there had been no copy. What tasks return must be picklable.

    Args:
        tasks: each on its own: none may need what another does.
    """
    if processors() == 1 or len(tasks) < 2:
        return [task() for task in tasks]
    copies: list[tuple[ForkProcess, Connection]] = []
    try:
        # Where the system gives no more processes, the rest is done here.
        with suppress(OSError):
            for task in tasks[1:]:
                copies.append(_copy(task, [here for _, here in copies]))
        done = [tasks[0]()]
        for task, (copy, here) in zip(tasks[1:], copies, strict=False):
            try:
                done.append(here.recv())
            except (EOFError, OSError):
                # An OSError where one was killed in the middle of what it told.
                done.append(task())
            copy.join()
        return [*done, *(task() for task in tasks[len(done) :])]
    finally:
        for copy, here in copies:
            here.close()
            copy.kill()
            # Whoever goes on after an error finds nobody who still writes.
            copy.join()


def shares(items: Sequence[_Item], weight: Callable[[_Item], float]) -> list[list[_Item]]:
    """Items in as many runs as there are processors, of about the same weight and in their order."""
    total, parts = sum(map(weight, items)), processors()
    runs: list[list[_Item]] = [[] for _ in range(parts)]
    before = 0.0
    for item in items:
        runs[min(int(parts * before / total), parts - 1) if total else 0].append(item)
        before += weight(item)
    return [run for run in runs if run]


def processors() -> int:
    """How many things this process may do at once; one where copies of it are not to be trusted."""
    # Elsewhere than on Linux system libraries may not survive a fork; and a copy has none of this process's threads,
    # but the locks they held. What is a copy itself makes none.
    if sys.platform != "linux" or threading.active_count() > 1 or parent_process() is not None:
        return 1
    return min(len(os.sched_getaffinity(0)), _MOST)


def _copy(task: Callable[[], object], others: Sequence[Connection]) -> tuple[ForkProcess, Connection]:
    """A copy of this process that does a task, and where it is heard, as `others` are."""
    fork = get_context("fork")
    here, there = fork.Pipe(duplex=False)
    try:
        # That end is held by the copy alone, so that its end is heard here.
        with there:
            copy = fork.Process(target=_tell, args=(task, there, [here, *others]), daemon=True)
            copy.start()
    except OSError:
        here.close()
        raise
    return copy, here


def _tell(task: Callable[[], object], back: Connection, heard: Sequence[Connection]) -> None:
    # Held by this process too, they would let it wait for ever to be heard by one that was killed.
    for one in heard:
        one.close()
    # Ctrl-C is for all processes of a terminal: the first one says what there is to say, and ends this one.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    # Whoever asked does it again and meets the same error.
    with suppress(Exception):
        back.send(task())
    back.close()
