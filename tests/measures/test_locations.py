"""Places by side, from the catcher's view and the batter's."""

import numpy as np
import pandas as pd
from measures.rows import frame
from statsmodels.stats.proportion import proportion_confint

from scoutgen.measures.locations import location_grid, location_places

MAN = {"pitcher": "reyes", "pitcher_team": "harbor", "pitch": "slider"}


def places(*spots: tuple[int, int], **same: object) -> pd.DataFrame:
    pitches = frame("pitches", *[{"height": h, "side": s} for h, s in spots], **{**MAN, **same})
    table = location_places(pitches)
    return table[table["pitch"].eq("slider") & table["bats"].eq(same.get("bats", "all"))].set_index("where")


def test_away_from_a_right_hander_is_the_catchers_right() -> None:
    # He stands on the catcher's left; side 5 is off the plate to the catcher's right.
    table = places((3, 5), (3, 4), (3, 3), (3, 1), bats="R")
    assert table.loc[["in", "middle", "away"], "k"].tolist() == [1, 1, 2]


def test_away_from_a_left_hander_is_the_catchers_left() -> None:
    table = places((3, 5), (3, 4), (3, 3), (3, 1), bats="L")
    assert table.loc[["in", "middle", "away"], "k"].tolist() == [2, 1, 1]


def test_up_down_and_in_the_zone() -> None:
    table = places((1, 3), (2, 2), (3, 5), (4, 4), (5, 3), bats="R")
    assert table.loc[["up", "center", "down"], "k"].tolist() == [2, 1, 2]
    assert table.loc["in zone", ["k", "n"]].tolist() == [2, 5]


def test_without_a_side_there_is_no_in_or_away() -> None:
    table = places((3, 3), (2, 1))
    assert set(table.index) == {"in zone", "up", "center", "down"}


def test_grid_by_hand_and_its_intervals() -> None:
    pitches = frame(
        "pitches",
        *[{"height": h, "side": s} for h, s in ((5, 1), (3, 3), (3, 3), (1, 5))],
        {"height": 3},
        bats="L",
        **MAN,
    )
    table = location_grid(pitches)
    grid = table[table["bats"].eq("L") & table["pitch"].eq("slider")]
    assert len(grid) == 25
    assert (grid["n"] == 4).all()
    # As the catcher sees it: the first is high on his left, the last low on his right.
    assert grid["k"].tolist() == [1, *[0] * 11, 2, *[0] * 11, 1]
    assert grid[["height", "side"]].iloc[[0, 12, 24]].to_numpy().tolist() == [[5, 1], [3, 3], [1, 5]]
    # Reference: statsmodels' Wilson interval.
    low, high = proportion_confint(grid["k"], grid["n"], alpha=0.10, method="wilson")
    np.testing.assert_allclose(grid["low"], low, atol=1e-12)
    np.testing.assert_allclose(grid["high"], high, atol=1e-12)


def test_grid_and_places_agree() -> None:
    rng = np.random.default_rng(4)
    spots = [
        {"height": int(h), "side": int(s), "bats": b, "pitcher": p}
        for h, s, b, p in zip(rng.integers(1, 6, 300), rng.integers(1, 6, 300), rng.choice(["L", "R"], 300),
                              rng.choice(["reyes", "vance"], 300), strict=True)
    ]  # fmt: skip
    pitches = frame("pitches", *spots, **MAN | {"pitcher": "reyes"})
    grid, table = location_grid(pitches), location_places(pitches)
    keys = ["player", "bats", "pitch"]
    within = grid[grid["height"].between(2, 4) & grid["side"].between(2, 4)].groupby(keys)["k"].sum()
    pd.testing.assert_series_equal(
        within, table[table["where"].eq("in zone")].set_index(keys)["k"].sort_index(), check_names=False
    )
    thirds = (
        table[table["where"].isin(["in", "middle", "away"])].groupby(keys)[["k", "n"]].agg({"k": "sum", "n": "first"})
    )
    assert thirds["k"].eq(thirds["n"]).all()
    assert grid.groupby(keys)["k"].sum().eq(grid.groupby(keys)["n"].first()).all()
