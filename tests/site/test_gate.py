"""A locked site in a browser: the page that asks, what opens, what the phone keeps, locking, removing, updates."""

import base64
import hashlib
import json
import re
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Literal

import pytest
from conftest import must_run
from hosts import Host
from known_answers import GCM, HKDF, PBKDF2
from playwright.sync_api import Browser, BrowserContext, Page, expect
from told import found_in, told_by

from scoutgen.site.lock import BLOCK
from scoutgen.site.locked_files import read_index
from scoutgen.site.locked_site import lock_site, read_locked, unlock_site
from scoutgen.site.output import MARKER

pytestmark = pytest.mark.browser
PASSPHRASE = "tova kilu mesu rida bune fozi"  # noqa: S105 - invented for these tests
OTHER = "sahu gapi gezu maja megu lihe"
SALT = b"s" * 32
PHONE = {"width": 360, "height": 740}
Lock = Callable[..., Path]


@pytest.fixture(scope="session")
def lock(tmp_path_factory: pytest.TempPathFactory) -> Lock:
    """A function from a site to its locked form."""

    def make(site: Path, passphrase: str = PASSPHRASE, built: str = "", salt: bytes = SALT) -> Path:
        out = tmp_path_factory.mktemp("locked") / "site"
        # The time its pages were built at: where the index says another, they rightly offer the newer version.
        at = built or json.loads((site / MARKER).read_text(encoding="utf-8"))["built"]
        lock_site(site, out, passphrase, salt, built=at)
        return out

    return make


@pytest.fixture(scope="session")
def locked_demo(demo_site: Path, lock: Lock) -> Path:
    return lock(demo_site)


@pytest.fixture(scope="session")
def locked_sample(sample_site: Path, lock: Lock) -> Path:
    return lock(sample_site)


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True)
    yield context
    context.close()


@pytest.fixture
def host(tmp_path: Path) -> Iterator[Host]:
    with Host(tmp_path / "host", "team/scouting/") as started:
        yield started


def until(what: Callable[[], object], seconds: float = 60) -> None:
    """Wait: a page's policy forbids the browser's own way of waiting."""
    end = time.monotonic() + seconds
    while not what():
        assert time.monotonic() < end, "waited in vain"
        time.sleep(0.05)


def type_in(page: Page, passphrase: str) -> None:
    page.get_by_label("Passphrase").fill(passphrase)
    page.keyboard.press("Enter")


def unlocked(phone: BrowserContext, host: Host, address: str = "", passphrase: str = PASSPHRASE) -> Page:
    """A page of the site, opened by the gate, with everything kept."""
    page = phone.new_page()
    page.goto(host.address + address)
    type_in(page, passphrase)
    page.locator(".lock-row").wait_for(state="attached")
    until(lambda: "works without a signal" in (page.locator("[data-offline=line]").first.text_content() or ""))
    return page


def ask_worker(page: Page, **words: object) -> Any:  # noqa: ANN401 - whatever it says
    return page.evaluate(
        """words => new Promise(done => {
            const channel = new MessageChannel();
            channel.port1.onmessage = event => done(event.data);
            navigator.serviceWorker.ready.then(r => r.active.postMessage(words, [channel.port2]));
        })""",
        words,
    )


def shown(locked: Path, address: str) -> str:
    return str(read_index(*read_locked(locked, PASSPHRASE))["files"][address][0]).removesuffix("index.html")


def cut_off(phone: BrowserContext, host: Host) -> None:
    host.stop()
    phone.set_offline(True)


def test_a_wrong_passphrase_says_so_and_the_right_one_opens_however_it_was_typed(
    phone: BrowserContext, host: Host, locked_sample: Path
) -> None:
    host.put(locked_sample)
    page = phone.new_page()
    page.goto(host.address)
    assert page.title() == "Private pages"
    type_in(page, PASSPHRASE.replace("f", "v"))
    expect(page.get_by_role("alert")).to_have_text(re.compile("That is not the passphrase"))
    field = page.get_by_label("Passphrase")
    expect(field).to_be_focused()
    expect(field).to_have_attribute("aria-invalid", "true")
    type_in(page, "")
    expect(page.get_by_role("alert")).to_have_text("Type the passphrase first.")
    # Shown and hidden again.
    show = page.get_by_role("button", name="Show")
    show.click()
    expect(field).to_have_attribute("type", "text")
    expect(show).to_have_attribute("aria-pressed", "true")
    type_in(page, "shown and wrong")
    expect(page.get_by_role("alert")).to_have_text(re.compile("That is not the passphrase"))
    expect(field).to_have_attribute("type", "password")
    expect(show).to_have_attribute("aria-pressed", "false")
    type_in(page, f"  {PASSPHRASE.replace(' ', '  ', 2)} ")
    page.locator(".lock-row").wait_for(state="attached")
    assert page.url == host.address


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
    page.get_by_text("nothing of these pages is left").wait_for()
    left = """async () => [await caches.keys(), (await indexedDB.databases()).length,
        (await navigator.serviceWorker.getRegistrations()).length, Object.keys(localStorage)]"""
    assert page.evaluate(left) == [[], 0, 0, []]
    # From the gate too, without the passphrase.
    page.goto(host.address)
    type_in(page, PASSPHRASE)
    page.locator(".lock-row").wait_for(state="attached")
    page.locator(".thumb-bar button", has_text="Lock").click()
    page.get_by_role("button", name="Remove from this phone").click()
    page.get_by_text("nothing of these pages is left").wait_for()
    assert page.evaluate(left) == [[], 0, 0, []]


def test_a_new_version_needs_no_passphrase_and_few_blocks_and_waits_for_a_tap(
    phone: BrowserContext, host: Host, demo_site: Path, lock: Lock, tmp_path: Path
) -> None:
    locked_demo = lock(demo_site)
    host.put(locked_demo)
    page = unlocked(phone, host)
    noted = tmp_path / "noted"
    _copy(demo_site, noted)
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


def test_the_page_about_this_phone_takes_the_key_along(phone: BrowserContext, host: Host, locked_sample: Path) -> None:
    host.put(locked_sample)
    page = unlocked(phone, host, "on-this-phone/")
    button = page.locator("article [data-offline=remove]")
    button.click()
    button.click()
    page.get_by_text("nothing of these pages is left").wait_for()
    assert page.evaluate("indexedDB.databases().then(all => all.length)") == 0
    assert page.evaluate("caches.keys()") == []


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
        pages["staff"].get_by_text("nothing of these pages is left").wait_for()
        host.stop()
        pages["players"].reload()
        assert pages["players"].locator(".lock-row").count() == 1


@pytest.mark.parametrize(
    ("without", "words"),
    [
        ("Object.defineProperty(window, 'isSecureContext', { value: false })", "https://"),
        ("delete Navigator.prototype.serviceWorker", "ordinary window"),
        ("delete window.DecompressionStream", "too old"),
    ],
)
def test_where_it_cannot_open_the_gate_says_so_before_anybody_types(
    phone: BrowserContext, host: Host, locked_sample: Path, *, without: str, words: str
) -> None:
    host.put(locked_sample)
    page = phone.new_page()
    page.add_init_script(without)
    page.goto(host.address)
    expect(page.get_by_role("alert")).to_have_text(re.compile(words))
    expect(page.get_by_label("Passphrase")).to_be_hidden()


def test_without_scripts_the_gate_says_what_it_needs(browser: Browser, host: Host, locked_sample: Path) -> None:
    host.put(locked_sample)
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(host.address)
    assert page.get_by_text("needs JavaScript").is_visible()
    assert not page.get_by_label("Passphrase").is_visible()
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_an_opened_page(
    browser: Browser, host: Host, locked_sample: Path, node_modules: Path, *, scheme: Literal["light", "dark"]
) -> None:
    host.put(locked_sample)
    context = browser.new_context(color_scheme=scheme, viewport={"width": 320, "height": 740}, bypass_csp=True)
    page = unlocked(context, host)
    page.evaluate((node_modules / "axe-core/axe.min.js").read_text(encoding="utf-8"))
    found = page.evaluate("axe.run().then(result => result.violations.map(v => `${v.id} ${v.nodes[0].target}`))")
    assert found == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    boxes = page.evaluate(
        "[...document.querySelectorAll('.lock-row button, .thumb-bar > button')].filter(e => e.offsetParent !== null"
        " || getComputedStyle(e.parentElement).position === 'fixed').map(e => e.getBoundingClientRect())"
        ".map(r => [r.width, r.height])"
    )
    assert len(boxes) >= 4
    assert min(min(box) for box in boxes) >= 44
    context.close()


def test_the_nu_checker_finds_nothing_on_the_gate(locked_sample: Path, node_modules: Path) -> None:
    if shutil.which("java") is None:
        must_run("the Nu HTML checker", "java is not on the PATH (Debian: apt install default-jre-headless)")
    jar = node_modules / "vnu-jar" / "build" / "dist" / "vnu.jar"
    command = ["java", "-jar", str(jar), "--errors-only", "--format", "json"]
    ran = subprocess.run([*command, str(locked_sample / "index.html")], capture_output=True, text=True, check=False)
    assert [message["message"] for message in json.loads(ran.stderr)["messages"]] == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 360, 1280])
def test_axe_finds_nothing_on_the_gate_and_nothing_sticks_out(
    browser: Browser,
    host: Host,
    locked_sample: Path,
    node_modules: Path,
    *,
    scheme: Literal["light", "dark"],
    width: int,
) -> None:
    host.put(locked_sample)
    context = browser.new_context(color_scheme=scheme, viewport={"width": width, "height": 740}, bypass_csp=True)
    page = context.new_page()
    page.goto(host.address)
    page.evaluate((node_modules / "axe-core/axe.min.js").read_text(encoding="utf-8"))
    for state in ("asking", "refused"):
        if state == "refused":
            type_in(page, "wrong")
            expect(page.get_by_role("alert")).to_have_text(re.compile("not the passphrase"))
        found = page.evaluate("axe.run().then(result => result.violations.map(v => v.id))")
        assert found == [], state
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        small = page.evaluate(
            "[...document.querySelectorAll('button, input')].filter(e => e.offsetParent)"
            ".map(e => e.getBoundingClientRect()).filter(r => r.height < 44 || r.width < 44).length"
        )
        assert small == 0
    context.close()


def test_the_browsers_ciphers_give_the_known_answers(phone: BrowserContext, host: Host, locked_sample: Path) -> None:
    """As gate.js and unlock.js call them; the same answers that test_lock.py asks of Python."""
    host.put(locked_sample)
    page = phone.new_page()
    page.goto(host.address)
    helpers = """
        const bytes = text => new Uint8Array((text.match(/../g) || []).map(byte => parseInt(byte, 16)));
        const hex = buffer => Array.from(new Uint8Array(buffer), byte => byte.toString(16).padStart(2, "0")).join("");
        const subtle = crypto.subtle;
    """
    for password, salt, rounds, answer in PBKDF2:
        got = page.evaluate(
            f"""async ([password, salt, iterations]) => {{ {helpers}
                const encode = text => new TextEncoder().encode(text);
                const typed = await subtle.importKey("raw", encode(password), "PBKDF2", false, ["deriveBits"]);
                const how = {{ name: "PBKDF2", hash: "SHA-256", salt: encode(salt), iterations }};
                return hex(await subtle.deriveBits(how, typed, 512));
            }}""",
            [password, salt, rounds],
        )
        assert got == answer
    for secret, salt, info, answer in HKDF:
        got = page.evaluate(
            f"""async ([secret, salt, info, bits]) => {{ {helpers}
                const key = await subtle.importKey("raw", bytes(secret), "HKDF", false, ["deriveBits"]);
                const how = {{ name: "HKDF", hash: "SHA-256", salt: bytes(salt), info: bytes(info) }};
                return hex(await subtle.deriveBits(how, key, bits));
            }}""",
            [secret, salt, info, len(answer) * 4],
        )
        assert got == answer
    for key, nonce, bound, text, cipher, tag in GCM:
        got = page.evaluate(
            f"""async ([raw, iv, bound, cipher]) => {{ {helpers}
                const key = await subtle.importKey("raw", bytes(raw), "AES-GCM", false, ["decrypt"]);
                const how = {{ name: "AES-GCM", iv: bytes(iv), additionalData: bytes(bound) }};
                return hex(await subtle.decrypt(how, key, bytes(cipher)));
            }}""",
            [key, nonce, bound, cipher + tag],
        )
        assert got == text


def _copy(site: Path, to: Path) -> None:
    for place in site.rglob("*"):
        if place.is_file():
            target = to / place.relative_to(site)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(place.read_bytes())
