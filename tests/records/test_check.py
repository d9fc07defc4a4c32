"""How cells are quoted, names listed and guessed, and whole numbers hinted at, alike for tables and YAML."""

import pytest

from scoutgen.records.check import did_you_mean, field_checks, listed, nearest, quoted, whole_hint
from scoutgen.records.pitches import Pitch


def test_a_quoted_cell_is_short_and_moves_no_cursor() -> None:
    assert quoted("FB") == '"FB"'
    assert quoted("a" * 41) == f'"{"a" * 40}…"'
    assert quoted("a\x1b[2Jb\u202ec") == '"a\\x1b[2Jb\\u202ec"'
    assert quoted(7) == '"7"'


def test_names_in_a_row() -> None:
    assert [listed([]), listed("a"), listed("ab"), listed("abc", "and")] == ["", "a", "a or b", "a, b and c"]


def test_the_nearest_name_is_guessed_whatever_its_capitals() -> None:
    assert nearest("SLIDR", ["slider", "sinker"]) == ["slider"]
    assert did_you_mean("slidr", ["slider"]) == '; did you mean "slider"?'
    assert did_you_mean("zzz", ["slider"]) == ""


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("1.5", "; write 1 or 2"),
        ("1,5", "; write 1 or 2"),
        ("3.0", "; write 3"),
        ("3.", "; write 3"),
        ("+2.5", "; write 2 or 3"),
        ("-2.5", "; write -3 or -2"),
        ("-0.5", "; write -1 or 0"),
        ("1,500", "; write 1500"),
        ("1.5.5", ""),
        ("one", ""),
        ("", ""),
    ],
)
def test_the_whole_number_meant(text: str, hint: str) -> None:
    assert whole_hint(text) == hint


def test_a_columns_rules_are_read_off_its_record() -> None:
    checks = field_checks(Pitch)
    assert (checks["balls"].kind, checks["balls"].low, checks["balls"].high) == ("whole", 0, 3)
    assert checks["bats"].allowed == ("L", "R")
    assert checks["bases"].blank_counts
    values, wrong = checks["balls"].values(["0", "", "3", "4", "x"], {})
    assert values == [0, None, 3, None, None]
    assert sorted(wrong) == [3, 4]
    assert wrong[3] == '"4" is too large; allowed are 0 to 3'
