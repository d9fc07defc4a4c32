"""Times through the order: changes that are there are told, and others are not."""

import numpy as np
import pandas as pd
import pytest
from league.mixes import draw_league, throw

from scoutgen.measures.counts import TIMES_THROUGH, times_through_index
from scoutgen.measures.times_through import times_through_changes, times_through_usage


@pytest.fixture(scope="module")
def pitches() -> pd.DataFrame:
    return throw(draw_league(40), 10, concentration=14)


def test_k_and_n_are_what_was_charted(pitches: pd.DataFrame) -> None:
    used = times_through_usage(pitches).set_index(["player", "bats", "times", "pitch"])
    times = times_through_index(pitches)
    player = pitches["pitcher"].cat.categories[3]
    for at, label in enumerate(TIMES_THROUGH):
        rows = (times == at) & (pitches["pitcher"] == player)
        row = used.loc[(player, "all", label, "fastball")]
        assert (row["n"], row["k"]) == (rows.sum(), (rows & (pitches["pitch"] == "fastball")).sum())
        # Twenty-four batters: nine the first time, nine the second, six the third.
        assert row["n"] > 0


def test_where_nothing_changes_next_to_nothing_is_told(pitches: pd.DataFrame) -> None:
    changes = times_through_changes(pitches)
    assert len(changes) > 200
    assert changes.groupby("player", observed=True)["told"].any().mean() <= 0.10
    covered = (changes["low"] <= 0) & (changes["high"] >= 0)
    assert covered.mean() >= 0.86


def test_a_change_that_is_there_is_told_with_its_size(pitches: pd.DataFrame) -> None:
    changed = pitches.copy()
    player = changed["pitcher"].cat.categories[5]
    late = (times_through_index(changed) == 2) & (changed["pitcher"] == player) & (changed["pitch"] == "fastball")
    swapped = late & (np.arange(len(changed)) % 2 == 0)
    changed.loc[swapped, "pitch"] = "curve"
    changes = times_through_changes(changed)
    own = changes[(changes["player"] == player) & changes["pitch"].isin(["fastball", "curve"])]
    third = own[(own["times"] == "3rd+") & (own["bats"] == "all")].set_index("pitch")
    assert third["told"].all()
    assert third["change"]["fastball"] < -0.08
    assert third["change"]["curve"] > 0.08
    assert third["low"]["curve"] > 0
    # Nobody else is said to have changed by it.
    others = changes[changes["player"] != player]
    assert others.groupby("player", observed=True)["told"].any().mean() <= 0.10


def test_too_few_pitches_are_not_compared(pitches: pd.DataFrame) -> None:
    changes = times_through_changes(pitches)
    assert (changes["n"] >= 20).all()
    assert (changes["first_n"] >= 20).all()
    short = pitches.groupby(["pitcher"], observed=True).head(15).reset_index(drop=True)
    assert not len(times_through_changes(short))


def test_batters_not_charted_leave_no_rows(pitches: pd.DataFrame) -> None:
    silent = pitches.assign(batter=pd.Categorical([None] * len(pitches)))
    assert not len(times_through_usage(silent))
    assert not len(times_through_changes(silent))
