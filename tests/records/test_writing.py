"""Files stand whole or as they were, and a disk that refuses is told with the name of the file."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from scoutgen.records.writing import clear_halves, growing, naming, still_runs, write_all, write_whole

FULL = OSError(28, "No space left on device")


def ended() -> int:
    """The number of a process that has run."""
    process = subprocess.Popen([sys.executable, "-c", ""])
    process.wait()
    return process.pid


def test_a_file_is_written_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "deep" / "x.csv"
    write_whole(path, b"one\n")

    def full(_: int) -> None:
        raise FULL

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space") as refused:
        write_whole(path, b"two\n")
    assert refused.value.filename == str(path)
    assert path.read_bytes() == b"one\n"
    assert list(path.parent.iterdir()) == [path]


def test_of_several_files_all_are_written_or_none(tmp_path: Path) -> None:
    table = tmp_path / "table.csv"
    table.write_bytes(b"one\n")
    files = {tmp_path / "a" / "b" / "c": b"c", tmp_path / "a" / "d": b"d", table: b"one\ntwo\n"}
    write_all(files)
    assert {file: file.read_bytes() for file in files} == files
    for file in list(files)[:2]:
        file.unlink()
    (tmp_path / "a" / "b").rmdir()
    table.unlink()
    table.mkdir()
    with pytest.raises(OSError, match="directory") as refused:
        write_all(files)
    assert refused.value.filename == str(table)
    # A folder that stood there stands.
    assert sorted(place.name for place in tmp_path.rglob("*")) == ["a", "table.csv"]


def test_another_file_beside_it_that_is_in_the_way_is_named_itself(tmp_path: Path) -> None:
    (tmp_path / ".kept").touch()
    with pytest.raises(OSError, match="exists") as refused, naming(tmp_path / "site"):
        (tmp_path / ".kept").mkdir()
    assert refused.value.filename == str(tmp_path / ".kept")


def test_what_stands_in_the_way_is_named_as_the_file_and_not_as_what_grows_beside_it(tmp_path: Path) -> None:
    (tmp_path / "x").mkdir()
    with pytest.raises(OSError, match="directory") as refused:
        write_whole(tmp_path / "x", b"")
    assert refused.value.filename == str(tmp_path / "x")
    assert [place.name for place in tmp_path.iterdir()] == ["x"]


def test_a_refusal_that_names_a_file_keeps_the_name(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError) as refused, naming(tmp_path / "site"):
        (tmp_path / "a" / "b").read_bytes()
    assert refused.value.filename == str(tmp_path / "a" / "b")


def test_of_a_copy_the_file_that_was_written_is_named(tmp_path: Path) -> None:
    refused = OSError(28, "No space left on device", str(tmp_path / "from"), None, str(tmp_path / "to" / "file"))
    with pytest.raises(OSError, match="No space") as named, naming(tmp_path / "site"):
        raise refused
    assert (named.value.filename, named.value.filename2) == (str(tmp_path / "to" / "file"), None)


def test_of_a_folder_that_is_not_copied_whole_the_first_file_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "from").mkdir()
    for name in "ab":
        (tmp_path / "from" / name).write_text(name)

    def full(*_: object, **__: object) -> None:
        raise FULL

    monkeypatch.setattr(shutil, "copyfile", full)
    with pytest.raises(OSError, match="No space left on device") as refused, naming(tmp_path):
        shutil.copytree(tmp_path / "from", tmp_path / "to")
    assert Path(str(refused.value.filename)).parent == tmp_path / "to"
    assert refused.value.strerror == "No space left on device"


def test_what_a_killed_process_left_growing_is_cleared_and_nothing_else(tmp_path: Path) -> None:
    kept = {
        f".x.zip.{os.getppid()}",  # of one that still runs
        ".x.zip.old",
        f"x.zip.{ended()}",
        f".other.zip.{ended()}",
        "x.zip",
    }
    for name in {*kept, f".x.zip.{ended()}", f".x.zip.{os.getpid()}", ".x.zip.99999999999999999999"}:
        (tmp_path / name).write_text("half")
    with growing(tmp_path / "x.zip") as beside:
        assert {place.name for place in tmp_path.iterdir()} == kept
        beside.write_text("whole")
    assert (tmp_path / "x.zip").read_text() == "whole"
    assert {place.name for place in tmp_path.iterdir()} == kept
    clear_halves(tmp_path / "none", "x")


def test_a_process_that_runs_is_told_from_one_that_has_ended_and_from_this_one(tmp_path: Path) -> None:
    assert still_runs(os.getppid(), tmp_path)
    assert not still_runs(ended(), tmp_path)
    assert not still_runs(os.getpid(), tmp_path)
