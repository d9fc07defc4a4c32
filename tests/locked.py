"""What a reader of a locked site does, for tests that hold one: give the passphrase, open, ask what is behind it."""

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

from hosts import Host
from phones import line_says
from playwright.sync_api import BrowserContext, Page

from scoutgen.site.locked_files import read_index
from scoutgen.site.locked_site import read_locked

PASSPHRASE = "tova kilu mesu rida bune fozi"  # noqa: S105 - invented for these tests
OTHER = "sahu gapi gezu maja megu lihe"
SALT = b"s" * 32
# From a site to its locked form: `lock(site, passphrase=, built=, salt=)`.
Lock = Callable[..., Path]


def type_in(page: Page, passphrase: str) -> None:
    page.get_by_label("Passphrase").fill(passphrase)
    page.keyboard.press("Enter")


def unlocked(phone: BrowserContext, host: Host, address: str = "", passphrase: str = PASSPHRASE) -> Page:
    """A page of the site, opened by the gate, with everything kept."""
    page = phone.new_page()
    page.goto(host.address + address)
    type_in(page, passphrase)
    page.locator(".lock-row").wait_for(state="attached")
    line_says(page, "works without a signal", "[data-offline=line]")
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


@cache
def _index(locked: Path) -> dict[str, Any]:
    return read_index(*read_locked(locked, PASSPHRASE))


def shown(locked: Path, address: str) -> str:
    """Where a page of a site is in its locked form."""
    return str(_index(locked)["files"][address][0]).removesuffix("index.html")
