"""Parts of a site built apart and joined give the site built whole; what is no part of it is refused, in one line."""

import json
import os
import shutil
import zipfile
from collections.abc import Collection, Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from small_builds import BUILT, build_small, files, measured_once
from small_season import note, write_small_season

from scoutgen.cli import main
from scoutgen.measures.usual import Usual
from scoutgen.pages import found_by_team, kept_findings, team_books
from scoutgen.pages.findings import Findings, find
from scoutgen.records.season import Season
from scoutgen.site import edition_book
from scoutgen.site import part as module
from scoutgen.site.output import OutputError
from scoutgen.site.part import Taken, make_part, take_parts
from scoutgen.site.sealed import Sealed

LATER, EARLIER = str(int(BUILT) + 3600), str(int(BUILT) - 86400)
PARTS = {"west": ["cedarholm"], "east": ["lowmarsh", "stonebury"]}


def run(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


@pytest.fixture(scope="module", autouse=True)
def measured() -> Iterator[None]:
    with measured_once():
        yield


@pytest.fixture(scope="module")
def parts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two parts of the small season, each built on a machine of its own and at its own time."""
    folder = tmp_path_factory.mktemp("parts")
    with pytest.MonkeyPatch.context() as patch:
        for (name, teams), time in zip(PARTS.items(), (LATER, EARLIER), strict=True):
            patch.setenv("SOURCE_DATE_EPOCH", time)
            make_part(write_small_season(folder / name), teams, folder / f"{name}.part")
    return folder


def kinds(part: Path) -> dict[str, int]:
    with zipfile.ZipFile(part) as opened:
        folders = [name.rpartition("/")[0] for name in opened.namelist()]
    return {folder: folders.count(folder) for folder in sorted(set(folders))}


def test_a_part_holds_its_teams_and_nothing_of_others(parts: Path) -> None:
    assert kinds(parts / "west.part") == {"": 1, "books/staff": 1, "charts": 2, "rendered/staff": 10}
    assert kinds(parts / "east.part") == {"": 1, "books/staff": 2, "charts": 4, "rendered/staff": 20}
    with zipfile.ZipFile(parts / "west.part") as opened:
        assert json.loads(opened.read("part.json")) == {
            "edition": "staff", "as_of": "2026-04-09", "teams": ["cedarholm"],
        }  # fmt: skip
        whole = b"".join(opened.read(name) for name in opened.namelist())
    assert b"Holds his glove high, Cedarholm." in whole
    assert b"Holds his glove high, Lowmarsh" not in whole
    # Nothing was built there but the part.
    assert not (parts / "west/site").exists()
    assert not (parts / "west/.scoutgen/scratch").exists()
    assert not (parts / "west/.scoutgen/lock").exists()


def test_a_part_of_a_project_that_was_built_before_is_the_same(
    small_site: Path, parts: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", LATER)
    written = files(small_site.parent / ".scoutgen/markdown")
    made = run("build", "--project", small_site.parent, "--only", "cedarholm", "--out", tmp_path / "a.part")
    assert made.exit_code == 0, made.output
    left = files(small_site.parent / ".scoutgen/markdown")
    assert {name for name in written if left.get(name) != written[name]} <= {
        name for name in written if "cedarholm" in name
    }
    assert (tmp_path / "a.part").read_bytes() == (parts / "west.part").read_bytes()
    size = f"{(tmp_path / 'a.part').stat().st_size / 1e6:.1f} MB"
    assert made.stdout == (
        f"wrote {tmp_path / 'a.part'} ({size}): staff edition, 10 pages of cedarholm; "
        f"join it with: scoutgen build --join {tmp_path / 'a.part'}\n"
    )


def test_joined_they_are_the_site_built_whole_byte_by_byte(
    small_site: Path, parts: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", BUILT)
    written: list[str] = []
    project = write_small_season(tmp_path / "joined")

    monkeypatch.setattr(team_books, "team_book", lambda sources, *_, **__: written.append(sources.team.key))
    made = run("build", "--project", project, "--join", parts / "west.part", "--join", parts / "east.part")
    assert made.exit_code == 0, made.output
    assert written == []
    assert made.stdout.splitlines()[:3] == [
        f"{parts / 'west.part'}: pages of cedarholm taken",
        f"{parts / 'east.part'}: pages of lowmarsh, stonebury taken",
        "Staff edition: 52 pages, 6 charts (0 drawn anew), 0 warnings",
    ]
    assert files(project / "site") == files(small_site)


def test_parts_of_a_large_season_measure_their_teams_and_bring_what_they_measured(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", BUILT)
    monkeypatch.setattr(kept_findings, "LARGE", 0)
    monkeypatch.setattr(edition_book, "_COMPARED_PITCHES", 0)
    measured: list[list[str]] = []

    def noted(season: Season, *rest: Any, usual: Usual, about: Collection[str]) -> Findings:  # noqa: ANN401 - passed on
        measured.append(sorted(about))
        return find(season, *rest, usual=usual, about=about)

    monkeypatch.setattr(found_by_team, "find", noted)
    for name, teams in PARTS.items():
        make_part(write_small_season(tmp_path / name), teams, tmp_path / f"{name}.part")
    # Whom a series is with is on its pages, whoever's part it is.
    assert measured == [["cedarholm"], ["cedarholm", "lowmarsh", "stonebury"]]
    # What is usual, and each of its own.
    assert [kinds(tmp_path / f"{name}.part")["tables/staff"] for name in PARTS] == [2, 3]
    with zipfile.ZipFile(tmp_path / "east.part") as opened:
        tables = b"".join(opened.read(name) for name in opened.namelist() if name.startswith("tables/"))
    assert b"ada-lowmarsh" in tables
    assert b"ada-stonebury" in tables
    assert b"ada-cedarholm" not in tables
    whole, joined = write_small_season(tmp_path / "whole"), write_small_season(tmp_path / "joined")
    measured.clear()
    assert run("build", "--project", whole).exit_code == 0
    assert measured == [["cedarholm", "lowmarsh", "ridge", "stonebury"]]
    measured.clear()
    parts = (word for name in PARTS for word in ("--join", tmp_path / f"{name}.part"))
    assert run("build", "--project", joined, *parts).exit_code == 0
    assert measured == [["ridge"]]
    assert files(joined / "site") == files(whole / "site")


def test_a_part_made_before_a_note_changed_is_said_to_be_and_the_site_is_right_on_one_processor_too(
    small_site: Path, tmp_path: Path
) -> None:
    then, now = write_small_season(tmp_path / "then"), write_small_season(tmp_path / "now")
    (then / "content/opponents/lowmarsh/players/ada-lowmarsh.yml").write_text(note("Holds his glove low."))
    make_part(then, ["lowmarsh"], tmp_path / "old.part")
    said = build_small(now, "--join", tmp_path / "old.part", processors=1).splitlines()
    assert said[:2] == [
        f"{tmp_path / 'old.part'}: made from other input or by another version; pages of lowmarsh were made anew",
        "Staff edition: 52 pages, 6 charts (4 drawn anew), 0 warnings",
    ]
    # Not one page was taken, nor made ahead by a copy of the process.
    assert files(now / "site") == files(small_site)
    for kept in ("books", "rendered", "charts"):
        assert files(now / ".scoutgen" / kept) == files(small_site.parent / ".scoutgen" / kept)


def test_a_part_of_which_one_team_is_stale_says_which(tmp_path: Path) -> None:
    (tmp_path / "kept").write_text("")
    kept, forgotten, day = tmp_path / "kept", tmp_path / "forgotten", date(2026, 4, 9)

    def told(teams: tuple[str, ...], *books: Path, made_for: str = "2026-04-09") -> str:
        return Taken(tmp_path / "a.part", "staff", made_for, teams, books).told("staff", day)

    assert "made from other input" in told(("harbor", "mesa"), kept, forgotten)
    assert "pages of harbor, mesa taken" in told(("harbor", "mesa"), kept, kept)
    # One without a book was no use.
    assert "made from other input" in told(("harbor",))
    assert "made for 2026-04-08, not 2026-04-09; pages of harbor were made" in told(("harbor",), made_for="2026-04-08")


@pytest.fixture
def small(tmp_path: Path) -> Path:
    return write_small_season(tmp_path / "project")


def left(project: Path) -> list[str]:
    """What stands in a project that was not written by hand."""
    return sorted(
        place.relative_to(project).as_posix() for place in project.rglob("*")
        if place.is_file() and place.parts[len(project.parts)] not in ("content", "data", "mkdocs.yml")
    )  # fmt: skip


def test_a_part_of_another_edition_is_said_to_be(parts: Path) -> None:
    taken = Taken(parts / "west.part", "staff", "2026-04-09", ("cedarholm",), ())
    assert (
        taken.told("players", date(2026, 4, 9))
        == f"{parts / 'west.part'}: is of the staff edition; nothing of it was used"
    )


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (["--only", "nobody"], 2, "'nobody' is nobody we play. There are cedarholm, lowmarsh, stonebury"),
        (
            ["--only", "cedarholm", "--only", "low-marsh"], 2,
            "'low-marsh' is nobody we play; did you mean \"lowmarsh\"? There are cedarholm, lowmarsh, stonebury",
        ),
        (["--only", "ridge"], 2, "'ridge' is nobody we play. There are cedarholm, lowmarsh, stonebury"),
        (
            ["--only", "cedarholm", "--edition", "recruiting"], 2,
            "the recruiting edition has no pages on teams; build it whole",
        ),
        (["--only", "cedarholm", "--edition", "public"], 2, "editions are staff, players, recruiting"),
    ],
)  # fmt: skip
def test_what_cannot_be_built_alone_is_said_in_a_line(
    small: Path, tmp_path: Path, options: list[str], code: int, said: str
) -> None:
    made = run("build", "--project", small, "--out", tmp_path / "a.part", *options)
    assert made.exit_code == code
    assert said in made.stderr
    assert len(made.stderr.splitlines()) == 1
    assert made.stdout == ""
    assert not (tmp_path / "a.part").exists()
    assert left(small) == []


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--only", "cedarholm"], "--only writes a part to a file; name it with --out, like --out west.part"),
        (["--only", "cedarholm", "--out", "OUT", "--all"], "--only writes a part; the other options are for the whole"),
        (["--only", "cedarholm", "--out", "OUT", "--join", "x"], "--only writes a part; the other options are for"),
        (["--join", "x", "--all"], "a part is of one edition; join it with: --edition NAME"),
        (["--join", ""], "there is nothing between the quotes; name a place"),
    ],
)
def test_options_that_say_two_things_are_refused(small: Path, tmp_path: Path, options: list[str], said: str) -> None:
    given = [str(tmp_path / "a.part") if word == "OUT" else word for word in options]
    made = run("build", "--project", small, *given)
    assert made.exit_code == 2
    assert said in " ".join(made.stderr.split())
    assert not (tmp_path / "a.part").exists()
    assert left(small) == []


def test_a_part_is_not_written_over_what_is_none(small: Path, tmp_path: Path) -> None:
    (tmp_path / "thesis").write_text("mine")
    with zipfile.ZipFile(tmp_path / "a.zip", "w") as pack:
        pack.comment = b"scoutgen"
    for name, said in (
        ("thesis", "stands there already and is no zip of scoutgen part; choose another name"),
        ("a.zip", "stands there already and is no zip of scoutgen part; choose another name"),
        ("project", "is a folder; name a file in it"),
        ("project/data/a.part", "into data/, which the project is read from"),
    ):
        before = files(tmp_path)
        made = run("build", "--project", small, "--only", "cedarholm", "--out", tmp_path / name)
        assert made.exit_code == 3
        assert said in made.stderr
        assert len(made.stderr.splitlines()) == 1
        assert files(tmp_path) == before


def with_files(place: Path, content: dict[str, bytes], comment: bytes = b"scoutgen part") -> Path:
    with zipfile.ZipFile(place, "w") as made:
        made.comment = comment
        for name, text in content.items():
            made.writestr(name, text)
    return place


HEAD = {"part.json": b'{"edition": "staff", "as_of": "2026-04-09", "teams": ["cedarholm"]}'}


def test_what_is_no_part_is_refused_in_a_line_and_nothing_is_written(small: Path, parts: Path, tmp_path: Path) -> None:
    (tmp_path / "words").write_text("mine")
    whole = (parts / "west.part").read_bytes()
    (tmp_path / "cut").write_bytes(whole[: len(whole) // 2])
    (tmp_path / "middle").write_bytes(whole[:300] + bytes(200) + whole[500:])
    with_files(tmp_path / "pack", HEAD, b"scoutgen")
    with_files(tmp_path / "headless", {})
    for number, head in enumerate((b"", b"[]", b"{}", b"3", b'{"edition": "staff"}', b"[" * 100_000, b"\xff")):
        with_files(tmp_path / f"head{number}", {"part.json": head})
    no_part = "is no part, or cut off; write one with: scoutgen build --only TEAM --out FILE"
    damaged = "is damaged; write it again"
    refused = {"gone": "there is no such file; name the part as it was written", "words": no_part, "cut": no_part}
    os.mkfifo(tmp_path / "pipe")
    refused |= {"pipe": no_part, "pack": no_part, "project": no_part, "middle": damaged, "headless": damaged}
    refused |= {f"head{number}": damaged for number in range(7)}
    for name, said in refused.items():
        made = run("build", "--project", small, "--join", tmp_path / name)
        assert (made.exit_code, made.stderr) == (3, f"scoutgen: {tmp_path / name}: {said}\n"), name
        assert left(small) == [], name


def test_names_that_are_none_of_ours_go_nowhere(small: Path, tmp_path: Path) -> None:
    odd = ["../evil", "/evil", "books/../../evil", f"books/staff/../{'a' * 64}", f"books/staff/{'a' * 63}", "content/x"]
    odd += [f"books/Staff/{'a' * 64}", f"books/staff/{'a' * 64}\n", f"said/{'a' * 64}", "mkdocs.yml", "lock"]
    odd += [
        f"charts/staff/{'a' * 64}.svg",
        f"rendered/staff/{'A' * 64}",
        f"rendered/staff/x/{'a' * 64}",
        "charts\\evil",
    ]
    good = [f"books/staff/{'a' * 64}", f"charts/{'b' * 64}.svg", f"rendered/staff-disk/{'c' * 64}"]
    before = files(tmp_path)
    place = with_files(tmp_path / "a.part", HEAD | dict.fromkeys([*odd, *good], b"evil"))
    [taken] = take_parts(small, [place])
    assert left(small) == sorted(f".scoutgen/{name}" for name in good)
    assert set(files(tmp_path)) - set(before) == {"a.part", *(f"project/.scoutgen/{name}" for name in good)}
    assert taken.books == (small / ".scoutgen" / good[0],)
    assert not Path("/evil").exists()


@pytest.mark.parametrize(
    "head",
    [
        '{"edition": "a\\nb", "as_of": "2026-04-09", "teams": []}',
        '{"edition": "staff", "as_of": "2026-04-09", "teams": ["\\ud800"]}',
        '{"edition": "staff", "as_of": "9 Apr\\n2026", "teams": []}',
        '{"edition": "staff", "as_of": 9, "teams": []}',
    ],
)
def test_a_head_that_would_say_more_than_a_line_is_damaged(small: Path, tmp_path: Path, head: str) -> None:
    with_files(tmp_path / "a.part", {"part.json": head.encode()})
    made = run("build", "--project", small, "--join", tmp_path / "a.part")
    assert (made.exit_code, made.stderr) == (3, f"scoutgen: {tmp_path / 'a.part'}: is damaged; write it again\n")


def test_what_stands_in_its_way_is_taken_away_and_nothing_outside_is_written(small: Path, tmp_path: Path) -> None:
    names = [f"books/staff/{'a' * 64}", f"tables/staff/{'b' * 64}", f"charts/{'c' * 64}.svg"]
    folder, link, no_folder = (small / ".scoutgen" / name for name in names)
    (folder / "deep").mkdir(parents=True)
    link.parent.mkdir(parents=True)
    link.symlink_to(tmp_path / "outside")
    no_folder.parent.write_text("in the way")
    take_parts(small, [with_files(tmp_path / "a.part", HEAD | dict.fromkeys(names, b"kept"))])
    assert [place.read_bytes() for place in (folder, link, no_folder)] == [b"kept"] * 3
    assert not (tmp_path / "outside").exists()


def test_a_file_in_place_of_the_folder_of_what_is_kept_is_named_and_left(small: Path, tmp_path: Path) -> None:
    (small / ".scoutgen").write_text("mine")
    part = with_files(tmp_path / "a.part", HEAD | {f"charts/{'c' * 64}.svg": b"kept"})
    made = run("build", "--project", small, "--join", part)
    assert made.exit_code == 3
    assert made.stderr.startswith(f"scoutgen: {small / '.scoutgen'}")
    assert len(made.stderr.splitlines()) == 1
    assert (small / ".scoutgen").read_text() == "mine"


@pytest.mark.parametrize("content", [b"garbage", b"{}\n", b"", b"\xff"])
def test_what_is_no_book_page_or_table_is_made_anew_however_well_it_is_sealed(
    small_site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, content: bytes
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", BUILT)
    project = tmp_path / "project"
    shutil.copytree(small_site.parent, project, symlinks=True)
    spoilt = 0
    for kind in ("books/staff", "tables/staff", "rendered/staff"):
        kept = Sealed(project / ".scoutgen" / kind)
        for place in kept.folder.iterdir():
            kept.put_bytes(place.name, content)
            spoilt += 1
    assert spoilt > 50
    # What this very build says, as the first did: it is compared with nothing.
    shutil.rmtree(project / ".scoutgen" / "said")
    made = run("build", "--project", project)
    assert made.exit_code == 0, made.output
    assert files(project / "site") == files(small_site)


def test_what_is_kept_already_is_not_written_over(small: Path, tmp_path: Path) -> None:
    name = f"books/staff/{'a' * 64}"
    kept = small / ".scoutgen" / name
    kept.parent.mkdir(parents=True)
    kept.write_text("ours")
    take_parts(small, [with_files(tmp_path / "a.part", HEAD | {name: b"theirs"})])
    assert kept.read_text() == "ours"


def test_of_several_parts_none_is_taken_where_one_is_none(small: Path, parts: Path, tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="there is no such file"):
        take_parts(small, [parts / "west.part", tmp_path / "gone.part"])
    assert left(small) == []
    whole = (parts / "east.part").read_bytes()
    (tmp_path / "middle.part").write_bytes(whole[:-5000] + bytes(200) + whole[-4800:])
    with_files(tmp_path / "head.part", {"part.json": b"{}"})
    for name in ("middle.part", "head.part"):
        with pytest.raises(OutputError, match=f"{name}: is damaged; write it again"):
            take_parts(small, [parts / "west.part", tmp_path / name])
        assert left(small) == []


def test_a_part_that_would_fill_the_disk_is_refused_before_it_is_unpacked(
    small: Path, parts: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_MOST_BYTES", 1000)
    with pytest.raises(OutputError, match="is too large for a part"):
        take_parts(small, [parts / "west.part"])
    assert left(small) == []


def test_whatever_byte_is_damaged_it_is_refused_or_does_no_harm(small: Path, tmp_path: Path) -> None:
    name = f"books/staff/{'a' * 64}"
    whole = with_files(tmp_path / "a.part", HEAD | {name: b"text"}).read_bytes()
    refused = 0
    for at in range(len(whole)):
        for mask in (0x01, 0x08, 0x80):
            (tmp_path / "b.part").write_bytes(whole[:at] + bytes([whole[at] ^ mask]) + whole[at + 1 :])
            shutil.rmtree(small / ".scoutgen", ignore_errors=True)
            try:
                take_parts(small, [tmp_path / "b.part"])
            except OutputError as wrong:
                refused += "is damaged" in str(wrong) or "is no part" in str(wrong)
            for file in left(small):
                assert (small / file).read_bytes() == b"text", f"{at} {mask}"
    assert refused > len(whole)
