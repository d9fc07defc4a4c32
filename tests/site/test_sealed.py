"""Texts kept between builds: what is not as it was put there is not there, and a disk that refuses costs time alone."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from scoutgen.site.sealed import Sealed

TEXT = "first line\r\n\nIván \u2028 \U0001f9e2 \0 last"


@pytest.fixture
def kept(tmp_path: Path) -> Sealed:
    made = Sealed(tmp_path / "deep" / "kept", ".txt")
    made.put("a", TEXT)
    return made


def names(kept: Sealed) -> list[str]:
    return sorted(place.name for place in kept.folder.iterdir())


@pytest.mark.parametrize("text", [TEXT, "", "\n", "no end of line"])
def test_a_text_comes_back_as_it_was(kept: Sealed, text: str) -> None:
    kept.put("b", text)
    assert Sealed(kept.folder, ".txt").get("b") == text
    assert names(kept) == ["a.txt", "b.txt"]


def test_what_is_not_there_is_none(kept: Sealed) -> None:
    assert kept.get("b") is None
    assert not kept.has("b")
    assert kept.has("a")
    # Other files than ours may lie beside.
    assert Sealed(kept.folder).get("a") is None
    (kept.folder / "b.txt").mkdir()
    assert kept.get("b") is None
    assert not kept.has("b")


def test_what_lies_under_another_name_is_not_there(kept: Sealed) -> None:
    kept.put("b", "other")
    here, there = kept.folder / "a.txt", kept.folder / "b.txt"
    one, other = here.read_bytes(), there.read_bytes()
    here.write_bytes(other)
    there.write_bytes(one)
    assert kept.get("a") is kept.get("b") is None


def test_nobody_waits_for_what_is_no_file(kept: Sealed) -> None:
    os.mkfifo(kept.folder / "b.txt")
    (kept.folder / "c.txt").symlink_to("/dev/zero")
    assert kept.get("b") is kept.get("c") is None
    kept.put("b", TEXT)
    assert kept.get("b") == TEXT


def test_it_is_written_over(kept: Sealed) -> None:
    kept.put("a", "other")
    assert kept.get("a") == "other"
    assert names(kept) == ["a.txt"]


@pytest.mark.parametrize(
    "damage",
    [
        lambda whole: whole[:-1],
        lambda whole: whole[:64],
        lambda whole: whole[:30],
        lambda _: b"",
        lambda _: b"\xff\xfe\n",
        lambda whole: whole + b" ",
        lambda whole: whole.replace(b"last", b"lost"),
        lambda whole: whole.replace(b"\r\n", b"\n"),
        lambda whole: b"0" + whole[1:] if whole[:1] != b"0" else b"1" + whole[1:],
    ],
)
def test_what_is_damaged_or_cut_off_is_none_and_can_be_put_again(
    kept: Sealed, damage: Callable[[bytes], bytes]
) -> None:
    [place] = kept.folder.iterdir()
    place.write_bytes(damage(place.read_bytes()))
    fresh = Sealed(kept.folder, ".txt")
    assert fresh.get("a") is None
    # Not even held.
    assert fresh.files == []
    fresh.put("a", TEXT)
    assert fresh.get("a") == TEXT


def test_where_nothing_can_be_written_nothing_is_kept_and_nobody_complains(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine")
    for folder in (tmp_path / "file", tmp_path / "file" / "below"):
        made = Sealed(folder)
        made.put("a", TEXT)
        assert made.get("a") is None
        made.forget_others()
    assert (tmp_path / "file").read_text() == "mine"


def test_a_write_that_is_refused_leaves_what_was_there(kept: Sealed, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(place: Path, content: bytes) -> int:
        with place.open("wb") as opened:
            opened.write(content[:5])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    kept.put("a", "other")
    kept.put("b", "new")
    monkeypatch.undo()
    assert names(kept) == ["a.txt"]
    assert kept.get("a") == TEXT


def test_a_text_that_is_no_unicode_is_refused_and_leaves_nothing(kept: Sealed) -> None:
    with pytest.raises(UnicodeEncodeError):
        kept.put("b", "\ud800")
    assert names(kept) == ["a.txt"]


def test_what_was_got_put_or_held_stays_and_all_else_goes(kept: Sealed) -> None:
    for name in ("b", "c", "d"):
        kept.put(name, name)
    (kept.folder / f"e.{os.getpid()}.txt").write_text("half")
    (kept.folder / "folder").mkdir()
    (kept.folder / "folder" / "file").write_text("")
    fresh = Sealed(kept.folder, ".txt")
    fresh.get("a")
    fresh.use("b")
    fresh.put("new", "new")
    fresh.get("nothing")
    fresh.has("c")
    assert [place.name for place in fresh.files] == ["a.txt", "b.txt", "new.txt"]
    fresh.forget_others()
    assert names(kept) == ["a.txt", "b.txt", "new.txt"]
    Sealed(kept.folder / "gone").forget_others()
