"""What a browser can say of any built site's pages: targets, shifts, axe-core; and which pages to ask.

Each takes the folder of a site or pages of it, so that every edition is looked over in the same way.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page

# Beyond what axe-core runs by default (WCAG A and AA and best practice).
_MORE_RULES = {"target-size": {"enabled": True}}
_COLOUR_RULES = ("color-contrast", "link-in-text-block")
_CLASSES = re.compile(r'class="([^"]+)"')
# What men of different positions have of their own.
_HEADINGS = re.compile(r'<h2 id="[^"]+"')
_TAGS = re.compile(r"<(details|figure|summary|h[1-6]|ol|ul|button|form|input|select|img)\b")
# What is aimed at: everything that can be tapped or takes the focus.
_TARGETS = """a[href], button, summary, label[for], select, textarea, [role=button], [role=link],
    input:not(.md-toggle):not(.md-option)"""
# What a thumb aims at on the way through the site.
THUMB = """.thumb-bar > *, .side-switch button, .screen-choice button, summary, .box-jump a, .md-header__button,
    .md-sidebar--primary .md-nav__link[href], .md-search-result__link"""
_SIZES = """([selector, least]) => [...document.querySelectorAll(selector)]
    .filter(e => e.checkVisibility({visibilityProperty: true, opacityProperty: true}))
    .map(e => [e, e.getBoundingClientRect()])
    // What is outside the screen cannot be aimed at.
    .filter(([e, r]) => r.width && r.height && r.right > 0 && r.left < innerWidth)
    // A link within a sentence is as high as its line (WCAG 2.2, 2.5.8).
    .filter(([e]) => least > 24 || getComputedStyle(e).display !== 'inline')
    .filter(([e, r]) => Math.min(r.width, r.height) < least - 0.1)
    .map(([e, r]) => `${e.outerHTML.slice(0, 100)} ${r.width.toFixed(1)}x${r.height.toFixed(1)}`)"""
# A link that stands alone in its line is no part of a sentence, whatever its display says.
_ALONE = """() => [...document.querySelectorAll('a[href]')]
    .filter(e => e.checkVisibility({visibilityProperty: true, opacityProperty: true}))
    .filter(e => getComputedStyle(e).display === 'inline')
    .filter(e => e.closest('td, th, h1, h2, h3, nav') && !e.closest('p, li'))
    .map(e => [e, e.getBoundingClientRect()])
    .filter(([e, r]) => r.height < 23.9)
    .map(([e, r]) => `${e.outerHTML.slice(0, 100)} ${r.width.toFixed(1)}x${r.height.toFixed(1)}`)"""
WATCH_SHIFTS = """window.shifts = [];
    new PerformanceObserver(list => list.getEntries().forEach(e => window.shifts.push([e.value,
        ...e.sources.map(s => (s.node && (s.node.outerHTML || s.node.textContent) || '').slice(0, 90))])))
    .observe({type: 'layout-shift', buffered: true})"""
# Colours change at once, so that what axe-core measures is what they come to.
PHONE: dict[str, Any] = {"has_touch": True, "is_mobile": True, "reduced_motion": "reduce"}


def pages_of(site: Path) -> list[str]:
    """Every page of a built site as it is asked for, in order."""
    files = sorted(file.relative_to(site).as_posix() for file in site.rglob("*.html"))
    return [file.removesuffix("index.html") if file.endswith("index.html") else file for file in files]


def kinds_of(site: Path) -> list[str]:
    """A few pages in which every part that any page of the site has is to be seen, on every kind of page that has it.

    Pages whose addresses have the same shape are one kind; of each kind as few pages are taken as show every class and
    element that any of them has, so that a new part of a page is looked at without being named here.
    """
    kinds: dict[tuple[str, int], dict[str, set[str]]] = {}
    for page in pages_of(site):
        steps = page.strip("/").split("/")
        kinds.setdefault((steps[0], len(steps)), {})[page] = parts_of(site, page)
    return sorted(page for pages in kinds.values() for page in _few_with_all(pages))


def parts_on(site: Path, pages: Iterable[str]) -> list[str]:
    """Of these pages as few as have every part that any of them has, whatever kind of page it stands on."""
    return sorted(_few_with_all({page: parts_of(site, page) for page in pages}))


def parts_of(site: Path, page: str) -> set[str]:
    """The classes, elements and headings of a page; colours and states are set by scripts and are none."""
    text = (site / page / "index.html" if page.endswith("/") or not page else site / page).read_text("utf-8")
    headed = set(_HEADINGS.findall(text)) if "/players/" in page else set()
    return {name for names in _CLASSES.findall(text) for name in names.split()} | set(_TAGS.findall(text)) | headed


def _few_with_all(pages: Mapping[str, set[str]]) -> list[str]:
    """Pages that together have all parts, those with the most parts not seen before first."""
    unseen = set().union(*pages.values())
    taken: list[str] = []
    while unseen:
        taken.append(max(pages, key=lambda page: len(pages[page] & unseen)))
        unseen -= pages[taken[-1]]
    return taken


@contextmanager
def opened(
    browser: Browser, base: str, pages: Iterable[str], **options: object
) -> Iterator[Iterator[tuple[str, Page]]]:
    """Each page in one tab of a context of its own: `with opened(...) as shown: for path, page in shown`."""
    context: BrowserContext = browser.new_context(**options)  # type: ignore[arg-type]
    context.add_init_script(WATCH_SHIFTS)

    def each() -> Iterator[tuple[str, Page]]:
        page = context.new_page()
        for path in pages:
            page.goto(base + path)
            yield path, page

    try:
        yield each()
    finally:
        context.close()


def too_small(page: Page) -> list[str]:
    """Targets under 24 pixels, those in the open menu and everything a thumb aims at under 44."""
    found = page.evaluate(_SIZES, [_TARGETS, 24]) + page.evaluate(_ALONE)
    return found + [f"thumb: {target}" for target in page.evaluate(_SIZES, [THUMB, 44])]


def shifts(page: Page) -> list[Any]:
    """What has moved without being asked to: how far, and which elements."""
    return list(page.evaluate("window.shifts"))


def seen_on_a_visit(
    browser: Browser, base: str, pages: Iterable[str], widths: Sequence[int]
) -> dict[int, dict[str, dict[str, Any]]]:
    """What several questions need to know, from one visit of each page with a phone that is turned narrower.

    Returns:
        By width and page: `wide`, in pixels; `targets`, how many a thumb aims at; `small`, those too small, menu closed
        and open; `tonight`, how far down the way there ends, in pixels; `leads_home`, whether it is one. Of the first
        width also `moved`: what shifted while the page loaded.
    """
    seen: dict[int, dict[str, dict[str, Any]]] = {width: {} for width in widths}
    with opened(browser, base, pages, viewport={"width": widths[0], "height": 740}, **PHONE) as shown:
        for path, page in shown:
            for width in widths:
                page.set_viewport_size({"width": width, "height": 740})
                tonight = page.locator(".thumb-bar a", has_text="Tonight")
                box = tonight.bounding_box()
                found = {
                    "wide": page.evaluate("document.documentElement.scrollWidth"),
                    "targets": page.locator(THUMB).count(),
                    "small": too_small(page),
                    "tonight": box["y"] + box["height"] if box else 0,
                    "leads_home": tonight.evaluate("(a, home) => a.href === home", base),
                }
                if width == widths[0]:
                    page.wait_for_timeout(100)
                    found["moved"] = shifts(page)
                    if found["moved"]:
                        # What a page does, it does again; what a busy machine did once in a hundred runs, it does not.
                        page.reload()
                        page.wait_for_timeout(300)
                        found["moved"] = shifts(page)
                # The menu and the search bring targets of their own.
                page.locator(".thumb-bar button", has_text="Menu").click()
                page.wait_for_timeout(50)
                found["small"] += too_small(page)
                page.keyboard.press("Escape")
                seen[width][path] = found
            page.set_viewport_size({"width": widths[0], "height": 740})
    return seen


def choose_scheme(page: Page, scheme: str) -> None:
    """Show the page in one of its schemes, as the theme does."""
    page.evaluate("scheme => document.body.setAttribute('data-md-color-scheme', scheme)", scheme)


def axe_finds(page: Page, axe: str, *, only: Iterable[str] = ()) -> list[str]:
    """What axe-core says is wrong with the page as it stands.

    Args:
        page: shown in a context with `bypass_csp`, since axe-core is put in by hand.
        axe: the source of axe-core.
        only: rules to run, all where none is named.
    """
    if not page.evaluate("'axe' in window"):
        page.evaluate(axe)
    options: dict[str, object] = {"rules": _MORE_RULES}
    if only:
        options = {"runOnly": {"type": "rule", "values": list(only)}}
    # All rules run all the same: what passes is only not described, which took a third of the time.
    options["resultTypes"] = ["violations"]
    violations = page.evaluate("options => axe.run(options).then(result => result.violations)", options)
    return [
        f"{v['id']}: {node['target']} {(node['any'] or node['all'] or node['none'] or [{'message': ''}])[0]['message']}"
        for v in violations
        for node in v["nodes"]
    ]


def axe_in_all_schemes(page: Page, axe: str) -> list[str]:
    """axe-core with all its rules in the light, then those for which colours count in the dark and for the sun."""
    found = [f"light {line}" for line in axe_finds(page, axe)]
    # The rule of 7:1 is silent on what has not even 4.5:1, which the other one finds.
    for scheme, more in (("slate", ()), ("sun", ("color-contrast-enhanced",))):
        choose_scheme(page, scheme)
        found += [f"{scheme} {line}" for line in axe_finds(page, axe, only=[*_COLOUR_RULES, *more])]
    choose_scheme(page, "default")
    return found
