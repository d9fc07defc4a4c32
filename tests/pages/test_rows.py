"""A measure's table handed out team by team and man by man says what the frame says."""

from datetime import date
from typing import Any

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.rows import Table, plain_column, plain_rows


def frame() -> pd.DataFrame:
    """Men's rows apart from each other, one of nobody, and missing values of every kind."""
    return pd.DataFrame(
        {
            "team": ["harbor", "mesa", "harbor", "harbor", "mesa", "harbor"],
            "player": ["nunez", "nunez", "hale", "nunez", None, None],
            "n": [1, 2, 3, 4, 5, 6],
            "share": [0.5, 0.25, float("nan"), 1.0, 0.0, 0.125],
            "fast": pd.array([90, None, 91, 92, None, 93], dtype="Int64"),
            "sure": [True, False, True, False, True, False],
            "pitch": ["slider", None, "curve", "slider", "other", "change"],
            "seen": pd.to_datetime(["2026-04-01", None, "2026-04-02", "2026-04-03", "2026-04-04", "2026-04-05"]),
        }
    )


def test_rows_are_plain_values() -> None:
    first, second, *_ = plain_rows(frame())
    assert first == {
        "team": "harbor", "player": "nunez", "n": 1, "share": 0.5, "fast": 90, "sure": True, "pitch": "slider",
        "seen": date(2026, 4, 1),
    }  # fmt: skip
    assert {name: type(value).__name__ for name, value in first.items()} == {
        "team": "str", "player": "str", "n": "int", "share": "float", "fast": "int", "sure": "bool", "pitch": "str",
        "seen": "date",
    }  # fmt: skip
    assert [second[name] for name in ("fast", "pitch", "seen")] == [None, None, None]
    assert plain_rows(frame())[2]["share"] is None
    assert plain_rows(frame().iloc[:0]) == []


def test_a_column_of_floats_says_none_where_there_is_none() -> None:
    assert plain_column(pd.Series([1.5, None, 2.0])) == [1.5, None, 2.0]
    assert plain_column(pd.Series(["a", None, float("nan")], dtype=object)) == ["a", None, None]


def asked(rows: pd.DataFrame, team: str, player: str | None) -> list[dict[str, Any]]:
    return [row for row in plain_rows(rows) if (row["team"], row["player"]) == (team, player)]


def test_a_mans_rows_are_his_in_the_order_of_the_measure() -> None:
    table = Table(frame())
    assert [row["n"] for row in table.of("harbor", "nunez")] == [1, 4]
    for team in ("harbor", "mesa", "nobody"):
        for player in ("nunez", "hale", None, "nobody"):
            assert list(table.of(team, player)) == asked(frame(), team, player)


def test_a_teams_rows_are_man_by_man() -> None:
    table = Table(frame())
    assert [row["n"] for row in table.of_team("harbor")] == [1, 4, 3, 6]
    assert table.of_team("nobody") == []


def test_a_mans_columns_are_his_rows() -> None:
    table = Table(frame())
    assert table.columns_of("harbor", "nunez") == {
        name: [row[name] for row in table.of("harbor", "nunez")] for name in frame()
    }
    assert table.columns_of("harbor", "nobody") == table.columns_of("nobody", "nunez") == {}


def test_a_table_without_men_has_them_under_none() -> None:
    table = Table(pd.DataFrame({"team": ["mesa", "harbor", "mesa"], "n": [1, 2, 3]}))
    assert [row["n"] for row in table.of("mesa", None)] == [1, 3]
    assert table.of("mesa", "nunez") == []
    empty = Table(pd.DataFrame({"team": [], "player": [], "n": []}))
    assert empty.of("mesa", None) == empty.of_team("mesa") == []


def test_a_part_knows_one_team_alone() -> None:
    part = Table(frame()).part("harbor")
    assert part.of("harbor", "nunez") == Table(frame()).of("harbor", "nunez")
    assert part.of_team("harbor") == Table(frame()).of_team("harbor")
    assert part.of("mesa", "nunez") == part.of_team("mesa") == []
    assert part.columns_of("mesa", "nunez") == {}
    assert part.columns == Table(frame()).columns


OTHER_VALUES = (
    *(("n", 7), ("share", 0.501), ("share", float("nan")), ("fast", 89), ("fast", None), ("pitch", "sinker")),
    *(("pitch", None), ("pitch", ""), ("seen", pd.Timestamp("2026-04-09"))),
)


@pytest.mark.parametrize(
    ("place", "column", "value"),
    [
        (place, column, value)
        for place in range(6)
        for column, value in OTHER_VALUES
        if not (pd.isna(value) and pd.isna(frame().loc[place, column]))
    ],
)
def test_another_value_is_another_digest_of_its_team_alone(place: int, column: str, value: object) -> None:
    before, changed = Table(frame()), frame()
    changed.loc[place, column] = value
    assert plain_rows(changed)[place] != plain_rows(frame())[place]
    after = Table(changed)
    own = frame().loc[place, "team"]
    for team in ("harbor", "mesa"):
        assert (before.digest(team) == after.digest(team)) == (team != own)


def test_rows_in_another_order_or_of_another_man_are_another_digest() -> None:
    before = Table(frame()).digest("harbor")
    turned = frame()
    turned.loc[[0, 3]] = frame().loc[[3, 0]].to_numpy()
    assert [row["n"] for row in Table(turned).of("harbor", "nunez")] == [4, 1]
    other = frame()
    other.loc[3, "player"] = "hale"
    fewer = frame().drop(index=3)
    digests = {before, *(Table(one).digest("harbor") for one in (turned, other, fewer))}
    assert len(digests) == 4
    assert Table(frame()).digest("nobody") == b""


TEAM, MAN = st.sampled_from(["harbor", "mesa"]), st.sampled_from(["nunez", "hale", None])


@given(st.lists(st.tuples(TEAM, MAN, st.integers(0, 3)), max_size=12))
def test_however_rows_are_mixed_every_one_is_found_once(rows: list[tuple[str, str | None, int]]) -> None:
    mixed = pd.DataFrame(rows, columns=["team", "player", "n"])
    table = Table(mixed)
    for team in ("harbor", "mesa"):
        for player in ("nunez", "hale", None):
            assert list(table.of(team, player)) == asked(mixed, team, player)
        assert sorted(row["n"] for row in table.of_team(team)) == sorted(n for of, _, n in rows if of == team)
