"""Things done at once, on as many processors as there are: the first in this process, the others in copies of it.

A copy begins with everything that is in memory and costs a few milliseconds, so that work can be shared that takes
seconds. Only what a copy returns comes back; what it changes in memory is lost with it.
"""

import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from multiprocessing import get_context, parent_process
from multiprocessing.connection import Connection, wait
from multiprocessing.context import ForkProcess
from typing import Any, Final, TypeVar

_MOST = 4
# Bytes of a number in a queue: a pipe hands over so few whole, and holds thousands of them.
_SIZE = 2
_T = TypeVar("_T")
_Item = TypeVar("_Item")


def side_by_side(tasks: Sequence[Callable[[], _T]]) -> list[_T]:
    """Do all tasks, as far as may be at the same time, and return what they return in their order.

    Whoever is done with a task takes the next one, so that tasks need not be of the same size where there are more of
    them than processors. A task whose copy fails, is killed or runs out of memory is done here instead, so that its
    error is seen as if there had been no copy. What tasks return must be picklable.

    Args:
        tasks: each on its own: none may need what another does.
    """
    if processors() == 1 or len(tasks) < 2:
        return [task() for task in tasks]
    done: dict[int, _T] = {}
    copies: list[tuple[ForkProcess, Connection]] = []
    queue = _queue(range(1, len(tasks)))
    try:
        # Where the system gives no more processes, the rest is done here.
        with suppress(OSError):
            for _ in tasks[1 : processors()]:
                copies.append(_copy(tasks, queue, [here for _, here in copies]))
        done[0] = tasks[0]()
        done |= {at: tasks[at]() for at in _taken(queue)}
        unheard = [here for _, here in copies]
        while unheard:
            for here in wait(unheard):
                assert isinstance(here, Connection)  # noqa: S101 - nothing else was waited for
                unheard.remove(here)
                told, failed = _heard(here)
                done |= told
                if failed is not None:
                    # Now, since others may be at work for long.
                    done[failed] = tasks[failed]()
        return [done[at] if at in done else task() for at, task in enumerate(tasks)]
    finally:
        os.close(queue)
        for copy, here in copies:
            here.close()
            copy.kill()
            # Whoever goes on after an error finds nobody who still writes.
            copy.join()


#: Runs for each processor where nobody knows before how long one takes: whoever is done takes the next.
RUNS_EACH: Final = 6


def shares(items: Sequence[_Item], weight: Callable[[_Item], float], *, each: int = 1) -> list[list[_Item]]:
    """Items in as many runs as there are processors, or `each` times so many, of about the same weight, in order."""
    total, parts = sum(map(weight, items)), processors()
    parts *= each if parts > 1 else 1
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


def _queue(numbers: Iterable[int]) -> int:
    """A pipe with numbers in it, from which each can be taken once, by whichever process; its end is their end."""
    out, into = os.pipe()
    try:
        os.write(into, b"".join(number.to_bytes(_SIZE) for number in numbers))
    finally:
        os.close(into)
    return out


def _taken(queue: int) -> Iterator[int]:
    """Numbers out of a queue, until there are no more."""
    while number := os.read(queue, _SIZE):
        yield int.from_bytes(number)


def _heard(copy: Connection) -> tuple[dict[int, Any], int | None]:
    """What a copy has done, and what it failed at; nothing of one that ended before it could tell."""
    # An OSError where it was killed in the middle of what it told.
    with suppress(EOFError, OSError):
        done, failed = copy.recv()
        return done, failed
    return {}, None


def _copy(
    tasks: Sequence[Callable[[], object]], queue: int, others: Sequence[Connection]
) -> tuple[ForkProcess, Connection]:
    """A copy of this process that does what it takes out of the queue, and where it is heard, as `others` are."""
    fork = get_context("fork")
    here, there = fork.Pipe(duplex=False)
    try:
        # That end is held by the copy alone, so that its end is heard here.
        with there:
            heard = [here, *others]
            copy = fork.Process(target=_tell, args=(tasks, queue, there, heard, os.getpid()), daemon=True)
            with _no_ctrl_c():
                copy.start()
    except OSError:
        here.close()
        raise
    return copy, here


@contextmanager
def _no_ctrl_c() -> Iterator[None]:
    """Put Ctrl-C off until a copy has said that it is not for it."""
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _tell(
    tasks: Sequence[Callable[[], object]], queue: int, back: Connection, heard: Sequence[Connection], first: int
) -> None:
    # Held by this process too, they would let it wait for ever to be heard by one that was killed.
    for one in heard:
        one.close()
    # Ctrl-C is for all processes of a terminal: the first one says what there is to say, and ends this one.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    done: dict[int, object] = {}
    failed: int | None = None
    for at in _taken(queue):
        # Whoever asked was killed, and nobody waits for it any more.
        if os.getppid() != first:
            return
        try:
            done[at] = tasks[at]()
        except Exception:  # noqa: BLE001 - whoever asked does it again and meets the same error
            failed = at
            break
    # What cannot be handed over is made again too.
    with suppress(Exception):
        back.send((done, failed))
    back.close()
