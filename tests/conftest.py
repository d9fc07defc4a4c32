"""Fixtures for tests that need a browser or Node, and a loud word where they could not run."""

import functools
import http.server
import os
import pickle
import shutil
import subprocess
import threading
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import NoReturn

import pytest
from hypothesis import settings
from once import once, one_at_a_time, shared_folder

import scoutgen  # noqa: F401  before numpy, whose threads it sets

# The suite tries the same few examples every time, however busy the machine is. `--hypothesis-profile=long` draws
# others by the thousand; tests that say how many they try (`properties.few`) try that many times more.
settings.register_profile("suite", deadline=None, derandomize=True)
settings.register_profile("long", deadline=None, max_examples=5_000)
settings.load_profile("suite")

WHERE = ("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome")
NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")
NOT_RUN: list[str] = []
# Outside the repository, kept between runs; the versions the pages were looked at with.
NODE_CACHE = Path(os.environ.get("XDG_CACHE_HOME", Path.home() / ".cache")) / "scoutgen-tests"
NODE_PACKAGES = ("axe-core@4.14.1", "vnu-jar@26.9.27")
# A name for this machine that Chromium does not trust as it trusts 127.0.0.1: without https it keeps no site of it.
# To fetch and hash a whole site in every fresh browser takes longer than most questions asked of its pages.
PLAIN_HTTP = "pages.test"


def find_chromium() -> str | None:
    """Where Chromium is: Debian's place first, then the PATH."""
    return next((p for p in WHERE if Path(p).is_file()), None) or next(filter(None, map(shutil.which, NAMES)), None)


def must_run(what: str, reason: str) -> NoReturn:
    """Skip a test that this machine cannot run, or fail where it must be able to."""
    if os.environ.get("CI") == "true":
        pytest.fail(f"{what}: {reason}; under CI=true this is a failure")
    NOT_RUN.append(f"{what}: {reason}")
    pytest.skip(reason)


@pytest.fixture(scope="session")
def measured_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the repository's demo measured once for all processes, as builds keep it, and the book of that."""
    from scoutgen.pages.write import write_book
    from scoutgen.records.season import read_season
    from scoutgen.site.shelf import TableShelf

    def measure(place: Path) -> None:
        place.mkdir()
        season = read_season(Path(__file__).parents[1], as_of=date(2026, 4, 9))
        built = "Thu 9 Apr 2026, 21:40"
        book = write_book(season, edition="staff", built=built, tables=TableShelf(place, "staff"))
        (place / "book").write_bytes(pickle.dumps(book))

    return once(shared_folder(tmp_path_factory) / "measured-demo", measure)


@pytest.fixture(scope="session")
def chromium() -> str:
    """Path of Chromium."""
    found = find_chromium()
    if found is None:
        must_run("browser tests", "no Chromium at /usr/bin/chromium or on the PATH (Debian: apt install chromium)")
    return found


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[object]:
    """One Chromium for all browser tests."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        # There is no GPU where this runs; to imitate one costs more than to draw without.
        flags = ["--no-sandbox", "--disable-gpu", f"--host-resolver-rules=MAP {PLAIN_HTTP} 127.0.0.1"]
        opened = play.chromium.launch(executable_path=chromium, args=flags)
        yield opened
        opened.close()


class _Quiet(http.server.SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="session")
def serve() -> Iterator[object]:
    """A function from a folder to the address at which it is served; with `kept` one from which browsers keep it."""
    servers: list[http.server.ThreadingHTTPServer] = []

    def start(folder: Path, *, kept: bool = False) -> str:
        handler = functools.partial(_Quiet, directory=str(folder))
        server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
        server.daemon_threads = True
        servers.append(server)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        return f"http://{'127.0.0.1' if kept else PLAIN_HTTP}:{server.server_port}/"

    yield start
    for server in servers:
        server.shutdown()
        server.server_close()


@pytest.fixture(scope="session")
def node_modules() -> Path:
    """Where axe-core and the Nu HTML checker are, fetched from npm once."""
    npm = shutil.which("npm")
    if npm is None:
        must_run("axe-core and the Nu HTML checker", "npm is not on the PATH (Debian: apt install npm)")
    done = NODE_CACHE / f"have-{'-'.join(NODE_PACKAGES).replace('@', '-')}"
    with one_at_a_time(NODE_CACHE / "lock"):
        if not done.is_file():
            command = [str(npm), "install", "--no-audit", "--no-fund", "--ignore-scripts", "--prefix", str(NODE_CACHE)]
            ran = subprocess.run([*command, *NODE_PACKAGES], capture_output=True, text=True, check=False)
            if ran.returncode != 0:
                must_run("axe-core and the Nu HTML checker", f"npm could not fetch them: {ran.stderr.strip()[-300:]}")
            done.touch()
    return NODE_CACHE / "node_modules"


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Where tests run in several processes, each hands what it did not try to the one that speaks."""
    if hasattr(session.config, "workeroutput"):
        session.config.workeroutput["not_run"] = NOT_RUN


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node: object) -> None:
    """What one of several processes did not try."""
    NOT_RUN.extend(getattr(node, "workeroutput", {}).get("not_run", []))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say at the end what tests have measured (`record_property("measured", ...)`), and loudly what was not tried."""
    told = [value for report in terminalreporter.getreports("passed") for name, value in report.user_properties
            if name == "measured"]  # fmt: skip
    if told:
        terminalreporter.section("measured")
        terminalreporter.write_line("\n".join(map(str, told)))
    if NOT_RUN:
        terminalreporter.section("NOT RUN ON THIS MACHINE", sep="!", red=True, bold=True)
        for line in dict.fromkeys(NOT_RUN):
            terminalreporter.write_line(f"  {line}")


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--accept`: take the pages as they are now for the snapshots."""
    parser.addoption("--accept", action="store_true", help="rewrite tests/snapshots from the pages as they are now")
