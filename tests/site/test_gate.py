"""The page that asks for the passphrase: what it says, where it cannot open, how it looks, what its ciphers give."""

import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Literal

import pytest
from conftest import must_run
from hosts import Host
from known_answers import GCM, HKDF, PBKDF2
from locked import PASSPHRASE, type_in
from playwright.sync_api import Browser, BrowserContext, expect

pytestmark = pytest.mark.browser


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


@pytest.mark.parametrize(
    ("without", "words"),
    [
        ("Object.defineProperty(window, 'isSecureContext', { value: false })", "https://"),
        ("delete Navigator.prototype.serviceWorker", "ordinary window"),
        ("delete window.DecompressionStream", "too old"),
        # As where the reader has forbidden that sites keep anything.
        (
            "ServiceWorkerContainer.prototype.register = () => Promise.reject(new DOMException('no', 'SecurityError'))",
            "may not keep anything",
        ),
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
