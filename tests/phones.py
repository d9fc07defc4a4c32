"""What a phone without a signal does, for tests that hold one: keep a site, be cut off, open, search, update."""

import json
import re
import shutil
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import sample_book
from hosts import Host
from playwright.sync_api import BrowserContext, Page, Response

from scoutgen.site.offline import keep_offline

LINE = ".site-foot-kept [data-offline=line]"
BAR = ".update-bar button"
STAMPS = sample_book.edition_book().stamps


def until(what: Callable[[], object], seconds: float = 60) -> None:
    """Wait: a page's policy forbids the browser's own way of waiting."""
    end = time.monotonic() + seconds
    while not what():
        assert time.monotonic() < end, "waited in vain"
        time.sleep(0.05)


def line_says(page: Page, words: str, where: str = LINE) -> None:
    until(lambda: words in (page.locator(where).first.text_content() or ""))


def keep(phone: BrowserContext, host: Host) -> Page:
    """A visit that lasts until all is kept."""
    page = phone.new_page()
    page.goto(host.address)
    line_says(page, "Kept on this phone, works without a signal")
    return page


def cut_off(phone: BrowserContext, host: Host) -> None:
    host.stop()
    phone.set_offline(True)


def opened(page: Page, address: str) -> Response:
    response = page.goto(address, wait_until="domcontentloaded")
    assert response
    assert response.from_service_worker, address
    return response


def found(page: Page, words: str) -> str:
    page.locator(".thumb-bar button", has_text="Search").click()
    page.locator(".md-search__input").type(words)
    first = page.locator(".md-search-result__item a").first
    first.wait_for()
    return re.sub(r"[?#].*", "", str(first.evaluate("a => a.href")))


def rebuilt(site: Path, place: Path, built: str, changes: dict[str, str]) -> Path:
    """A site built again at another time, with other words at some addresses."""
    shutil.copytree(site, place)
    new = replace(sample_book.edition_book(), built=built).stamps
    for path in [p for p in place.rglob("*") if p.suffix in {".html", ".json"}]:
        text = path.read_text(encoding="utf-8")
        for old, stamp in zip(STAMPS, new, strict=True):
            text = text.replace(old, stamp)
        path.write_text(text, encoding="utf-8")
    for name, text in changes.items():
        path = place / name
        path.write_text(path.read_text(encoding="utf-8").replace("</h1>", f"</h1>{text}"), encoding="utf-8")
    keep_offline(place, built=built, stamps=new)
    return place


def texts(page: Page) -> str:
    return page.locator("article").inner_text()


def ask_for_updates(page: Page) -> None:
    """What a browser does by itself on the next page, and ours when the app comes to the front again."""
    page.evaluate("navigator.serviceWorker.getRegistration().then(r => r.update()).catch(() => null)")


def listed_files(site: Path) -> list[Path]:
    """What the worker of a site keeps."""
    text = next((site / "assets/offline").glob("list.*.js")).read_text(encoding="utf-8")
    return [site / path for path, _ in json.loads(text.removeprefix("self.FILES = ").removesuffix(";\n"))]
