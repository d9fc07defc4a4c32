"""Usage: what was charted, and that the estimates are shares."""

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from league.mixes import draw_league, throw

from scoutgen.measures.counts import COUNT_GROUPS, COUNT_LABELS, COUNTS
from scoutgen.measures.usage import usage

COLUMNS = ["team", "player", "bats", "count", "pitch", "k", "n", "share", "low", "high"]
COLUMNS += ["tonight_low", "tonight_high", "games", "last_seen"]


def shares_are_shares(used: pd.DataFrame) -> None:
    assert len(used)
    keys = ["team", "player", "bats", "count"]
    np.testing.assert_allclose(used.groupby(keys, observed=True, dropna=False)["share"].sum(), 1, atol=1e-9)
    assert (used["k"] <= used["n"]).all()
    assert (used["share"] > 0).all()
    for low, high in (("low", "high"), ("tonight_low", "tonight_high")):
        assert (used[low] >= 0).all()
        assert (used[low] <= used["share"]).all()
        assert (used["share"] <= used[high]).all()
        assert (used[high] <= 1).all()


@pytest.fixture(scope="module")
def pitches() -> pd.DataFrame:
    return throw(draw_league(6), 4, concentration=14)


def test_every_cell_has_every_pitch_in_a_fixed_order(pitches: pd.DataFrame) -> None:
    used = usage(pitches)
    assert used.columns.tolist() == COLUMNS
    assert len(used) == 6 * 3 * len(COUNT_LABELS) * used["pitch"].cat.categories.size
    assert not used.duplicated(["team", "player", "bats", "count", "pitch"]).any()
    shares_are_shares(used)


def test_k_n_games_and_last_seen_are_what_was_charted(pitches: pd.DataFrame) -> None:
    used = usage(pitches).set_index(["player", "bats", "count", "pitch"])
    player = pitches["pitcher"].cat.categories[2]
    own = pitches[pitches["pitcher"] == player]
    count = own["balls"].astype(str) + "-" + own["strikes"].astype(str)
    for bats in ("all", "L", "R"):
        side = (own["bats"] == bats) | (bats == "all")
        for label in COUNT_LABELS:
            inside = side & ((label == "all") | count.isin(COUNT_GROUPS.get(label, (label,))))
            row = used.loc[(player, bats, label, "fastball")]
            assert row["n"] == inside.sum()
            assert row["k"] == (inside & (own["pitch"] == "fastball")).sum()
            assert row["games"] == own.loc[inside, "game"].nunique()
            if inside.any():
                assert row["last_seen"] == own.loc[inside, "date"].max()
            else:
                assert pd.isna(row["last_seen"])


def test_a_cell_never_seen_still_has_an_estimate_with_nothing_charted(pitches: pd.DataFrame) -> None:
    right_only = pitches[pitches["bats"] == "R"].reset_index(drop=True)
    used = usage(right_only)
    left = used[(used["bats"] == "L") & (used["count"] == "all")]
    assert (left["n"] == 0).all()
    assert left["last_seen"].isna().all()
    right = used[(used["bats"] == "R") & (used["count"] == "all")]
    # Less is known of the side not seen.
    width = (left["high"] - left["low"]).sum() / (right["high"] - right["low"]).sum()
    assert width > 1.2


def test_a_pitch_not_shown_has_a_small_share_and_k_of_0(pitches: pd.DataFrame) -> None:
    used = usage(pitches, vocabulary=["forkball"])
    unseen = used[used["pitch"] == "forkball"]
    assert (unseen["k"] == 0).all()
    assert (unseen["share"] < 0.01).all()
    assert (unseen["share"] > 0).all()


def test_what_is_not_charted_counts_in_all_but_in_no_cell(pitches: pd.DataFrame) -> None:
    part = pitches.copy()
    part.loc[::5, "bats"] = None
    part.loc[1::7, "balls"] = pd.NA
    used = usage(part)
    own = used[(used["pitch"] == "fastball")].groupby(["bats", "count"], observed=True)["n"].sum()
    assert own["all", "all"] == len(part)
    assert own["L", "all"] + own["R", "all"] == part["bats"].notna().sum()
    assert sum(own["all", count] for count in COUNTS) == part["balls"].notna().sum()
    shares_are_shares(used)


def test_pitches_alone_are_enough(pitches: pd.DataFrame) -> None:
    bare = pitches.copy()
    for column in ("bats", "pitcher_team", "batter", "bases", "result", "play"):
        bare[column] = pd.Categorical([None] * len(bare))
    bare["balls"] = bare["strikes"] = pd.array([pd.NA] * len(bare), dtype="Int16")
    shares_are_shares(usage(bare))


def test_no_pitches_no_rows(pitches: pd.DataFrame) -> None:
    used = usage(pitches.iloc[:0])
    assert used.columns.tolist() == COLUMNS
    assert not len(used)


@pytest.mark.parametrize("rows", [1, 2, 9])
def test_a_handful_of_pitches_says_little(pitches: pd.DataFrame, rows: int) -> None:
    used = usage(pitches.iloc[:rows].reset_index(drop=True))
    shares_are_shares(used)
    top = used[(used["bats"] == "all") & (used["count"] == "all")].nlargest(1, "share")
    assert (top["high"] - top["low"]).item() > 0.35


def test_order_of_categories_and_other_pitchers_rows_do_not_matter(pitches: pd.DataFrame) -> None:
    used = usage(pitches)
    turned = pitches.assign(
        pitch=pitches["pitch"].cat.reorder_categories(list(pitches["pitch"].cat.categories)[::-1]),
        bats=pitches["bats"].cat.set_categories(["R", "x", "L"]),
    )
    pd.testing.assert_frame_equal(usage(turned), used, check_categorical=False)
    pd.testing.assert_frame_equal(usage(pitches), used)


def test_where_the_pitcher_is_ahead_the_league_throws_fewer_fastballs(pitches: pd.DataFrame) -> None:
    # Walsh, Hardball Times, 20 December 2007: 48 % at 1-2, 84 % at 3-0. Nine pitches at 0-0 show none of it.
    few = pitches[(pitches["balls"] == 0) & (pitches["strikes"] == 0)].groupby("pitcher", observed=True).head(9)
    used = usage(few.reset_index(drop=True))
    hard = used[used["pitch"].isin(["fastball", "sinker", "cutter"]) & (used["bats"] == "all")]
    share = hard.groupby(["player", "count"], observed=True)["share"].sum()
    shown = used[(used["k"] > 0) & ~used["pitch"].isin(["fastball", "sinker", "cutter"])]["player"].unique()
    assert len(shown) >= 3
    for player in shown:
        assert share[player, "1-2"] < share[player, "3-0"] - 0.1


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 3), st.integers(1, 5), st.floats(0, 0.9))
def test_estimates_are_shares_whatever_was_charted(seed: int, pitchers: int, games: int, blank: float) -> None:
    rng = np.random.default_rng(seed)
    frame = throw(draw_league(pitchers, seed=seed), games, batters=3, seed=seed)
    for column in ("bats", "pitch", "balls", "strikes"):
        frame.loc[rng.random(len(frame)) < blank, column] = pd.NA
    used = usage(frame)
    if len(used):
        shares_are_shares(used)
