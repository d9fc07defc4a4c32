"""Habits: k of n by situation, in the order of what can be relied on."""

import pandas as pd
from measures.rows import frame

from scoutgen.measures.habits import habit_feet, habit_rates

MAN = {"team": "harbor", "player": "okafor", "position": 2}


def test_by_situation_with_the_last_day_it_was_seen() -> None:
    habits = frame(
        "habits",
        {"seen": True, "bases": "3", "date": "2026-03-06", "game": "g1"},
        {"seen": True, "bases": "13", "date": "2026-03-07", "game": "g2"},
        {"seen": False, "bases": "", "date": "2026-03-13", "game": "g3"},
        {"seen": None, "bases": "3"},
        {"seen": True, "date": "2026-03-06", "game": "g1"},
        **{**MAN, "habit": "lobs-return"},
    )
    table = habit_rates(habits).set_index("bases")
    assert table.loc["all", ["k", "n", "games"]].tolist() == [3, 4, 3]
    assert table.loc["on", ["k", "n"]].tolist() == [2, 2]
    assert table.loc["scoring", ["k", "n"]].tolist() == [2, 2]
    assert table.loc["empty", ["k", "n"]].tolist() == [0, 1]
    assert table.loc["13", ["k", "n"]].tolist() == [1, 1]
    assert table.loc["all", "last_seen"] == pd.Timestamp("2026-03-13")
    assert table.loc["all", "last_yes"] == pd.Timestamp("2026-03-07")
    assert pd.isna(table.loc["empty", "last_yes"])


def test_what_surely_recurs_comes_first() -> None:
    seldom = [{"habit": "back-picks", "seen": i == 0} for i in range(8)]
    once = [{"habit": "drops-head", "seen": True}]
    always = [{"habit": "lobs-return", "seen": i > 0} for i in range(12)]
    table = habit_rates(frame("habits", *seldom, *once, *always, **MAN))
    assert table["habit"].tolist() == ["lobs-return", "drops-head", "back-picks"]
    assert table["low"].is_monotonic_decreasing


def test_one_look_leans_on_the_others_and_a_percent_does_not_follow() -> None:
    others = [{"player": f"c{i}", "seen": j == 0} for i in range(6) for j in range(20)]
    table = habit_rates(frame("habits", *others, {"seen": True}, **{**MAN, "habit": "lobs-return"}))
    one = table[table["player"].eq("okafor")].iloc[0]
    assert one[["k", "n"]].tolist() == [1, 1]
    assert one["share"] < 0.3  # 1 of 1, where everybody else does it once in twenty
    assert one["high"] > one["share"] > one["low"]


def test_a_blank_position_joins_the_only_one_charted() -> None:
    short = {"team": "harbor", "habit": "turns-back", "seen": True}
    habits = frame(
        "habits",
        *[{**short, "player": "a", "position": p} for p in (6, None, 6)],
        *[{**short, "player": "b", "position": p} for p in (4, None, 6)],
        {**short, "position": 4},
        {**short},
    )
    table = habit_rates(habits)
    n = {
        (None if pd.isna(p) else p, at): n for p, at, n in table[["player", "position", "n"]].astype(object).to_numpy()
    }
    assert n[("a", 6)] == 3
    assert [n[("b", at)] for at in (4, 6, pd.NA)] == [1, 1, 1]
    assert [n[(None, at)] for at in (4, pd.NA)] == [1, 1]


def test_feet() -> None:
    habits = frame(
        "habits", *[{"feet": f, "bases": "3"} for f in (8.0, 10.0, 15.0)], {"feet": 30.0, "bases": ""},
        team="harbor", position=5, habit="third-off-bag",
    )  # fmt: skip
    table = habit_feet(habits).set_index("bases")
    assert table.loc["3", ["n", "median_ft", "min_ft", "max_ft"]].tolist() == [3, 10.0, 8.0, 15.0]
    assert table.loc["all", ["n", "median_ft"]].tolist() == [4, 12.5]
    assert pd.isna(table.loc["3", "player"])
