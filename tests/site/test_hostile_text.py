"""Hostile text in every place where a page may hold text of the staff: none of it may be more than text."""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import sample_book
from payloads import PAYLOADS
from playwright.sync_api import Browser

from scoutgen.pages.book import Book, Chart, Page, SearchEntry
from scoutgen.pages.markdown import escape
from scoutgen.site import plugin
from scoutgen.site.build import build_site

# Text where markdown gives it most room: paragraph, list, heading, emphasis, link, quote, box, fold, cells, names.
PLACES = """# Notes on a {0} player

{0}

- {0}
- before {0} after

## Seen: {0}

> {0}

*{0}* and **{0}** and [{0}](teams.md)

[box:thin]

{0}

[box:end]

[fold:{0}]

words

[fold:end]

[chart:odd]

[table:cards {0}]

| Who | {0} | n |
|---|---|---:|
| {0} | {0} | 3 |
| x | **{0}** | [{0}](teams.md) |
"""


HARMLESS = "harmless"
TEXTS = {**PAYLOADS, HARMLESS: "harmless words"}
ADDRESS = {name: f"odd/text-{number}" for number, name in enumerate(TEXTS)}


def hostile_page(name: str) -> tuple[Page, Chart]:
    """A page and a chart that hold a text everywhere."""
    payload, number = TEXTS[name], ADDRESS[name].rpartition("-")[2]
    drawn = sample_book.strip_chart(3)
    spec = json.loads(drawn.spec)
    spec["data"]["values"][0]["label"] = payload
    spec["title"] = payload
    # The word that only this page is found by.
    entry = SearchEntry(f"Odd {payload}", f"oddity{number} {payload}")
    markdown = PLACES.format(escape(payload)).replace("teams.md", "../teams.md").replace(":odd]", f":odd{number}]")
    page = Page(ADDRESS[name], f"Odd {payload}", markdown, (entry,), ("Odd", f"{number} {payload}"))
    return page, replace(drawn, spec=json.dumps(spec), title=payload, description=payload)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site with a page for each text."""
    made = {name: hostile_page(name) for name in TEXTS}
    charts = {f"odd{ADDRESS[name].rpartition('-')[2]}": chart for name, (_, chart) in made.items()}
    book = sample_book.book()
    whole = Book((*book.pages, *(page for page, _ in made.values())), {**book.charts, **charts}, book.facts)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plugin, "read_book", lambda *_, **__: sample_book.edition_book(whole))
        return build_site(tmp_path_factory.mktemp("hostile"), as_of="2026-04-09").out


@pytest.mark.parametrize("name", PAYLOADS)
def test_the_page_has_the_elements_it_has_with_harmless_text(name: str, site: Path) -> None:
    harmless = _shape((site / ADDRESS[HARMLESS] / "index.html").read_text(encoding="utf-8"))
    assert len(harmless) > 50
    assert _shape((site / ADDRESS[name] / "index.html").read_text(encoding="utf-8")) == harmless


def _shape(page: str) -> list[str]:
    """Elements of the text in order with the names of their attributes.

    Drawings are left out, since their texts differ in width, and the menu, since it differs by page.
    """
    page = re.sub(r"<svg width.*?</svg>", "", page[page.index("<article") :], flags=re.DOTALL)
    # A column of long cells is marked as such; the texts differ in length.
    page = page.replace(' class="txt"', "")
    shape = []
    for tag, rest in re.findall(r'<([a-zA-Z][a-z0-9]*)((?:"[^"]*"|[^>"])*)>', page):
        names = re.findall(r"([a-z-]+)=", re.sub(r'"[^"]*"', "", rest))
        shape.append(" ".join([tag, *names]))
    return shape


@pytest.mark.browser
def test_nothing_runs_and_nothing_is_asked_for_though_no_policy_forbids_it(
    browser: Browser, serve: Callable[[Path], str], site: Path
) -> None:
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    base = serve(site)
    for name, address in ADDRESS.items():
        page.goto(f"{base}{address}/")
        assert _words(page.locator("article li").first.inner_text()) == _words(TEXTS[name]), name
        assert _words(page.locator("article h1").inner_text()) == ["Notes", "on", "a", *_words(TEXTS[name]), "player"]
        search = page.locator(".md-search__input")
        search.focus()
        page.keyboard.insert_text(f"oddity{address.rpartition('-')[2]}")
        page.keyboard.press("Shift")
        page.locator(".md-search-result__item").first.wait_for(state="attached")
        page.evaluate("document.querySelectorAll('article *').forEach(e => e.dispatchEvent(new Event('mouseover')))")
        page.evaluate("document.querySelectorAll('article *').forEach(e => e.dispatchEvent(new Event('click')))")
        assert page.evaluate("window.alive") is None, name
        alive = "article :is(script, img, iframe, style, [onclick], [onmouseover], [onfocus], [autofocus])"
        assert page.locator(f"{alive}, .md-search :is(script, img, iframe, style)").count() == 0, name
        hrefs = page.evaluate("[...document.querySelectorAll('a[href]')].map(e => e.href)")
        assert hrefs
        assert not [href for href in hrefs if not href.startswith(base)], name
    assert not [url for url in asked if not url.startswith(base)]
    context.close()


def _words(text: str) -> list[str]:
    return re.sub(r"[\s\x00-\x1f\u2028\u2029\x85]+", " ", text).split()


@pytest.mark.browser
def test_the_policy_alone_stops_what_would_run(browser: Browser, serve: Callable[[Path], str], tmp_path: Path) -> None:
    """The second fence holds by itself: the same payloads put raw into a page, escaping by nobody."""
    from scoutgen.site.policy import with_policy

    body = "".join(PAYLOADS[name] for name in PAYLOADS if "comment" not in name)
    page_text = f"<!doctype html><html><head><title>x</title></head><body>{body}</body></html>"
    (tmp_path / "bare.html").write_text(page_text, encoding="utf-8")
    (tmp_path / "kept.html").write_text(with_policy(page_text), encoding="utf-8")
    base = serve(tmp_path)
    alive: dict[str, object] = {}
    asked: dict[str, list[str]] = {"bare": [], "kept": []}
    for name in ("bare", "kept"):
        page = browser.new_page()
        page.on("requestfinished", lambda request, n=name: asked[n].append(request.url))
        page.on("requestfailed", lambda request, n=name: asked[n].append(f"{request.url} {request.failure}"))
        page.goto(f"{base}{name}.html")
        page.wait_for_timeout(300)
        alive[name] = page.evaluate("window.alive")
        page.close()
    assert alive == {"bare": 1, "kept": None}
    reached = [url for url in asked["kept"] if "evil.invalid" in url and "csp" not in url.lower()]
    assert not reached
    assert [url for url in asked["bare"] if "evil.invalid" in url]
