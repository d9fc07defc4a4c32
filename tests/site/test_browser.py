"""The site in a real Chromium: on a phone, at a desk, by keyboard, on paper, without scripts."""

import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser, BrowserContext, Page
from site_checks import pages_of

from scoutgen.site.search import fold

pytestmark = pytest.mark.browser
PAGES = ("", "teams/", "teams/harbor/", "teams/harbor/ivan-nunez/", "phones/", "404.html")
PITCHER = "teams/harbor/ivan-nunez/"


@pytest.fixture(scope="module")
def base(serve: Callable[[Path], str], sample_site: Path) -> str:
    return serve(sample_site)


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    yield context
    context.close()


@pytest.mark.parametrize("path", PAGES)
def test_nothing_fails_and_nothing_is_asked_of_others(
    phone: BrowserContext, serve: Callable[..., str], sample_site: Path, path: str
) -> None:
    base = serve(sample_site, kept=True)
    page = phone.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("response", lambda response: said.append(response.url) if response.status >= 400 else None)
    page.on("request", lambda request: None if request.url.startswith(base) else said.append(request.url))
    page.goto(base + path)
    page.locator(".thumb-bar button", has_text="Search").click()
    page.locator(".md-search__input").type("nunez")
    page.locator(".md-search-result__item").first.wait_for()
    assert said == []


def test_no_page_scrolls_sideways_and_wide_tables_keep_the_names_of_their_rows(browser: Browser, base: str) -> None:
    # What slides into its place when the window changes is there at once.
    context = browser.new_context(viewport={"width": 1300, "height": 740}, reduced_motion="reduce")
    page = context.new_page()
    wide, names = [], []
    for path in PAGES:
        page.goto(base + path)
        for width in (1300, 768, 390, 360, 320):
            page.set_viewport_size({"width": width, "height": 740})
            wide += [(path, width)] if page.evaluate("document.documentElement.scrollWidth") > width else []
            names += [(path, width, at) for at in page.evaluate(NAMES_AFTER_SCROLLING)]
    assert wide == []
    assert {width for _, width, _ in names} == {1300, 768, 390, 360, 320}
    assert [name for name in names if not 0 <= name[2] < name[1] / 2] == []
    context.close()


# Where the first name of a row stands once its table is scrolled to the end, for every table that is shown.
NAMES_AFTER_SCROLLING = """() => [...document.querySelectorAll('.table-scroll')].filter(e => e.checkVisibility())
    .map(e => { e.scrollLeft = 9999; return e.querySelector('tbody th').getBoundingClientRect().x })"""


def test_no_page_of_the_demo_scrolls_sideways(browser: Browser, serve: Callable[[Path], str], demo_site: Path) -> None:
    """Every page as the file has it, with both sides shown; what scripts make of each kind is seen on a visit."""
    context = browser.new_context(bypass_csp=True, reduced_motion="reduce")
    page = context.new_page()
    base = serve(demo_site)
    paths = pages_of(demo_site)
    assert len(paths) > 150
    page.goto(base + "404.html")
    seen = page.evaluate(WIDTHS_IN_FRAMES, [base, paths])
    assert {path for path, _ in seen} == {*paths}
    # No narrower than the frame: a page that was not shown has no width.
    assert {path: width for path, width in seen if width != 320} == {}
    context.close()


# The narrowest screen there is; each kind of page is seen on others too (test_in_the_hand.py). Four frames in which no
# script runs show one page after the other: to go to each takes twice as long.
WIDTHS_IN_FRAMES = """async ([base, paths]) => {
    const seen = [], left = [...paths];
    const show = async () => {
        const frame = document.createElement('iframe');
        frame.sandbox = 'allow-same-origin';
        frame.style.cssText = 'position: fixed; width: 320px; height: 740px; border: 0';
        document.body.append(frame);
        for (let path; (path = left.pop()) !== undefined;) {
            await new Promise(done => { frame.onload = done; frame.src = base + path; });
            const shown = frame.contentDocument;
            const whole = shown.querySelector('article h1') && shown.styleSheets.length > 1;
            seen.push([path, whole ? shown.documentElement.scrollWidth : 0]);
        }
    };
    await Promise.all([show(), show(), show(), show()]);
    return seen;
}"""


def test_a_few_facts_become_cards_on_a_phone(phone: BrowserContext, base: str) -> None:
    page = phone.new_page()
    page.goto(base + PITCHER)
    card = page.locator(".tbl-cards tbody tr").first
    first, second = card.locator("td").nth(0).bounding_box(), card.locator("td").nth(1).bounding_box()
    assert first
    assert second
    assert second["y"] > first["y"]
    label = card.locator("td").first.evaluate("e => getComputedStyle(e, '::before').content")
    assert label == '"Median"'


def test_targets_are_large_enough_for_a_thumb(phone: BrowserContext, base: str) -> None:
    page = phone.new_page()
    page.goto(base + PITCHER)
    page.locator(".side-switch").wait_for()
    thumb = ".thumb-bar > *, .side-switch button, .fold > summary, .md-header__button"
    boxes = [(target, target.bounding_box()) for target in page.locator(thumb).all()]
    shown = [(target, box) for target, box in boxes if box]
    assert len(shown) > 5
    for target, box in shown:
        assert min(box["width"], box["height"]) >= 43.9, target.evaluate("e => e.outerHTML")[:120]


@pytest.mark.parametrize("width", [360, 1300])
def test_no_target_is_under_24_pixels(browser: Browser, base: str, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 740})
    page = context.new_page()
    page.goto(base + PITCHER)
    small = page.evaluate(
        """() => [...document.querySelectorAll('a, button, summary, label, input:not(.md-toggle):not(.md-option)')]
        .filter(e => e.checkVisibility({visibilityProperty: true, opacityProperty: true}))
        // Links inside a sentence are exempt (WCAG 2.2, 2.5.8); what is outside the screen cannot be aimed at.
        .filter(e => !e.closest('p, li:not(.md-nav__item):not(.md-search-result__item)'))
        .map(e => [e, e.getBoundingClientRect()])
        .filter(([e, r]) => r.width && r.height && r.right > 0 && r.left < innerWidth)
        .filter(([e, r]) => Math.min(r.width, r.height) < 23.9)
        .map(([e, r]) => `${e.outerHTML.slice(0, 100)} ${r.width}x${r.height}`)"""
    )
    assert small == []
    context.close()


def sides(page: Page) -> list[bool]:
    return [page.locator(f".side[data-side={side}]").first.is_visible() for side in "LR"]


def test_the_switch_stays_set_across_pages_and_works_by_keyboard(phone: BrowserContext, base: str) -> None:
    page = phone.new_page()
    page.goto(base + PITCHER)
    assert sides(page) == [True, True]
    page.get_by_role("button", name="Lefties").focus()
    page.keyboard.press("Enter")
    assert sides(page) == [True, False]
    page.goto(base + "teams/mesa/otto-odea/")
    assert sides(page) == [True, False]
    pressed = page.locator(".side-switch button").evaluate_all("bs => bs.map(b => b.getAttribute('aria-pressed'))")
    assert pressed == ["true", "false", "false"]
    page.keyboard.press("Tab")
    page.get_by_role("button", name="Righties").focus()
    page.keyboard.press("Space")
    assert sides(page) == [False, True]
    page.goto(base + PITCHER + "#first-pitch-lefties")
    assert sides(page) == [True, True], "a link into the hidden side shows it"


def test_nothing_moves_while_a_page_loads(phone: BrowserContext, base: str) -> None:
    page = phone.new_page()
    page.goto(base + PITCHER)
    page.get_by_role("button", name="Righties").click()
    page.add_init_script(
        "window.moved = 0; new PerformanceObserver(l => l.getEntries().forEach(e => { if (!e.hadRecentInput) "
        "window.moved += e.value })).observe({type: 'layout-shift', buffered: true})"
    )
    page.goto(base + "teams/mesa/otto-odea/")
    page.locator(".side-switch").wait_for()
    page.wait_for_timeout(400)
    assert sides(page) == [False, True]
    assert page.evaluate("window.moved") < 0.01


def test_without_scripts_both_sides_and_all_ways_are_there(browser: Browser, base: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(base + PITCHER)
    assert sides(page) == [True, True]
    assert not page.locator(".side-slot").is_visible()
    assert page.locator(".side-name").first.is_visible()
    page.locator(".thumb-bar a", has_text="Teams").click()
    assert page.url == base + "teams/"
    context.close()


@pytest.mark.parametrize(("setting", "dark"), [("light", False), ("dark", True)])
def test_colours_follow_the_phone_until_the_reader_chooses(
    browser: Browser, base: str, setting: str, dark: bool
) -> None:
    context = browser.new_context(color_scheme=setting, viewport={"width": 360, "height": 740})  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(base)
    assert is_dark(page) is dark
    label = page.locator("form.md-header__option label:visible")
    for _ in range(3):  # automatic, light, dark, and round again
        label.click()
        if is_dark(page) is not dark:
            break
    page.goto(base + PITCHER)
    assert is_dark(page) is not dark
    context.close()


def is_dark(page: Page) -> bool:
    colour = page.evaluate("getComputedStyle(document.body).backgroundColor")
    return sum(map(int, re.findall(r"\d+", colour)[:3])) < 200


QUERIES = [
    ("27", "teams/harbor/ivan-nunez/"),
    ("#27", "teams/harbor/ivan-nunez/"),
    ("7", "teams/harbor/will-hale/"),
    ("#2", "teams/mesa/otto-odea/"),
    ("72", "teams/mesa/sam-brandt/"),
    ("nunez", "teams/harbor/ivan-nunez/"),
    ("Núñez", "teams/harbor/ivan-nunez/"),
    ("nuñez", "teams/harbor/ivan-nunez/"),
    ("IVAN NUNEZ", "teams/harbor/ivan-nunez/"),
    ("will", "teams/harbor/will-hale/"),
    ("odea", "teams/mesa/otto-odea/"),
    ("O'Dea", "teams/mesa/otto-odea/"),
    ("O’Dea", "teams/mesa/otto-odea/"),
    ("harbor state", "teams/harbor/"),
    ("LHP harbor", "teams/harbor/will-hale/"),
    ("mesa rhp", "teams/mesa/sam-brandt/"),
    ("lhp harbor", "teams/harbor/will-hale/"),
    ("lefty harbor", "teams/harbor/will-hale/"),
    ("dugout", "phones/"),
    ("nunez slide step", "teams/harbor/ivan-nunez/"),
]


# What stands in the box; the worker is given a folded copy.
TYPED = "e => Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').get.call(e)"


def test_search_leads_to_the_right_page_first(browser: Browser, base: str) -> None:
    page = browser.new_page()
    page.goto(base)
    box = page.locator(".md-search__input")
    box.focus()
    wrong: dict[str, object] = {}
    for query, expected in QUERIES:
        box.fill("")
        page.keyboard.press("Shift")
        page.keyboard.insert_text(query)
        page.keyboard.press("Shift")
        page.wait_for_timeout(250)
        links = page.locator(".md-search-result__item a").evaluate_all("as => as.map(a => a.href)")
        first = re.sub(r"[?#].*", "", links[0]).removeprefix(base) if links else None
        if first != expected:
            wrong[query] = first
        assert (
            box.evaluate("e => Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').get.call(e)")
            == query
        )
    assert wrong == {}
    page.close()


def test_the_page_folds_a_query_as_the_index_is_folded(browser: Browser, base: str) -> None:
    page = browser.new_page()
    page.goto(base)
    for text in ("Núñez", "O’Dea", "Łukasz Sørensen", "Weiß", "Þór", "Çelik", "İpek"):
        page.locator(".md-search__input").focus()
        page.evaluate("t => { document.querySelector('.md-search__input').value = t }", text)
        assert page.evaluate("document.querySelector('.md-search__input').value") == fold(text)
    page.close()


def test_paper_shows_both_sides_whole_tables_and_no_chrome(browser: Browser, base: str) -> None:
    context = browser.new_context(color_scheme="dark", viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(base + PITCHER)
    page.get_by_role("button", name="Lefties").click()
    paper = pypdf.PdfReader(io.BytesIO(page.pdf(format="Letter")))
    texts = [sheet.extract_text() for sheet in paper.pages]
    assert texts
    assert all(text.strip() for text in texts), "no blank sheet"
    whole = " ".join(" ".join(texts).split())
    for words in ("Left-handed hitters", "Right-handed hitters", "First pitch, righties"):
        assert words in whole
    # Parts that open on a tap are numbers behind the page; they would cost more sheets than they are read.
    assert "Numbers behind the page" not in whole
    assert whole.count("0-11") == 2, "the last cell of the last column of both tables"
    for chrome in ("Tonight", "Search", "Lefties"):
        assert chrome not in whole
    # A sheet of Letter between its margins.
    page.set_viewport_size({"width": 740, "height": 980})
    page.emulate_media(media="print")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    wide = "[...document.querySelectorAll('.table-scroll')].map(e => e.scrollWidth - e.clientWidth)"
    assert max(page.evaluate(wide)) <= 1
    context.close()


def test_the_bar_under_the_thumb_leads_home_and_opens_the_menu(phone: BrowserContext, base: str) -> None:
    page = phone.new_page()
    page.goto(base + PITCHER)
    page.locator(".thumb-bar button", has_text="Menu").click()
    page.locator(".md-sidebar--primary .md-nav__link", has_text="Will Hale").wait_for()
    page.keyboard.press("Escape")
    page.goto(base + PITCHER)
    page.locator(".thumb-bar a", has_text="Tonight").click()
    assert page.url == base
