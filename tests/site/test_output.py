import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from scoutgen.site.output import (
    OutputError,
    building_place,
    check_out,
    claim,
    recover,
    release,
    seal,
    swap_in,
)


@pytest.fixture
def project(tmp_path: Path) -> Path:
    folder = tmp_path / "project"
    (folder / "content").mkdir(parents=True)
    return folder


def write_site(place: Path, words: str, *, whole: bool = True) -> None:
    place.mkdir()
    (place / "index.html").write_text(words)
    if whole:
        seal(place, {})


@pytest.mark.parametrize("out", [".", "..", "content", "content/site", "data", ".scoutgen/site"])
def test_a_site_is_not_written_over_its_project(project: Path, out: str) -> None:
    with pytest.raises(OutputError, match="would be written"):
        check_out(project / out, project)


def test_a_folder_of_somebody_else_is_refused_and_left(project: Path) -> None:
    theirs = project / "site"
    write_site(theirs, "mine", whole=False)
    with pytest.raises(OutputError, match="not made by scoutgen"):
        check_out(theirs, project)
    (project / "file").write_text("")
    for place in ("file", "file/site"):
        with pytest.raises(OutputError, match="file: is a file, not a folder"):
            check_out(project / place, project)


def test_no_site_is_built_inside_another(project: Path) -> None:
    write_site(project / "site", "old")
    for place in ("site/x", "site/x/y"):
        with pytest.raises(OutputError, match=r"is inside the site .*site, which the next build replaces"):
            check_out(project / place, project)


def test_a_link_into_what_is_read_is_seen_through(project: Path, tmp_path: Path) -> None:
    (tmp_path / "charts").mkdir()
    (project / "data").symlink_to(tmp_path / "charts")
    (tmp_path / "short").symlink_to(project / "content")
    for place in (project / "data/site", tmp_path / "charts/site", tmp_path / "short/site"):
        with pytest.raises(OutputError, match="which the project is read from"):
            check_out(place, project)


@pytest.mark.parametrize("prepare", [lambda _: None, Path.mkdir, lambda p: write_site(p, "old")])
def test_a_free_empty_or_own_folder_is_taken(project: Path, prepare: object) -> None:
    prepare(project / "site")  # type: ignore[operator]
    check_out(project / "site", project)


def test_the_finished_site_takes_the_place_of_the_former(tmp_path: Path) -> None:
    out = tmp_path / "site"
    write_site(out, "old")
    write_site(building_place(out), "new")
    swap_in(out)
    assert (out / "index.html").read_text() == "new"
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


# A build killed: while writing, before the swap, between its renames, before the former site is removed.
@pytest.mark.parametrize(
    ("at_out", "beside", "former", "expected"),
    [
        ("old", "half", None, "old"),
        ("old", "new", None, "old"),
        (None, "new", "old", "new"),
        (None, "half", "old", "old"),
        ("new", None, "old", "new"),
        (None, "half", None, None),
    ],
)
def test_after_a_kill_a_whole_site_stands(
    tmp_path: Path, at_out: str | None, beside: str | None, former: str | None, expected: str | None
) -> None:
    out = tmp_path / "site"
    for place, words in ((out, at_out), (building_place(out), beside), (tmp_path / ".site.scoutgen-former", former)):
        if words:
            write_site(place, words, whole=words != "half")
    put_back = recover(out)
    assert put_back == (at_out is None and expected is not None)
    assert (out / "index.html").read_text() == expected if expected else not out.exists()
    assert [p.name for p in tmp_path.iterdir()] == (["site"] if expected else [])


@pytest.mark.parametrize("what", ["file", "dangling link", "link", "pipe"])
def test_what_is_no_folder_does_not_stand_in_the_way_for_good(tmp_path: Path, what: str) -> None:
    out, place = tmp_path / "site", building_place(tmp_path / "site")
    write_site(tmp_path / "theirs", "theirs")
    if what == "file":
        place.write_text("x")
    elif what == "pipe":
        os.mkfifo(place)
    else:
        place.symlink_to(tmp_path / ("theirs" if what == "link" else "nowhere"))
    assert not recover(out)
    assert not os.path.lexists(place)
    assert (tmp_path / "theirs/index.html").read_text() == "theirs"


def test_a_pipe_in_the_place_of_the_lock_is_nobody_s(project: Path) -> None:
    (project / ".scoutgen").mkdir()
    os.mkfifo(project / ".scoutgen/lock")
    release(claim(project, project / "site"))


def claiming(project: Path, out: Path) -> str:
    """A program that holds both, or ends with 3 and says why; it goes on until nothing more is written to it."""
    return (
        "import sys; from pathlib import Path; from scoutgen.site.output import OutputError, claim\n"
        f"try:\n    claim(Path({str(project)!r}), Path({str(out)!r}))\n"
        "except OutputError as why:\n    print(why)\n    sys.exit(3)\nsys.stdin.read()"
    )


def try_to_claim(project: Path, out: Path) -> tuple[int, str]:
    ran = subprocess.run(
        [sys.executable, "-c", claiming(project, out)], capture_output=True, text=True, check=False, input=""
    )
    return ran.returncode, ran.stdout.strip()


def test_one_build_at_a_time(project: Path, tmp_path: Path) -> None:
    locks = claim(project, project / "site")
    assert [lock.read_text() for lock in locks] == [f"{os.getpid()}\n{project / 'site'}"] * 2
    code, said = try_to_claim(project, tmp_path / "elsewhere")
    assert code == 3
    assert f"another build of this project is running (process {os.getpid()})" in said
    release(locks)
    assert not any(lock.exists() for lock in locks)
    assert try_to_claim(project, project / "site") == (0, "")


def test_two_projects_do_not_build_into_one_folder_at_once(tmp_path: Path) -> None:
    out = tmp_path / "shared" / "site"
    locks = claim(tmp_path / "first", out)
    code, said = try_to_claim(tmp_path / "second", out)
    assert code == 3
    assert said.startswith(f"another build into {out} is running (process {os.getpid()})")
    # What it could have had it has given back.
    assert not (tmp_path / "second/.scoutgen/lock").exists()
    release(locks)
    assert try_to_claim(tmp_path / "second", out) == (0, "")


def test_a_disk_without_second_names_of_files_can_be_held_too(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", refuse)
    locks = claim(project, project / "site")
    assert [lock.read_text() for lock in locks] == [f"{os.getpid()}\n{project / 'site'}"] * 2
    assert try_to_claim(project, project / "site")[0] == 3


def test_the_lock_of_a_dead_build_binds_nobody(project: Path) -> None:
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    out = project / "site"
    for lock in (project / ".scoutgen" / "lock", project / ".site.scoutgen-lock"):
        lock.parent.mkdir(exist_ok=True)
        for words in (str(ended.pid), "not a number", ""):
            lock.write_text(words)
            release(claim(project, out))
            assert not lock.exists()


def test_of_builds_started_together_one_holds_the_project(project: Path) -> None:
    code = claiming(project, project / "site")
    for stale in (False, True):
        if stale:
            (project / ".scoutgen" / "lock").write_text("not a number")
        together = [
            subprocess.Popen([sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.DEVNULL)
            for _ in range(4)
        ]
        # Three are turned away while the fourth still builds; it ends when nothing more is written to it.
        while sum(one.poll() is None for one in together) > 1:
            time.sleep(0.02)
        for one in together:
            one.communicate()
        assert sorted(one.returncode for one in together) == [0, 3, 3, 3]
