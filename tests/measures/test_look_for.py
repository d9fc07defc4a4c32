"""The likeliest pitch of each cell, and the pitch strikeouts end on."""

from dataclasses import dataclass

import numpy as np
import pandas as pd
import pytest
from league.mixes import draw_league, throw

from scoutgen.measures.look_for import look_for, put_away
from scoutgen.measures.sureness import sureness
from scoutgen.measures.usage import usage


@dataclass(frozen=True)
class Limits:
    firm: float = 0.10
    usable: float = 0.15
    lean: float = 0.20


@pytest.fixture(scope="module")
def pitches() -> pd.DataFrame:
    return throw(draw_league(8), 5, concentration=14)


def test_the_likeliest_and_the_second_are_those_with_the_largest_shares(pitches: pd.DataFrame) -> None:
    used = usage(pitches)
    top = look_for(used, Limits())
    keys = ["player", "bats", "count"]
    ranked = used.sort_values("share", ascending=False, kind="stable").groupby(keys, observed=True)
    first, second = (ranked.nth(place).set_index(keys)["pitch"].astype(str) for place in (0, 1))
    found = top.set_index(keys)
    pd.testing.assert_series_equal(
        found["pitch"].astype(str), first.reindex(found.index), check_names=False, check_dtype=False
    )
    pd.testing.assert_series_equal(
        found["second"].astype(str), second.reindex(found.index), check_names=False, check_dtype=False
    )
    assert (top["share"] >= top["second_share"]).all()
    assert not top.duplicated(keys).any()
    np.testing.assert_array_equal(top["sureness"].astype(str), sureness(top["low"], top["high"], Limits()))


def test_cells_he_was_not_charted_in_say_nothing(pitches: pd.DataFrame) -> None:
    right = pitches[pitches["bats"] == "R"].reset_index(drop=True)
    top = look_for(usage(right), Limits())
    assert set(top["bats"].unique()) == {"all", "R"}
    assert (top["n"] > 0).all()


def test_ahead_of_second_needs_the_whole_interval(pitches: pd.DataFrame) -> None:
    top = look_for(usage(pitches), Limits())
    assert (top.loc[top["ahead_of_second"], "low"] > top.loc[top["ahead_of_second"], "second_share"]).all()
    assert top["ahead_of_second"].any()
    assert not top["ahead_of_second"].all()


def test_strikeouts_are_counted_by_the_pitch_they_ended_on_and_the_hitters_side(pitches: pd.DataFrame) -> None:
    found = put_away(pitches).set_index(["player", "bats", "pitch"])
    ended = pitches[pitches["play"] == "strikeout"]
    counted = ended.groupby(["pitcher", "bats", "pitch"], observed=True).size()
    assert len(counted) > 20
    for (player, side, pitch), k in counted.items():
        own = ended[(ended["pitcher"] == player)]
        row = found.loc[(player, side, pitch)]
        assert (row["k"], row["n"]) == (k, (own["bats"] == side).sum())
        both = found.loc[(player, "all", pitch)]
        assert (both["k"], both["n"]) == ((own["pitch"] == pitch).sum(), len(own))
    totals = found.groupby(["player", "bats"], observed=True)[["share", "expected"]].sum()
    assert (totals["share"] > 0.97).all()
    assert (totals <= 1 + 1e-9).to_numpy().all()


def test_a_strikeout_of_a_hitter_whose_side_was_not_charted_counts_for_both_together(pitches: pd.DataFrame) -> None:
    blind = put_away(pitches.assign(bats=pd.Categorical([None] * len(pitches), categories=["L", "R"])))
    assert set(blind["bats"]) == {"all"}
    assert blind["k"].sum() == (pitches["play"] == "strikeout").sum()


def test_a_put_away_pitch_stands_out_from_his_two_strike_pitches(pitches: pd.DataFrame) -> None:
    changed = pitches.copy()
    player = changed["pitcher"].cat.categories[0]
    ended = (changed["pitcher"] == player) & (changed["play"] == "strikeout")
    changed.loc[ended, "pitch"] = "splitter"
    found = put_away(changed)
    row = found[(found["player"] == player) & (found["pitch"] == "splitter") & (found["bats"] == "all")].iloc[0]
    assert row["k"] == row["n"]
    assert row["share"] > row["expected"] + 0.1


def test_a_third_strike_without_a_play_charted_is_one_too(pitches: pd.DataFrame) -> None:
    bare = pitches.assign(play=pd.Categorical([None] * len(pitches)))
    pd.testing.assert_frame_equal(put_away(bare)[["k", "n"]], put_away(pitches)[["k", "n"]])


def test_a_strike_whose_count_was_not_charted_ended_nothing(pitches: pd.DataFrame) -> None:
    blank = pitches["play"].ne("strikeout").to_numpy()
    unknown = pitches.copy()
    unknown.loc[blank, ["balls", "strikes"]] = pd.NA
    assert unknown.loc[blank, "result"].eq("called_strike").any()
    found = put_away(unknown)
    assert found.loc[found["bats"] == "all", "k"].sum() == (~blank).sum()
