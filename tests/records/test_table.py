"""Rows of a table: which cannot be used, how often the same is said, how many are left out."""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from scoutgen.records.games import Game
from scoutgen.records.table import MOST_PLACES, Rows, read_rows, spread


def rows(number: int) -> Rows:
    file = pd.Categorical.from_codes([0] * number, ["data/a.csv"])
    frame = pd.DataFrame({"file": file, "line": np.arange(2, number + 2)})
    return Rows("a", frame, np.zeros(number, bool), files=["data/a.csv"])


def test_the_same_of_many_rows_is_said_of_the_first_and_counted() -> None:
    many = rows(30)
    many.flag(np.arange(30) < 25, "pitch", "is odd")
    assert int(many.bad.sum()) == 25
    assert len(many.problems) == MOST_PLACES + 1
    assert str(many.problems[0]) == "data/a.csv:2: pitch: is odd"
    assert str(many.problems[-1]) == "data/a.csv:22: pitch: and 5 more rows with the same problem: is odd"


def test_a_warning_leaves_the_rows_in_use() -> None:
    some = rows(3)
    some.flag(np.array([True, False, True]), "", lambda row: f"row {row}", "warning")
    assert not some.bad.any()
    assert [str(problem) for problem in some.problems] == [
        "data/a.csv:2: warning: row 0",
        "data/a.csv:4: warning: row 2",
    ]


def test_what_is_left_out_is_counted_in_rows_and_files(tmp_path: Path) -> None:
    (tmp_path / "data/games").mkdir(parents=True)
    good = "game,date,source\ng1,2026-03-06,video\n"
    (tmp_path / "data/games/a.csv").write_text(good + "g2,soon,tv\ng3\n", encoding="utf-8")
    (tmp_path / "data/games/b.csv").write_bytes(b"game,date,source\ng4,2026-03-07,vid\xe9o\n")
    read = read_rows(tmp_path, "games", Game)
    # Two faults in one row; one row of too few cells; one file that is no text.
    assert (int(read.bad.sum()), read.torn, read.left_out, read.lost) == (1, 1, 2, {"data/games/b.csv"})
    assert read.unread


@pytest.mark.parametrize(
    ("kind", "values", "dtype"),
    [
        ("whole", [3, None], "Int16"),
        ("yes_no", [True, None], "boolean"),
        ("number", [1.5, None], "float64"),
        ("text", ["x", None], "category"),
    ],
)
def test_missing_stays_missing_in_every_kind_of_column(kind: str, values: list[object], dtype: str) -> None:
    column = pd.Series(spread(kind, values, np.array([0, 1, -1], np.int32)))  # type: ignore[arg-type]
    assert str(column.dtype) == dtype
    assert column.isna().tolist() == [False, True, True]
