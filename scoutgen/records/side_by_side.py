"""Things done at once, on as many processors as there are: the first in this process, the others in copies of it.

A copy begins with everything that is in memory and costs a few milliseconds, so that work can be shared that takes
seconds. Only what a copy returns comes back; what it changes in memory is lost with it.
"""

import os
import sys
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection
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
    fork = get_context("fork")
    copies = []
    for task in tasks[1:]:
        here, there = fork.Pipe(duplex=False)
        copy = fork.Process(target=_tell, args=(task, there), daemon=True)
        copy.start()
        # Held by the copy alone, so that its end is heard here.
        there.close()
        copies.append((copy, here))
    try:
        done = [tasks[0]()]
        for task, (copy, here) in zip(tasks[1:], copies, strict=True):
            try:
                done.append(here.recv())
            except EOFError:
                done.append(task())
            copy.join()
    finally:
        for copy, here in copies:
            copy.kill()
            here.close()
    return done


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
    # but the locks they held.
    if sys.platform != "linux" or threading.active_count() > 1:
        return 1
    return min(len(os.sched_getaffinity(0)), _MOST)


def _tell(task: Callable[[], _T], back: Connection) -> None:
    # Whoever asked does it again and meets the same error.
    with suppress(Exception):
        back.send(task())
    back.close()
