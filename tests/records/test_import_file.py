"""Reading anybody's CSV: encodings, delimiters, what is broken."""

import os
from pathlib import Path

import pytest

from scoutgen.records import import_file
from scoutgen.records.import_file import Sheet, UnreadableError, csv_sheet, header_of, is_workbook, refuse_merged


def rows(path: Path, **options: str) -> list[list[str]]:
    return [cells for _, cells in csv_sheet(path, **options).rows]  # type: ignore[arg-type]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "latin-1"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_encodings_and_delimiters_are_found(tmp_path: Path, encoding: str, delimiter: str) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(
        f'Name{delimiter}Velo\r\n"Núñez{delimiter} Iker"{delimiter}91,5\r\n'.replace('"', '"').encode(encoding)
    )
    if delimiter == ",":
        path.write_bytes('Name,Velo\r\n"Núñez, Iker","91,5"\r\n'.encode(encoding))
    options = {"encoding": "utf-16"} if encoding == "utf-16-le" else {}
    assert rows(path, **options) == [["Name", "Velo"], [f"Núñez{delimiter} Iker", "91,5"]]


def test_lines_are_counted_as_an_editor_does(tmp_path: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_text('a,b\n"x\ny",1\n\n,\nz,2\n')
    assert [line for line, _ in csv_sheet(path).rows] == [1, 2, 6]


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"a,b\n\0,1\n", "NUL"),
        (b'a,b\n"x,1\n', "quotes"),
        (b'a,b\n"x"y,1\n', "quotes"),
        (b"a,b\n" + b"x" * 1_000_001 + b",1\n", "more than 1,000,000 characters"),
        (b"\xef\xbb\xbfa\n\xff\n", "utf-8"),
        (b"\xff\xfea", "utf-16"),
        (b"", "names its columns"),
        (b"a,a\n1,2\n", "two columns"),
        (b"," * 600 + b"\n", "more than 500 columns"),
    ],
)
def test_what_is_broken_is_said(tmp_path: Path, data: bytes, words: str) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(data)
    with pytest.raises(UnreadableError, match=words):
        list(_all(path))


def _all(path: Path) -> list[list[str]]:
    sheet = csv_sheet(path)
    header_of(sheet, 1)
    return [cells for _, cells in sheet.rows]


def test_more_rows_than_any_season_end_the_reading(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(import_file, "MOST_ROWS", 3)
    path = tmp_path / "a.csv"
    path.write_text("a\n" + "1\n" * 3)
    with pytest.raises(UnreadableError, match="more than 3 rows"):
        rows(path)


def test_a_million_rows_are_the_bound() -> None:
    assert import_file.MOST_ROWS == 1_000_000


def test_a_title_above_the_header_is_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_text("Our chart\n\na,b\n1,2\n")
    sheet = csv_sheet(path, header=3)
    assert header_of(sheet, 3) == (3, ["a", "b"])
    assert [cells for _, cells in sheet.rows] == [["1", "2"]]


def test_old_and_locked_workbooks_are_named(tmp_path: Path) -> None:
    path = tmp_path / "a.xls"
    path.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
    with pytest.raises(UnreadableError, match="old kind"):
        is_workbook(path)
    with pytest.raises(UnreadableError, match="cannot be opened"):
        is_workbook(tmp_path / "none.csv")


def test_what_is_no_file_is_never_opened(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", tmp_path):
        with pytest.raises(UnreadableError, match="is a pipe, a folder or a device; save what it gives as a file"):
            is_workbook(path)


def test_merged_cells_matter_below_the_header_and_over_several_rows() -> None:
    rows = [(line, line, f"A{line}:B{line}") for line in range(1, 9)] + [(1, 2, "A1:A2"), (2, 4, "C2:C4")]
    refuse_merged(Sheet("a", iter(()), tuple(rows)), 2)
    with pytest.raises(UnreadableError, match=r"^C2:C4: merged over several rows") as told:
        refuse_merged(Sheet("a", iter(()), tuple(rows)), 1)
    assert told.value.line == 2
    many = tuple((line, line + 1, f"A{line}:A{line + 1}") for line in range(2, 40, 2))
    with pytest.raises(UnreadableError, match="A20:A21 and 9 more: merged"):
        refuse_merged(Sheet("a", iter(()), many), 1)
