"""In the hand: targets, shifts, colours for the sun, the keyboard, and no scripts at all, on every kind of page."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from once import once, shared_folder
from playwright.sync_api import Browser, Page
from site_checks import PHONE, WATCH_SHIFTS, kinds_of, pages_of, seen_on_a_visit, shifts, too_small

pytestmark = pytest.mark.browser
Visited = Callable[[int], dict[str, dict[str, Any]]]
WIDTHS = (360, 320)
PITCHER = "teams/harbor/players/iker-nunez/"


@pytest.fixture(scope="module")
def base(serve: Callable[[Path], str], demo_site: Path) -> str:
    return serve(demo_site)


@pytest.fixture(scope="module")
def visited(
    browser: Browser, serve: Callable[..., str], demo_site: Path, tmp_path_factory: pytest.TempPathFactory
) -> Visited:
    """A function from the width of a phone to what it sees of every kind of page, on one visit that keeps the site."""

    def write(place: Path) -> None:
        seen = seen_on_a_visit(browser, serve(demo_site, kept=True), kinds_of(demo_site), WIDTHS)
        place.write_text(json.dumps(seen))

    seen = json.loads(once(shared_folder(tmp_path_factory) / "visited.json", write).read_text())
    return lambda width: seen[str(width)]


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, **PHONE)
    context.add_init_script(WATCH_SHIFTS)
    yield context.new_page()
    context.close()


def test_a_few_pages_show_every_part_of_the_demo(demo_site: Path) -> None:
    kinds = kinds_of(demo_site)
    assert set(kinds) < set(pages_of(demo_site))
    assert {"", "404.html", "running/", "risk/", "levels/", "how-to-read/", "teams/harbor/infield/"} <= set(kinds)
    assert len([page for page in kinds if "/players/" in page]) > 2, "pitchers, catchers and hitters have other parts"


@pytest.mark.parametrize("width", WIDTHS)
def test_every_target_of_every_kind_of_page_can_be_hit(visited: Visited, width: int) -> None:
    seen = visited(width)
    assert {path: page["small"] for path, page in seen.items() if page["small"]} == {}
    assert min(page["targets"] for page in seen.values()) > 5


@pytest.mark.parametrize("width", WIDTHS)
def test_no_kind_of_page_scrolls_sideways(visited: Visited, width: int) -> None:
    assert {path: page["wide"] for path, page in visited(width).items() if page["wide"] > width} == {}


@pytest.mark.parametrize("width", WIDTHS)
def test_tonight_is_one_tap_from_every_page(visited: Visited, width: int) -> None:
    for path, page in visited(width).items():
        assert 700 < page["tonight"] <= 740, f"{path}: at the bottom, where the thumb is"
        assert page["leads_home"], path


def test_nothing_moves_while_any_kind_of_page_loads(visited: Visited) -> None:
    assert {path: page["moved"] for path, page in visited(WIDTHS[0]).items() if page["moved"]} == {}


def test_results_of_a_search_can_be_hit(phone: Page, base: str) -> None:
    phone.goto(base)
    phone.locator(".thumb-bar button", has_text="Search").click()
    phone.keyboard.type("nunez")
    phone.locator(".md-search-result__link").first.wait_for()
    assert too_small(phone) == []


def test_text_is_sixteen_pixels(phone: Page, base: str) -> None:
    for path in ("", PITCHER, "how-to-read/", "travel-plan/"):
        phone.goto(base + path)
        size = phone.locator("article li, article > p").first.evaluate("e => getComputedStyle(e).fontSize")
        assert size == "16px", path


@pytest.mark.parametrize("kind", ["wide tables of ours", "tables written by hand"])
def test_a_wide_table_is_scrolled_by_key_and_keeps_its_first_column(phone: Page, base: str, kind: str) -> None:
    phone.set_viewport_size({"width": 320, "height": 740})
    phone.goto(base + (PITCHER if kind.startswith("wide") else "travel-plan/"))
    frame = phone.locator(".table-scroll:has(.tbl-arsenal), .table-scroll:has(.tbl-plain)").first
    assert frame.get_attribute("role") == "region"
    assert frame.get_attribute("aria-label")
    first = frame.locator("tbody tr > *").first
    before = first.bounding_box()
    frame.focus()
    phone.keyboard.press("ArrowRight")
    phone.wait_for_timeout(300)
    after = first.bounding_box()
    assert before
    assert after
    assert abs(before["x"] - after["x"]) < 2
    if kind.startswith("wide"):
        assert frame.evaluate("e => e.scrollLeft") > 0


def scheme(page: Page) -> str | None:
    return page.locator("body").get_attribute("data-md-color-scheme")


def test_bright_sun_is_chosen_by_its_name_and_kept(phone: Page, base: str) -> None:
    phone.goto(base + PITCHER)
    sun = phone.get_by_role("button", name="Sun")
    sun.click()
    assert scheme(phone) == "sun"
    phone.wait_for_timeout(50)
    assert sun.get_attribute("aria-pressed") == "true"
    phone.goto(base)
    assert scheme(phone) == "sun"
    assert shifts(phone) == []
    colours = phone.evaluate("[getComputedStyle(document.body).backgroundColor, getComputedStyle(document.body).color]")
    assert colours == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]
    phone.get_by_role("button", name="As phone").click()
    assert scheme(phone) == "default"


def test_bright_sun_is_there_before_the_first_paint(phone: Page, base: str) -> None:
    phone.goto(base)
    phone.get_by_role("button", name="Sun").click()
    # Without the theme's own script, what shows is what stands before it has run.
    phone.route("**/bundle*.js", lambda route: route.abort())
    phone.goto(base + PITCHER)
    assert scheme(phone) == "sun"


def test_the_button_in_the_header_comes_by_bright_sun(phone: Page, base: str) -> None:
    phone.goto(base)
    label = phone.locator("form.md-header__option label:visible")
    passed = []
    for _ in range(4):
        label.click()
        passed.append(scheme(phone))
    assert passed == ["default", "slate", "sun", "default"]


@pytest.mark.parametrize(("colours", "paper"), [("light", "rgb(255, 255, 255)"), ("dark", "rgb(0, 0, 0)")])
def test_a_phone_set_to_more_contrast_gets_it(browser: Browser, base: str, colours: str, paper: str) -> None:
    context = browser.new_context(color_scheme=colours, contrast="more")  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(base + PITCHER)
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == paper
    legend = page.locator(".box-legend").first.evaluate("e => getComputedStyle(e).color")
    assert legend == ("rgb(0, 0, 0)" if colours == "light" else "rgb(255, 255, 255)")
    context.close()


FOCUSED = """() => {
    const at = document.activeElement;
    // The button that goes through the colours is the label of a radio button.
    const e = at.matches('.md-option') ? at.nextElementSibling : at;
    const r = e.getBoundingClientRect(), s = getComputedStyle(e);
    return {what: e.outerHTML.slice(0, 90), seen: e.checkVisibility({visibilityProperty: true}) && r.width > 0
        && r.right > 0 && r.left < innerWidth, ring: s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2}
}"""


@pytest.mark.parametrize("width", [360, 1300])
@pytest.mark.parametrize("path", ["", PITCHER, "running/"])
def test_the_focus_is_always_to_be_seen(browser: Browser, base: str, width: int, path: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": 740}, reduced_motion="reduce")
    page = context.new_page()
    page.goto(base + path)
    page.keyboard.press("Tab")
    assert "md-skip" in page.evaluate(FOCUSED)["what"], "the first key leads past the menu"
    page.keyboard.press("Enter")
    page.goto(base + path)
    lost = []
    for _ in range(60):
        page.keyboard.press("Tab")
        now = page.evaluate(FOCUSED)
        if now["what"].startswith("<body"):
            break
        if not (now["seen"] and now["ring"]):
            lost.append(now["what"])
    assert lost == []
    context.close()


def test_menu_and_search_open_and_close_by_key(browser: Browser, base: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740}, reduced_motion="reduce")
    page = context.new_page()
    page.goto(base + PITCHER)
    menu = page.locator(".thumb-bar button", has_text="Menu")
    menu.focus()
    page.keyboard.press("Enter")
    page.locator(".md-sidebar--primary a:focus").wait_for()
    assert menu.get_attribute("aria-expanded") == "true"
    page.keyboard.press("Escape")
    assert menu.get_attribute("aria-expanded") == "false"
    page.locator(".thumb-bar [data-open=__drawer]:focus").wait_for()
    assert not page.locator(".md-sidebar--primary a").first.is_visible()
    page.locator(".thumb-bar button", has_text="Search").focus()
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.matches('.md-search__input')")
    page.keyboard.type("nunez")
    page.locator(".md-search-result__link").first.wait_for()
    page.wait_for_timeout(300)
    page.keyboard.press("ArrowDown")
    page.locator(".md-search-result__link:focus").wait_for()
    page.keyboard.press("Escape")
    page.locator(".thumb-bar [data-open=__search]:focus").wait_for()
    assert not page.locator("#__search").is_checked()
    context.close()


def test_a_link_into_a_closed_part_opens_it(phone: Page, base: str) -> None:
    phone.goto(base + PITCHER)
    inside = phone.evaluate(
        "(() => { const e = document.querySelector('details:not([open]) table'); e.id = 'inside'; return !!e })()"
    )
    assert inside
    phone.evaluate("location.hash = '#inside'")
    phone.locator("#inside").wait_for(state="visible")


def test_all_but_search_works_without_scripts(browser: Browser, base: str, demo_site: Path) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740}, **PHONE)
    page = context.new_page()
    sides = folds = 0
    for path in kinds_of(demo_site):
        page.goto(base + path)
        assert page.locator("article h1").first.is_visible(), path
        assert page.locator("article").inner_text().count(" ") > 5, path
        for side in page.locator(".side:not(details .side)").all():
            assert side.is_visible(), path
            sides += 1
        fold = page.locator("details.fold").first
        if fold.count():
            fold.locator("summary").click()
            assert fold.locator("> div").is_visible(), path
            folds += 1
        # What would need a script is not shown.
        for dead in (".side-slot", ".screen-choice", "[data-open]", ".md-header [for=__search]", ".md-header__option"):
            assert not page.locator(dead).first.is_visible(), (path, dead)
        page.locator(".thumb-bar label", has_text="Menu").click()
        page.locator(".md-sidebar--primary .md-nav__link", has_text="Cautions").first.wait_for(state="visible")
    assert sides > 10
    assert folds > 5
    context.close()
