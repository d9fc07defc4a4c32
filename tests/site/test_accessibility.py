"""axe-core and the Nu HTML checker on every kind of page, in every scheme."""

import json
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import must_run
from playwright.sync_api import Browser
from site_checks import PHONE, axe_finds, axe_in_all_schemes, kinds_of, opened, parts_of, parts_on

pytestmark = pytest.mark.browser
PAGES = ("", "teams/", "teams/harbor/", "teams/harbor/ivan-nunez/", "phones/", "404.html")
PAGES_WITH_SEARCH = ("", "teams/harbor/ivan-nunez/")
# What the theme does by itself: `autocomplete` on the checkboxes that open its drawer and search.
OF_THE_THEME = ("autocomplete",)


@pytest.fixture(scope="module")
def axe(node_modules: Path) -> str:
    return (node_modules / "axe-core/axe.min.js").read_text(encoding="utf-8")


@pytest.mark.parametrize("width", [360, 1300])
def test_axe_finds_nothing(
    browser: Browser, serve: Callable[[Path], str], sample_site: Path, axe: str, *, width: int
) -> None:
    """As each page is read, and with the search open over a short and a long one."""
    found: list[str] = []
    options = {"viewport": {"width": width, "height": 740}, "reduced_motion": "reduce", "bypass_csp": True}
    with opened(browser, serve(sample_site), PAGES, **options) as shown:
        for path, page in shown:
            found += [f"{path} {line}" for line in axe_in_all_schemes(page, axe)]
            # What the search lays over a page is the same on all of them.
            if path in PAGES_WITH_SEARCH:
                page.evaluate("document.getElementById('__search').click()")
                page.wait_for_timeout(300)
                found += [f"{path} searching: {line}" for line in axe_in_all_schemes(page, axe)]
    assert found == []


@pytest.mark.parametrize("width", [360, 1300])
def test_axe_finds_nothing_on_any_kind_of_page_of_the_demo(
    browser: Browser, serve: Callable[[Path], str], demo_site: Path, axe: str, *, width: int
) -> None:
    found: list[str] = []
    size = {"width": width, "height": 740}
    kinds = kinds_of(demo_site)
    # A part has the same colours on every page; in the dark and for the sun each is looked at once.
    coloured = parts_on(demo_site, kinds)
    assert len(coloured) > 15
    with opened(
        browser,
        serve(demo_site),
        # What a wider screen shows otherwise, menus and tables, stands on every second of them.
        kinds if width == 360 else kinds[::2],
        viewport=size,
        bypass_csp=True,
        **PHONE,
    ) as shown:
        for path, page in shown:
            # Parts that open on a tap are looked into as well.
            page.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true })")
            # Colours are those of the phone on a wider screen too.
            look = axe_in_all_schemes if width == 360 and path in coloured else axe_finds
            found += [f"{path} {line}" for line in look(page, axe)]
    assert found == []


def test_axe_would_find_what_is_wrong(
    browser: Browser, serve: Callable[[Path], str], demo_site: Path, axe: str
) -> None:
    with opened(browser, serve(demo_site), ["how-to-read/"], bypass_csp=True, **PHONE) as shown:
        for _, page in shown:
            page.evaluate("document.querySelector('article p').style.color = '#767676'")
            found = axe_in_all_schemes(page, axe)
            assert any(line.startswith("sun color-contrast-enhanced") for line in found), "4.5:1 will not do in the sun"
            page.evaluate("document.querySelector('article p').style.color = '#999'")
            schemes = {line.split(":")[0] for line in axe_in_all_schemes(page, axe)}
            assert {"light color-contrast", "sun color-contrast"} <= schemes, "and less than that nowhere"
            page.evaluate("document.querySelector('article').innerHTML += '<img src=x><h6>x</h6>'")
            rules = {line.split(":")[0] for line in axe_finds(page, axe)}
            assert {"image-alt", "heading-order"} <= rules


def test_every_drawing_has_a_name(browser: Browser, serve: Callable[[Path], str], demo_site: Path) -> None:
    drawings = []
    kinds = [page for page in kinds_of(demo_site) if "chart" in parts_of(demo_site, page)]
    with opened(browser, serve(demo_site), kinds, java_script_enabled=False) as shown:
        for path, page in shown:
            drawings += [(path, *drawing) for drawing in page.locator(".chart > svg").evaluate_all(ROLE_AND_NAME)]
    assert len(drawings) > 5
    assert [drawing for drawing in drawings if drawing[1] != "img" or min(map(len, drawing[2:])) <= 5] == []


ROLE_AND_NAME = """all => all.map(e => [e.getAttribute('role'), ...['title', 'desc'].map(name => {
    const said = e.querySelector(`:scope > ${name}`);
    return said ? said.textContent : '';
})])"""


def test_the_nu_checker_finds_no_error_of_ours(sample_site: Path, demo_site: Path, node_modules: Path) -> None:
    if shutil.which("java") is None:
        must_run("the Nu HTML checker", "java is not on the PATH (Debian: apt install default-jre-headless)")
    jar = node_modules / "vnu-jar/build/dist/vnu.jar"
    places = [site / path for site, paths in ((sample_site, PAGES), (demo_site, kinds_of(demo_site))) for path in paths]
    pages = [str(place if place.suffix == ".html" else place / "index.html") for place in places]
    ran = subprocess.run(
        ["java", "-jar", str(jar), "--errors-only", "--format", "json", *pages],
        capture_output=True,
        text=True,
        check=False,
    )
    messages = json.loads(ran.stderr)["messages"]
    ours = [m for m in messages if not any(word in m["message"] for word in OF_THE_THEME)]
    assert [f"{m['url']}:{m.get('lastLine')}: {m['message']}" for m in ours] == []
    assert messages, "the theme's own findings are the sign that the checker looked at the pages"
