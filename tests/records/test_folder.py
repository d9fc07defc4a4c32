"""Which files are a table's, and which of them hold the same rows."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from scoutgen.records import folder
from scoutgen.records.folder import DataFile, same_files, stray_files, table_files, why_not_text

Write = Callable[..., Path]


def test_the_files_of_a_table_in_order_of_their_names(write: Write) -> None:
    own = ["data/pitches.csv", "data/pitches/b.CSV", "data/pitches/a.csv"]
    names = [*own, "data/pitches/.hidden.csv", "data/pitches/~$a.csv"]
    root = write(dict.fromkeys([*names, "data/pitches/README.md", "data/pitches/clips/c.mp4", "data/times.csv"], "x"))
    files, problems = table_files(root, "pitches")
    assert [file.name for file in files] == ["data/pitches.csv", "data/pitches/a.csv", "data/pitches/b.CSV"]
    assert not problems


def test_no_charts_are_passed_over_without_a_word(write: Write) -> None:
    root = write(dict.fromkeys(["data/pitches/march/c.csv", "data/pitches/0306", "data/pitches/a.csv"], "x"))
    files, problems = table_files(root, "pitches")
    assert [file.name for file in files] == ["data/pitches/a.csv"]
    assert [str(problem) for problem in problems] == [
        (
            "data/pitches/0306: warning: is not read: only .csv files are; "
            "in the spreadsheet choose Save As and then CSV UTF-8 (comma delimited), or move it away"
        ),
        "data/pitches/march: is a folder inside data/pitches, which is not read; move its files up into data/pitches",
    ]


def test_data_is_a_folder(write: Write) -> None:
    said = ["data: is not a folder; the charts stand in a folder of this name"]
    assert [str(problem) for problem in stray_files(write({"data": "x"}), ["pitches"])] == said


def test_only_files_with_rows_can_be_copies_of_each_other(write: Write) -> None:
    header_alone, rows = "game\n\n", "game\ng1\n"
    contents = {"a.csv": header_alone, "b.csv": header_alone, "c.csv": rows, "d.csv": "game\ng2\n", "e.csv": rows}
    root = write(contents)
    files = [DataFile(root / name, name) for name in contents]
    assert [(later.name, earlier.name) for later, earlier in same_files(files)] == [("e.csv", "c.csv")]


def test_a_file_that_is_too_large_is_refused_before_it_is_read(write: Write, monkeypatch: pytest.MonkeyPatch) -> None:
    root = write({"data/games.csv": "game,date,source\n"})
    monkeypatch.setattr(folder, "MOST_BYTES", 10)
    files, problems = table_files(root, "games")
    assert not files
    assert [str(problem) for problem in problems] == [
        "data/games.csv: is 17 bytes large; at most 10 are read; split it by game or by month"
    ]


@pytest.mark.parametrize("name", ["pitchs.csv", "Pitches.csv", "game.csv", "pitch/0306.csv"])
def test_a_name_close_to_a_tables_is_an_error(write: Write, name: str) -> None:
    problems = stray_files(write({f"data/{name}": "x"}), ["games", "pitches", "times"])
    assert [problem.severity for problem in problems] == ["error"]
    assert "did you mean" in problems[0].text


def test_other_files_are_the_staffs_own(write: Write) -> None:
    root = write({"data/README.md": "x", "data/photos/1.jpg": "x", "data/pitches/a.csv": "x"})
    assert stray_files(root, ["games", "pitches"]) == []


def test_a_folder_that_cannot_be_looked_into_may_be_a_misnamed_table(
    write: Write, monkeypatch: pytest.MonkeyPatch
) -> None:
    root, iterdir = write({"data/pitchs/a.csv": "x"}), Path.iterdir

    def refusing(folder: Path) -> Iterator[Path]:
        if folder.name == "pitchs":
            raise PermissionError(13, "Permission denied", str(folder))
        return iterdir(folder)

    monkeypatch.setattr(Path, "iterdir", refusing)
    [problem] = stray_files(root, ["games", "pitches"])
    assert str(problem).startswith('data/pitchs: is not read: no table has this name; did you mean "pitches"?')


@pytest.mark.parametrize(
    ("content", "line"), [(b"a\r\n" * 3 + b"\xff", 4), (b"a\r" * 3 + b"\xff", 4), (b"\xe9", 1), (b"a\n\xc3", 2)]
)
def test_the_line_of_the_first_byte_that_is_not_utf8(write: Write, content: bytes, line: int) -> None:
    bad = why_not_text(DataFile(write({"x.csv": content}) / "x.csv", "x.csv"))
    assert bad is not None
    assert bad.line == line


def test_windows_line_ends_cut_by_a_block_are_counted_once(write: Write, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(folder, "LONGEST_LINE_BYTES", 4)
    bad = why_not_text(DataFile(write({"x.csv": b"abc\r\n" * 5 + b"\xff"}) / "x.csv", "x.csv"))
    assert bad is not None
    assert bad.line == 6
