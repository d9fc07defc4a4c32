"""Workbooks: values as texts, formulas, and files made to break a reader."""

import zipfile
from datetime import date, datetime, time, timedelta
from pathlib import Path

import pytest
from openpyxl import Workbook

from scoutgen.records import import_workbook
from scoutgen.records.import_file import UNSAVED, UnreadableError
from scoutgen.records.import_workbook import cell_text, sheet_names, workbook_sheets


def saved(path: Path, rows: list[list[object]], title: str = "Pen") -> Path:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = title
    for row in rows:
        sheet.append(row)
    book.create_sheet("Other").append(["z"])
    book.save(path)
    return path


def test_cells_are_what_somebody_would_type(tmp_path: Path) -> None:
    rows: list[list[object]] = [["Name", None, "Velo"], [], ["Núñez", datetime(2026, 4, 7), 91.5]]  # noqa: DTZ001
    path = saved(tmp_path / "a.xlsx", rows)
    assert sheet_names(path) == ["Pen", "Other"]
    (sheet,) = workbook_sheets(path, [])
    assert sheet.file == "a.xlsx:Pen"
    assert list(sheet.rows) == [(1, ["Name", "", "Velo"]), (3, ["Núñez", "2026-04-07", "91.5"])]
    assert [s.file for s in workbook_sheets(path, ["Other", "Pen"])] == ["a.xlsx:Other", "a.xlsx:Pen"]


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, ""),
        (True, "yes"),
        (3, "3"),
        (3.0, "3"),
        (0.1 + 0.2, "0.3"),
        (1.345, "1.3450"),
        (0.345, "0.345"),
        (date(2026, 4, 7), "2026-04-07"),
        (datetime(2026, 4, 7, 19, 5), "2026-04-07 19:05:00"),  # noqa: DTZ001 - as a workbook has it
        (time(0, 0, 1, 320_000), "0:00:01.320"),
        (timedelta(seconds=1.32), "0:00:01.320"),
        (" x ", "x"),
    ],
)
def test_every_kind_of_cell(value: object, text: str) -> None:
    assert cell_text(value) == text


def test_a_sheet_that_is_not_there_is_told_with_those_that_are(tmp_path: Path) -> None:
    with pytest.raises(UnreadableError, match=r'no sheet "Penn".*did you mean "Pen"'):
        workbook_sheets(saved(tmp_path / "a.xlsx", [["a"]]), ["Penn"])


def test_a_formula_counts_by_its_saved_value_or_is_told(tmp_path: Path) -> None:
    path = saved(tmp_path / "a.xlsx", [["Velo"], [91], ["=A2+1"]])
    assert list(workbook_sheets(path, [])[0].rows)[-1] == (3, [UNSAVED])
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    sheet = "xl/worksheets/sheet1.xml"
    assert b"<v></v>" in parts[sheet] or b"<v />" in parts[sheet] or b"<v/>" in parts[sheet]
    for blank in (b"<v></v>", b"<v />", b"<v/>"):
        parts[sheet] = parts[sheet].replace(blank, b"<v>92</v>")
    with zipfile.ZipFile(path, "w") as packed:
        for name, data in parts.items():
            packed.writestr(name, data)
    assert list(workbook_sheets(path, [])[0].rows)[-1] == (3, ["92"])


def test_merged_cells_are_found_wherever_a_block_ends(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Pen"
    for row in (["Tuesday"], ["P", "Pitch"], *(["Ada", "FB"] for _ in range(400))):
        sheet.append(row)
    for cells in ("A1:B1", "A3:A6", *(f"A{line}:A{line + 1}" for line in range(10, 400, 2))):
        sheet.merge_cells(cells)
    book.create_sheet("Other").append(["z"])
    book.save(tmp_path / "a.xlsx")
    for block in (1_000_000, 1_000, 37):
        monkeypatch.setattr(import_workbook, "BLOCK", block)
        pen, other = workbook_sheets(tmp_path / "a.xlsx", ["Pen", "Other"])
        assert len(pen.merged) == 197
        assert {(1, 1, "A1:B1"), (3, 6, "A3:A6")} < set(pen.merged)
        assert other.merged == ()


def test_a_bomb_is_refused_before_it_is_unpacked(tmp_path: Path) -> None:
    path = saved(tmp_path / "a.xlsx", [["a"]])
    with (
        zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as packed,
        packed.open("xl/big.bin", "w", force_zip64=True) as part,
    ):
        block = b"\0" * 10_000_000
        for _ in range(import_workbook.MOST_UNPACKED_BYTES // len(block) + 1):
            part.write(block)
    assert path.stat().st_size < 1_000_000
    with pytest.raises(UnreadableError, match="unpacks to"):
        workbook_sheets(path, [])


def test_texts_held_in_memory_have_a_bound_of_their_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(import_workbook, "MOST_TEXTS_BYTES", 100)
    with pytest.raises(UnreadableError, match="read at once"):
        workbook_sheets(saved(tmp_path / "a.xlsx", [["a"]]), [])


def test_a_document_type_is_refused(tmp_path: Path) -> None:
    path = saved(tmp_path / "a.xlsx", [["a"]])
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    bomb = b'<?xml version="1.0"?><!DOCTYPE z [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><z>&b;</z>'
    parts["xl/sharedStrings.xml"] = bomb
    with zipfile.ZipFile(path, "w") as packed:
        for name, data in parts.items():
            packed.writestr(name, data)
    with pytest.raises(UnreadableError, match="document type"):
        workbook_sheets(path, [])


def test_too_many_rows_end_the_reading(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(import_workbook, "MOST_ROWS", 3)
    with pytest.raises(UnreadableError, match="more than 3 rows"):
        list(workbook_sheets(saved(tmp_path / "a.xlsx", [["a"]] * 5), [])[0].rows)


@pytest.mark.parametrize("kept", [30, 0.3, 0.6, 0.9])
def test_a_cut_off_workbook_is_told(tmp_path: Path, kept: float) -> None:
    path = saved(tmp_path / "a.xlsx", [["a"], ["1"]])
    data = path.read_bytes()
    path.write_bytes(data[: int(kept if kept > 1 else len(data) * kept)])
    with pytest.raises(UnreadableError, match="not a workbook that can be read"):
        list(workbook_sheets(path, [])[0].rows)


def test_a_sheet_that_is_broken_inside_is_told(tmp_path: Path) -> None:
    path = saved(tmp_path / "a.xlsx", [["a"], ["1"]])
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    sheet = "xl/worksheets/sheet1.xml"
    parts[sheet] = parts[sheet][: len(parts[sheet]) // 2]
    with zipfile.ZipFile(path, "w") as packed:
        for name, data in parts.items():
            packed.writestr(name, data)
    with pytest.raises(UnreadableError, match="cannot be read from here on"):
        list(workbook_sheets(path, [])[0].rows)


def rewritten(path: Path, *changes: tuple[str, str]) -> Path:
    """The same workbook with texts in its first sheet changed."""
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    sheet = next(name for name in parts if name.endswith("sheet1.xml"))
    for before, after in changes:
        assert before.encode() in parts[sheet]
        parts[sheet] = parts[sheet].replace(before.encode(), after.encode(), 1)
    with zipfile.ZipFile(path, "w") as packed:
        for name, content in parts.items():
            packed.writestr(name, content)
    return path


ROWS: list[list[object]] = [["P", "V"], ["Ada", 90], ["Bo", 91], ["Cy", 92]]


@pytest.mark.parametrize("size", ["A1:B2", "A1", "A1:A4", "A1:XFD1048576", "none"])
def test_a_sheet_is_as_large_as_its_rows_and_not_as_it_once_said(tmp_path: Path, size: str) -> None:
    path = rewritten(saved(tmp_path / "a.xlsx", ROWS), ('<dimension ref="A1:B4" />', f'<dimension ref="{size}" />'))
    if size == "none":
        rewritten(path, ('<dimension ref="none" />', ""))
    [sheet] = workbook_sheets(path, [])
    assert list(sheet.rows) == [(1, ["P", "V"]), (2, ["Ada", "90"]), (3, ["Bo", "91"]), (4, ["Cy", "92"])]


@pytest.mark.parametrize(
    ("before", "after", "line"),
    [
        ('<row r="4"', '<row r="3"', 3),
        ('<row r="4"', '<row r="2"', 2),
        ('<c r="B3"', '<c r="A3"', 3),
        ('<c r="B3"', '<c s="0" r="A3"', 3),
    ],
)
def test_rows_and_cells_that_would_hide_one_another_are_refused(
    tmp_path: Path, before: str, after: str, line: int
) -> None:
    path = rewritten(saved(tmp_path / "a.xlsx", ROWS), (before, after))
    with pytest.raises(UnreadableError, match="twice, or out of its order") as told:
        workbook_sheets(path, [])
    assert told.value.line == line


def test_a_place_is_read_wherever_a_block_ends(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    good = saved(tmp_path / "good.xlsx", ROWS)
    twice = rewritten(saved(tmp_path / "a.xlsx", ROWS), ('<row r="4"', '<row r="2"'))
    for block in range(7, 60):
        monkeypatch.setattr(import_workbook, "BLOCK", block)
        assert len(list(workbook_sheets(good, [])[0].rows)) == 4
        with pytest.raises(UnreadableError, match="out of its order"):
            workbook_sheets(twice, [])


def test_rows_and_cells_without_a_place_follow_one_another(tmp_path: Path) -> None:
    path = saved(tmp_path / "a.xlsx", ROWS)
    rewritten(path, *((f'<row r="{row}"', "<row") for row in (1, 2, 3, 4)), ('<c r="B2"', "<c"))
    [sheet] = workbook_sheets(path, [])
    assert [line for line, _ in sheet.rows] == [1, 2, 3, 4]


def test_a_cell_that_cannot_be_read_has_its_row(tmp_path: Path) -> None:
    path = rewritten(saved(tmp_path / "a.xlsx", ROWS), ("<v>91</v>", "<v>NaN</v>"))
    [sheet] = workbook_sheets(path, [])
    rows = [next(sheet.rows), next(sheet.rows)]
    assert [line for line, _ in rows] == [1, 2]
    with pytest.raises(UnreadableError, match="cannot be read from here on") as told:
        next(sheet.rows)
    assert told.value.line == 3


def test_a_row_wider_than_any_chart_is_refused(tmp_path: Path) -> None:
    [sheet] = workbook_sheets(saved(tmp_path / "a.xlsx", [["a"] * 501]), [])
    with pytest.raises(UnreadableError, match="more than 500 columns"):
        next(sheet.rows)


def test_blanks_that_are_named_one_by_one_have_an_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(import_workbook, "MOST_CELLS", 5)
    [sheet] = workbook_sheets(saved(tmp_path / "a.xlsx", ROWS), [])
    with pytest.raises(UnreadableError, match="more than 5 cells") as told:
        list(sheet.rows)
    assert told.value.line == 3
