"""Words in drawings, which nobody measured: whole, and large enough to be read on a phone."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from scoutgen.pages.book import Chart
from scoutgen.pages.charts import ROOM_FOR_NAME, SHORT_NAME, clock_strip, location_grid
from scoutgen.pages.spray_charts import spray_chart
from scoutgen.pages.words import STYLE_WORDS
from scoutgen.records.opponents import Fence
from scoutgen.site.charts import draw, figure

pytestmark = pytest.mark.browser
SAID: dict[str, Any] = {"title": "t", "description": "d"}


def words(number: int, letters: int) -> list[str]:
    """Names of so many letters of the usual width, each another."""
    return [f"{at}{'-change' * 9}"[:letters] for at in range(number)]


def grid(*names: str) -> Chart:
    cells = [{"pitch": name, "height": 3, "side": 3, "k": 99, "n": 4321} for name in names]
    return location_grid(cells, **SAID)


def field(*fences: tuple[int, int]) -> Chart:
    ball = {"contact": "fly", "direction_deg": 0.0, "distance_ft": 300.0, "play": "out"}
    return spray_chart([ball], [Fence(bearing_deg=b, distance_ft=d) for b, d in fences], **SAID)


DRAWINGS = {
    "every line a strip can have": clock_strip(
        [(f"{words}{more}", 1.25, "watch") for words in STYLE_WORDS.values() for more in ("", " (frames)")], **SAID
    ),
    "a strip with a short line": clock_strip([("windup", 1.25 + 0.05 * at, "watch") for at in range(5)], **SAID),
    "four short names": grid(*words(4, SHORT_NAME)),
    **{
        f"names of {room} letters, {across} side by side": grid(*words(5, room))
        for across, room in ROOM_FOR_NAME.items()
    },
    "names longer than any row": grid(*words(3, 41)),
    "wide letters": grid("fastball", "slider", "変化球の名前は", "まっすぐ"),
    "shallow fences": field((-45, 302), (0, 385), (45, 302)),
    "deep fences": field((-45, 365), (0, 440), (45, 365)),
}
# Of every word how far it reaches out of its picture and into another one, and how large its letters are.
WORDS = """() => [...document.querySelectorAll('.chart text')].map(e => {
    const svg = e.closest('svg'), word = e.getBoundingClientRect(), all = svg.getBoundingClientRect();
    const out = Math.max(all.left - word.left, word.right - all.right, all.top - word.top, word.bottom - all.bottom);
    const into = [...svg.querySelectorAll('text')].filter(other => other !== e).map(other => {
        const its = other.getBoundingClientRect();
        const down = Math.min(word.bottom, its.bottom) - Math.max(word.top, its.top);
        return down > 4 ? Math.min(word.right, its.right) - Math.max(word.left, its.left) : 0;
    });
    const size = parseFloat(getComputedStyle(e).fontSize) * all.width / svg.viewBox.baseVal.width;
    return [e.textContent, out, Math.max(0, ...into), size];
})"""


@pytest.fixture(scope="module")
def page_of_drawings(browser: Browser, serve: Callable[[Path], str], demo_site: Path) -> Callable[[str], Any]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, bypass_csp=True)
    page = context.new_page()
    page.goto(serve(demo_site) + "glossary/")

    def shown(name: str) -> Any:  # noqa: ANN401 - what the page says
        chart = DRAWINGS[name]
        page.evaluate("html => { document.querySelector('article').innerHTML = html }", figure(draw(chart.spec), chart))
        return page.evaluate(WORDS)

    return shown


@pytest.mark.parametrize("name", DRAWINGS)
def test_every_word_is_whole_and_can_be_read(page_of_drawings: Callable[[str], Any], name: str) -> None:
    words = page_of_drawings(name)
    assert len(words) >= 3
    assert {text: into for text, _, into, _ in words if into > 0} == {}
    # A line's box is higher than its letters: those with nothing below the line stand a pixel or two from either end.
    assert {text: out for text, out, _, _ in words if out > 2} == {}
    assert {text: size for text, _, _, size in words if not 11 <= size <= 13.5} == {}
