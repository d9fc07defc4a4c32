"""The same in WebKitGTK, standing in for the phones most players carry: kept, cut off, opened, searched, updated."""

import re
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import sample_book
from conftest import must_run
from hosts import Host
from phones import BAR, LINE, rebuilt, until
from webkit import WebKit, missing_for_webkit

from scoutgen.pages.book import Book
from scoutgen.site.pack import pack_site

pytestmark = pytest.mark.browser
PITCHER = "teams/harbor/ivan-nunez/"


@pytest.fixture
def webkit(tmp_path: Path) -> Iterator[WebKit]:
    """A browser that has never been here."""
    missing = missing_for_webkit()
    if missing:
        must_run("offline in WebKitGTK", missing)
    with WebKit(tmp_path / "home") as opened:
        yield opened


def keep(webkit: WebKit, host: Host) -> None:
    webkit.goto(host.address)
    until(lambda: webkit.text(LINE).startswith("Kept on this phone, works without a signal"))


def found(webkit: WebKit, words: str) -> str:
    webkit.click(".thumb-bar [data-open=__search]" if webkit.run("return innerWidth") < 960 else ".md-search__input")
    webkit.type(".md-search__input", words)
    until(lambda: webkit.text(".md-search-result__item a"))
    return re.sub(r"[?#].*", "", str(webkit.run("return document.querySelector('.md-search-result__item a').href")))


def test_everything_opens_in_webkit_without_a_signal(webkit: WebKit, host: Host, demo_site: Path) -> None:
    host.put(demo_site)
    keep(webkit, host)
    host.stop()
    files = sorted(path.relative_to(demo_site).as_posix() for path in demo_site.rglob("*.html"))
    assert len(files) > 100
    statuses = webkit.run(
        "return Promise.all(arguments[0].map(async f => (await fetch(new URL(f, __md_scope))).status))", files
    )
    assert set(statuses) == {200}
    for file in files[::10]:
        webkit.goto(host.address + re.sub(r"(^|/)index\.html$", r"\1", file))
        words = (demo_site / file).read_text(encoding="utf-8")
        title = re.search(r"<title>([^<]*)</title>", words)
        assert title
        assert webkit.run("return document.title") == title[1].replace("&#39;", "'").replace("&amp;", "&"), file
        assert webkit.run("return getComputedStyle(document.querySelector('.md-header')).position") == "sticky", file
    webkit.goto(host.address + "teams/harbor")
    assert webkit.run("return location.href") == host.address + "teams/harbor/"
    webkit.goto(host.address + "teams/nobody/at/all")
    assert webkit.text("h1") == "Nothing is here"
    assert webkit.run("return fetch(location.href).then(r => r.status)") == 404
    assert found(webkit, "nunez") == host.address + "teams/harbor/players/iker-nunez/"


def test_a_new_version_waits_for_the_tap_in_webkit(
    webkit: WebKit, host: Host, sample_site: Path, tmp_path: Path
) -> None:
    host.put(sample_site)
    keep(webkit, host)
    changes = {PITCHER + "index.html": "<p>He is hurt</p>"}
    host.put(rebuilt(sample_site, tmp_path / "new", "2026-04-09 21:40", changes))
    host.asked.clear()
    webkit.run("navigator.serviceWorker.getRegistration().then(r => r.update())")
    until(lambda: webkit.text(BAR) == "New version from 2026-04-09 21:40, tap to load")
    assert f"/{host.path}teams/" not in host.asked
    webkit.goto(host.address + PITCHER)
    assert "He is hurt" not in webkit.text("article")
    until(lambda: webkit.text(BAR))
    webkit.click(BAR)
    until(lambda: "He is hurt" in webkit.text("article"))
    host.stop()
    webkit.goto(host.address)
    if "built 2026-04-09 21:40" not in webkit.text(".site-foot"):
        # Under load this browser now and then shows a page it had put aside; then the page itself offers the new one.
        until(lambda: webkit.text(BAR))
        webkit.click(BAR)
    until(lambda: "built 2026-04-09 21:40" in webkit.text(".site-foot"))
    webkit.goto(host.address + "on-this-phone/")
    until(lambda: webkit.text("article [data-offline=line]").startswith("Kept on this phone"))
    webkit.click("[data-offline=remove]")
    until(lambda: webkit.text("article [data-offline=line]").startswith("Removed from this phone"))
    assert webkit.run("return caches.keys()") == []


def test_a_pack_opens_in_webkit_from_a_folder_with_search(
    webkit: WebKit, project: Path, use_book: Callable[[Book | Exception], None], tmp_path: Path
) -> None:
    use_book(sample_book.book())
    packed = pack_site(project, tmp_path / "a.zip", as_of="2026-04-09")
    with zipfile.ZipFile(packed.out) as opened:
        opened.extractall(tmp_path)
    folder = tmp_path / packed.folder
    webkit.goto((folder / "index.html").as_uri())
    assert found(webkit, "nunez") == (folder / "teams/harbor/ivan-nunez.html").as_uri()
    webkit.click(".md-search-result__item a")
    until(lambda: webkit.text("h1").startswith("Iván Núñez"))
    assert webkit.run("return getComputedStyle(document.querySelector('.md-header')).position") == "sticky"
