"""How long a page takes beside stock MkDocs on the same words, and what comes over the wire.

    python tests/bench/site_speed.py [--opponents 30] [--pages 30]

One run builds the same made-up season four ways: by our plugin with charts and pages kept, with its charts kept and
every page made anew, and with every chart to draw; and by stock MkDocs with Material on the same markdown in which the
same ready charts stand inline. Reading charts and measuring are not in it; `season_speed.py` has them.
"""

import argparse
import gzip
import logging
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from unittest.mock import patch

sys.path.insert(0, str(Path(__file__).parents[1]))

from sample_book import edition_book, pitcher_markdown, strip_chart

from scoutgen.pages.book import Book, Chart, Page, SearchEntry
from scoutgen.site import plugin
from scoutgen.site.build import build_site
from scoutgen.site.charts import draw_all, figure
from scoutgen.site.offline import keep_offline

NAMES = ("Ada", "Bo", "Cal", "Dee", "Eli", "Fay", "Gus", "Hal")
CHARTS_A_PAGE = 3


def season(opponents: int, pages_each: int) -> Book:
    """Opponents and their players, three charts and three tables of twelve rows a page."""
    pages = [
        Page("index", "Tonight", "# Tonight\n\n## Plan\n\nWords.\n", (SearchEntry("Tonight", "plan"),), ("Tonight",))
    ]
    charts: dict[str, Chart] = {}
    for team in range(opponents):
        team_name, folder = f"Team {team}", f"teams/team-{team}"
        pages.append(Page(f"{folder}/index", team_name, f"# {team_name}\n", (), ("Teams", team_name)))
        for player in range(pages_each - 1):
            seed = team * pages_each + player
            name = f"{NAMES[seed % len(NAMES)]} Player{seed}"
            keys = tuple(f"c{seed}x{i}" for i in range(CHARTS_A_PAGE))
            charts |= {key: strip_chart(seed * 10 + i) for i, key in enumerate(keys)}
            markdown = pitcher_markdown(name, str(seed % 100), "RHP", seed=seed, charts=keys)
            entry = SearchEntry(f"{name} #{seed % 100} RHP, {team_name}", "fastball slider change", boost=10)
            # As in a real book, where men are reached from their team's page, the menu has none of them.
            pages.append(Page(f"{folder}/player-{player}", name, markdown, (entry,)))
    return Book(tuple(pages), charts)


def stock_project(book: Book, folder: Path, svg: dict[str, str]) -> Path:
    """The same pages for MkDocs without a plugin: tables for Markdown, parts as plain text, charts inline."""
    docs = folder / "docs"
    menu: dict[str, list[str]] = {}
    for page in book.pages:
        text = re.sub(r"^\[(?:table|box|side|fold):[^\]]*\]$", "", page.markdown, flags=re.MULTILINE)
        for key in re.findall(r"^\[chart:([^\]]*)\]$", text, flags=re.MULTILINE):
            text = text.replace(f"[chart:{key}]", figure(svg[key], book.charts[key]))
        place = docs / f"{page.address}.md"
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(text, encoding="utf-8")
        # A page that is reached by links alone stands under its team or series.
        way = page.menu or tuple(page.address.split("/")[:2])
        menu.setdefault(way[1] if len(way) > 1 else way[0], []).append(f"{page.address}.md")
    lines = [
        "site_name: Stock",
        "theme:",
        "  name: material",
        "  font: false",
        "  features: [navigation.prune]",
        "nav:",
    ]
    for section, files in menu.items():
        lines += [f"  - {section}:", *(f"      - {file}" for file in files)]
    (folder / "mkdocs.yml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return folder / "mkdocs.yml"


def seconds_of(work: Callable[[], object]) -> tuple[float, float]:
    """Seconds that a call takes by the clock on the wall, and of this process' own work.

    The second is steadier where others use the machine; it leaves out the processes that draw or make pages beside it.
    """
    start, own = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - start, time.process_time() - own


def seconds_apart(what: str, folder: Path, given: argparse.Namespace) -> tuple[float, float]:
    """The same of one build in a process of its own, as the command line has it; what it reads first is not counted."""
    command = [sys.executable, __file__, "--opponents", str(given.opponents), "--pages", str(given.pages)]
    ran = subprocess.run([*command, what, str(folder)], capture_output=True, text=True, check=False)
    if ran.returncode:
        raise SystemExit(ran.stdout[-3000:] + ran.stderr[-3000:])
    clock, own = ran.stdout.split()[-2:]
    return float(clock), float(own)


def build_apart(what: str, folder: Path, given: argparse.Namespace) -> None:
    """What `seconds_apart` runs: "ours" or "stock" in a folder."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    if what == "stock":
        took = seconds_of(lambda: build(load_config(str(folder / "mkdocs.yml"))))
    else:
        book = season(given.opponents, given.pages)
        with patch.object(plugin, "read_book", lambda *_, **__: edition_book(book)):
            took = seconds_of(lambda: build_site(folder, as_of="2026-04-09"))
    print(*took)


def wire(site: Path, page: Path) -> tuple[int, int, int]:
    """Bytes over the wire, gzip: the page alone, what comes with a first visit, and the search index."""
    html = page.read_text(encoding="utf-8")
    alone = len(gzip.compress(html.encode(), 9))
    parts = {(page.parent / ref).resolve() for ref in re.findall(r'(?:src|href)="([^"#]+\.(?:js|css|svg))"', html)}
    parts |= set(site.glob("assets/javascripts/workers/*.js"))
    index = len(gzip.compress((site / "search/search_index.json").read_bytes(), 9))
    return alone, alone + sum(len(gzip.compress(part.read_bytes(), 9)) for part in parts), index


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--opponents", type=int, default=30)
    parser.add_argument("--pages", type=int, default=30)
    parser.add_argument("what", nargs="?", choices=("ours", "stock"), help="one build alone, in `folder`")
    parser.add_argument("folder", nargs="?", type=Path)
    given = parser.parse_args()
    logging.disable(logging.INFO)
    if given.what:
        build_apart(given.what, given.folder, given)
        return
    book = season(given.opponents, given.pages)
    count = len(book.pages)
    with tempfile.TemporaryDirectory() as name:
        ours, other = Path(name) / "ours", Path(name) / "stock"
        ours.mkdir()
        other.mkdir()
        cold = seconds_apart("ours", ours, given)
        shutil.rmtree(ours / ".scoutgen" / "rendered")
        drawn = seconds_apart("ours", ours, given)
        warm = seconds_apart("ours", ours, given)
        stock_project(book, other, dict(draw_all(book.charts, ours / ".scoutgen" / "charts").svg))
        seconds_apart("stock", other, given)
        # As ours: the second build, over the site of the first.
        stock = seconds_apart("stock", other, given)
        alone, first, index = wire(ours / "site", ours / "site/teams/team-1/player-3/index.html")
        weight = sum(p.stat().st_size for p in (ours / "site").rglob("*") if p.is_file()) / 1e6
        listing = seconds_of(lambda: keep_offline(ours / "site", built="2026-04-09 21:40"))
        shutil.rmtree(ours / "site")
    print(f"{count} pages, {len(book.charts)} charts")
    stock_s, stock_own_s = stock
    print(f"stock MkDocs, charts inline   {stock_s:7.1f} s  {1000 * stock_s / count:6.1f} ms a page")
    for what, (took, own) in (
        ("charts and pages kept", warm), ("charts kept, pages anew", drawn), ("every chart to draw", cold),
    ):  # fmt: skip
        ratio = f"{took / stock_s:.2f} of stock by the clock, {own / stock_own_s:.2f} by work of the process"
        print(f"ours, {what:23s} {took:7.1f} s  {1000 * took / count:6.1f} ms a page  {ratio}")
    drawing = cold[0] - drawn[0]
    print(f"drawing alone                 {drawing:7.1f} s  {1000 * drawing / len(book.charts):6.1f} ms a chart")
    print(f"listing what phones keep      {listing[0]:7.2f} s  {listing[0] / warm[0]:.3f} of a build with charts ready")
    print(f"pitcher page, gzip: next page {alone / 1000:.1f} KB, first visit {first / 1000:.1f} KB", end="")
    print(f" and the search index {index / 1000:.1f} KB; site {weight:.1f} MB")


if __name__ == "__main__":
    main()
