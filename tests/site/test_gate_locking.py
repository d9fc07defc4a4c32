"""A locked site put away: by its reader, by the clock, off the phone, and beside another edition that stays."""

import re
from pathlib import Path

import pytest
from hosts import Host
from locked import OTHER, PASSPHRASE, Lock, ask_worker, shown, type_in, unlocked
from phones import cut_off, until
from playwright.sync_api import BrowserContext, expect

pytestmark = pytest.mark.browser


def test_lock_closes_every_tab_and_a_deep_link_opens_after_the_passphrase(
    phone: BrowserContext, host: Host, locked_sample: Path
) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host)
    where = shown(locked_sample, "teams/harbor/ivan-nunez/index.html")
    second = phone.new_page()
    second.goto(host.address)
    second.goto(host.address + where)
    page.locator(".lock-row").get_by_role("button", name="Lock").click()
    page.get_by_label("Passphrase").wait_for()
    second.get_by_label("Passphrase").wait_for()
    assert "harbor" not in second.url
    # Back shows the gate, and nothing is given out to a script either.
    second.go_back()
    second.get_by_label("Passphrase").wait_for()
    assert second.evaluate("fetch('search/search_index.json').then(r => r.status)") == 403
    assert ask_worker(second, ask="gate")["locked"]
    second.go_forward()
    type_in(second, PASSPHRASE)
    second.locator(".lock-row").wait_for(state="attached")
    assert second.url == host.address + where
    second.goto(host.address + "#to=" + "https%3A%2F%2Fexample.org%2F")
    second.reload()
    assert second.url.startswith(host.address)


def test_a_worker_started_anew_goes_on_with_the_key_and_locks_after_hours_without_use(
    phone: BrowserContext, host: Host, locked_sample: Path
) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host)
    session = phone.new_cdp_session(page)
    session.send("ServiceWorker.enable")
    session.send("ServiceWorker.stopAllWorkers")
    page.goto(host.address + shown(locked_sample, "teams/harbor/index.html"))
    assert page.locator(".lock-row").count() == 1
    used = """hours => new Promise(done => {
        indexedDB.databases().then(([{ name }]) => {
            const asked = indexedDB.open(name);
            asked.onsuccess = () => {
                const store = asked.result.transaction("lock", "readwrite").objectStore("lock");
                const got = store.get("key");
                got.onsuccess = () => {
                    store.put({ ...got.result, used: Date.now() - hours * 3600e3 }, "key").onsuccess = () => {
                        asked.result.close();
                        done();
                    };
                };
            };
        });
    })"""
    for hours, locked in ((11.9, False), (12.1, True)):
        page.evaluate(used, hours)
        session.send("ServiceWorker.stopAllWorkers")
        page.reload()
        assert (page.title() == "Private pages") is locked, hours
    assert page.evaluate("document.body.innerText").count("12 hours") == 1


def test_remove_takes_everything_off_the_phone(phone: BrowserContext, host: Host, locked_sample: Path) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host)
    page.evaluate("__md_set('side', 'L')")
    row = page.locator(".lock-row")
    row.get_by_role("button", name="Remove from this phone").click()
    assert page.evaluate("caches.keys()") != [], "one tap removes nothing"
    row.get_by_role("button", name="Tap again").click()
    page.get_by_role("heading", name="Removed from this phone").wait_for()
    left = """async () => [await caches.keys(), (await indexedDB.databases()).length,
        (await navigator.serviceWorker.getRegistrations()).length, Object.keys(localStorage)]"""
    assert page.evaluate(left) == [[], 0, 0, []]
    # From the gate too, without the passphrase.
    page.goto(host.address)
    type_in(page, PASSPHRASE)
    page.locator(".lock-row").wait_for(state="attached")
    page.locator(".thumb-bar button", has_text="Lock").click()
    page.get_by_role("button", name="Remove from this phone").click()
    page.get_by_role("heading", name="Removed from this phone").wait_for()
    assert page.evaluate(left) == [[], 0, 0, []]


def test_what_is_left_after_remove_says_what_is_gone_and_leads_back_to_the_gate(
    phone: BrowserContext, host: Host, locked_sample: Path, node_modules: Path
) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host, shown(locked_sample, "teams/harbor/index.html"))
    told = page.locator("h1").inner_text()
    # In the gate's look without a signal too.
    cut_off(phone, host)
    row = page.locator(".lock-row")
    row.get_by_role("button", name="Remove from this phone").click()
    row.get_by_role("button", name="Tap again").click()
    page.get_by_role("heading", name="Removed from this phone").wait_for()
    body = page.locator("body").inner_text()
    assert told not in page.content()
    assert "all pages, the key that opened them, and your choices" in body
    assert "takes a connection and the passphrase" in body
    assert page.title() == "Removed from this phone"
    assert page.evaluate("getComputedStyle(document.querySelector('main')).maxWidth") == "416px"
    page.evaluate((node_modules / "axe-core/axe.min.js").read_text(encoding="utf-8"))
    assert page.evaluate("axe.run().then(result => result.violations.map(v => v.id))") == []
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    [button] = page.get_by_role("button").all()
    box = button.bounding_box()
    assert box
    assert box["height"] >= 44
    phone.set_offline(False)
    host.start()
    button.click()
    page.get_by_label("Passphrase").wait_for()
    assert page.url == host.address
    # From the gate, where it was locked, the same.
    type_in(page, PASSPHRASE)
    page.locator(".thumb-bar button", has_text="Lock").click()
    page.get_by_role("button", name="Remove from this phone").click()
    page.get_by_role("heading", name="Removed from this phone").wait_for()
    page.get_by_role("button", name="Back to the passphrase").click()
    page.get_by_label("Passphrase").wait_for()


FULL = "{ throw new DOMException('no room', 'QuotaExceededError') }"


def test_a_phone_without_room_says_so_reads_on_and_locks_all_the_same(
    phone: BrowserContext, host: Host, locked_sample: Path
) -> None:
    host.put(locked_sample)
    page = phone.new_page()
    page.goto(host.address)
    page.get_by_label("Passphrase").wait_for()
    until(lambda: phone.service_workers)
    # No room for the key: said as what it is.
    worker = phone.service_workers[0]
    worker.evaluate(f"self.put = IDBObjectStore.prototype.put; IDBObjectStore.prototype.put = () => {FULL}; 0")
    type_in(page, PASSPHRASE)
    expect(page.get_by_role("alert")).to_have_text(re.compile("no room left, not even for the key"), timeout=60_000)
    worker.evaluate("IDBObjectStore.prototype.put = self.put; 0")
    type_in(page, PASSPHRASE)
    page.locator(".lock-row").wait_for(state="attached")
    # Then neither the hour of use can be written nor the key be taken out.
    worker.evaluate(f"IDBObjectStore.prototype.put = IDBObjectStore.prototype.clear = () => {FULL}; 0")
    worker.evaluate("Date.now = (real => () => real() + 3600e3)(Date.now); 0")
    page.goto(host.address + shown(locked_sample, "teams/harbor/index.html"))
    assert page.locator(".lock-row").count() == 1
    page.locator(".thumb-bar button", has_text="Lock").click()
    page.get_by_label("Passphrase").wait_for()
    assert ask_worker(page, ask="gate")["locked"]
    assert page.evaluate("indexedDB.databases().then(all => all.length)") == 0


def test_a_worker_that_does_not_answer_keeps_nothing_on_the_phone(
    phone: BrowserContext, host: Host, locked_sample: Path
) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host)
    phone.service_workers[0].evaluate("MessagePort.prototype.postMessage = () => {}; 0")
    row = page.locator(".lock-row")
    row.get_by_role("button", name="Remove from this phone").click()
    row.get_by_role("button", name="Tap again").click()
    expect(row.get_by_role("button", name="Removing")).to_be_disabled()
    page.get_by_role("heading", name="Removed from this phone").wait_for()
    assert page.evaluate("caches.keys()") == []
    assert page.evaluate("indexedDB.databases().then(all => all.length)") == 0


def test_the_page_about_this_phone_takes_the_key_along(phone: BrowserContext, host: Host, locked_sample: Path) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host, "on-this-phone/")
    button = page.locator("article [data-offline=remove]")
    button.click()
    button.click()
    page.get_by_role("heading", name="Removed from this phone").wait_for()
    assert page.evaluate("indexedDB.databases().then(all => all.length)") == 0
    assert page.evaluate("caches.keys()") == []


def test_two_editions_of_one_host_keep_apart(
    phone: BrowserContext, tmp_path: Path, sample_site: Path, locked_sample: Path, lock: Lock
) -> None:
    with Host(tmp_path / "host") as host:
        host.put(locked_sample, "staff/")
        host.put(lock(sample_site, passphrase=OTHER, salt=b"p" * 32), "players/")
        pages = {}
        for name, passphrase in (("staff", PASSPHRASE), ("players", OTHER)):
            host.path = f"{name}/"
            pages[name] = unlocked(phone, host, passphrase=passphrase)
        pages["staff"].locator(".thumb-bar button", has_text="Lock").click()
        pages["staff"].get_by_label("Passphrase").wait_for()
        pages["players"].reload()
        assert pages["players"].locator(".lock-row").count() == 1
        pages["staff"].get_by_role("button", name="Remove from this phone").click()
        pages["staff"].get_by_role("heading", name="Removed from this phone").wait_for()
        host.stop()
        pages["players"].reload()
        assert pages["players"].locator(".lock-row").count() == 1
