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
from scoutgen.site.build import Built, build_site

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


def hostile_book(payload: str) -> Book:
    book = sample_book.book()
    chart = replace(sample_book.strip_chart(3), title=payload, description=payload)
    spec = json.loads(chart.spec)
    spec["data"]["values"][0]["label"] = payload
    spec["title"] = payload
    page = Page(
        "odd",
        f"Odd {payload}",
        PLACES.format(escape(payload)),
        (SearchEntry(f"Odd {payload}", f"words {payload}"),),
        ("Odd",),
    )
    return Book(
        (*book.pages, page), {**book.charts, "odd": Chart(json.dumps(spec), chart.title, chart.description)}, book.facts
    )


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A site for each payload."""
    built: dict[str, Path] = {}
    for name, payload in PAYLOADS.items():
        folder = tmp_path_factory.mktemp("hostile")
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(plugin, "read_book", lambda *_, p=payload, **__: sample_book.edition_book(hostile_book(p)))
            made: Built = build_site(folder, as_of="2026-04-09")
        built[name] = made.out
    return built


@pytest.mark.parametrize("name", PAYLOADS)
def test_the_page_has_the_elements_it_has_with_harmless_text(
    name: str, sites: dict[str, Path], build_book: Callable[[Book], Built]
) -> None:
    shape = _shape((sites[name] / "odd/index.html").read_text())
    assert shape == _shape((build_book(hostile_book("harmless words")).out / "odd/index.html").read_text())


def _shape(page: str) -> list[str]:
    """Elements in order with the names of their attributes, drawings left out: their texts differ in width."""
    page = re.sub(r"<svg width.*?</svg>", "", page, flags=re.DOTALL)
    shape = []
    for tag, rest in re.findall(r'<([a-zA-Z][a-z0-9]*)((?:"[^"]*"|[^>"])*)>', page):
        names = re.findall(r"([a-z-]+)=", re.sub(r'"[^"]*"', "", rest))
        shape.append(" ".join([tag, *names]))
    return shape


@pytest.mark.browser
@pytest.mark.parametrize("bypass_policy", [False, True], ids=["with policy", "without policy"])
def test_nothing_runs_and_nothing_is_asked_for(
    browser: Browser, serve: Callable[[Path], str], sites: dict[str, Path], bypass_policy: bool
) -> None:
    context = browser.new_context(bypass_csp=bypass_policy)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    for name, site in sites.items():
        base = serve(site)
        page.goto(f"{base}odd/")
        said = page.locator("article li").first.inner_text()
        assert _words(said) == _words(PAYLOADS[name]), name
        page.locator(".md-search__input").focus()
        page.keyboard.type("odd", delay=5)
        page.locator(".md-search-result__item").first.wait_for(state="attached")
        for target in page.locator("article a, article p, article summary").all():
            target.dispatch_event("mouseover")
        assert page.evaluate("window.alive") is None, name
        assert (
            page.locator("article script, article img, article iframe, article [onclick], article style").count() == 0
        )
        hrefs = page.evaluate("[...document.querySelectorAll('[href]')].map(e => e.href.baseVal ?? e.href)")
        assert not [href for href in hrefs if not href.startswith(base)], name
        assert not [url for url in asked if not url.startswith(base)], name
        asked.clear()
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
