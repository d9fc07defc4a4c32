"""Look over every page of a built site, of whatever edition, in a real browser.

    python tests/bench/look_over.py site [--kinds] [--nu] [--stock]

For each page at 360 pixels: axe-core in the light, in the dark and for the sun, targets a thumb would miss, what moved
while it loaded, whether it scrolls sideways there and at 320 pixels. `--kinds` takes one page of each kind; `--nu` asks
the Nu HTML checker (Java) as well; `--stock` leaves the schemes and targets of ours out, for a site of stock Material.
"""

import argparse
import functools
import gzip
import http.server
import json
import subprocess
import sys
import threading
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from conftest import NODE_CACHE, find_chromium
from playwright.sync_api import sync_playwright
from site_checks import PHONE, axe_finds, axe_in_all_schemes, kinds_of, opened, pages_of, shifts, too_small

NODE_MODULES = NODE_CACHE / "node_modules"


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


@functools.cache
def _packed(path: Path) -> bytes:
    return gzip.compress(path.read_bytes())


class _Packing(_Quiet):
    """As hosts do: text goes over the wire compressed."""

    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        """Send a page or a text packed, everything else as it is."""
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if path.suffix not in {".html", ".css", ".js", ".json", ".svg", ".webmanifest"} or not path.is_file():
            super().do_GET()
            return
        body = _packed(path)
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(path))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


@contextmanager
def served(folder: Path, *, packed: bool = False) -> Iterator[str]:
    """A folder at an address of this machine."""
    server = http.server.ThreadingHTTPServer(
        ("127.0.0.1", 0), functools.partial(_Packing if packed else _Quiet, directory=str(folder))
    )
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()


def in_the_browser(site: Path, pages: list[str], *, stock: bool) -> dict[str, Any]:
    """What is wrong, by what was asked."""
    axe = (NODE_MODULES / "axe-core/axe.min.js").read_text(encoding="utf-8")
    found: dict[str, Any] = {"axe": [], "targets": [], "moved": [], "sideways": []}
    with served(site) as base, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=find_chromium(), args=["--no-sandbox"])
        for width in (360, 320):
            size = {"width": width, "height": 740}
            with opened(browser, base, pages, viewport=size, bypass_csp=True, **PHONE) as shown:
                for path, page in shown:
                    if page.evaluate("document.documentElement.scrollWidth") > width:
                        found["sideways"].append((path, f"at {width}"))
                    found["moved"] += [(path, str(shift)) for shift in shifts(page)]
                    found["targets"] += [(path, f"at {width}: {target}") for target in too_small(page)]
                    if width == 360:
                        rules = axe_finds(page, axe) if stock else axe_in_all_schemes(page, axe)
                        found["axe"] += [(path, rule) for rule in rules]
        browser.close()
    return found


def by_the_checker(site: Path, pages: list[str]) -> Counter[str]:
    """Errors of the Nu HTML checker by their text."""
    files = [str(site / page / "index.html" if page.endswith("/") or not page else site / page) for page in pages]
    jar = NODE_MODULES / "vnu-jar/build/dist/vnu.jar"
    command = ["java", "-jar", str(jar), "--errors-only", "--format", "json", *files]
    ran = subprocess.run(command, capture_output=True, text=True, check=False)
    return Counter(message["message"] for message in json.loads(ran.stderr)["messages"])


def main() -> None:
    """Print what is wrong and how often."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("site", type=Path)
    parser.add_argument("--kinds", action="store_true")
    parser.add_argument("--nu", action="store_true")
    parser.add_argument("--stock", action="store_true")
    given = parser.parse_args()
    pages = kinds_of(given.site) if given.kinds else pages_of(given.site)
    print(f"{len(pages)} pages")
    for what, found in in_the_browser(given.site, pages, stock=given.stock).items():
        print(f"{what}: {len(found)} on {len({path for path, _ in found})} pages")
        for line, times in Counter(line for _, line in found).most_common(12):
            where = next(path for path, other in found if other == line)
            print(f"  {times} x {line[:200]}  first on /{where}")
    if given.nu:
        print("Nu HTML checker, errors by text:")
        for text, times in by_the_checker(given.site, pages).most_common():
            print(f"  {times} x {text}")


if __name__ == "__main__":
    main()
