"""The recruiting edition in a real Chromium: a list that sorts and narrows, plain without scripts; a sheet a man."""

import io
import shutil
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser, Page
from site_checks import PHONE, axe_in_all_schemes, opened

from scoutgen.site.build import build_site

pytestmark = pytest.mark.browser
ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("scouts")
    for name in ("content", "data"):
        shutil.copytree(ROOT / name, folder / name)
    return build_site(folder, as_of="2026-04-09", edition="recruiting").out


@pytest.fixture(scope="module")
def base(serve: Callable[[Path], str], site: Path) -> str:
    return serve(site)


@pytest.fixture
def phone(browser: Browser, base: str) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(base)
    yield page
    context.close()


def column(page: Page, name: str) -> list[str]:
    """What the rows in sight say first in one column, from the top."""
    return page.evaluate(
        """name => {
            const table = document.querySelector(".tbl-evaluations");
            const at = [...table.tHead.rows[0].cells].findIndex(head => head.textContent.trim() === name);
            return [...table.tBodies[0].rows].filter(row => row.offsetParent !== null)
                .map(row => row.cells[at].firstChild.textContent.trim());
        }""",
        name,
    )


def head(page: Page, name: str) -> str | None:
    return page.locator(".tbl-evaluations thead th", has_text=name).first.get_attribute("aria-sort")


def test_a_tap_on_a_head_sorts_and_says_so_and_a_second_turns_it_round(phone: Page) -> None:
    assert head(phone, "Home to first") == "none"
    button = phone.locator(".tbl-evaluations .sort", has_text="Home to first")
    button.click()
    times = column(phone, "Home to first, s")
    timed = [float(time) for time in times if time != "–"]
    assert len(timed) > 10
    assert timed == sorted(timed)
    # Whom nobody timed comes last either way.
    assert times == [*times[: len(timed)], *["–"] * (len(times) - len(timed))]
    assert head(phone, "Home to first") == "ascending"
    assert phone.locator("[role=status].list-said").inner_text() == (
        f"Sorted by Home to first, s, ascending. {len(times)} of {len(times)} shown."
    )
    button.click()
    turned = [float(time) for time in column(phone, "Home to first, s") if time != "–"]
    assert turned == timed[::-1]
    assert head(phone, "Home to first") == "descending"


@pytest.mark.parametrize(("name", "first"), [("Overall", "descending"), ("Who", "ascending"), ("Class", "ascending")])
def test_every_column_sorts_by_keyboard_the_useful_way_first(phone: Page, name: str, first: str) -> None:
    phone.locator(".tbl-evaluations .sort", has_text=name).first.focus()
    phone.keyboard.press("Enter")
    assert head(phone, name) == first
    if name == "Class":
        order = [["Fr", "So", "Jr", "Sr", "Gr"].index(year) for year in column(phone, "Class")]
        assert order == sorted(order)


def test_what_is_chosen_narrows_the_list_and_is_counted(phone: Page) -> None:
    every = len(column(phone, "Who"))
    phone.locator(".list-bar-fold summary").click()
    phone.get_by_label("Plays").select_option("RHP")
    phone.get_by_label("Overall at least").select_option("50")
    left = column(phone, "Overall")
    assert 0 < len(left) < every
    assert set(column(phone, "Plays")) == {"RHP"}
    assert min(map(int, left)) >= 50
    assert phone.locator(".list-said").inner_text() == f"{len(left)} of {every} shown."
    phone.get_by_role("button", name="Show all").click()
    assert len(column(phone, "Who")) == every
    phone.get_by_label("Name or tool").fill("nunez")
    assert column(phone, "Who") == ["27 Iker Núñez"]


def test_targets_are_for_a_thumb_and_nothing_scrolls_sideways(phone: Page, base: str) -> None:
    phone.locator(".list-bar-fold summary").click()
    targets = phone.locator(".tbl-evaluations .sort, .list-bar select, .list-bar input, .list-bar button")
    heights = [box["height"] for target in targets.all() if (box := target.bounding_box())]
    assert len(heights) > 20
    assert min(heights) >= 44
    for path in ("", "how-to-read/", "how-we-grade/", "evaluations/harbor/iker-nunez/"):
        phone.goto(base + path)
        assert phone.evaluate("document.documentElement.scrollWidth") <= 360


def test_without_scripts_the_list_is_a_plain_table(browser: Browser, base: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(base)
    assert page.locator(".tbl-evaluations tbody tr").count() > 20
    assert page.locator(".tbl-evaluations tbody tr").first.inner_text().startswith("30 Tuck Hallworth")
    assert page.locator("button.sort, .list-bar").count() == 0
    assert page.locator(".thumb-bar a").first.inner_text() == "List"
    context.close()


def test_each_evaluation_is_one_letter_sheet_with_everything_on_it(browser: Browser, base: str, site: Path) -> None:
    page = browser.new_page()
    files = sorted(site.glob("evaluations/*/*/index.html"))
    assert len(files) > 20
    for file in files:
        page.goto(base + file.parent.relative_to(site).as_posix() + "/")
        sheet = pypdf.PdfReader(io.BytesIO(page.pdf(format="Letter")))
        assert len(sheet.pages) == 1, file
        # The font joins ff and fi into one letter each.
        words = " ".join(unicodedata.normalize("NFKC", sheet.pages[0].extract_text()).split())
        assert "The compliance staff decides" in words
        assert "recruiting edition, as of 2026-04-09" in words
        rows = [" ".join(row.split()) for row in page.locator(".tbl-grades tbody th").all_inner_texts()]
        assert [row for row in rows if row not in words] == []
    page.close()


def test_axe_finds_nothing(browser: Browser, base: str, node_modules: Path) -> None:
    axe = (node_modules / "axe-core/axe.min.js").read_text(encoding="utf-8")
    found: list[str] = []
    paths = ("", "how-to-read/", "evaluations/harbor/iker-nunez/")
    for width in (360, 1300):
        size = {"width": width, "height": 740}
        with opened(browser, base, paths, viewport=size, bypass_csp=True, **PHONE) as shown:
            for path, page in shown:
                page.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true })")
                found += [f"{path} {line}" for line in axe_in_all_schemes(page, axe)]
    assert found == []
