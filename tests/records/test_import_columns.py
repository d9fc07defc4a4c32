"""Columns of files whose headers nobody agreed on."""

from pathlib import Path

import pytest

from scoutgen.records.import_columns import column_of, first_look, folded, meant_by


def test_headers_are_compared_by_their_words() -> None:
    assert folded("Pitch-Type") == folded("pitchType") == folded("PITCH  TYPE") == "pitch type"


@pytest.mark.parametrize(
    ("header", "words", "unit", "meant"),
    [
        ("Velo (km/h)", "velo", "kph", ["speed_mph"]),
        ("mph", "mph", "mph", ["speed_mph"]),
        ("Pop time [s]", "pop time", "s", ["pop_seconds"]),
        ("Depth (m)", "depth", "m", ["distance_ft", "depth_ft"]),
        ("L/R", "l r", "", ["bats"]),
        ("Weather", "weather", "", []),
    ],
)
def test_a_header_s_words_and_unit(header: str, words: str, unit: str, meant: list[str]) -> None:
    column = column_of(header)
    assert (column.words, column.unit) == (words, unit)
    assert meant_by(column) == meant


def test_an_empty_text_has_no_header(tmp_path: Path) -> None:
    (tmp_path / "x.csv").write_text("a,,b\n1,2,3\n\n4\n")
    look = first_look(tmp_path / "x.csv")
    assert [(column.header, column.cells) for column in look.columns] == [("a", ("1", "4")), ("b", ("3",))]
    assert (look.line, look.rows, look.sheets) == (1, 2, ())


def test_cells_are_known_by_the_rows_they_stand_in(tmp_path: Path) -> None:
    (tmp_path / "x.csv").write_text("a,b\n1,2\nA,b\n1,\na,b\n")
    look = first_look(tmp_path / "x.csv")
    first, second = look.columns
    assert first.lines == {"1": ["x.csv:2", "x.csv:4"], "A": ["x.csv:3"]}
    assert (first.rows(["1", "A"]), second.rows(["2"]), column_of("c", ("x",)).rows(["x"])) == (3, 1, 1)
    # The header once more is no row of theirs.
    assert (look.again, look.rows) == (("x.csv:5",), 4)
