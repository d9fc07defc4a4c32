"""A new version on a phone that keeps an old one: fetched quietly, sparingly and whole, read when the reader taps."""

import json
import re
from hashlib import sha256
from pathlib import Path

import pytest
from hosts import Host
from phones import BAR, ask_for_updates, cut_off, keep, line_says, listed_files, opened, rebuilt, texts, until
from playwright.sync_api import BrowserContext

pytestmark = pytest.mark.browser
PITCHER = "teams/harbor/ivan-nunez/"


def test_a_new_version_is_fetched_quietly_and_read_when_the_reader_taps(
    phone: BrowserContext, host: Host, sample_site: Path, tmp_path: Path
) -> None:
    host.put(sample_site)
    page = keep(phone, host)
    page.goto(host.address + PITCHER)
    host.put(rebuilt(sample_site, tmp_path / "new", "2026-04-09 21:40", {PITCHER + "index.html": "<p>He is hurt</p>"}))
    host.asked.clear()
    ask_for_updates(page)
    page.locator(BAR).wait_for()
    # The day too, since that was not today.
    assert page.locator(BAR).inner_text() == "New version from 2026-04-09 21:40, tap to load"
    # All pages say another time, one says other words: that one came over the air, beside the worker and its list.
    fetched = {path.removeprefix("/team/scouting/") for path in host.asked}
    assert {path for path in fetched if not path.startswith(("worker.js", "assets/offline/"))} == {PITCHER}
    # Nothing changes for whoever does not tap.
    page.reload()
    page.locator(BAR).wait_for()
    other = phone.new_page()
    other.goto(host.address + PITCHER)
    assert "He is hurt" not in texts(page) + texts(other)
    cut_off(phone, host)
    page.locator(BAR).click()
    until(lambda: "He is hurt" in texts(page))
    assert not page.locator(BAR).count()
    assert "built 2026-04-09 21:40" in page.locator(".site-foot").inner_text()
    line_says(page, "Kept on this phone, works without a signal. Built 2026-04-09 21:40")
    # The other tab stays where its reader is, and says so.
    other.locator(BAR).wait_for()
    assert "He is hurt" not in texts(other)
    for path in ("", "teams/", PITCHER):
        assert opened(page, host.address + path).status == 200
        assert "built 2026-04-09 21:40" in page.locator(".site-foot").inner_text()
    stored = page.evaluate("caches.open('scoutgen ' + __md_scope.href).then(c => c.keys()).then(k => k.length)")
    hashes = {sha256(p.read_bytes()).hexdigest() for p in listed_files(tmp_path / "new")}
    assert stored == len(hashes) + 1, "what the new version does not need is gone; the note is one more"


def test_the_bar_says_the_time_alone_when_the_build_is_of_today(
    phone: BrowserContext, host: Host, sample_site: Path, tmp_path: Path
) -> None:
    host.put(sample_site)
    page = keep(phone, host)
    today = page.evaluate("new Date().toLocaleDateString('sv-SE')")
    host.put(rebuilt(sample_site, tmp_path / "new", f"{today} 21:40", {}))
    ask_for_updates(page)
    page.locator(BAR).wait_for()
    assert page.locator(BAR).inner_text() == "New version from 21:40, tap to load"


@pytest.mark.parametrize("fault", ["missing", "another file in its place"])
def test_an_update_that_is_not_whole_leaves_the_version_before_whole(
    phone: BrowserContext, host: Host, sample_site: Path, tmp_path: Path, fault: str
) -> None:
    host.put(sample_site)
    page = keep(phone, host)
    changes = {PITCHER + "index.html": "<p>He is hurt</p>", "teams/index.html": "<p>New</p>"}
    new = rebuilt(sample_site, tmp_path / "new", "2026-04-09 21:40", changes)
    good = (new / PITCHER / "index.html").read_text()
    if fault == "missing":
        (new / PITCHER / "index.html").unlink()
    else:
        (new / PITCHER / "index.html").write_text("<p>Log in first</p>")
    host.put(new)
    host.asked.clear()
    ask_for_updates(page)
    until(lambda: f"/{host.path}{PITCHER}" in host.asked)
    page.wait_for_timeout(500)
    assert not page.locator(BAR).count()
    for path in ("", "teams/", PITCHER, "teams/mesa/"):
        assert opened(page, host.address + path).status == 200
        assert "built 2026-04-09 12:00" in page.locator(".site-foot").inner_text()
    line_says(page, "Kept on this phone, works without a signal. Built 2026-04-09 12:00")
    # Mended, the update goes on where it stopped.
    (new / PITCHER / "index.html").write_text(good)
    host.put(new)
    host.asked.clear()
    ask_for_updates(page)
    page.locator(BAR).wait_for()
    assert "/team/scouting/teams/" not in host.asked, "was fetched the first time"
    page.locator(BAR).click()
    until(lambda: "built 2026-04-09 21:40" in page.locator(".site-foot").inner_text())
    page.goto(host.address + PITCHER)
    assert "He is hurt" in texts(page)


def test_a_build_of_another_time_differs_in_nothing_but_what_a_phone_mends(
    demo_site: Path, demo_site_later: Path
) -> None:
    def edition(site: Path) -> dict[str, list[str]]:
        found = re.search(r"^self\.EDITION = (.*);$", (site / "worker.js").read_text(), re.MULTILINE)
        assert found
        return json.loads(found[1])  # type: ignore[no-any-return]

    old, new = edition(demo_site)["stamps"], edition(demo_site_later)["stamps"]
    assert not set(old) & set(new)
    different, other_words = 0, []
    for path in listed_files(demo_site):
        other = demo_site_later / path.relative_to(demo_site)
        if path.read_bytes() == other.read_bytes():
            continue
        text = path.read_text(encoding="utf-8")
        for before, after in zip(old, new, strict=True):
            text = text.replace(before, after)
        different += 1
        if text != other.read_text(encoding="utf-8"):
            other_words.append(path.relative_to(demo_site).as_posix())
    assert different > 100
    # What changed is said of another build than the first time, on its page and at home.
    assert set(other_words) <= {"index.html", "changed/index.html", "search/search_index.json"}
