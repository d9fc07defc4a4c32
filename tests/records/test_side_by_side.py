"""Work shared among copies of the process gives what one after the other gives, whatever becomes of a copy.

Tests run in processes with threads, which make no copies: what must be copied is done in a process of its own.
"""

import contextlib
import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path
from textwrap import dedent

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.records import side_by_side as module
from scoutgen.records.side_by_side import processors, shares, side_by_side

HEAD = """
import os, signal, sys, threading, time
from functools import partial
from scoutgen.records import side_by_side as module
from scoutgen.records.side_by_side import side_by_side
module.processors = lambda: 3
FIRST = os.getpid()

def copied():
    return os.getpid() != FIRST

"""


def ran(code: str, *, head: str = HEAD) -> subprocess.CompletedProcess[str]:
    """What a process of its own says, without the few threads it could have got from this one."""
    return subprocess.run(
        [sys.executable, "-W", "error", "-c", head + dedent(code)],
        capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip


def said(code: str) -> list[str]:
    """The lines a process of its own says, which has nothing to complain of."""
    done = ran(code)
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout.splitlines()


def test_results_come_in_the_order_of_the_tasks_whoever_is_done_first() -> None:
    code = """
    def slow(seconds, name):
        time.sleep(seconds)
        return name, copied()
    print(*side_by_side([partial(slow, wait, name) for wait, name in ((0.1, "a"), (0.2, "b"), (0, "c"), (0, "d"))]))
    print(side_by_side([]), side_by_side([copied]))
    """
    assert said(code) == ["('a', False) ('b', True) ('c', True) ('d', True)", "[] [False]"]


def test_whoever_is_done_takes_the_next_task() -> None:
    code = """
    def who(seconds):
        time.sleep(seconds)
        return os.getpid() - FIRST and os.getpid()
    made = side_by_side([partial(who, seconds) for seconds in (3, 3, *[0.05] * 8)])
    print(made[0], len(set(made)), len(set(made[2:])), made[1] in made[2:])
    """
    # Three processes: the first two are at work for long, the third does all the others.
    assert said(code) == ["0 3 1 False"]


def test_more_tasks_than_a_pipe_holds_pages_are_all_done_once() -> None:
    code = """
    made = side_by_side([partial(lambda at: at * at, at) for at in range(3000)])
    print(made == [at * at for at in range(3000)])
    """
    assert said(code) == ["True"]


def test_where_there_are_no_copies_tasks_are_done_one_after_the_other(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "processors", lambda: 1)
    begun: list[int] = []
    assert side_by_side([lambda at=at: begun.append(at) or at for at in range(4)]) == [0, 1, 2, 3]
    assert begun == [0, 1, 2, 3]


@pytest.mark.parametrize(
    "end", ["os._exit(0)", "os._exit(7)", "os.kill(os.getpid(), signal.SIGKILL)", "raise MemoryError", "sys.exit(3)"]
)
def test_the_task_of_a_copy_that_ends_is_done_here(end: str) -> None:
    code = f"""
    def dies(name):
        if name == "a":
            # Until a copy has come to the others.
            time.sleep(0.7)
        if copied() and name == "b":
            os.write(1, b"met\\n")
            {end}
        return name
    print(*side_by_side([partial(dies, name) for name in "abcd"]))
    """
    assert said(code) == ["met", "a b c d"]


def test_the_task_of_a_copy_that_ends_in_the_middle_of_telling_is_done_here() -> None:
    # What it tells is longer than a pipe holds, so that it waits there until it is heard.
    code = """
    from multiprocessing import active_children
    def long(name):
        return name * 4_000_000
    def first():
        time.sleep(1)
        active_children()[0].kill()
        return ""
    print(*(len(text) for text in side_by_side([first, partial(long, "b"), partial(long, "c")])))
    """
    assert said(code) == ["0 4000000 4000000"]


@pytest.mark.parametrize("at", [0, 2])
def test_an_error_is_seen_as_without_copies_and_no_copy_goes_on(at: int) -> None:
    done = ran(
        f"""
        from multiprocessing import active_children
        def fails(place):
            if place == 0 and {at}:
                time.sleep(0.7)
            if place == {at}:
                raise ValueError(f"wrong at {{place}}, copied: {{copied()}}")
            return place
        try:
            side_by_side([partial(fails, 0), partial(fails, 1), partial(fails, 2), partial(time.sleep, 600)])
        except ValueError as wrong:
            print(wrong, active_children())
        """
    )
    assert (done.stdout, done.stderr) == (f"wrong at {at}, copied: False []\n", "")


def test_what_a_copy_fails_at_is_tried_here_once_and_before_the_others_are_done() -> None:
    # A full disk says itself as what a pipe does that was cut off.
    code = """
    def full():
        os.write(1, f"tried, copied: {copied()}\\n".encode())
        time.sleep(0.2)
        raise OSError(28, "No space left on device")
    try:
        side_by_side([partial(time.sleep, 0.7), full, partial(time.sleep, 600)])
    except OSError as wrong:
        print(wrong.strerror)
    """
    assert said(code) == ["tried, copied: True", "tried, copied: False", "No space left on device"]


def test_what_cannot_be_handed_over_is_made_here_and_nobody_waits_for_it() -> None:
    code = """
    def locks():
        time.sleep(0.3)
        return threading.Lock()
    made = side_by_side([lambda: time.sleep(0.7), lambda: (lambda: copied()), locks])
    print(made[0], made[1](), type(made[2]).__name__)
    """
    assert said(code) == ["None False lock"]


def test_where_the_system_gives_no_more_processes_the_rest_is_done_here() -> None:
    code = """
    real, given = os.fork, []
    def fork():
        if given:
            raise BlockingIOError(11, "Resource temporarily unavailable")
        given.append(1)
        return real()
    os.fork = fork
    def who(seconds):
        time.sleep(seconds)
        return copied()
    print(*side_by_side([partial(who, seconds) for seconds in (0.5, 1.5, 0, 0)]))
    """
    assert said(code) == ["False True False False"]


def test_copies_leave_no_process_and_no_open_file() -> None:
    code = """
    from multiprocessing import active_children
    before = len(os.listdir("/proc/self/fd"))
    for _ in range(20):
        side_by_side([copied] * 3)
    print(len(os.listdir("/proc/self/fd")) - before, active_children())
    """
    assert said(code) == ["0 []"]


def test_a_copy_makes_no_copies_of_itself() -> None:
    code = """
    import importlib
    del module.processors
    importlib.reload(module)
    os.sched_getaffinity = lambda _: {0, 1}
    def asked():
        time.sleep(0.5)
        return module.processors()
    print(module.side_by_side([asked, asked]))
    """
    assert said(code) == ["[2, 1]"]


def test_a_copy_whose_first_process_is_killed_does_not_wait_for_ever() -> None:
    code = """
    def long():
        os.write(1, f"{os.getpid()}\\n".encode())
        return "b" * 4_000_000
    side_by_side([partial(time.sleep, 600), long, long])
    """
    with subprocess.Popen([sys.executable, "-c", HEAD + dedent(code)], stdout=subprocess.PIPE, text=True) as first:
        assert first.stdout
        copies = [int(first.stdout.readline()) for _ in range(2)]
        first.kill()
    end = time.monotonic() + 20
    while any(runs(copy) for copy in copies) and time.monotonic() < end:
        time.sleep(0.05)
    left = [copy for copy in copies if runs(copy)]
    for copy in left:
        os.kill(copy, signal.SIGKILL)
    assert left == [], "it waits for nobody"


def runs(process: int) -> bool:
    """Whether a process is there and is no mere entry of one that has ended."""
    with contextlib.suppress(OSError):
        return ") Z " not in Path(f"/proc/{process}/stat").read_text()
    return False


def test_ctrl_c_is_answered_once() -> None:
    code = """
    # Whoever runs tests in the background has it ignored.
    signal.signal(signal.SIGINT, signal.default_int_handler)
    def wait(name):
        os.write(1, f"{name}\\n".encode())
        try:
            time.sleep(600)
        finally:
            # Time enough for the others to complain.
            time.sleep(0 if copied() else 0.5)
    try:
        side_by_side([partial(wait, name) for name in "abc"])
    except KeyboardInterrupt:
        print("stopped", flush=True)
    """
    # A terminal's Ctrl-C goes to all of them.
    with subprocess.Popen(
        [sys.executable, "-c", HEAD + dedent(code)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True,
    ) as first:  # fmt: skip
        assert first.stdout
        begun = sorted(first.stdout.readline() for _ in range(3))
        os.killpg(first.pid, signal.SIGINT)
        try:
            assert first.communicate(timeout=20) == ("stopped\n", "")
        finally:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(first.pid, signal.SIGKILL)
    assert begun == ["a\n", "b\n", "c\n"]


@given(st.lists(st.floats(0, 1000), max_size=60), st.integers(1, 4))
def test_shares_have_every_item_once_in_order_and_about_the_same_weight(weights: list[float], parts: int) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "processors", lambda: parts)
        runs = shares(range(len(weights)), weights.__getitem__)
    assert [item for run in runs for item in run] == list(range(len(weights)))
    assert len(runs) <= parts
    assert all(runs)
    heaviest = max(weights, default=0)
    for run in runs:
        assert sum(weights[item] for item in run) <= sum(weights) / parts * (1 + 1e-9) + heaviest + 1e-9


def test_shares_of_equal_items_are_equal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "processors", lambda: 3)
    assert shares("abcdef", lambda _: 1) == [["a", "b"], ["c", "d"], ["e", "f"]]
    assert shares("ab", lambda _: 0) == [["a", "b"]]
    assert shares("", lambda _: 1) == []


def test_shares_may_be_finer_where_they_are_shared(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "processors", lambda: 2)
    assert shares("abcdef", lambda _: 1, each=3) == [["a"], ["b"], ["c"], ["d"], ["e"], ["f"]]
    monkeypatch.setattr(module, "processors", lambda: 1)
    assert shares("abcdef", lambda _: 1, each=3) == [list("abcdef")]


def test_a_process_with_another_thread_does_one_thing_at_a_time(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1})
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    assert processors() == 2
    monkeypatch.undo()
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1})
    over = threading.Event()
    other = threading.Thread(target=over.wait)
    other.start()
    assert processors() == 1
    over.set()
    other.join()


def test_not_more_is_done_at_once_than_there_are_processors_for_this_process_nor_than_four() -> None:
    head = "import os\nfrom scoutgen.records.side_by_side import processors\n"
    code = """
    whole = os.sched_getaffinity(0)
    os.sched_setaffinity(0, {min(whole)})
    one = processors()
    os.sched_getaffinity = lambda _: set(range(64))
    print(one, processors())
    """
    assert ran(code, head=head).stdout == "1 4\n"


def test_elsewhere_than_on_linux_one_thing_is_done_at_a_time(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1})
    assert processors() == 2
    monkeypatch.setattr(sys, "platform", "darwin")
    assert processors() == 1


def test_a_copy_whose_first_process_was_killed_begins_nothing_more() -> None:
    code = """
    def told(at):
        os.write(1, f"{at} {os.getpid()}\\n".encode())
        time.sleep(0.5)
    module.processors = lambda: 2
    side_by_side([partial(time.sleep, 600), *(partial(told, at) for at in range(1, 20))])
    """
    with subprocess.Popen([sys.executable, "-c", HEAD + dedent(code)], stdout=subprocess.PIPE, text=True) as first:
        assert first.stdout
        begun, copy = map(int, first.stdout.readline().split())
        first.kill()
        end = time.monotonic() + 20
        while runs(copy) and time.monotonic() < end:
            time.sleep(0.05)
        assert not runs(copy)
        assert (begun, first.stdout.read()) == (1, "")
