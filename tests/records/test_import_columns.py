"""Columns of files whose headers nobody agreed on."""

from pathlib import Path

import pytest

from scoutgen.records.import_columns import (
    column_of,
    date_forms,
    decimal_sign,
    first_look,
    folded,
    is_count,
    likely_table,
    meant_by,
)


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


@pytest.mark.parametrize(
    ("cells", "played", "forms"),
    [
        (["2026-03-06"], [], ["year-month-day"]),
        (["6.3.2026", "07.03.26"], [], ["day.month.year"]),
        (["13/3/2026"], [], ["day/month/year"]),
        (["3/13/26"], [], ["month/day/year"]),
        (["03/06/26"], [], ["day/month/year", "month/day/year"]),
        (["03/06/26"], ["2026-03-06"], ["month/day/year"]),
        (["03/06/26"], ["2026-06-03", "2026-03-06"], ["day/month/year", "month/day/year"]),
        (["46087", "46088.5"], [], ["serial"]),
        (["Friday"], [], []),
        ([], [], []),
    ],
)
def test_how_days_are_written(cells: list[str], played: list[str], forms: list[str]) -> None:
    assert date_forms(cells, played) == forms


@pytest.mark.parametrize(
    ("cells", "sign", "open_"),
    [
        (["1,5", "30.5"], "", []),
        (["1.320", "1.5"], "", []),
        (["1.320"], "", []),
        (["1,320"], "", ["1,320"]),
        (["1,320", "1,5"], "comma", ["1,320"]),
        (["1.320", "1,5"], "comma", ["1.320"]),
        (["1,320", "1.320", "1.5"], "point", ["1,320"]),
        (["1,320", "1.5", "1,5"], "", ["1,320"]),
        (["1.320", "1.234.567"], "comma", ["1.320"]),
        (["1,320", "0,320"], "comma", ["1,320"]),
        (["1,320", "n/a", "12"], "", ["1,320"]),
    ],
)
def test_the_sign_before_decimals_as_far_as_it_must_be_said(cells: list[str], sign: str, open_: list[str]) -> None:
    assert decimal_sign(cells) == (sign, open_)


def test_counts_and_days_that_were_counts() -> None:
    assert is_count(column_of("C", ("1-2", "2026-02-01")))
    assert not is_count(column_of("C", ("2026-02-01",)))
    assert not is_count(column_of("C", ("1-2", "4-1")))


def test_no_columns_are_pitches() -> None:
    assert likely_table([]) == "pitches"


def test_an_empty_text_has_no_header(tmp_path: Path) -> None:
    (tmp_path / "x.csv").write_text("a,,b\n1,2,3\n\n4\n")
    look = first_look(tmp_path / "x.csv")
    assert [(column.header, column.cells) for column in look.columns] == [("a", ("1", "4")), ("b", ("3",))]
    assert (look.line, look.rows, look.sheets) == (1, 2, ())
