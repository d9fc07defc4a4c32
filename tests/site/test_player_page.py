"""A man's page of the demo as a player holds it: on a phone of 360 by 740, and on paper."""

import base64
import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser, BrowserContext, FloatRect, Page

pytestmark = pytest.mark.browser
PITCHER = "teams/harbor/players/iker-nunez/"
CATCHER = "teams/harbor/players/ruben-castellane/"
HITTER = "teams/harbor/players/theo-okonjo/"
SCREEN = 740
# Every pitcher of the coming series, so that no single man's numbers decide.
STAFF = (PITCHER, "teams/harbor/players/bexley-tran/", "teams/harbor/players/solomon-adeyemi-frost/")


@pytest.fixture(scope="module")
def base(serve: Callable[[Path], str], demo_site: Path) -> str:
    return serve(demo_site)


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 360, "height": SCREEN}, has_touch=True, is_mobile=True)
    yield context
    context.close()


def choose(page: Page, side: str) -> None:
    page.locator(f".side-switch button[data-side={side}]").click()


@pytest.mark.parametrize("side", ["L", "R", "both"])
@pytest.mark.parametrize("path", STAFF)
def test_all_four_situations_stand_on_the_first_screen(phone: BrowserContext, base: str, path: str, side: str) -> None:
    page = phone.new_page()
    page.goto(base + path)
    choose(page, side)
    page.evaluate("scrollTo(0, 0)")
    shown = page.locator(f".side[data-side={'R' if side == 'R' else 'L'}] .tbl-glance").first
    rows = shown.locator("tbody tr")
    assert rows.count() == 4
    bar = page.locator(".thumb-bar").bounding_box()
    last = rows.last.bounding_box()
    assert bar
    assert last
    assert last["y"] + last["height"] <= bar["y"]


@pytest.mark.parametrize("side", ["L", "R"])
@pytest.mark.parametrize("path", STAFF)
def test_a_pitchers_page_is_seven_screens_for_one_side(
    phone: BrowserContext, serve: Callable[..., str], demo_site: Path, path: str, side: str
) -> None:
    page = phone.new_page()
    page.goto(serve(demo_site, kept=True) + path)
    choose(page, side)
    assert page.evaluate("document.documentElement.scrollHeight") <= 7 * SCREEN


def test_links_lead_to_every_part_and_stop_under_the_switch(browser: Browser, base: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": SCREEN})
    page = context.new_page()
    page.goto(base + PITCHER)
    links = page.locator(".box-jump a")
    words = [link.inner_text() for link in links.all()]
    assert words[:6] == ["Counts", "Pitches", "Where", "Times through", "Clock", "Holding"]
    for link in links.all():
        box = link.bounding_box()
        assert box
        assert min(box["width"], box["height"]) >= 43.9
    links.first.click()
    page.wait_for_timeout(300)
    place = page.locator("#counts").bounding_box()
    assert place
    assert 48 <= place["y"] < SCREEN / 2, "not under the header"
    context.close()


def test_a_table_with_four_pitches_is_not_cut(phone: BrowserContext, base: str) -> None:
    page = phone.new_page()
    page.goto(base + PITCHER)
    choose(page, "L")
    for kind in ("glance", "counts", "groups", "clock", "hold"):
        for frame in page.locator(f".table-scroll:has(> .tbl-{kind})").all():
            if frame.is_visible():
                assert frame.evaluate("e => e.scrollWidth - e.clientWidth") <= 1, kind


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_cut_edge_is_shaded_until_the_table_ends(browser: Browser, base: str, scheme: str) -> None:
    context = browser.new_context(
        color_scheme=scheme,  # type: ignore[arg-type]
        viewport={"width": 360, "height": SCREEN},
    )
    page = context.new_page()
    page.goto(base + PITCHER)
    frame = page.locator(".table-scroll:has(> .tbl-arsenal)").first
    frame.scroll_into_view_if_needed()
    assert frame.evaluate("e => e.scrollWidth - e.clientWidth") > 20
    box = frame.bounding_box()
    assert box
    edge: FloatRect = {"x": box["x"] + box["width"] - 8, "y": box["y"] + 2, "width": 6, "height": box["height"] - 4}
    cut = page.screenshot(clip=edge)
    frame.evaluate("e => { e.scrollLeft = 9999 }")
    ended = page.screenshot(clip=edge)
    assert warmth(browser, cut) > warmth(browser, ended) + 20
    context.close()


WARMTH = """async png => {
  const picture = await createImageBitmap(await (await fetch("data:image/png;base64," + png)).blob());
  const canvas = new OffscreenCanvas(picture.width, picture.height).getContext("2d");
  canvas.drawImage(picture, 0, 0);
  const all = canvas.getImageData(0, 0, picture.width, picture.height).data;
  let sum = 0;
  for (let i = 0; i < all.length; i += 4) sum += all[i] - all[i + 2];
  return sum / (all.length / 4);
}"""


def warmth(browser: Browser, picture: bytes) -> float:
    """How much redder than blue a picture is on average, -255 to 255."""
    page = browser.new_page()
    found = float(page.evaluate(WARMTH, base64.b64encode(picture).decode()))
    page.close()
    return found


def sheets(browser: Browser, address: str) -> list[str]:
    context = browser.new_context(color_scheme="dark", viewport={"width": 360, "height": SCREEN})
    page = context.new_page()
    page.goto(address)
    read = pypdf.PdfReader(io.BytesIO(page.pdf(format="Letter")))
    context.close()
    return [" ".join(sheet.extract_text().replace("\N{NO-BREAK SPACE}", " ").split()) for sheet in read.pages]


@pytest.mark.parametrize("path", STAFF)
def test_a_pitcher_prints_on_four_sheets_each_saying_whose_it_is(browser: Browser, base: str, path: str) -> None:
    printed = sheets(browser, base + path)
    assert len(printed) <= 4
    for number, text in enumerate(printed, start=1):
        assert re.search(r"\d+ [A-Z][a-z]+ ", text)
        assert "confidential" in text
        assert "staff edition, as of 2026-04-09" in text
        assert f"{number} of {len(printed)}" in text
    whole = " ".join(printed)
    assert "Parts that open on a tap are not printed" in whole
    for heading in ("At a glance", "Counts", "Pitches", "Location", "Clock", "Holding runners", "Notes"):
        assert heading in whole


def test_bullets_are_no_marks_of_how_sure(phone: BrowserContext, base: str) -> None:
    page = phone.new_page()
    for path in (PITCHER, CATCHER, HITTER):
        page.goto(base + path)
        kinds = page.evaluate(
            "[...new Set([...document.querySelectorAll('.md-content li')].map(e => getComputedStyle(e).listStyleType))]"
        )
        assert kinds
        assert not {"disc", "circle"} & set(kinds)
