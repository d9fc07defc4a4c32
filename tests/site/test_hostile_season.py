"""Hostile text in every free-text field of the demo's own files, through reading, computing, pages and site."""

import csv
import re
import shutil
from collections.abc import Callable, Iterator
from itertools import cycle
from pathlib import Path

import pytest
import yaml
from payloads import PAYLOADS
from planted import copy_few_games
from playwright.sync_api import Browser

from scoutgen.records.fields import why_not_a_text
from scoutgen.site.build import Built, build_site

# Keys whose values are the staff's own words; every other one is a name, key, number or word of a list.
FREE = {"summary", "text", "clip", "note", "notes", "plan", "body", "question", "gives"}
COLUMNS = {"note", "clip"}
# A word of our own at the head of each text, so that what is shown can be told from what was left out.
MARK = "zqx"
# What a reader of files lets through at all; the rest never reaches a page.
TEXTS = [f"{MARK} {text}" for text in PAYLOADS.values() if not why_not_a_text(text)]


def planted(value: object, key: str, texts: Iterator[str]) -> object:
    """A YAML value with a hostile text wherever there is a free one."""
    if isinstance(value, dict):
        return {name: planted(item, name, texts) for name, item in value.items()}
    if isinstance(value, list):
        return [planted(item, key, texts) for item in value]
    return next(texts) if key in FREE else value


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Built:
    """The demo with its words replaced and a few of its games, built."""
    project = tmp_path_factory.mktemp("season")
    copy_few_games(project)
    shutil.rmtree(project / "content/pages")
    texts = cycle(TEXTS)
    for file in sorted((project / "content").rglob("*.yml")):
        value = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)  # noqa: S506 - text only
        changed = yaml.safe_dump(planted(value, "", texts), allow_unicode=True, sort_keys=False)
        file.write_text(changed, encoding="utf-8")
    for file in sorted((project / "data").rglob("*.csv")):
        with file.open(encoding="utf-8-sig", newline="") as stream:
            rows = list(csv.DictReader(stream))
        for row in rows:
            row.update({name: next(texts) for name in COLUMNS & row.keys()})
        with file.open("w", encoding="utf-8", newline="") as stream:
            writer = csv.DictWriter(stream, rows[0].keys() if rows else [])
            writer.writeheader()
            writer.writerows(rows)
    return build_site(project, as_of="2026-04-09")


def test_most_payloads_are_allowed_as_text() -> None:
    assert len(TEXTS) >= 26


def test_every_payload_is_shown_somewhere_and_none_is_markup(hostile: Built) -> None:
    pages = [page.read_text(encoding="utf-8") for page in hostile.out.rglob("*.html")]
    assert sum(page.count(MARK) for page in pages) > 50
    elements = {tag.lower() for page in pages for tag in re.findall(r"<([a-zA-Z][a-z0-9-]*)", page)}
    assert not elements & {"iframe", "style", "object", "img", "base", "embed"}
    scripts = {src for page in pages for src in re.findall(r"<script[^>]*>", page)}
    assert scripts
    assert all("src=" in script or "application/json" in script for script in scripts)


@pytest.mark.browser
def test_nothing_is_alive_on_the_pages_of_an_opponent_though_no_policy_forbids_it(
    browser: Browser, serve: Callable[[Path], str], hostile: Built
) -> None:
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    base = serve(hostile.out)
    addresses = [
        file.parent.relative_to(hostile.out).as_posix() for file in hostile.out.glob("teams/harbor/**/index.html")
    ]
    seen = 0
    for address in ["", *addresses]:
        page.goto(f"{base}{address}/" if address else base)
        page.evaluate(
            "document.querySelectorAll('article *').forEach(e => ['mouseover', 'focus', 'click', 'toggle']"
            ".forEach(name => e.dispatchEvent(new Event(name))))"
        )
        assert page.evaluate("window.alive") is None, address
        hrefs = page.evaluate("[...document.querySelectorAll('a[href]')].map(e => e.href)")
        assert hrefs
        assert not [href for href in hrefs if not href.startswith(base)], address
        seen += page.locator("article").inner_text().count(MARK)
    assert seen > 20
    assert not [url for url in asked if not url.startswith(base)]
    context.close()
