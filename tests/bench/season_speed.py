"""How long a whole season takes beside stock MkDocs on the same pages, and what is saved when little is new.

    python tests/bench/season_speed.py [--opponents 42] [--times 5]

One run builds an invented division from its charts, each time by the command line in a process of its own: with nothing
kept, with its charts drawn, after one more game, in parts that are joined, and after one more note. Stock MkDocs with
Material is given the same pages in which the same drawings stand inline. What is built with kept pages, and what is
joined, is compared byte by byte with what is built without.
"""

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.site_speed import stock_project
from league.division import write_division

from scoutgen.pages.write import write_book
from scoutgen.records.season import read_season
from scoutgen.site.charts import draw_all
from scoutgen.site.edition_book import read_date

ROOT = Path(__file__).resolve().parents[2]
AS_OF = "2026-04-09"
# Of the demo's last day: the game that is charted last.
LAST_GAME = "0407-harbor-0a"
NOTE = "    text: 'Close game from the sixth on"


def build(project: Path, out: str = "site", *options: str) -> float:
    """Seconds by the clock of one build by the command line."""
    command = [sys.executable, "-m", "scoutgen", "build", "--project", str(project), "--as-of", AS_OF]
    return seconds_of([*command, "--out", str(project / out), *options])


def in_parts(project: Path, parts: int, out: str) -> tuple[list[float], float]:
    """Seconds of each part of a site, made with nothing kept, and of joining them with nothing else kept."""
    season = read_season(project, as_of=read_date(AS_OF))
    teams = sorted(team.key for team in season.teams.values() if not team.own)
    files, each = [project / f"{at}.part" for at in range(parts)], []
    for at, file in enumerate(files):
        forget(project, "said")
        each.append(build(project, file.name, *(word for team in teams[at::parts] for word in ("--only", team))))
    forget(project, "said")
    return each, build(project, out, *(word for file in files for word in ("--join", str(file))))


def seconds_of(command: Sequence[str]) -> float:
    """Seconds by the clock of a command, which must end well."""
    place = {"PYTHONPATH": str(ROOT), "SOURCE_DATE_EPOCH": "1775770000", "NO_MKDOCS_2_WARNING": "1"}
    # As Python runs by default: what it has compiled of this program is kept, as what pip compiled of stock's is.
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"} | place
    start = time.perf_counter()
    done = subprocess.run(command, env=env, capture_output=True, text=True, check=False)
    took = time.perf_counter() - start
    if done.returncode:
        raise SystemExit(done.stdout[-3000:] + done.stderr[-3000:])
    return took


def forget(project: Path, *kept: str) -> None:
    """Take away all that builds have kept but these folders."""
    for place in (project / ".scoutgen").iterdir():
        if place.name not in kept:
            shutil.rmtree(place) if place.is_dir() else place.unlink()


def digest(site: Path) -> dict[str, str]:
    """A hash of every file by its address."""
    files = (place for place in site.rglob("*") if place.is_file())
    return {place.relative_to(site).as_posix(): sha256(place.read_bytes()).hexdigest() for place in files}


def set_aside(project: Path, away: Path) -> int:
    """Take the charts of the last game out of the project; how many files that were."""
    found = sorted((project / "data").rglob(f"{LAST_GAME}.csv"))
    for place in found:
        target = away / place.relative_to(project)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.move(place, target)
    return len(found)


def stock_seconds(project: Path, folder: Path) -> tuple[float, int]:
    """Seconds of stock MkDocs' second build of the same pages, and how many these are."""
    season = read_season(project, as_of=read_date(AS_OF))
    book = write_book(season, edition="staff", built="2026-04-09 21:40")
    svg = dict(draw_all(book.charts, project / ".scoutgen" / "charts").svg)
    config = stock_project(book, folder, svg)
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(config)]
    seconds_of(command)
    return seconds_of(command), len(book.pages)


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--opponents", type=int, default=42, help="a multiple of 7; 42 make 900 pages")
    parser.add_argument("--times", type=int, default=5, help="5 make 290,000 pitches for 42 opponents")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        project, away = Path(name) / "season", Path(name) / "away"
        pitches = write_division(project, opponents=given.opponents // 7 * 3, times=given.times)
        files = set_aside(project, away)
        took = {"nothing kept, every chart drawn": build(project)}
        forget(project, "charts", "said")
        took["charts drawn"] = full = build(project)
        took["nothing new"] = build(project)
        shutil.copytree(away, project, dirs_exist_ok=True)
        # Both builds after the game must be compared with the one before it, for the page of what changed.
        shutil.copytree(project / ".scoutgen/said", Path(name) / "said")
        took[f"one more game, {files} files"] = build(project)
        quick = digest(project / "site")
        forget(project, "charts")
        shutil.copytree(Path(name) / "said", project / ".scoutgen/said")
        build(project, "anew")
        same = digest(project / "anew") == quick
        shutil.rmtree(project / ".scoutgen/said")
        shutil.copytree(Path(name) / "said", project / ".scoutgen/said")
        parts, took["joined of 4 parts"] = in_parts(project, 4, "joined")
        took["slowest of 4 parts"] = max(parts)
        joined = digest(project / "joined") == digest(project / "anew")
        entry = project / "content/opponents/harbor/team.yml"
        entry.write_text(entry.read_text(encoding="utf-8").replace(NOTE, f"{NOTE}, and now too", 1), encoding="utf-8")
        took["one note written anew"] = build(project)
        (Path(name) / "stock").mkdir()
        stock, pages = stock_seconds(project, Path(name) / "stock")
    print(f"{given.opponents} opponents, {pitches:,} pitches, {pages} pages")
    print(f"{'stock MkDocs, drawings inline':34} {stock:7.1f} s  {1000 * stock / pages:6.1f} ms a page")
    for what, seconds in took.items():
        print(f"{what:34} {seconds:7.1f} s  {seconds / stock:5.2f} of stock  {seconds / full:5.2f} of charts drawn")
    print("the site joined of parts is " + ("the same byte by byte" if joined else "NOT THE SAME") + " as built whole")
    print("the site after one more game is " + ("the same byte by byte" if same else "NOT THE SAME") + " as built anew")


if __name__ == "__main__":
    main()
