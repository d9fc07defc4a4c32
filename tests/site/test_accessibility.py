"""axe-core and the Nu HTML checker on every kind of page."""

import json
import shutil
import subprocess
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Literal

import pytest
from conftest import must_run
from playwright.sync_api import Browser

pytestmark = pytest.mark.browser
# A page of each template of the demo.
DEMO_PAGES = (
    "",
    "teams/harbor/",
    "teams/harbor/infield/",
    "teams/harbor/players/iker-nunez/",
    "teams/harbor/players/ruben-castellane/",
    "teams/harbor/players/anders-lindqvist/",
    "series/slatefield-march/",
    "running/",
    "risk/",
    "levels/",
    "charting/pitches/",
    "charting/looks/",
    "cards/gannet-harbor/",
    "cards/gannet-harbor/base-coaches/",
    "cards/gannet-harbor/fielders/",
    "cards/gannet-harbor/hitters/",
    "how-to-read/",
    "data-quality/",
    "travel-plan/",
)
PAGES = ("", "teams/", "teams/harbor/", "teams/harbor/ivan-nunez/", "phones/", "404.html")
# What the theme does by itself: `autocomplete` on the checkboxes that open its drawer and search.
OF_THE_THEME = ("autocomplete",)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1300])
def test_axe_finds_nothing(
    browser: Browser, serve: Callable[[Path], str], sample_site: Path, node_modules: Path, *, scheme: str, width: int
) -> None:
    found = axe(browser, serve(sample_site), PAGES, node_modules, scheme=scheme, width=width, searching=True)
    assert found == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_the_templates_of_the_demo(
    browser: Browser, serve: Callable[[Path], str], demo_site: Path, node_modules: Path, *, scheme: str
) -> None:
    assert axe(browser, serve(demo_site), DEMO_PAGES, node_modules, scheme=scheme, width=360) == []


def axe(
    browser: Browser,
    base: str,
    pages: Iterable[str],
    node_modules: Path,
    *,
    scheme: Literal["light", "dark"],
    width: int,
    searching: bool = False,
) -> list[str]:
    """What axe-core finds, also with the search open where asked."""
    # axe is put into the page by hand, which the policy would forbid.
    context = browser.new_context(color_scheme=scheme, viewport={"width": width, "height": 740}, bypass_csp=True)
    found: list[str] = []
    for path in pages:
        page = context.new_page()
        answer = page.goto(base + path)
        assert answer is not None
        assert answer.ok, path
        page.evaluate((node_modules / "axe-core/axe.min.js").read_text(encoding="utf-8"))
        for state in ("closed", "searching") if searching else ("closed",):
            if state == "searching":
                page.evaluate("document.getElementById('__search').click()")
                page.wait_for_timeout(300)
            violations = page.evaluate("axe.run().then(result => result.violations)")
            found += [
                f"{path} {state} {v['id']}: {node['target']} {node['any'][:1] and node['any'][0]['message']}"
                for v in violations
                for node in v["nodes"]
            ]
        page.close()
    context.close()
    return found


def test_the_nu_checker_finds_no_error_of_ours(sample_site: Path, demo_site: Path, node_modules: Path) -> None:
    if shutil.which("java") is None:
        must_run("the Nu HTML checker", "java is not on the PATH (Debian: apt install default-jre-headless)")
    jar = node_modules / "vnu-jar/build/dist/vnu.jar"
    places = [site / path for site, paths in ((sample_site, PAGES), (demo_site, DEMO_PAGES)) for path in paths]
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
