"""The demo on a phone without a signal: the host is stopped and the browser is cut off, both."""

import re
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hosts import Host
from playwright.sync_api import Browser, BrowserContext, Page, Response

pytestmark = pytest.mark.browser
LINE = ".site-foot-kept [data-offline=line]"
PHONE = {"width": 360, "height": 740}


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True)
    yield context
    context.close()


@pytest.fixture
def host(tmp_path: Path) -> Iterator[Host]:
    """Serves under a path, as most free hosts do."""
    with Host(tmp_path / "host", "team/scouting/") as started:
        yield started


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
    response = page.goto(address)
    assert response
    assert response.from_service_worker, address
    return response


def found(page: Page, words: str) -> str:
    page.locator(".thumb-bar button", has_text="Search").click()
    page.locator(".md-search__input").type(words)
    first = page.locator(".md-search-result__item a").first
    first.wait_for()
    return re.sub(r"[?#].*", "", str(first.evaluate("a => a.href")))


def test_everything_opens_in_airplane_mode(phone: BrowserContext, host: Host, demo_site: Path) -> None:
    host.put(demo_site)
    page = keep(phone, host)
    cut_off(phone, host)
    files = sorted(path.relative_to(demo_site).as_posix() for path in demo_site.rglob("*.html"))
    assert len(files) > 100
    for file in files:
        response = opened(page, host.address + re.sub(r"(^|/)index\.html$", r"\1", file))
        assert response.status == 200, file
        assert page.evaluate("getComputedStyle(document.querySelector('.thumb-bar')).position") == "fixed", file
    # And what pages lead to that is no page.
    facts = sorted(path.relative_to(demo_site).as_posix() for path in demo_site.rglob("*.json"))
    assert facts
    statuses = page.evaluate(
        "async files => Promise.all(files.map(async f => (await fetch(new URL(f, __md_scope))).status))", facts
    )
    assert set(statuses) == {200}


def test_deep_links_unknown_addresses_and_search_without_a_signal(
    phone: BrowserContext, host: Host, demo_site: Path
) -> None:
    host.put(demo_site)
    page = keep(phone, host)
    cut_off(phone, host)
    page.close()
    page = phone.new_page()
    opened(page, host.address + "teams/harbor?x=1#notes")
    assert page.url == host.address + "teams/harbor/?x=1#notes", "an address without its slash"
    for unknown in ("nobody", "teams/harbor/nobody/", "teams/%zz", "constructor/", "__proto__"):
        response = opened(page, host.address + unknown)
        assert response.status == 404, unknown
        assert response.headers["content-type"] == "text/html; charset=utf-8"
        assert page.locator("h1").inner_text() == "Nothing is here"
        # Its links hold although it was built for the root of a host.
        assert page.evaluate("getComputedStyle(document.querySelector('.thumb-bar')).position") == "fixed"
        assert found(page, "nunez") == host.address + "teams/harbor/players/iker-nunez/"
    page.locator(".md-search-result__item a").first.click()
    page.locator("h1", has_text="Núñez").wait_for()


def test_the_page_on_this_phone_says_that_all_opens_and_takes_it_off(
    phone: BrowserContext, host: Host, sample_site: Path
) -> None:
    host.put(sample_site)
    page = keep(phone, host)
    page.evaluate("__md_set('side', 'L')")
    page.evaluate("localStorage.setItem('/other/.side', '1')")
    assert found(page, "airplane") == host.address + "on-this-phone/"
    page.goto(host.address + "on-this-phone/")
    line_says(page, "Kept on this phone", "article [data-offline=line]")
    page.get_by_role("button", name="Remove from this phone").click()
    line_says(page, "Removed from this phone", "article [data-offline=line]")
    left = page.evaluate(
        "async () => [await caches.keys(), (await navigator.serviceWorker.getRegistrations()).length,"
        " Object.keys(localStorage)]"
    )
    assert left == [[], 0, ["/other/.side"]]
    # The rest of this visit keeps nothing; the reader may want it again.
    asked = len(host.asked)
    page.goto(host.address)
    line_says(page, "Not kept on this phone: removed")
    assert page.evaluate("caches.keys()") == []
    assert len(host.asked) > asked, "from the host again"
    page.goto(host.address + "on-this-phone/")
    page.get_by_role("button", name="Keep on this phone").click()
    line_says(page, "Kept on this phone", "article [data-offline=line]")
    cut_off(phone, host)
    assert opened(page, host.address).status == 200
