"""The written file: safe, equal for equal rows, and never over another's."""

import csv
import io
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.records import import_output
from scoutgen.records.import_output import CHECK, MAP, ROW, SOURCE, as_csv, difference, safe_text, why_not_over
from scoutgen.records.import_rows import ImportedRow

ROWS = [
    ImportedRow({"game": "g1", "note": "one\ntwo"}, "a.csv", 2),
    ImportedRow({"game": "g2", "note": ""}, "a.csv", 4),
]


def test_rows_carry_where_they_came_from_and_lines_are_counted() -> None:
    written = as_csv(["game", "note"], ROWS, "map.yml")
    rows = list(csv.reader(io.StringIO(written.text, newline="")))
    assert rows[0] == ["game", "note", SOURCE, MAP, ROW, CHECK]
    assert rows[1][:5] == ["g1", "one\ntwo", "a.csv:2", "map.yml", "1 of 2"]
    assert rows[2][4] == "2"
    assert written.lines == (2, 4)
    assert as_csv(["game", "note"], ROWS, "map.yml") == written


@pytest.mark.parametrize("text", ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1+1"])
def test_what_a_spreadsheet_would_run_is_made_a_text(text: str) -> None:
    assert safe_text(text) == f"'{text}"
    written = as_csv(["game", "note"], [ImportedRow({"game": "g1", "note": text}, text, 2)], text).text
    cells = next(row for row in list(csv.reader(io.StringIO(written, newline="")))[1:])
    assert [cell[0] for cell in cells[1:4]] == ["'"] * 3


@pytest.mark.parametrize("text", ["-3", "-0.5", "+2", "12", "a=b", "", "Núñez"])
def test_numbers_and_plain_texts_stay_as_they_are(text: str) -> None:
    assert safe_text(text) == text


@given(st.text(max_size=20))
def test_no_text_at_all_begins_a_formula(text: str) -> None:
    safe = safe_text(text).lstrip(" ")
    assert not safe.startswith(("=", "@", "\t", "\r"))
    assert not safe.startswith(("+", "-")) or safe[1:].replace(".", "", 1).isdecimal()


def test_what_may_be_replaced(tmp_path: Path) -> None:
    path = tmp_path / "x.csv"
    text = as_csv(["game", "note"], ROWS, "map.yml").text
    path.write_text(text, newline="")
    assert why_not_over(path, "a.csv", "map.yml") == ""
    assert "came from another file" in why_not_over(path, "b.csv", "map.yml")
    assert "came from another file" in why_not_over(path, "a.csv", "other.yml")
    path.write_text(text.replace("g2", "g3"), newline="")
    assert why_not_over(path, "a.csv", "map.yml").startswith(
        "was changed by hand since it was imported (first in row 3, from a.csv:4)"
    )
    path.write_text("game,note\ng1,\n")
    assert "not written by an import" in why_not_over(path, "a.csv", "map.yml")
    path.write_bytes(b"\xff")
    assert "cannot be read" in why_not_over(path, "a.csv", "map.yml")


THREE = [ImportedRow({"game": f"g{number}"}, "a.csv", number + 1) for number in (1, 2, 3)]


@pytest.mark.parametrize(
    ("kept", "why"),
    [
        ([1, 2, 3], ""),
        ([3, 1, 2], ""),  # sorted in a spreadsheet: nothing is lost
        ([], ""),
        ([2, 3], "first behind the head"),
        ([1, 3], r"first behind a\.csv:2"),
        ([1, 2], r"behind a\.csv:3"),
        ([1, 2, 2, 3], r"lost or doubled rows .*first behind a\.csv:3"),
    ],
)
def test_rows_deleted_by_hand_are_missed(tmp_path: Path, kept: list[int], why: str) -> None:
    path = tmp_path / "x.csv"
    lines = as_csv(["game"], THREE, "map.yml").text.splitlines(keepends=True)
    path.write_text("".join([lines[0], *(lines[number] for number in kept)]), newline="")
    said = why_not_over(path, "a.csv", "map.yml")
    assert re.search(why, said)
    assert bool(said) == bool(why)
    assert not said or "without: in the map" in said


def test_numbers_that_no_import_gives_are_somebody_s_own(tmp_path: Path) -> None:
    path = tmp_path / "x.csv"
    cells = ["g1", "a.csv:2", "map.yml", "first"]
    path.write_text(f"game,{SOURCE},{MAP},{ROW},{CHECK}\n{','.join([*cells, import_output._sum(cells)])}\n")
    assert "not written by an import" in why_not_over(path, "a.csv", "map.yml")


def test_two_imports_differ_in_their_rows_and_not_in_where_these_stand() -> None:
    def text(*rows: tuple[str, int], columns: tuple[str, ...] = ("game", "note")) -> str:
        return as_csv(columns, [ImportedRow({"game": g, "note": ""}, "a.csv", line) for g, line in rows], "m.yml").text

    before = text(("g1", 2), ("g1", 3), ("g2", 4))
    assert difference(before, text(("g2", 2), ("g1", 3), ("g1", 4))).new == 0
    moved = difference(before, text(("g1", 2), ("g3", 3), ("g2", 4), ("g2", 5)))
    assert (moved.new, moved.gone) == (2, ("a.csv:2",))
    # A blank column more says nothing.
    assert difference(before, text(("g1", 2), ("g1", 3), ("g2", 4), columns=("game",))) == difference(before, before)
    assert difference(before, text()).gone == ("a.csv:2", "a.csv:3", "a.csv:4")
