"""One zip, the same bytes for the same input, in which every link leads to a file and search works from a folder."""

import os
import re
import stat
import subprocess
import sys
import zipfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote

import pytest
import sample_book
from click.testing import CliRunner
from phones import until
from playwright.sync_api import Browser
from site_checks import kinds_of

from scoutgen.cli import main
from scoutgen.pages.book import Book
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.records.skeletons import init_project
from scoutgen.site import plugin
from scoutgen.site.output import OutputError
from scoutgen.site.pack import folder_name, pack_site

AS_OF = "2026-04-09"
LINK = re.compile(r'(?:href|src)="([^"#?]+)')
UseBook = Callable[[Book | Exception], None]


@pytest.fixture
def ready(project: Path, use_book: UseBook) -> Path:
    use_book(sample_book.book())
    (project / "content/pages").mkdir()
    (project / "content/pages/phones.md").write_text("# Phones\n\nNo phones in the dugout.\n")
    return project


def names(place: Path) -> set[str]:
    with zipfile.ZipFile(place) as packed:
        return set(packed.namelist())


def test_the_folder_in_the_zip_says_team_edition_and_day(ready: Path) -> None:
    packed = pack_site(ready, as_of=AS_OF)
    assert packed.out == ready / "project-staff-as-of-2026-04-09.zip"
    inside = names(packed.out)
    assert {name.partition("/")[0] for name in inside} == {"project-staff-as-of-2026-04-09"}
    short = {name.partition("/")[2] for name in inside}
    assert {"READ-ME.txt", "index.html", "phones.html", "teams/harbor/ivan-nunez.html"} <= short
    # Nothing that only a host can use, nothing that says how it was made.
    assert not [name for name in short if "worker.js" in name and "disk-worker" not in name]
    assert not [name for name in short if name.startswith((".", "manifest", "on-this-phone", "404"))]
    with zipfile.ZipFile(packed.out) as opened:
        read_me = opened.read("project-staff-as-of-2026-04-09/READ-ME.txt").decode()
    assert "double click index.html" in read_me
    assert "staff edition, as of 2026-04-09, built 2026-04-09 12:00" in read_me
    assert len(read_me.splitlines()) < 15


@pytest.mark.parametrize(
    ("team", "folder"),
    [("Peña Núñez / scouting", "pena-nunez-scouting"), ("../..", "scouting"), ("Ridge's", "ridges")],
)
def test_a_folders_name_is_one_that_every_system_takes(team: str, folder: str) -> None:
    assert folder_name(team, "players", "2026-04-09") == f"{folder}-players-as-of-2026-04-09"


def test_the_same_input_gives_the_same_bytes(ready: Path, tmp_path: Path) -> None:
    first = pack_site(ready, tmp_path / "a.zip", as_of=AS_OF)
    second = pack_site(ready, tmp_path / "b.zip", as_of=AS_OF)
    assert first.out.read_bytes() == second.out.read_bytes()
    pack_site(ready, tmp_path / "a.zip", as_of=AS_OF)
    assert first.out.read_bytes() == second.out.read_bytes(), "written over by its own kind"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.zip", "b.zip", "project"]


@pytest.mark.parametrize(
    ("built", "first"), [("1970-01-01 00:00", (1980, 1, 1, 0, 0, 0)), ("2026-04-09 12:01", (2026, 4, 9, 12, 1, 0))]
)
def test_a_time_before_zips_began_is_the_first_they_know(
    ready: Path, monkeypatch: pytest.MonkeyPatch, *, built: str, first: tuple[int, ...]
) -> None:
    made = replace(sample_book.edition_book(), built=built)
    monkeypatch.setattr(plugin, "read_book", lambda *_, **__: made)
    packed = pack_site(ready, as_of=AS_OF)
    with zipfile.ZipFile(packed.out) as opened:
        assert {entry.date_time for entry in opened.infolist()} == {first}
        assert f"built {built}" in opened.read(f"{packed.folder}/READ-ME.txt").decode()


def test_every_link_leads_to_a_file(ready: Path, tmp_path: Path) -> None:
    packed = pack_site(ready, tmp_path / "a.zip", as_of=AS_OF)
    links = 0
    with zipfile.ZipFile(packed.out) as opened:
        inside = set(opened.namelist())
        for name in inside:
            if not name.endswith(".html"):
                continue
            for link in LINK.findall(opened.read(name).decode()):
                assert normpath(join(dirname(name), link)) in inside, f"{name}: {link}"
                links += 1
    assert links > 100


def test_what_is_no_zip_of_ours_is_not_written_over(ready: Path, tmp_path: Path) -> None:
    (tmp_path / "thesis.zip").write_text("mine")
    with zipfile.ZipFile(tmp_path / "photos.zip", "w") as photos:
        photos.writestr("a.jpg", "a")
    for name in ("thesis.zip", "photos.zip"):
        before = (tmp_path / name).read_bytes()
        with pytest.raises(OutputError, match="is no zip of scoutgen"):
            pack_site(ready, tmp_path / name, as_of=AS_OF)
        assert (tmp_path / name).read_bytes() == before
    with pytest.raises(OutputError, match="is a folder"):
        pack_site(ready, tmp_path, as_of=AS_OF)
    with pytest.raises(OutputError, match="there is no folder"):
        pack_site(ready, tmp_path / "gone" / "a.zip", as_of=AS_OF)
    with pytest.raises(OutputError, match="into content/"):
        pack_site(ready, ready / "content" / "a.zip", as_of=AS_OF)


def test_a_pack_that_fails_leaves_the_last_zip_and_nothing_beside_it(
    ready: Path, tmp_path: Path, use_book: UseBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out"
    out.mkdir()
    good = pack_site(ready, out / "a.zip", as_of=AS_OF).out.read_bytes()
    use_book(ProblemsFoundError([Problem("data/games.csv", 3, "date", "is no date")]))
    with pytest.raises(ProblemsFoundError):
        pack_site(ready, out / "a.zip", as_of=AS_OF)
    use_book(sample_book.book())
    written: list[str] = []

    def full(_: object, entry: zipfile.ZipInfo, __: bytes) -> None:
        written.append(entry.filename)
        if len(written) > 5:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(zipfile.ZipFile, "writestr", full)
    with pytest.raises(OSError, match="No space left"):
        pack_site(ready, out / "a.zip", as_of=AS_OF)
    assert [path.name for path in out.iterdir()] == ["a.zip"]
    assert (out / "a.zip").read_bytes() == good


# All pages stand, and nothing else is done.
_STOPS = """
import sys, time
from pathlib import Path
from scoutgen.site import finish
def stop(site, *_, **__):
    (Path(site) / "stopped").touch()
    time.sleep(600)
finish.write_search = stop
from scoutgen.cli import main
main(sys.argv[1:])
"""


def test_killed_it_leaves_nothing_outside_and_the_next_command_clears_what_it_left(tmp_path: Path) -> None:
    project, elsewhere = tmp_path / "project", tmp_path / "elsewhere"
    elsewhere.mkdir()
    init_project(project, "ridge", "Kestrel Ridge")
    command = [sys.executable, "-c", _STOPS, "pack", "--project", str(project), "--as-of", AS_OF]
    packing = subprocess.Popen(
        command, env={**os.environ, "TMPDIR": str(elsewhere)}, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    until(lambda: list(project.glob(".scoutgen/scratch/pack.*/.site.scoutgen-next/stopped")))
    assert list(project.glob(".scoutgen/scratch/pack.*/.site.scoutgen-next/index.html"))
    packing.kill()
    packing.wait()
    assert list(elsewhere.iterdir()) == []
    [left] = project.glob(".scoutgen/scratch/*")
    assert stat.S_IMODE(left.stat().st_mode) == 0o700
    assert CliRunner().invoke(main, ["check", "--project", str(project)]).exit_code == 0
    assert not (project / ".scoutgen" / "scratch").exists()


def test_every_link_of_the_demo_leads_to_a_file(demo_pack: Path) -> None:
    pages = sorted(demo_pack.rglob("*.html"))
    assert len(pages) > 150
    led = {(page, unquote(link)) for page in pages for link in LINK.findall(page.read_text(encoding="utf-8"))}
    assert len(led) > 4000
    assert [(page, link) for page, link in led if not (page.parent / link).is_file()] == []


@pytest.mark.browser
def test_the_demo_opens_from_a_folder_with_search_and_without_a_network(browser: Browser, demo_pack: Path) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740}, offline=True)
    page = context.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda request: None if request.url.startswith("file://") else said.append(request.url))
    page.goto((demo_pack / "index.html").as_uri())
    for words, file in (("nunez", "teams/harbor/players/iker-nunez.html"), ("#27", None), ("gannet harbor", None)):
        page.locator(".thumb-bar button", has_text="Search").click()
        page.locator(".md-search__input").type(words)
        first = page.locator(".md-search-result__item a").first
        first.wait_for()
        first.click()
        page.locator("h1").wait_for()
        assert page.url.startswith(demo_pack.as_uri())
        if file:
            assert page.url.partition("?")[0] == (demo_pack / file).as_uri()
    page.locator(".thumb-bar a", has_text="Tonight").click()
    assert page.url == (demo_pack / "index.html").as_uri()
    kinds = kinds_of(demo_pack)
    assert len(kinds) > 20
    for path in kinds:
        file = demo_pack / path
        page.goto((file if file.is_file() else file / "index.html").as_uri(), wait_until="domcontentloaded")
        assert page.locator("h1").count() == 1, path
    assert page.evaluate("navigator.serviceWorker ? navigator.serviceWorker.controller : null") is None
    assert said == []
    context.close()
