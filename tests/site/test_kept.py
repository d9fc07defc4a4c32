"""Small files a project keeps: whole or as they were, and read without a word where they are damaged."""

from pathlib import Path

import pytest

from scoutgen.records.writing import write_whole
from scoutgen.site import kept


def test_every_kind_and_edition_has_a_file_of_its_own(tmp_path: Path) -> None:
    assert kept.place(tmp_path, "said", "staff") == tmp_path / ".scoutgen" / "said" / "staff.json"
    assert kept.place(tmp_path, "salts", "players", "") == tmp_path / ".scoutgen" / "salts" / "players"


@pytest.mark.parametrize(
    "content", [b"", b"{", b"\xff\xfe\x00", b"[" * 100_000, b"\x00", b'["\\ud800"]', b"[NaN]", b"[-Infinity]"]
)
def test_what_is_damaged_says_nothing(tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "x.json"
    file.write_bytes(content)
    assert kept.read_json(file) is None


def test_what_is_not_there_or_a_folder_says_nothing(tmp_path: Path) -> None:
    assert kept.read_json(tmp_path / "x.json") is None
    assert kept.read_json(tmp_path) is None


def test_a_file_is_read_as_it_was_written_and_stands_alone(tmp_path: Path) -> None:
    file = kept.place(tmp_path, "said", "staff")
    write_whole(file, b'{"a": 1}')
    write_whole(file, '{"a": "é"}'.encode())
    assert kept.read_json(file) == {"a": "é"}
    assert list(file.parent.iterdir()) == [file]
