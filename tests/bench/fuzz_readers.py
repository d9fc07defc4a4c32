"""Reads mutated files of the demo by the hundred thousand, each in bounded time and memory, and counts what came of it.

    python tests/bench/fuzz_readers.py --count 100000 --seed 1 --processes 2 [--keep FOLDER] [--only KIND ...]

Every file is drawn from its seed and number alone: `--first N --count 1` reads file N again. Whatever is neither read
nor refused in words is a failure and kept with its traceback; so is a file that takes longer or more memory than
allowed. Ends with 1 where there was one.
"""

import argparse
import multiprocessing
import os
import resource
import signal
import sys
import tempfile
import time
import traceback
import warnings
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any, NoReturn

HERE = Path(__file__).resolve()
sys.path[:0] = [str(HERE.parents[1]), str(HERE.parents[2])]

# Of the processor's time, so that a busy machine changes nothing.
MOST_SECONDS = 20
MOST_BYTES = 1_500_000_000
# A part of the program that hears no signal is ended from outside.
PATIENCE = 200


class TooLongError(BaseException):
    """No reader's own `except Exception` may catch it."""


@contextmanager
def bounded() -> Iterator[None]:
    """At most so many seconds and so much memory on top of what is in use."""

    def stop(*_: object) -> NoReturn:
        raise TooLongError

    signal.signal(signal.SIGPROF, stop)
    in_use = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (in_use + MOST_BYTES, resource.RLIM_INFINITY))
    signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        resource.setrlimit(resource.RLIMIT_AS, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))


def work(numbers: range, options: argparse.Namespace, answers: Connection) -> None:
    """Read the files of these numbers; tells which is begun and what came of it."""
    from fuzzing import Readers, kind_of

    os.nice(max(0, 10 - os.nice(0)))
    warnings.simplefilter("error")
    with tempfile.TemporaryDirectory(prefix="scoutgen-fuzz-") as folder:
        readers = Readers(Path(folder))
        kinds = options.only or list(readers.kinds)
        # Made before anything is measured.
        assert readers.season and readers.maps and readers.words and readers.rosters and readers.imported_before  # noqa: PT018
        for number in numbers:
            name, chance = kind_of(number, options.seed, kinds)
            answers.send(("begun", number, "drawing", b""))
            content = readers.drawn(name, chance)
            answers.send(("begun", number, name, content if options.keep else b""))
            begin = time.process_time()
            wrong = ""
            try:
                with bounded():
                    outcome = readers.try_one(name, content, chance)
                    kind, word = outcome.kind, outcome.word
            except (Exception, TooLongError) as error:  # noqa: BLE001 - whatever it is, it is the failure looked for
                kind, word, wrong = "failed", type(error).__name__, traceback.format_exc()
            answers.send(("done", number, name, kind, word, time.process_time() - begin, wrong))
            # Now and then, so that a run that is stopped can say it.
            if number % 50 < options.processes:
                answers.send(("peak", resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024))
        answers.send(("over",))


class Tally:
    """What came of the files so far."""

    def __init__(self, options: argparse.Namespace) -> None:
        self.options = options
        self.outcomes: Counter[tuple[str, str]] = Counter()
        self.slowest: dict[str, tuple[float, int]] = {}
        self.seconds: Counter[str] = Counter()
        self.words: Counter[str] = Counter()
        self.failures = 0
        self.peak = 0

    def take(self, name: str, kind: str, number: int, seconds: float) -> None:
        """Count one file."""
        self.outcomes[name, kind] += 1
        self.seconds[name] += seconds
        self.slowest[name] = max(self.slowest.get(name, (0.0, 0)), (seconds, number))

    def hear(self, message: tuple[Any, ...], content: bytes) -> bool:
        """Take in what a process says of its files; whether it was its last word."""
        if message[0] == "done":
            _, number, name, kind, word, seconds, wrong = message
            self.take(name, kind, number, seconds)
            self.words[word] += kind == "refused"
            if kind == "failed":
                self.fail(name, number, content, wrong)
        elif message[0] == "peak":
            self.peak = max(self.peak, message[1])
        return message[0] == "over"

    def fail(self, name: str, number: int, content: bytes, why: str) -> None:
        """Say what failed, and keep the file."""
        self.failures += 1
        last = why.strip().splitlines()[-1]
        print(f"FAILED {number} ({name}): {last}", flush=True)
        if self.options.keep:
            self.options.keep.mkdir(parents=True, exist_ok=True)
            (self.options.keep / f"{self.options.seed}-{number}-{name.replace(' ', '-')}").write_bytes(content)
            (self.options.keep / f"{self.options.seed}-{number}-why.txt").write_text(why, errors="replace")

    def say(self, seconds: float) -> None:
        """Print the table."""
        names = sorted({name for name, _ in self.outcomes})
        print(f"{'':14}{'read':>9}{'refused':>9}{'failed':>9}   mean ms  slowest ms (file)")
        for name in names:
            read, refused, failed = (self.outcomes[name, kind] for kind in ("read", "refused", "failed"))
            mean = 1_000 * self.seconds[name] / (read + refused + failed)
            slow, number = self.slowest[name]
            print(f"{name:14}{read:9,}{refused:9,}{failed:9,}{mean:10.1f}{1_000 * slow:12.0f} ({number})")
        total = Counter[str]()
        for (_, kind), count in self.outcomes.items():
            total[kind] += count
        print(f"{'all':14}{total['read']:9,}{total['refused']:9,}{total['failed']:9,}")
        print(f"{len(self.words):,} different words of refusal; {seconds:,.0f} s; at most {self.peak / 1e6:,.0f} MB")


def watched(numbers: range, options: argparse.Namespace, tally: Tally) -> Iterator[None]:
    """A process for these numbers, ended and begun anew behind a file that it cannot come away from."""
    while numbers:
        ours, theirs = multiprocessing.Pipe(duplex=False)
        process = multiprocessing.get_context("spawn").Process(
            target=work, args=(numbers, options, theirs), daemon=True
        )
        process.start()
        theirs.close()
        number, name, content = numbers[0], "start", b""
        over = False
        waited = time.monotonic()
        while not over:
            try:
                if not ours.poll(0):
                    if time.monotonic() - waited > MOST_SECONDS + PATIENCE and name != "start":
                        break
                    yield
                    continue
                message = ours.recv()
            except EOFError:
                break
            waited = time.monotonic()
            if message[0] == "begun":
                _, number, name, content = message
            over = tally.hear(message, content)
        if not over:
            process.kill()
            tally.take(name, "failed", number, MOST_SECONDS)
            tally.fail(name, number, content, f"the process ended or hung (exit code {process.exitcode})")
            numbers = numbers[numbers.index(number) + 1 :]
        else:
            numbers = range(0)
        process.join()


def main() -> None:
    """Share the numbers between the processes and print what came of them."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=1_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0, help="the number of the first file")
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--keep", type=Path, help="folder for the files that failed")
    parser.add_argument("--only", nargs="+", help="kinds of files; all when left out")
    options = parser.parse_args()
    tally = Tally(options)
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    begin = time.perf_counter()
    numbers = range(options.first, options.first + options.count)
    running = [watched(numbers[start :: options.processes], options, tally) for start in range(options.processes)]
    try:
        while running:
            for one in list(running):
                if next(one, "over") == "over":
                    running.remove(one)
            time.sleep(0.002)
    except KeyboardInterrupt:
        print("stopped before the end")
    tally.say(time.perf_counter() - begin)
    sys.exit(bool(tally.failures))


if __name__ == "__main__":
    main()
