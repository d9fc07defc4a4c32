"""Files that are no text, or no files, get one clear answer."""

import os
from pathlib import Path

import pytest

from scoutgen.records.textfile import read_text, relative


def answer(path: Path, root: Path) -> str:
    text, problems = read_text(path, root)
    assert text is None
    assert len(problems) == 1
    return str(problems[0])


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ("a: 1\nb: José\n".encode("latin-1"), "a.yml:2: is not UTF-8 text; save the file with the encoding UTF-8"),
        ("a: 1\n".encode("utf-16"), "a.yml:1: is saved as UTF-16; save it as UTF-8"),
        (b"a: 1\nb: x\x00\n", "a.yml:2: holds a NUL character; take it out"),
        (b"a: 1\n\nb: x\x07\n", "a.yml:3: holds the control character U+0007; take it out"),
        ("a: x\u2028b: y\n".encode(), "a.yml:1: holds the control character U+2028; take it out"),
        (b"x" * 1_000_001, "a.yml: is larger than 1,000,000 bytes; split it or cut it down"),
    ],
)
def test_bytes_that_are_no_text(tmp_path: Path, data: bytes, words: str) -> None:
    path = tmp_path / "a.yml"
    path.write_bytes(data)
    assert answer(path, tmp_path) == words


def test_things_that_are_no_files(tmp_path: Path) -> None:
    (tmp_path / "folder.yml").mkdir()
    os.mkfifo(tmp_path / "pipe.yml")
    (tmp_path / "loop.yml").symlink_to(tmp_path / "loop.yml")
    outside = tmp_path.parent / "outside.yml"
    outside.write_text("secret: 1\n")
    (tmp_path / "link.yml").symlink_to(outside)
    plain = "is not a plain file; a text file is meant to stand here"
    assert answer(tmp_path / "folder.yml", tmp_path) == f"folder.yml: {plain}"
    assert answer(tmp_path / "pipe.yml", tmp_path) == f"pipe.yml: {plain}"
    assert (
        answer(tmp_path / "link.yml", tmp_path)
        == "link.yml: points outside the project's folder; copy the file itself here"
    )
    assert answer(tmp_path / "gone.yml", tmp_path) == "gone.yml: cannot be opened: No such file or directory"
    assert answer(tmp_path / "loop.yml", tmp_path).startswith("loop.yml: cannot be opened: ")


def test_a_link_within_the_project_is_read(tmp_path: Path) -> None:
    (tmp_path / "a.yml").write_text("a: 1\n")
    (tmp_path / "b.yml").symlink_to(tmp_path / "a.yml")
    assert read_text(tmp_path / "b.yml", tmp_path) == ("a: 1\n", [])


def test_names_in_problems_move_no_cursor(tmp_path: Path) -> None:
    assert relative(tmp_path / "a" / "b\n\x1b[31m.yml", tmp_path) == "a/b\\n\\x1b[31m.yml"
