"""Many small files read at once say the same as each by itself."""

from pathlib import Path

import numpy as np
import pytest

from scoutgen.records import csvfile
from scoutgen.records.csvfile import CodedTable, read_csv_files
from scoutgen.records.folder import DataFile
from scoutgen.records.plainfiles import SMALL_BYTES, Together, plain_file

COLUMNS = ["game", "pitch", "note"]
FILES = {
    "a.csv": b"game,pitch,note\ng1,fastball,\ng1,curve,low\n",
    "b.csv": b"pitch,game\r\nfastball,g2\r\n,\r\nslider,g2",
    "c.csv": b'game,pitch,note\ng3,"curve",quoted\n',
    "d.csv": b"\xef\xbb\xbfgame,pitch,note\ng4,change,\n",
    "e.csv": b"game,pitch,note\n",
    "f.csv": b"game,pitch,speed\ng6,curve,90\n",
    "g.csv": b"game,pitch,note\n , ,\ng7,curve,\n",
    "h.csv": b"game,pitch,note\ng8,curve\n",
    "i.csv": b"game,pitch,note\ng9,curve,\n",
}


def rows(table: CodedTable) -> list[tuple[str, int, list[str | None]]]:
    words = {name: [*texts, None] for name, texts in table.texts.items()}
    return [
        (table.files[file], int(line), [words[name][table.codes[name][row]] for name in COLUMNS])
        for row, (file, line) in enumerate(zip(table.file, table.line, strict=True))
    ]


@pytest.fixture
def files(tmp_path: Path) -> list[DataFile]:
    for name, content in FILES.items():
        (tmp_path / name).write_bytes(content)
    return [DataFile(tmp_path / name, name) for name in FILES]


def test_rows_are_those_of_each_file_by_itself(files: list[DataFile], monkeypatch: pytest.MonkeyPatch) -> None:
    together = read_csv_files(files, COLUMNS, ["game"])
    monkeypatch.setattr(csvfile, "plain_file", lambda _: None)
    alone = read_csv_files(files, COLUMNS, ["game"])
    assert rows(together) == rows(alone)
    assert sorted(together.problems) == sorted(alone.problems)
    assert (together.lame, together.unread, together.torn) == (alone.lame, alone.unread, alone.torn)
    assert [name[0] for name, _, _ in rows(together)] == list("aabbcdfgi")


def test_lines_are_counted_as_an_editor_does(files: list[DataFile]) -> None:
    assert [(name, line) for name, line, _ in rows(read_csv_files(files, COLUMNS, ["game"]))][:4] == [
        ("a.csv", 2),
        ("a.csv", 3),
        ("b.csv", 2),
        ("b.csv", 4),
    ]


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"game,pitch",
        b'game,pitch\n"g1",curve\n',
        b"game,pitch\ng1\n",
        b"game,pitch\ng1,curve,low\n",
        b"game,pitch\n\ng1,curve\n",
        b"game,pitch\ng1,\xff\n",
        b"game,pitch\ng1,\0\n",
        b"game,pitch\rg1,curve\r",
        b"\xff\xfeg\0",
        b",\n,\n",
        b"game,pitch\n" + b"g1,curve\n" * (SMALL_BYTES // 9 + 1),
    ],
)
def test_a_file_with_anything_else_in_it_is_left_to_the_other_reader(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "a.csv").write_bytes(content)
    assert plain_file(tmp_path / "a.csv") is None


def test_a_file_that_is_gone_is_left_to_the_other_reader(tmp_path: Path) -> None:
    assert plain_file(tmp_path / "a.csv") is None


def test_what_was_read_is_not_read_again() -> None:
    together = Together(2)
    assert not together.add(7, b"g1,curve\n")
    ((file, line, columns),) = together.read()
    assert (file.tolist(), line.tolist()) == ([7], [2])
    assert [texts for _, texts in columns] == [["g1"], ["curve"]]
    assert list(together.read()) == []
    assert together.add(8, b"g2,curve\n" * 500_000)
    file, line = (np.concatenate(parts) for parts in list(zip(*together.read(), strict=True))[:2])
    assert (set(file.tolist()), line[0], line[-1]) == ({8}, 2, 500_001)
