"""The demo beside stock MkDocs with Material on the same words: Lighthouse as a phone, and axe-core.

    python tests/bench/beside_stock.py [--runs 3]

Both sites are built in one run and asked one after the other, page by page. Lighthouse comes from npm into the cache
of the tests; its score of performance wanders, so the middle of some runs is shown beside bytes, requests, largest
contentful paint and layout shift.
"""

import argparse
import json
import logging
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.look_over import NODE_MODULES, served
from bench.site_speed import stock_project
from conftest import NODE_CACHE, find_chromium
from playwright.sync_api import sync_playwright
from site_checks import PHONE, axe_finds, opened

from scoutgen.site.build import build_site
from scoutgen.site.charts import draw_all
from scoutgen.site.edition_book import read_book

REPOSITORY = Path(__file__).parents[2]
AS_OF = "2026-04-09"
LIGHTHOUSE = "lighthouse@12.2.3"
PAGES = ("", "teams/harbor/players/iker-nunez/", "teams/harbor/players/ruben-castellane/", "running/", "how-to-read/")


def lighthouse(address: str) -> dict[str, float]:
    """One look of Lighthouse at a page, as a phone."""
    command = [
        str(NODE_CACHE / "lighthouse/node_modules/.bin/lighthouse"), address, "--output=json", "--quiet",
        "--only-categories=performance,accessibility", "--chrome-flags=--headless=new --no-sandbox",
    ]  # fmt: skip
    ran = subprocess.run(
        command, capture_output=True, text=True, check=True, env={**os.environ, "CHROME_PATH": str(find_chromium())}
    )
    told: dict[str, Any] = json.loads(ran.stdout)
    audits = told["audits"]
    return {
        "performance": 100 * told["categories"]["performance"]["score"],
        "accessibility": 100 * told["categories"]["accessibility"]["score"],
        "KB": audits["total-byte-weight"]["numericValue"] / 1000,
        "requests": len(audits["network-requests"]["details"]["items"]),
        "LCP s": audits["largest-contentful-paint"]["numericValue"] / 1000,
        "shift": audits["cumulative-layout-shift"]["numericValue"],
    }


def axe_of(base: str) -> Counter[str]:
    """Violations by rule over PAGES, light, as a phone."""
    axe = (NODE_MODULES / "axe-core/axe.min.js").read_text(encoding="utf-8")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=find_chromium(), args=["--no-sandbox"])
        size = {"width": 360, "height": 740}
        with opened(browser, base, PAGES, viewport=size, bypass_csp=True, **PHONE) as shown:
            return Counter(line.split(":")[0] for _, page in shown for line in axe_finds(page, axe))


def build_both(root: Path) -> dict[str, Path]:
    """The demo by us, and its markdown by stock MkDocs and Material."""
    ours, stock = root / "ours", root / "stock"
    for name in ("content", "data"):
        shutil.copytree(REPOSITORY / name, ours / name)
    shutil.copy(REPOSITORY / "mkdocs.yml", ours)
    build_site(ours, out=ours / "site", as_of=AS_OF)
    stock.mkdir()
    made = read_book(ours, as_of=AS_OF, edition="staff", skip_bad_rows=False)
    config_file = stock_project(made.book, stock, dict(draw_all(made.book.charts, ours / ".scoutgen/charts").svg))
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    build(load_config(str(config_file)))
    return {"stock": stock / "site", "ours": ours / "site"}


def main() -> None:
    """Print both, page by page."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=3)
    runs = parser.parse_args().runs
    logging.disable(logging.WARNING)
    install = ["npm", "install", "--no-audit", "--no-fund", "--prefix", str(NODE_CACHE / "lighthouse"), LIGHTHOUSE]
    subprocess.run(install, check=True, capture_output=True)
    with tempfile.TemporaryDirectory() as name:
        sites = build_both(Path(name))
        with served(sites["stock"], packed=True) as stock, served(sites["ours"], packed=True) as ours:
            bases = {"stock": stock, "ours": ours}
            for path in PAGES:
                looks: dict[str, list[dict[str, float]]] = {who: [] for who in bases}
                for _ in range(runs):
                    for who, base in bases.items():
                        looks[who].append(lighthouse(base + path))
                print(f"/{path}")
                for who, told in looks.items():
                    middle = {what: statistics.median(look[what] for look in told) for what in told[0]}
                    scores = sorted(round(look["performance"]) for look in told)
                    said = ", ".join(f"{what} {value:.3g}" for what, value in middle.items())
                    print(f"  {who:6s}{said} (performance {scores})")
            for who, base in bases.items():
                print(f"axe-core, {who}: {dict(axe_of(base)) or 'nothing'}")


if __name__ == "__main__":
    main()
