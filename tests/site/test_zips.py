"""Zips of ours: the same bytes for the same input, written whole, and never over what is not ours."""

import os
import zipfile
from datetime import datetime
from pathlib import Path

import pytest

from scoutgen.site.output import OutputError
from scoutgen.site.zips import check_zip, is_ours, write_zip

OURS, TIME = b"scoutgen test", datetime(2026, 4, 9, 21, 40)  # noqa: DTZ001 - zips know no zone
FILES = {"b/c.txt": b"c" * 1000, "a.txt": "Iván".encode()}


def test_it_holds_the_files_in_order_with_one_time_and_can_be_read_by_all(tmp_path: Path) -> None:
    write_zip(tmp_path / "a.zip", FILES, OURS, TIME)
    with zipfile.ZipFile(tmp_path / "a.zip") as opened:
        assert opened.testzip() is None
        assert [(entry.filename, entry.date_time) for entry in opened.infolist()] == [
            ("a.txt", (2026, 4, 9, 21, 40, 0)), ("b/c.txt", (2026, 4, 9, 21, 40, 0))
        ]  # fmt: skip
        assert {entry.external_attr >> 16 for entry in opened.infolist()} == {0o644}
        assert {name: opened.read(name) for name in opened.namelist()} == FILES
        assert opened.comment == OURS
    assert (tmp_path / "a.zip").stat().st_size < 600


def test_the_same_files_and_time_are_the_same_bytes(tmp_path: Path) -> None:
    write_zip(tmp_path / "a.zip", FILES, OURS, TIME)
    write_zip(tmp_path / "b.zip", dict(reversed(FILES.items())), OURS, TIME)
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
    write_zip(tmp_path / "b.zip", FILES, OURS, TIME.replace(minute=42))
    assert (tmp_path / "a.zip").read_bytes() != (tmp_path / "b.zip").read_bytes()


def test_ours_is_known_by_its_comment(tmp_path: Path) -> None:
    place = tmp_path / "a.zip"
    write_zip(place, FILES, OURS, TIME)
    assert is_ours(place, OURS)
    assert not is_ours(place, b"scoutgen")
    assert not is_ours(tmp_path, OURS)
    assert not is_ours(tmp_path / "gone.zip", OURS)
    place.write_bytes(place.read_bytes()[:-3])
    assert not is_ours(place, OURS)


def test_what_is_not_ours_is_not_written_over(tmp_path: Path) -> None:
    project = tmp_path / "project"
    (project / "content").mkdir(parents=True)
    write_zip(tmp_path / "ours.zip", FILES, OURS, TIME)
    write_zip(tmp_path / "other.zip", FILES, b"scoutgen", TIME)
    (tmp_path / "thesis").write_text("mine")
    check_zip(tmp_path / "ours.zip", project, OURS)
    check_zip(tmp_path / "new.zip", project, OURS)
    check_zip(project / "new.zip", project, OURS)
    for name, said in (
        ("other.zip", "stands there already and is no zip of scoutgen test; choose another name"),
        ("thesis", "stands there already and is no zip of scoutgen test; choose another name"),
        ("project", "is a folder; name a file in it"),
        ("gone/a.zip", "there is no folder"),
        ("project/content/a.zip", "into content/"),
    ):
        with pytest.raises(OutputError, match=said):
            check_zip(tmp_path / name, project, OURS)


def test_one_that_fails_leaves_the_last_one_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "a.zip"
    write_zip(place, FILES, OURS, TIME)
    before = place.read_bytes()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(zipfile.ZipFile, "writestr", full)
    with pytest.raises(OSError, match="No space left") as failed:
        write_zip(place, {"a": b""}, OURS, TIME)
    assert failed.value.filename == str(place)
    assert place.read_bytes() == before
    assert list(tmp_path.iterdir()) == [place]


def test_what_is_refused_names_the_file_that_was_asked_for(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    asked = tmp_path / "data" / "a.part"
    with pytest.raises(OutputError) as refused:
        check_zip(asked, tmp_path, b"scoutgen part")
    assert str(refused.value).startswith(f"{asked}: ")
    assert "scoutgen-zip" not in str(refused.value)


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert not is_ours(tmp_path / "pipe", OURS)
