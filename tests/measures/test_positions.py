"""Where fielders stood, worked out by hand."""

import numpy as np
from measures.rows import frame

from scoutgen.measures.positions import off_bag, shades, stood


def test_depth_against_numpy() -> None:
    depths = [85.0, 92.0, 95.0, 110.0, 130.0]
    positions = frame(
        "positions", *[{"depth_ft": d, "bats": "R", "bases": ""} for d in depths], {"bats": "L", "off_bag_ft": 9.0},
        team="harbor", position=5, player="vance",
    )  # fmt: skip
    table = stood(positions).set_index(["player", "bats", "bases"])
    found = table.loc[("all", "R", "empty")]
    assert (found["n"], found["depth_n"], found["depth_median_ft"]) == (5, 5, 95.0)
    ends = found[["depth_p10_ft", "depth_p90_ft"]].astype(float)
    np.testing.assert_allclose(ends, np.quantile(depths, [0.1, 0.9]))
    whole = table.loc[("vance", "all", "all")]
    assert (whole["n"], whole["depth_n"], whole["off_bag_n"]) == (6, 5, 1)
    assert np.isnan(table.loc[("all", "L", "all"), "depth_median_ft"])


def test_shades_are_of_the_looks_where_it_was_charted() -> None:
    positions = frame(
        "positions",
        {"toward": "line"},
        {"toward": "line"},
        {"toward": "middle"},
        {},
        team="harbor",
        position=6,
        bats="L",
    )
    table = shades(positions)
    whole = table[table["bats"].eq("L")].set_index("toward")
    assert whole[["k", "n"]].to_numpy().tolist() == [[2, 3], [1, 3]]
    assert whole["share"].sum() == 1.0


def test_feet_off_the_bag_come_from_both_tables() -> None:
    positions = frame(
        "positions",
        {"position": 5, "bases": "3", "off_bag_ft": 10.0, "player": "vance"},
        {"position": 5, "bases": "123", "off_bag_ft": 14.0, "player": "vance"},
        {"position": 5, "bases": "1", "off_bag_ft": 40.0},  # nobody on third: says nothing of the lead there
        {"position": 3, "bases": "1", "off_bag_ft": 3.0},
        {"position": 6, "bases": "3", "off_bag_ft": 50.0},
        team="harbor",
    )
    habits = frame(
        "habits",
        {"habit": "third-off-bag", "feet": 18.0},  # the question itself says whose feet and which runner
        {"habit": "third-off-bag", "feet": 12.0, "position": 5, "bases": "13", "player": "vance"},
        {"habit": "lobs-return", "seen": True},
        {"habit": "own-one", "feet": 7.0},
        team="harbor",
    )
    table = off_bag(positions, habits).set_index(["position", "player"])
    third = table.loc[(5, "all")]
    assert third["runner_on"] == "3"
    assert (third["n"], third["from_positions"], third["from_habits"]) == (4, 2, 2)
    assert (third["median_ft"], third["min_ft"], third["max_ft"]) == (13.0, 10.0, 18.0)
    assert table.loc[(5, "vance"), "n"] == 3
    assert table.loc[(3, "all"), "median_ft"] == 3.0
    assert set(table.index.get_level_values("position")) == {3, 5}


def test_a_first_baseman_who_holds_or_plays_behind_is_said_to_do_both() -> None:
    feet = [1, 2, 14, 12, 16]
    stands = frame("positions", *[{"off_bag_ft": f} for f in feet], team="t", player="p", position=3, bases="1")
    found = off_bag(stands, frame("habits"))
    row = found[found["player"].eq("p")].iloc[0]
    assert (row["at_bag"], row["n"], row["away_ft"]) == (2, 5, 14)
    off = off_bag(stands[stands["off_bag_ft"] > 3], frame("habits")).iloc[0]
    assert (off["at_bag"], off["away_ft"]) == (0, 14)
