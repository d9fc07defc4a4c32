"""axe-core and the Nu HTML checker on every kind of page."""

import json
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import must_run
from playwright.sync_api import Browser

pytestmark = pytest.mark.browser
PAGES = ("", "teams/", "teams/harbor/", "teams/harbor/ivan-nunez/", "phones/", "404.html")
# What the theme does by itself: `autocomplete` on the checkboxes that open its drawer and search.
OF_THE_THEME = ("autocomplete",)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1300])
def test_axe_finds_nothing(
    browser: Browser, serve: Callable[[Path], str], sample_site: Path, node_modules: Path, *, scheme: str, width: int
) -> None:
    base = serve(sample_site)
    # axe is put into the page by hand, which the policy would forbid.
    context = browser.new_context(color_scheme=scheme, viewport={"width": width, "height": 740}, bypass_csp=True)  # type: ignore[arg-type]
    found: list[str] = []
    for path in PAGES:
        page = context.new_page()
        page.goto(base + path)
        page.evaluate((node_modules / "axe-core/axe.min.js").read_text(encoding="utf-8"))
        for state in ("closed", "searching"):
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
    assert found == []


def test_the_nu_checker_finds_no_error_of_ours(sample_site: Path, node_modules: Path) -> None:
    if shutil.which("java") is None:
        must_run("the Nu HTML checker", "java is not on the PATH (Debian: apt install default-jre-headless)")
    jar = node_modules / "vnu-jar/build/dist/vnu.jar"
    pages = [
        str(sample_site / path / "index.html") if not path.endswith(".html") else str(sample_site / path)
        for path in PAGES
    ]
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
