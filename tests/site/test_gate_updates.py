"""A new version of a locked site, under the same passphrase and under another."""

import re
import shutil
from pathlib import Path

import pytest
from hosts import Host
from locked import OTHER, PASSPHRASE, Lock, type_in, unlocked
from phones import cut_off
from playwright.sync_api import BrowserContext, expect

pytestmark = pytest.mark.browser


def test_a_new_version_needs_no_passphrase_and_few_blocks_and_waits_for_a_tap(
    phone: BrowserContext, host: Host, demo_site: Path, lock: Lock, tmp_path: Path
) -> None:
    locked_demo = lock(demo_site)
    host.put(locked_demo)
    page = unlocked(phone, host)
    noted = tmp_path / "noted"
    shutil.copytree(demo_site, noted)
    home = noted / "index.html"
    home.write_text(home.read_text().replace("</h1>", " (new)</h1>", 1))
    host.put(lock(noted, built="2026-04-10 08:15"))
    host.asked.clear()
    page.evaluate("navigator.serviceWorker.ready.then(r => r.update())")
    bar = page.get_by_role("button", name=re.compile("New version from .*08:15"))
    bar.wait_for()
    blocks = [path for path in host.asked if "/b/" in path]
    assert 0 < len(blocks) < len(list((locked_demo / "b").iterdir())) / 4
    # Still the old one, offline too, until it is wanted.
    cut_off(phone, host)
    page.reload()
    assert "(new)" not in page.locator("h1").inner_text()
    bar.wait_for()
    bar.click()
    page.locator("h1", has_text="(new)").wait_for()


def test_a_changed_passphrase_leaves_the_old_version_open_until_the_new_one_is_loaded(
    phone: BrowserContext, host: Host, sample_site: Path, locked_sample: Path, lock: Lock
) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host)
    host.put(lock(sample_site, passphrase=OTHER, built="2026-04-10 08:15"))
    page.evaluate("navigator.serviceWorker.ready.then(r => r.update())")
    bar = page.get_by_role("button", name=re.compile("New version from"))
    bar.wait_for()
    page.reload()
    assert page.locator(".lock-row").count() == 1
    bar.wait_for()
    bar.click()
    page.get_by_label("Passphrase").wait_for()
    type_in(page, PASSPHRASE)
    expect(page.get_by_role("alert")).to_have_text(re.compile("That is not the passphrase"))
    type_in(page, OTHER)
    page.locator(".lock-row").wait_for(state="attached")


def test_a_locked_phone_takes_the_new_passphrase_at_once(
    phone: BrowserContext, host: Host, sample_site: Path, locked_sample: Path, lock: Lock
) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host)
    page.locator(".thumb-bar button", has_text="Lock").click()
    page.get_by_label("Passphrase").wait_for()
    host.put(lock(sample_site, passphrase=OTHER, built="2026-04-10 08:15", salt=b"t" * 32))
    type_in(page, OTHER)
    page.locator(".lock-row").wait_for(state="attached")
