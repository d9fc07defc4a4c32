"""A locked folder: nothing in it tells anything, everything comes back with the passphrase, and a build makes it."""

import base64
import gzip
import json
import re
import shutil
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from locked import OTHER, PASSPHRASE, SALT
from told import forms, found_in, heap_of, told_by

from scoutgen.cli import main
from scoutgen.site.build import Built
from scoutgen.site.installable import draw_icons
from scoutgen.site.lock import BLOCK, LockError
from scoutgen.site.locked_files import read_index
from scoutgen.site.locked_site import lock_site, read_locked, unlock_site
from scoutgen.site.output import LOCKED_SEAL, MARKER, OutputError
from scoutgen.site.passphrase import PassphraseError
from scoutgen.site.salts import refuse_shared, remember_check
from scoutgen.site.scan import dead_links, scan_page

SOURCES = Path(__file__).parents[2] / "scoutgen" / "site" / "assets" / "lock"


def test_nothing_the_demo_tells_stands_in_its_locked_form(demo_site: Path, locked_demo: Path) -> None:
    told = told_by(demo_site)
    assert len(told) > 600
    assert {"Iker Núñez", "iker-nunez", "harbor", "Gannet Harbor", "Kestrel Ridge scouting"} <= told
    assert found_in(heap_of(locked_demo), told) == []


@pytest.mark.parametrize("form", forms("Iker Núñez"))
def test_the_search_finds_a_name_in_every_form_it_could_hide_in(locked_demo: Path, form: str) -> None:
    assert found_in(heap_of(locked_demo) + b"..." + forms("Iker Núñez")[form] + b"...", ["Iker Núñez"])


def test_base64_is_found_wherever_the_text_begins() -> None:
    for before in (b"", b"a", b"ab", b"abc"):
        assert found_in(base64.b64encode(before + "Iker Núñez".encode() + b"after"), ["Iker Núñez"])


def chi_square(text: bytes) -> float:
    """How far the bytes are from all being equally frequent: 255 degrees of freedom, so 255 with a deviation of 23."""
    counts, expected = Counter(text), len(text) / 256
    return sum((counts[byte] - expected) ** 2 for byte in range(256)) / expected


def test_the_blocks_are_of_one_size_and_look_like_chance(locked_demo: Path, demo_site: Path) -> None:
    blocks = [place.read_bytes() for place in (locked_demo / "b").iterdir()]
    assert {len(block) for block in blocks} == {BLOCK}
    # Odds of a false alarm: below 1 in a million.
    assert 150 < chi_square(b"".join(blocks)) < 380
    assert max(map(chi_square, blocks)) < 400
    # Neither pages nor what is merely compressed would pass.
    pages = [place.read_bytes() for place in sorted(demo_site.rglob("*.html"))]
    assert chi_square(pages[0]) > 400
    assert chi_square(b"".join(map(gzip.compress, pages))) > 400


def test_names_of_blocks_say_nothing_of_what_is_in_them(locked_demo: Path) -> None:
    names = [place.name for place in (locked_demo / "b").iterdir()]
    assert not [name for name in names if not re.fullmatch("[0-9a-f]{32}", name)]
    listed = next((locked_demo / "assets" / "offline").glob("list.*.js")).read_text()
    in_order = re.findall(r'"b/([0-9a-f]{32})"', listed)
    assert in_order == sorted(names)


def test_everything_comes_back_with_the_passphrase(demo_site: Path, locked_demo: Path) -> None:
    files = unlock_site(locked_demo, PASSPHRASE)
    plain = {
        place.relative_to(demo_site).as_posix(): place.read_bytes() for place in demo_site.rglob("*") if place.is_file()
    }
    unasked = {address for address in plain if address.startswith((".", "assets/offline/")) or address == "worker.js"}
    assert set(plain) - set(files) == unasked
    assert {name.split(".")[0] for name in set(files) - set(plain)} == {"assets/scoutgen/pages"}
    changed = {address for address in set(plain) & set(files) if files[address] != plain[address]}
    # Links of pages and of the search index; pages with their two files of the lock.
    assert {address.rpartition(".")[2] for address in changed} <= {"html", "json"}
    assert [address for address in changed if address.endswith("json")] == ["search/search_index.json"]


def test_every_link_leads_to_a_page_at_its_hidden_address(locked_demo: Path) -> None:
    files = unlock_site(locked_demo, PASSPHRASE)
    shown = {
        address: seen for address, (seen, *_) in read_index(*read_locked(locked_demo, PASSPHRASE))["files"].items()
    }
    pages = {shown[address]: scan_page(files[address].decode())[0] for address in files if address.endswith(".html")}
    assert len(pages) > 150
    assert dead_links(pages, set(shown.values())) == []
    found = json.loads(files["search/search_index.json"])["docs"]
    assert not [doc["location"] for doc in found if doc["location"].split("#")[0] + "index.html" not in pages]
    assert not [seen for seen in shown.values() if "harbor" in seen]


def test_another_passphrase_opens_nothing(locked_demo: Path) -> None:
    with pytest.raises(LockError):
        unlock_site(locked_demo, PASSPHRASE.replace("f", "v"))


def test_one_changed_page_changes_few_blocks_and_another_day_only_the_index(demo_site: Path, tmp_path: Path) -> None:
    def blocks(name: str, site: Path, stamps: tuple[str, ...]) -> set[str]:
        lock_site(site, tmp_path / name, PASSPHRASE, SALT, built="now", stamps=stamps)
        return {place.name for place in (tmp_path / name / "b").iterdir()}

    [built] = set(re.findall(r"built (\d{4}-\d\d-\d\d \d\d:\d\d)", (demo_site / "index.html").read_text()))
    later, noted = tmp_path / "later-site", tmp_path / "noted-site"
    for copy in (later, noted):
        shutil.copytree(demo_site, copy)
    for page in [*later.rglob("*.html"), *later.rglob("*.json")]:
        page.write_bytes(page.read_bytes().replace(built.encode(), b"2026-04-10 08:15"))
    page = noted / "teams" / "harbor" / "players" / "iker-nunez" / "index.html"
    page.write_text(page.read_text().replace("</article>", "<p>He holds the ball.</p></article>"))
    before = blocks("before", demo_site, (built,))
    assert len(blocks("later", later, ("2026-04-10 08:15",)) - before) == 1
    assert len(blocks("noted", noted, (built,)) - before) <= len(before) / 5


def test_the_gate_and_the_manifest_are_the_same_for_every_site(
    sample_site: Path, locked_demo: Path, tmp_path: Path
) -> None:
    lock_site(sample_site, tmp_path / "other", "another passphrase altogether", b"t" * 32, built="2026-04-09 21:40")
    for name in ("index.html", "404.html", "manifest.webmanifest"):
        assert (tmp_path / "other" / name).read_bytes() == (locked_demo / name).read_bytes()
    gate = (locked_demo / "index.html").read_text()
    assert "Content-Security-Policy" in gate
    assert "noindex" in gate
    assert scan_page(gate)[1] == []
    assert not re.search(r"<script(?![^>]*\ssrc=)|<style|\sstyle=|https?:", gate)


def test_the_page_for_unknown_addresses_links_from_the_root(sample_site: Path, tmp_path: Path) -> None:
    lock_site(sample_site, tmp_path / "out", PASSPHRASE, SALT, built="now", root="/team/")
    gate = (tmp_path / "out" / "404.html").read_text()
    assert re.findall('src="(.*?)gate/gate[.]', gate) == [
        "",
        "../",
        "../" * 2,
        "../" * 3,
        *("../" * n for n in (4, 5, 6)),
        "/team/",
    ]
    assert 'href="/team/manifest.webmanifest"' in gate


def test_the_icons_are_what_the_drawing_gives(request: pytest.FixtureRequest) -> None:
    drawn = draw_icons((SOURCES / "icon.svg").read_text(encoding="utf-8"))
    assert set(drawn) == {place.name for place in SOURCES.glob("*.png")}
    for name, png in drawn.items():
        if request.config.getoption("--accept"):
            (SOURCES / name).write_bytes(png)
        assert (SOURCES / name).read_bytes() == png, f"{name}: `pytest --accept` draws it anew"


def test_the_page_about_this_phone_says_what_the_lock_is_and_a_plain_one_does_not(
    sample_site: Path, locked_sample: Path
) -> None:
    page = unlock_site(locked_sample, PASSPHRASE)["on-this-phone/index.html"].decode()
    assert page.count("<h2>The lock</h2>") == 1
    assert "do not use them for 12 hours" in page
    assert page.index("<h2>The lock</h2>") < page.index("<h2>Off this phone</h2>")
    plain = (sample_site / "on-this-phone/index.html").read_text()
    assert "12 hours" not in plain
    assert "passphrase" not in plain


@pytest.fixture
def passphrase_file(tmp_path: Path) -> Path:
    file = tmp_path / "staff.txt"
    file.write_text(f"{PASSPHRASE}\n")
    file.chmod(0o600)
    return file


def test_a_build_locks_swaps_and_leaves_nothing_readable_behind(
    build_book: Callable[..., Built], project: Path, passphrase_file: Path
) -> None:
    (project / "content" / "pages").mkdir()
    (project / "content" / "pages" / "phones.md").write_text("# Phones\n\nNo phones in the dugout.\n")
    built = build_book(passphrase_file=passphrase_file)
    assert built.locked
    assert built.warnings == ()
    assert json.loads((built.out / MARKER).read_text()) == LOCKED_SEAL
    assert b"No phones in the dugout" in unlock_site(built.out, PASSPHRASE)["phones/index.html"]
    assert not (project / ".scoutgen" / "scratch").exists()
    assert [place.name for place in built.out.parent.glob(".site*")] == []
    heap = heap_of(project)
    assert found_in(heap, [PASSPHRASE]) == []
    first = {place.name for place in (built.out / "b").iterdir()}
    again = build_book(passphrase_file=passphrase_file)
    # The same salt, so that the key of a phone stays good, and the same bytes but for the day in the index.
    assert len({place.name for place in (again.out / "b").iterdir()} - first) <= 1


def test_a_plain_build_never_takes_the_place_of_a_locked_site(
    build_book: Callable[..., Built], passphrase_file: Path
) -> None:
    built = build_book(passphrase_file=passphrase_file)
    with pytest.raises(OutputError, match="holds a locked site"):
        build_book()
    assert unlock_site(built.out, PASSPHRASE)
    # Nor of one that a build killed between two renames left beside it.
    built.out.rename(built.out.with_name(f".{built.out.name}.scoutgen-former"))
    with pytest.raises(OutputError, match="holds a locked site"):
        build_book()
    assert unlock_site(built.out, PASSPHRASE)
    # The other way round nothing is given away.
    shutil.rmtree(built.out)
    build_book()
    assert build_book(passphrase_file=passphrase_file).locked


def test_a_passphrase_made_of_the_projects_own_names_stops_the_build_and_the_last_site_stands(
    build_book: Callable[..., Built], project: Path, passphrase_file: Path
) -> None:
    built = build_book(passphrase_file=passphrase_file)
    title = next(iter(re.findall("<title>(.*?)</title>", unlock_site(built.out, PASSPHRASE)["index.html"].decode())))
    passphrase_file.write_text(f"{title} {title}!\n")
    with pytest.raises(PassphraseError, match="too easy"):
        build_book(passphrase_file=passphrase_file)
    assert unlock_site(built.out, PASSPHRASE)
    passphrase_file.write_text(f"{PASSPHRASE}\n")
    assert not (project / ".scoutgen" / "lock").exists()


def test_the_passphrase_of_one_edition_is_refused_for_another(
    build_book: Callable[..., Built], project: Path, passphrase_file: Path
) -> None:
    remember_check(project, "players", PASSPHRASE)
    with pytest.raises(PassphraseError, match="passphrase of the players edition"):
        build_book(passphrase_file=passphrase_file)
    # Changed for the players, it is free again; and an edition may keep its own.
    remember_check(project, "players", OTHER)
    assert build_book(passphrase_file=passphrase_file).locked
    assert build_book(passphrase_file=passphrase_file).locked
    refuse_shared(project, "staff", PASSPHRASE)
    with pytest.raises(PassphraseError, match="passphrase of the staff edition"):
        refuse_shared(project, "players", PASSPHRASE)


def test_the_commands_say_one_line_and_end_with_their_code(project: Path, tmp_path: Path) -> None:
    def run(*arguments: str) -> tuple[int, str, str]:
        done = CliRunner().invoke(main, arguments)
        return done.exit_code, done.stdout, done.stderr

    file = tmp_path / "made.txt"
    assert run("passphrase", "--out", str(file)) == (0, f"wrote {file}\n", "")
    assert run("passphrase", "--out", str(file))[0] == 2
    code, out, err = run("passphrase")
    assert (code, len(out.split()), err) == (0, 6, "")
    short = tmp_path / "short.txt"
    short.write_text("short\n")
    short.chmod(0o600)
    for given, reason in ((short, "too short"), (tmp_path / "none.txt", "cannot be read")):
        code, out, err = run("build", "--project", str(project), "--passphrase-file", str(given))
        assert (code, out, err.count("\n")) == (2, "", 1), err
        assert reason in err
    code, _, err = run("build", "--project", str(project), "--all", "--passphrase-file", str(file))
    assert code == 2
    assert "every edition" in err
