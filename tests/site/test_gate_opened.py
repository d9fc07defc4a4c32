"""A locked site once its passphrase was given: what opens, what the phone keeps of it, what the host hears."""

import base64
import hashlib
import json
import re
from pathlib import Path
from typing import Literal

import pytest
from hosts import Host
from locked import PASSPHRASE, shown, type_in, unlocked
from phones import cut_off, until
from playwright.sync_api import Browser, BrowserContext
from told import found_in, told_by

from scoutgen.site.lock import BLOCK
from scoutgen.site.locked_files import read_index
from scoutgen.site.locked_site import read_locked, unlock_site

pytestmark = pytest.mark.browser


def test_every_file_opens_byte_for_byte_without_a_signal(
    phone: BrowserContext, host: Host, demo_site: Path, locked_demo: Path
) -> None:
    host.put(locked_demo)
    page = unlocked(phone, host)
    # In airplane mode the passphrase is asked for and opens as well.
    page.locator(".thumb-bar button", has_text="Lock").click()
    page.get_by_label("Passphrase").wait_for()
    cut_off(phone, host)
    type_in(page, PASSPHRASE)
    page.locator(".lock-row").wait_for(state="attached")
    files = unlock_site(locked_demo, PASSPHRASE)
    index = read_index(*read_locked(locked_demo, PASSPHRASE))["files"]
    expected = {
        index[address][0]: hashlib.sha256(content).hexdigest()
        for address, content in files.items()
        # Answered by the worker in its own way: the generic manifest, and the page for unknown addresses.
        if address not in {"manifest.webmanifest", "404.html"}
    }
    got = page.evaluate(
        """async files => Object.fromEntries(await Promise.all(files.map(async file => {
            const response = await fetch(new URL(file.replace(/(^|\\/)index\\.html$/, "$1"), __md_scope));
            const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await response.arrayBuffer()));
            return [file, Array.from(digest, byte => byte.toString(16).padStart(2, "0")).join("")];
        })))""",
        list(expected),
    )
    assert len(got) > 250
    assert got == expected
    # Pages, links, search, reload, a second tab, a deep link.
    page.locator(".thumb-bar button", has_text="Search").click()
    page.locator(".md-search__input").type("nunez")
    page.locator(".md-search-result__item a").first.click()
    page.locator("h1", has_text="Iker Núñez").wait_for()
    player = host.address + shown(locked_demo, "teams/harbor/players/iker-nunez/index.html")
    # What was searched for does not stay in the address, which a browser without the worker would tell the host.
    until(lambda: page.evaluate("location.href") == player)
    page.reload()
    assert page.locator("h1").inner_text().startswith("27 Iker")
    second = phone.new_page()
    second.goto(f"{player}#clock")
    assert second.locator("h1").inner_text().startswith("27 Iker")
    assert second.url == f"{player}#clock"
    # An address as the project has it leads to the hidden one.
    second.goto(host.address + "teams/harbor/players/iker-nunez#clock")
    assert second.url == f"{player}#clock"
    response = second.goto(host.address + "teams/harbor/nobody/")
    assert response
    assert response.status == 404
    assert second.locator("h1").inner_text() == "Nothing is here"
    assert demo_site.is_dir()


def test_pages_carry_the_same_policy_and_are_not_stored_in_plain(
    phone: BrowserContext, host: Host, locked_sample: Path
) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host)
    response = page.reload()
    assert response
    assert response.from_service_worker
    assert response.headers["cache-control"] == "no-store"
    assert response.headers["content-type"] == "text/html; charset=utf-8"
    policy = page.locator("meta[http-equiv=Content-Security-Policy]").get_attribute("content")
    assert policy
    assert "default-src 'none'; script-src 'self'" in policy


def test_what_the_phone_keeps_tells_nothing_and_the_key_cannot_be_taken_out(
    phone: BrowserContext, host: Host, demo_site: Path, locked_demo: Path
) -> None:
    host.put(locked_demo)
    page = unlocked(phone, host)
    page.goto(host.address + shown(locked_demo, "teams/harbor/players/iker-nunez/index.html"))
    kept = page.evaluate(
        """async () => {
            const all = [];
            for (const name of await caches.keys()) {
                const store = await caches.open(name);
                for (const request of await store.keys()) {
                    const bytes = new Uint8Array(await (await store.match(request)).arrayBuffer());
                    let text = "";
                    for (let at = 0; at < bytes.length; at += 4096) {
                        text += String.fromCharCode(...bytes.subarray(at, at + 4096));
                    }
                    all.push([name + " " + request.url, btoa(text)]);
                }
            }
            return all;
        }"""
    )
    bodies = [base64.b64decode(body) for _, body in kept]
    assert sum(len(body) == BLOCK for body in bodies) == len(list((locked_demo / "b").iterdir()))
    heap = b"\n".join([*(address.encode() for address, _ in kept), *bodies])
    assert len(heap) > 3_000_000
    assert found_in(heap, told_by(demo_site)) == []
    assert found_in(heap, [PASSPHRASE]) == []
    record = page.evaluate(
        """async () => {
            const [{ name }] = await indexedDB.databases();
            const base = await new Promise(done => {
                const asked = indexedDB.open(name);
                asked.onsuccess = () => done(asked.result);
            });
            const store = base.transaction("lock").objectStore("lock");
            const all = await new Promise(done => {
                const asked = store.getAll();
                asked.onsuccess = () => done(asked.result);
            });
            const { key, ...rest } = all[0];
            const out = await crypto.subtle.exportKey("raw", key).then(() => "taken out", error => error.name);
            const { extractable, usages } = key;
            return { count: all.length, rest: Object.keys(rest), type: key.constructor.name, extractable, usages, out };
        }"""
    )
    assert record == {
        "count": 1,
        "rest": ["used"],
        "type": "CryptoKey",
        "extractable": False,
        "usages": ["decrypt"],
        "out": "InvalidAccessError",
    }
    local = json.dumps(page.evaluate("[{...localStorage}, {...sessionStorage}]"))
    assert PASSPHRASE not in local


def test_a_link_on_a_fresh_phone_asks_the_host_for_nothing_that_tells(
    phone: BrowserContext, host: Host, locked_sample: Path
) -> None:
    """Under a path that the build did not know: the page for unknown addresses finds what it needs."""
    host.put(locked_sample)
    where = shown(locked_sample, "teams/harbor/ivan-nunez/index.html")
    gate = phone.new_page()
    gate.goto(host.address + where)
    gate.get_by_label("Passphrase").wait_for()
    until(lambda: gate.evaluate("getComputedStyle(document.querySelector('main')).maxWidth") == "416px")
    gate.close()
    page = unlocked(phone, host, where + "#clock")
    assert page.url == host.address + where + "#clock"
    assert page.locator("h1").inner_text().startswith("Iván Núñez")
    page.locator(".md-header__title").wait_for()
    assert not [path for path in host.asked if re.search("harbor|nunez|teams|search", path)]


def test_what_is_not_kept_yet_is_said_in_words(phone: BrowserContext, host: Host, locked_demo: Path) -> None:
    host.put(locked_demo)
    host.slow_seconds = 0.3
    page = phone.new_page()
    page.goto(host.address)
    type_in(page, PASSPHRASE)
    page.locator(".lock-row").wait_for(state="attached")
    cut_off(phone, host)
    response = page.goto(host.address + shown(locked_demo, "teams/saltmarsh/index.html"))
    assert response
    assert response.status == 503
    assert "not on the phone yet" in page.locator("body").inner_text()


@pytest.mark.parametrize("scheme", ["light", "dark", "sun"])
def test_axe_finds_nothing_from_the_opened_page_over_the_gate_to_the_removed_one(
    browser: Browser, host: Host, locked_sample: Path, node_modules: Path, *, scheme: str
) -> None:
    host.put(locked_sample)
    phone: Literal["light", "dark"] = "light" if scheme == "light" else "dark"
    context = browser.new_context(color_scheme=phone, viewport={"width": 320, "height": 740}, bypass_csp=True)
    page = unlocked(context, host)
    axe = (node_modules / "axe-core/axe.min.js").read_text(encoding="utf-8")

    def looked_at(which: str) -> None:
        page.evaluate(axe)
        found = page.evaluate("axe.run().then(result => result.violations.map(v => `${v.id} ${v.nodes[0].target}`))")
        assert found == [], which
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, which
        boxes = page.evaluate(
            "[...document.querySelectorAll('.lock-row button, .thumb-bar > button, main > button, .field button')]"
            ".filter(e => e.offsetParent !== null || getComputedStyle(e.parentElement).position === 'fixed')"
            ".map(e => e.getBoundingClientRect()).map(r => [r.width, r.height])"
        )
        assert boxes, which
        assert min(min(box) for box in boxes) >= 44, which
        # What was chosen on the pages holds at the gate, and as long as anything of them is on the screen.
        paper = page.evaluate("getComputedStyle(document.body).backgroundColor")
        bright = sum(map(int, re.findall(r"\d+", paper)[:3])) > 600
        assert bright is (scheme != "dark"), f"{which}: {paper}"

    if scheme == "sun":
        page.get_by_role("button", name="Sun", exact=True).click()
    looked_at("opened")
    # One row, though Lock has come to it.
    assert page.evaluate("document.querySelector('.thumb-bar').getBoundingClientRect().height") < 80
    page.locator(".thumb-bar button", has_text="Lock").click()
    page.get_by_label("Passphrase").wait_for()
    looked_at("gate")
    page.get_by_role("button", name="Remove from this phone").click()
    page.get_by_role("heading", name="Removed from this phone").wait_for()
    looked_at("removed")
    context.close()
