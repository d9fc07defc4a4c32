"""The demo on a phone without a signal: the host is stopped and the browser is cut off, both."""

import re
import shutil
from hashlib import sha256
from pathlib import Path

import pytest
from hosts import Host
from phones import cut_off, found, keep, line_says, opened, until
from playwright.sync_api import BrowserContext
from site_checks import kinds_of

from scoutgen.site.offline import retire

pytestmark = pytest.mark.browser
PITCHER = "teams/harbor/ivan-nunez/"


def test_everything_opens_in_airplane_mode(phone: BrowserContext, host: Host, demo_site: Path) -> None:
    host.put(demo_site)
    page = keep(phone, host)
    cut_off(phone, host)
    # Every page and what pages lead to that is none, byte for byte; but the page for unknown addresses, to which the
    # worker says where it is.
    every = [path for path in demo_site.rglob("*.*") if path.suffix in {".html", ".json"} and path.name != "404.html"]
    files = sorted(path.relative_to(demo_site).as_posix() for path in every)
    assert len([file for file in files if file.endswith(".html")]) > 150
    assert len([file for file in files if file.endswith(".json")]) > 50
    got = page.evaluate(FETCHED, [re.sub(r"(^|/)index\.html$", r"\1", file) for file in files])
    assert got == [[200, sha256((demo_site / file).read_bytes()).hexdigest()] for file in files]
    # And every kind of page as a reader opens it.
    for path in kinds_of(demo_site):
        assert opened(page, host.address + path).status == 200, path
        assert page.evaluate("getComputedStyle(document.querySelector('.thumb-bar')).position") == "fixed", path


FETCHED = """async paths => Promise.all(paths.map(async path => {
    const response = await fetch(new URL(path, __md_scope));
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await response.arrayBuffer()));
    return [response.status, Array.from(digest, byte => byte.toString(16).padStart(2, "0")).join("")];
}))"""


def test_deep_links_unknown_addresses_and_search_without_a_signal(
    phone: BrowserContext, host: Host, demo_site: Path
) -> None:
    host.put(demo_site)
    page = keep(phone, host)
    cut_off(phone, host)
    page.close()
    page = phone.new_page()
    opened(page, host.address + "teams/harbor?x=1#notes")
    assert page.url == host.address + "teams/harbor/?x=1#notes", "an address without its slash"
    for unknown in ("nobody", "teams/harbor/nobody/", "teams/%zz", "constructor/", "__proto__"):
        response = opened(page, host.address + unknown)
        assert response.status == 404, unknown
        assert response.headers["content-type"] == "text/html; charset=utf-8"
        assert page.locator("h1").inner_text() == "Nothing is here"
        # Its links hold although it was built for the root of a host.
        assert page.evaluate("getComputedStyle(document.querySelector('.thumb-bar')).position") == "fixed"
        assert found(page, "nunez") == host.address + "teams/harbor/players/iker-nunez/"
    page.locator(".md-search-result__item a").first.click()
    page.locator("h1", has_text="Núñez").wait_for()


def test_the_page_on_this_phone_says_that_all_opens_and_takes_it_off(
    phone: BrowserContext, host: Host, sample_site: Path
) -> None:
    host.put(sample_site)
    page = keep(phone, host)
    page.evaluate("__md_set('side', 'L')")
    page.evaluate("localStorage.setItem('/other/.side', '1')")
    assert found(page, "airplane") == host.address + "on-this-phone/"
    page.goto(host.address + "on-this-phone/")
    line_says(page, "Kept on this phone", "article [data-offline=line]")
    page.get_by_role("button", name="Remove from this phone").click()
    line_says(page, "Removed from this phone", "article [data-offline=line]")
    left = page.evaluate(
        "async () => [await caches.keys(), (await navigator.serviceWorker.getRegistrations()).length,"
        " Object.keys(localStorage)]"
    )
    assert left == [[], 0, ["/other/.side"]]
    # The rest of this visit keeps nothing; the reader may want it again.
    response = page.goto(host.address)
    assert response
    assert not response.from_service_worker
    line_says(page, "Not kept on this phone: removed")
    assert page.evaluate("caches.keys()") == []
    page.goto(host.address + "on-this-phone/")
    page.get_by_role("button", name="Keep on this phone").click()
    line_says(page, "Kept on this phone", "article [data-offline=line]")
    cut_off(phone, host)
    assert opened(page, host.address).status == 200


def test_what_is_not_kept_yet_comes_from_the_host_and_the_rest_follows_later(
    phone: BrowserContext, host: Host, sample_site: Path
) -> None:
    host.put(sample_site)
    # The host loses one file that the home page does not lead to; all else can be kept.
    far = "facts/mesa/sam-brandt.json"
    (host.folder / host.path / far).rename(host.folder / "aside")
    page = phone.new_page()
    page.goto(host.address)
    line_says(page, f"Not kept whole: {far} is not to be had (404). The site works while there is a signal.")
    (host.folder / "aside").rename(host.folder / host.path / far)
    page.reload()
    line_says(page, "Kept on this phone, works without a signal")


def test_no_room_is_said_and_the_site_works_while_there_is_a_signal(
    phone: BrowserContext, host: Host, sample_site: Path
) -> None:
    host.put(sample_site)
    core = next((host.folder / host.path / "assets/offline").glob("core.*.js"))
    # A full phone throws this at the worker.
    core.write_text(
        "Cache.prototype.put = async () => { throw new DOMException('', 'QuotaExceededError') };\n" + core.read_text()
    )
    page = phone.new_page()
    page.goto(host.address)
    line_says(page, "no room for 1 MB. The site works while there is a signal.")
    page.goto(host.address + PITCHER)
    assert "Núñez" in page.locator("h1").inner_text()


def test_an_address_without_https_says_why_nothing_is_kept(
    phone: BrowserContext, host: Host, sample_site: Path
) -> None:
    host.put(sample_site)
    page = phone.new_page()
    page.add_init_script("Object.defineProperty(window, 'isSecureContext', {value: false})")
    page.goto(host.address)
    line_says(page, "Not kept on this phone: that needs an address that begins with https.")
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(r => r.length)") == 0


def test_a_browser_that_keeps_no_sites_says_so(phone: BrowserContext, host: Host, sample_site: Path) -> None:
    host.put(sample_site)
    page = phone.new_page()
    page.add_init_script(
        "navigator.serviceWorker.register = () => Promise.reject(new DOMException('', 'SecurityError'))"
    )
    page.goto(host.address)
    line_says(page, "Not kept on this phone: this browser does not let it")


def test_a_phone_that_saves_data_is_asked_first(phone: BrowserContext, host: Host, sample_site: Path) -> None:
    host.put(sample_site)
    page = phone.new_page()
    page.add_init_script("Object.defineProperty(navigator.connection, 'saveData', {value: true})")
    page.goto(host.address + "on-this-phone/")
    line_says(page, "since it is set to save data", "article [data-offline=line]")
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(r => r.length)") == 0
    page.get_by_role("button", name="Keep on this phone").click()
    line_says(page, "Kept on this phone", "article [data-offline=line]")


def test_editions_on_one_host_keep_apart_even_one_inside_another(
    phone: BrowserContext, host: Host, sample_site: Path
) -> None:
    host.put(sample_site)
    inner = host.address + "players/"
    host.put(sample_site, host.path + "players/")
    page = keep(phone, host)
    # Unknown to the outer one's list, but there.
    page.goto(inner)
    line_says(page, "Kept on this phone, works without a signal")
    assert len(page.evaluate("caches.keys()")) == 2
    page.evaluate("__md_set('side', 'R')")
    page.goto(host.address + "on-this-phone/")
    page.evaluate("__md_set('side', 'L')")
    page.get_by_role("button", name="Remove from this phone").click()
    line_says(page, "Removed from this phone", "article [data-offline=line]")
    assert page.evaluate("caches.keys()") == ["scoutgen " + inner]
    cut_off(phone, host)
    assert opened(page, inner).status == 200
    assert page.evaluate("__md_get('side')") == "R"


def test_a_page_that_is_served_while_it_is_worked_on_is_caught_by_no_old_worker(
    phone: BrowserContext, host: Host, sample_site: Path, tmp_path: Path
) -> None:
    host.put(sample_site)
    page = keep(phone, host)
    fresh = tmp_path / "fresh"
    shutil.copytree(sample_site, fresh)
    (fresh / "index.html").write_text("<!doctype html><title>x</title><h1>Worked on</h1>")
    retire(fresh)
    host.put(fresh)
    page.goto(host.address)
    until(lambda: page.locator("h1").inner_text() == "Worked on")
    until(lambda: page.evaluate("navigator.serviceWorker.getRegistrations().then(r => r.length)") == 0)
    assert page.evaluate("caches.keys()") == []
