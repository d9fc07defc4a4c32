"""Usage by bases: what was charted, departures that are there, and none that are not."""

import numpy as np
import pandas as pd
import pytest
from league.mixes import draw_league, throw

from scoutgen.measures.counts import BASES_SITUATIONS, bases_index, bases_members
from scoutgen.measures.mix import learn_mix
from scoutgen.measures.situations import bases_usage, departures
from scoutgen.measures.usage import usage


@pytest.fixture(scope="module")
def pitches() -> pd.DataFrame:
    return throw(draw_league(6), 6, concentration=14)


def test_k_and_n_are_what_was_charted(pitches: pd.DataFrame) -> None:
    used = bases_usage(pitches).set_index(["player", "bats", "bases", "pitch"])
    player = pitches["pitcher"].cat.categories[1]
    own = pitches[pitches["pitcher"] == player]
    bases = own["bases"].astype(str)
    inside = {"empty": bases == "", "on": bases != "", "scoring": bases.isin(["2", "13"])}
    for label in BASES_SITUATIONS:
        for bats in ("all", "L", "R"):
            rows = inside[label] & ((own["bats"] == bats) | (bats == "all"))
            row = used.loc[(player, bats, label, "fastball")]
            assert row["n"] == rows.sum()
            assert row["k"] == (rows & (own["pitch"] == "fastball")).sum()
            assert row["games"] == own.loc[rows, "game"].nunique()


def test_estimates_are_shares_with_ends_about_them(pitches: pd.DataFrame) -> None:
    used = bases_usage(pitches)
    totals = used.groupby(["player", "bats", "bases"], observed=True)["share"].sum()
    np.testing.assert_allclose(totals, 1)
    assert (used["low"] <= used["share"]).all()
    assert (used["share"] <= used["high"]).all()
    assert (used["tonight_low"] <= used["share"]).all()
    assert (used["share"] <= used["tonight_high"]).all()


def test_a_pitcher_who_throws_otherwise_with_runners_is_seen_to(pitches: pd.DataFrame) -> None:
    changed = pitches.copy()
    player = changed["pitcher"].cat.categories[0]
    on = (changed["pitcher"] == player) & (changed["bases"] != "")
    changed.loc[on, "pitch"] = "curve"
    used = bases_usage(changed)
    curve = used[(used["player"] == player) & (used["pitch"] == "curve") & (used["bats"] == "all")].set_index("bases")
    assert curve["low"]["on"] > curve["high"]["empty"]
    assert curve["share"]["on"] > curve["share"]["empty"] + 0.3


def test_what_is_expected_is_the_mix_of_the_games_at_the_counts_thrown(pitches: pd.DataFrame) -> None:
    mix = learn_mix(pitches)
    found = departures(mix, bases_index(pitches), bases_members().astype(np.float64))
    tables = mix.tables
    cell = tables.row_side * 12 + tables.row_count
    own = (pitches["bases"] == "").to_numpy() & (tables.outing_player[tables.row_outing] == 2)
    for side in (0, 1):
        rows = own & (tables.row_side == side)
        by_hand = mix.by_outing[tables.row_outing[rows], cell[rows]].mean(axis=0)
        np.testing.assert_allclose(found.expected[2, side, 0], by_hand, atol=1e-9)


def test_bases_not_charted_leave_no_rows(pitches: pd.DataFrame) -> None:
    assert not len(bases_usage(pitches.assign(bases=pd.Categorical([None] * len(pitches)))))
    assert bases_usage(pitches.iloc[:0]).columns.tolist() == bases_usage(pitches).columns.tolist()


def test_where_nothing_departs_the_share_is_that_of_the_counts(pitches: pd.DataFrame) -> None:
    # Runners were drawn apart from the pitches here.
    by_bases, overall = bases_usage(pitches), usage(pitches)
    whole = overall[(overall["bats"] == "all") & (overall["count"] == "all")].set_index(["player", "pitch"])["share"]
    empty = by_bases[(by_bases["bats"] == "all") & (by_bases["bases"] == "empty")].set_index(["player", "pitch"])
    assert (empty["share"] - whole).abs().max() < 0.06
