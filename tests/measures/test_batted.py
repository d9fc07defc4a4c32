"""Kinds of contact, thirds of the field and bunts: by hand, in the mirror, and on hitters whose truth is known."""

import numpy as np
import pandas as pd
import pytest
from measures.rows import frame, seasonal

from scoutgen.measures.batted import (
    APPEARANCE_COLUMNS,
    BUNT_COLUMNS,
    CONTACT_COLUMNS,
    CONTACTS,
    THIRD_COLUMNS,
    THIRDS,
    appearances,
    batted_balls,
    bunts,
    contact,
    other_way,
    thirds,
)
from scoutgen.measures.directions import FIFTHS, spray
from scoutgen.measures.hitting import HITTING_COLUMNS, two_strike_change

MAN = {"batter": "reyes", "batter_team": "harbor", "bats": "R", "result": "in_play", "play": "out", "strikes": 0}


def whole(table: pd.DataFrame, **keys: str) -> pd.DataFrame:
    wanted = {"bats": "all", "split": "all", **keys}
    return table[np.logical_and.reduce([table[name].eq(word) for name, word in wanted.items()])]


def test_a_plate_appearance_is_counted_once_at_its_end() -> None:
    rows = [
        {"result": "ball", "play": None},
        {"result": "foul", "play": None},
        {"result": "ball", "play": "walk"},
        {"contact": "ground", "play": None},
        {"result": None, "play": None, "contact": "fly"},
        {"result": "foul", "play": None, "game": "g2"},
    ]
    table = appearances(frame("pitches", *rows, **MAN))
    assert list(table.columns) == APPEARANCE_COLUMNS
    assert table[table["bats"].eq("all")][["n", "games"]].to_numpy().tolist() == [[3, 2]]


def test_contact_kinds_by_hand_bunts_left_out() -> None:
    kinds = ["ground", "ground", "line", "fly", "bunt"]
    table = contact(frame("pitches", *[{"contact": kind} for kind in kinds], {"contact": "fly", "strikes": 2}, **MAN))
    assert list(table.columns) == CONTACT_COLUMNS
    rows = whole(table).set_index("contact")
    assert rows["k"].to_dict() == {"ground": 2, "line": 1, "fly": 2, "popup": 0}
    assert set(rows["n"]) == {5}
    assert whole(table, split="strikes", value="two").set_index("contact").loc["fly", ["k", "n"]].tolist() == [1, 1]
    np.testing.assert_allclose(table.groupby(["bats", "split", "value"])["share"].sum(), 1.0)


@pytest.mark.parametrize(
    ("degrees", "third"), [(-44, "pull"), (-15, "middle"), (0, "middle"), (15, "middle"), (16, "other")]
)
def test_thirds_are_the_hitters_and_mirrored_for_a_left_handed_one(degrees: float, third: str) -> None:
    for bats, sign in (("R", 1), ("L", -1)):
        pitches = frame("pitches", {"contact": "ground", "direction_deg": sign * degrees, "bats": bats}, **MAN)
        table = thirds(pitches, spray(pitches))
        rows = whole(table, bats=bats)
        assert rows.loc[rows["k"].eq(1), "where"].tolist() == [third]


def test_thirds_follow_hand_and_strikes_and_sum_to_one() -> None:
    rows = [
        {"contact": "ground", "direction_deg": -30},
        {"contact": "ground", "direction_deg": 30, "strikes": 2},
        {"contact": "line", "direction_deg": 30, "strikes": None},
        {"contact": "popup", "direction_deg": 1},
    ]
    pitches = frame("pitches", *rows, **MAN).assign(throws=["L", "R", None, "L"])
    table = thirds(pitches, spray(pitches))
    assert list(table.columns) == THIRD_COLUMNS
    assert set(table["where"]) == set(THIRDS)
    n = table.groupby(["kind", "split", "value"])["k"].sum().to_dict()
    assert n == {
        ("air", "all", "all"): 1,
        ("ground", "all", "all"): 2,
        ("ground", "hand", "L"): 1,
        ("ground", "hand", "R"): 1,
        ("ground", "strikes", "early"): 1,
        ("ground", "strikes", "two"): 1,
    }
    np.testing.assert_allclose(table.groupby(["kind", "split", "value"])["share"].sum(), 1.0)
    assert (table["low"] <= table["share"]).all()
    assert (table["share"] <= table["high"]).all()


def sprayed(men: int, n: int, *, seed: int) -> tuple[pd.DataFrame, np.ndarray]:
    """Ground balls of right-handed hitters, and each one's true share of the pull side's third."""
    rng = np.random.default_rng(seed)
    truth = np.array(FIFTHS["ground"]) * np.exp(rng.normal(0, 0.5, (men, 1)) * np.linspace(-1, 1, 5))
    truth /= truth.sum(axis=1, keepdims=True)
    fifth = np.array([rng.choice(5, n, p=share) for share in truth])
    direction = -45 + 18 * (fifth + rng.random((men, n)))
    names = np.repeat([f"b{man:03d}" for man in range(men)], n)
    same = {"game": "g1", "date": "2026-03-06", "batter_team": "t", "bats": "R", "contact": "ground", "strikes": 0}
    # -45 to -15 are the first fifth and two thirds of the second.
    return seasonal("pitches", {"batter": names, "direction_deg": direction.ravel(), **same}), truth @ [
        1,
        2 / 3,
        0,
        0,
        0,
    ]


def test_intervals_of_the_pull_side_hold_the_truth_about_as_often_as_they_say() -> None:
    inside = []
    for seed in range(4):
        pitches, truth = sprayed(60, 25, seed=seed)
        rows = whole(thirds(pitches, spray(pitches)), bats="R", where="pull")
        inside += ((rows["low"].to_numpy() <= truth) & (truth <= rows["high"].to_numpy())).tolist()
    assert 0.8 <= np.mean(inside) <= 0.98


def test_more_of_his_own_balls_lean_less_on_the_others() -> None:
    held = []
    for n in (5, 20, 80):
        pitches, _ = sprayed(40, n, seed=1)
        held.append(thirds(pitches, spray(pitches))["held"].mean())
    assert held == sorted(held, reverse=True)


def test_the_other_way_with_two_strikes_against_before() -> None:
    early = [{"contact": "ground", "direction_deg": -30}] * 3 + [{"contact": "line", "direction_deg": 30}]
    late = [{"contact": "fly", "direction_deg": 40, "strikes": 2}] * 2
    rates = other_way(frame("pitches", *early, *late, **MAN))
    assert list(rates.columns) == HITTING_COLUMNS
    change = two_strike_change(rates)
    row = change[change["bats"].eq("all")].iloc[0]
    assert row[["measure", "k", "n", "early_k", "early_n"]].tolist() == ["other way", 2, 2, 1, 4]
    assert row["change"] > 0


def test_bunts_by_hand() -> None:
    bunt = {"contact": "bunt", "bases": ""}
    rows = [
        {**bunt, "direction_deg": -35, "play": "single", "date": "2026-03-01"},
        {**bunt, "direction_deg": 0},
        {**bunt, "direction_deg": 40, "play": "sacrifice", "bases": "1"},
        {**bunt, "direction_deg": None, "bases": None},
        {"result": "foul_bunt", "play": None, "contact": "bunt"},
        {"result": "ball", "play": "walk"},
        {"contact": "ground", "direction_deg": 40},
        {"result": "ball", "play": None, "date": "2026-03-09"},
    ]
    table = bunts(frame("pitches", *rows, **MAN))
    assert list(table.columns) == BUNT_COLUMNS
    row = table[table["bats"].eq("all")].iloc[0]
    counts = ["k", "n", "fouled", "third", "middle", "first", "hits", "sacrifices", "nobody_on"]
    assert row[counts].tolist() == [4, 6, 1, 1, 1, 1, 1, 1, 2]
    assert row["last_bunt"] == pd.Timestamp("2026-03-06")
    assert row["last_seen"] == pd.Timestamp("2026-03-09")
    assert row["low"] <= row["share"] <= row["high"]


def test_a_man_who_never_bunted_has_no_day_of_a_last_one() -> None:
    table = bunts(frame("pitches", {"contact": "ground"}, **MAN))
    assert table["k"].tolist() == [0, 0]
    assert table["last_bunt"].isna().all()


def test_a_ball_without_a_place_is_not_drawn() -> None:
    rows = [
        {"contact": "fly", "direction_deg": 3, "distance_ft": 310},
        {"contact": "fly", "direction_deg": 3},
        {"direction_deg": 3, "distance_ft": 90},
        {"contact": "bunt", "direction_deg": -40, "distance_ft": 20},
    ]
    assert batted_balls(frame("pitches", *rows, **MAN))["contact"].tolist() == ["fly", "bunt"]


def test_a_season_without_a_ball_in_play_has_every_column() -> None:
    pitches = frame("pitches", {"result": "ball"}, pitcher="x", pitcher_team="t")
    found = [
        contact(pitches),
        other_way(pitches),
        bunts(pitches),
        appearances(pitches),
        thirds(pitches, spray(pitches)),
    ]
    columns = [CONTACT_COLUMNS, HITTING_COLUMNS, BUNT_COLUMNS, APPEARANCE_COLUMNS, THIRD_COLUMNS]
    assert [list(table.columns) for table in found] == columns
    assert all(table.empty for table in found)
    assert set(CONTACTS) == {"ground", "line", "fly", "popup"}
