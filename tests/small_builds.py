"""A small season built by the command line, and what a site holds."""

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from scoutgen.pages import kept_findings
from scoutgen.pages.findings import Asked, Findings, find
from scoutgen.records.season import Season
from scoutgen.records.series import Series

# Thu 9 Apr 2026, 21:40 in UTC.
BUILT = "1775770800"
_CODE = """
import os, sys
if sys.argv[1] == "1":
    os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
else:
    os.sched_getaffinity = lambda _: {0, 1}
from scoutgen.site import press
real = press.side_by_side
def shared(tasks):
    print("pages made ahead in", len(tasks), "runs", flush=True)
    return real(tasks)
press.side_by_side = shared
from scoutgen.cli import main
main(["build", "--project", *sys.argv[2:]])
"""


def build_small(project: Path, *options: object, processors: int) -> str:
    """Build a small season by the command line, in a process without threads; returns what it said.

    Sets are in another order in each of two such processes that may use one processor and two.
    """
    command = [sys.executable, "-c", _CODE, str(processors), str(project), *map(str, options)]
    told = {**os.environ, "SOURCE_DATE_EPOCH": BUILT, "PYTHONHASHSEED": str(processors)}
    ran = subprocess.run(command, env=told, capture_output=True, text=True, timeout=300, check=False)
    assert ran.returncode == 0, ran.stderr
    return ran.stdout + ran.stderr


def files(site: Path) -> dict[str, bytes]:
    """Every file of a site."""
    return {place.relative_to(site).as_posix(): place.read_bytes() for place in site.rglob("*") if place.is_file()}


@contextmanager
def measured_once() -> Iterator[None]:
    """Measured once for all builds of the same charts in this process, whatever is planned for a series."""
    found: dict[str, Findings] = {}

    def look_up(season: Season, people: Asked, series: Series | None) -> Findings:
        key = kept_findings._name(season, people, series and replace(series, plan=()))
        if key not in found:
            found[key] = find(season, people, series)
        return found[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(kept_findings, "find", look_up)
        yield
