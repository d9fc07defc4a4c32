"""Sixty things readers type find their page first online; a third each without a signal, from a folder, in WebKit."""

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import must_run
from hosts import Host
from phones import cut_off, keep, until
from playwright.sync_api import Browser, Page
from searches import LINKS, QUERIES, asked, pages
from webkit import WebKit, missing_for_webkit

BOX, META = ".md-search__input", ".md-search-result__meta"


def settled(links: Callable[[], list[str]], seconds: float) -> list[str]:
    """Results once they have stayed as they are for so long."""
    before: list[str] | None = None
    while before != (now := links()):
        before = now
        time.sleep(seconds)
    return now


def typed_into(page: Page, base: str) -> Callable[[str], list[str]]:
    """A function that types a query into the page's own search box, and waits for its results."""
    box = page.locator(BOX)

    def ask(query: str) -> list[str]:
        # Emptied first, so that the results of the query before are gone.
        box.focus()
        page.keyboard.press("Control+A")
        page.keyboard.press("Delete")
        until(lambda: "Type to" in (page.locator(META).text_content() or ""), 20)
        page.keyboard.insert_text(query)
        page.keyboard.press("Shift")  # the page listens for keys
        until(lambda: "match" in (page.locator(META).text_content() or ""), 20)
        # The words came at once, so the worker answers once.
        return pages(settled(lambda: page.evaluate(f"() => {{ {LINKS} }}"), 0.05), base)

    return ask


def test_there_are_sixty_and_more_and_each_leads_to_a_page_of_the_demo(demo_site: Path) -> None:
    assert len(QUERIES) >= 60
    assert len({query for query, _ in QUERIES}) == len(QUERIES)
    for _, expected in QUERIES:
        assert (demo_site / expected / "index.html").is_file()


@pytest.mark.browser
def test_online(browser: Browser, serve: Callable[[Path], str], demo_site: Path) -> None:
    base = serve(demo_site)
    page = browser.new_page()
    page.goto(base)
    assert asked(typed_into(page, base)) == []
    page.close()


@pytest.mark.browser
def test_without_a_signal(browser: Browser, host: Host, demo_site: Path) -> None:
    # As wide as a desk, where the box needs no tap to open.
    context = browser.new_context(viewport={"width": 1280, "height": 800})
    host.put(demo_site)
    page = keep(context, host)
    cut_off(context, host)
    page.goto(host.address, wait_until="domcontentloaded")
    # What is found where all are asked; here and below that it is found here too.
    assert asked(typed_into(page, host.address), third=0) == []
    context.close()


@pytest.mark.browser
def test_from_a_folder(browser: Browser, demo_pack: Path) -> None:
    base = f"{demo_pack.as_uri()}/"
    page = browser.new_page()
    page.goto(base + "index.html")

    def ask(query: str) -> list[str]:
        # Without addresses of folders a page is a file.
        return [one if not one or one.endswith("/") else f"{one}/" for one in typed_into(page, base)(query)]

    assert asked(ask, third=1) == []
    page.close()


@pytest.mark.browser
def test_in_webkit(serve: Callable[..., str], demo_site: Path, tmp_path: Path) -> None:
    missing = missing_for_webkit()
    if missing:
        must_run("search in WebKitGTK", missing)
    base = serve(demo_site, kept=True)
    with WebKit(tmp_path / "home") as webkit:
        webkit.goto(base)
        webkit.click(".thumb-bar [data-open=__search]" if webkit.run("return innerWidth") < 960 else BOX)

        def ask(query: str) -> list[str]:
            webkit.run(f"document.querySelector('{BOX}').form.reset()")
            webkit.type(BOX, "\ue003")  # backspace, so that the page hears that it is empty
            until(lambda: "Type to" in webkit.text(META), 20)
            webkit.type(BOX, query)
            until(lambda: "match" in webkit.text(META), 20)
            # The worker answers every key.
            return pages(settled(lambda: webkit.run(LINKS), 0.2), base)

        assert asked(ask, third=2) == []
