"""The list of what a phone keeps is that of the folder, in the order a reader needs it."""

import json
import re
from hashlib import sha256
from pathlib import Path

import pytest

from scoutgen.site.offline import keep_offline, retire

PAGES = {
    "index.html": '<a href="b/">b</a><article><a href="./a/#top">a</a> <img src="pic.svg"></article>',
    "a/index.html": '<article><a href="../c.html">c</a><a href="../facts/a.json">f</a></article>',
    "b/index.html": '<a href="/x/">x</a><a href="..">home</a><a href="https://example.org/">out</a>',
    "c.html": '<a href="d%20e/">d</a>',
    "d e/index.html": "",
    "404.html": '<a href="/zz/">z</a>',
    "zz/index.html": "",
    "pic.svg": "<svg/>",
    "facts/a.json": "{}",
    "assets/site.css": "p {}",
    "assets/site.css.map": "{}",
    "search/search_index.json": "{}",
    ".scoutgen-site": "{}",
    ".git/x": "x",
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    for name, text in PAGES.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text)
    return tmp_path


def read(site: Path) -> tuple[dict[str, object], list[list[str]], list[str]]:
    """What the worker is told: the edition, the files, and the scripts it loads."""
    text = (site / "worker.js").read_text()
    edition = re.search(r"^self\.EDITION = (.*);$", text, re.MULTILINE)
    scripts = re.search(r"^importScripts\((.*)\);$", text, re.MULTILINE)
    assert edition
    assert scripts
    names = json.loads(f"[{scripts[1]}]")
    listed = (site / names[0]).read_text().removeprefix("self.FILES = ").removesuffix(";\n")
    return json.loads(edition[1]), json.loads(listed), names


def test_every_file_a_reader_can_come_to_is_listed_with_its_hash(site: Path) -> None:
    kept = keep_offline(site, built="2026-04-09 21:40")
    edition, files, names = read(site)
    assert {path for path, _ in files} == set(PAGES) - {"assets/site.css.map", ".scoutgen-site", ".git/x"}
    for path, digest in files:
        assert sha256((site / path).read_bytes()).hexdigest().startswith(digest)
        assert len(digest) == 32
    assert (edition["built"], edition["version"], edition["first"]) == ("2026-04-09 21:40", kept.version, kept.first)
    assert edition["bytes"] == kept.size_bytes == sum((site / path).stat().st_size for path, _ in files)
    assert len(files) == kept.files
    for name in names:
        assert name.split(".")[-2] == sha256((site / name).read_bytes()).hexdigest()[:8]


def test_what_tonight_needs_is_first_and_the_rest_follows_by_taps(site: Path) -> None:
    kept = keep_offline(site, built="")
    order = [path for path, _ in read(site)[1]]
    assert set(order[:4]) == {"404.html", "assets/site.css", "index.html", "search/search_index.json"}
    # What the page says itself comes before the menu around it.
    assert order[4:7] == ["a/index.html", "pic.svg", "b/index.html"]
    assert kept.first == 7
    assert order[7:] == ["c.html", "facts/a.json", "d e/index.html", "zz/index.html"]


def test_the_version_is_that_of_names_and_bytes_and_of_nothing_else(site: Path) -> None:
    first = keep_offline(site, built="2026-04-09 21:40")
    before = (site / "worker.js").read_bytes()
    # Written anew in the same folder: what the last time wrote is no part of it.
    assert keep_offline(site, built="2026-04-09 21:40") == first
    assert (site / "worker.js").read_bytes() == before
    (site / ".scoutgen-site").write_text("other")
    assert keep_offline(site, built="2026-04-10 08:00").version == first.version
    (site / "c.html").write_text("changed")
    second = keep_offline(site, built="2026-04-09 21:40")
    assert second.version != first.version
    assert (site / "worker.js").read_bytes() != before
    (site / "c.html").rename(site / "e.html")
    assert keep_offline(site, built="").version != second.version


def test_a_site_may_say_what_comes_first_and_add_to_the_worker(site: Path) -> None:
    kept = keep_offline(
        site, built="", order=["zz/index.html", "gone.html", "index.html"], parts={"unlock.js": "x();\n"}
    )
    _, files, names = read(site)
    assert kept.first == 2
    assert [path for path, _ in files[:2]] == ["zz/index.html", "index.html"]
    assert [path for path, _ in files[2:]] == sorted(path for path, _ in files[2:])
    assert [name.split("/")[-1].split(".")[0] for name in names] == ["list", "core", "unlock"]
    assert (site / names[-1]).read_text() == "x();\n"


def test_stamps_with_quotes_and_backslashes_reach_the_worker_as_they_are(site: Path) -> None:
    stamps = ["as of 2026", "as of\\20 2026", 'a "quoted" </script> name']
    keep_offline(site, built="", stamps=stamps, root="/sub/")
    edition, _, _ = read(site)
    assert edition["stamps"] == stamps
    assert edition["root"] == "/sub/"


def test_a_site_that_keeps_nothing_takes_old_copies_away(site: Path) -> None:
    retire(site)
    text = (site / "worker.js").read_text()
    assert "unregister" in text
    assert "importScripts" not in text
