"""The numbers of the pages as tables for a spreadsheet."""

import csv
import io
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.exported import exported

HEAD = {"format": 1, "team": "harbor", "player": "a", "name": "Ada", "number": "07", "as_of": "x", "built": "y"}


def table(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def facts(**lists: object) -> str:
    return json.dumps({**HEAD, **lists})


def test_a_list_of_all_men_is_one_file_with_who_before_every_row() -> None:
    texts = exported(
        {
            "facts/harbor/b.json": facts(usage=[{"pitch": "slider", "k": 2}]).replace("Ada", "Bo"),
            "facts/harbor/a.json": facts(usage=[{"pitch": "curve", "k": 1, "share": -0.25, "low": None}], feet=[]),
        }
    )
    assert list(texts) == ["usage.csv"]
    ada, bo = table(texts["usage.csv"])
    assert list(ada) == ["team", "player", "name", "number", "pitch", "k", "share", "low"]
    assert list(ada.values()) == ["harbor", "a", "Ada", "'07", "curve", "1", "-0.25", ""]
    assert list(bo.values()) == ["harbor", "a", "Bo", "'07", "slider", "2", "", ""]


def test_a_team_s_rows_name_their_own_men() -> None:
    team = {"format": 1, "team": "harbor", "name": "Gannet Harbor", "as_of": "x", "built": "y"}
    texts = exported({"facts/harbor.json": json.dumps({**team, "off_bag": [{"position": 5, "player": "a", "n": 3}]})})
    assert table(texts["off_bag.csv"]) == [{"team": "harbor", "position": "5", "player": "a", "n": "3"}]


def test_parts_become_columns_and_one_object_a_row() -> None:
    texts = exported({"a": facts(grades={"tools": {"hit": {"now": 50}}, "few": True, "of": [1, 2]}, nothing=None)})
    assert list(texts) == ["grades.csv"]
    (row,) = table(texts["grades.csv"])
    assert (row["tools_hit_now"], row["few"], row["of"]) == ("50", "yes", "1; 2")


@pytest.mark.parametrize("text", ["=1+1", "+1+1", "-1+1", "@A1", "\t=1", "\r=1", "1-2", "3/4", "07"])
def test_a_text_that_a_spreadsheet_would_change_has_an_apostrophe(text: str) -> None:
    (row,) = table(exported({"a": facts(usage=[{"value": text, "change": -0.031}])})["usage.csv"])
    assert row["value"] == f"'{text}"
    assert row["change"] == "-0.031"


@given(
    st.dictionaries(
        st.sampled_from("abc"),
        st.text(max_size=8) | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.none(),
        min_size=1,
    )
)
def test_texts_never_run_and_numbers_stay_numbers(row: dict[str, object]) -> None:
    (read,) = table(exported({"x": facts(usage=[row])})["usage.csv"])
    for name, value in row.items():
        if isinstance(value, str):
            assert read[name].lstrip(" ")[:1] not in ("=", "@", "\t", "\r") or not value
            assert value in (read[name], read[name][1:])
        elif value is not None:
            assert float(read[name]) == pytest.approx(float(str(value)))
