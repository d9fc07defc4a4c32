"""What follows what: pairs of pitches, and sequences that are told from the count alone."""

import numpy as np
import pandas as pd
import pytest
from league.mixes import draw_league, throw

from scoutgen.measures.mix import learn_mix
from scoutgen.measures.sequence import BEFORE, followed, sequence


@pytest.fixture(scope="module")
def pitches() -> pd.DataFrame:
    return throw(draw_league(40), 10, concentration=14)


def by_hand(rows: list[tuple[str, str | None, int, int, str | None, str | None]]) -> pd.DataFrame:
    frame = pd.DataFrame(rows, columns=["pitcher", "batter", "balls", "strikes", "pitch", "result"])
    frame["game"], frame["bats"], frame["pitcher_team"] = "g", "R", "t"
    for column in ("pitcher", "batter", "pitch", "result", "game", "bats", "pitcher_team"):
        frame[column] = frame[column].astype("category")
    frame["play"] = frame["bases"] = pd.Categorical([None] * len(frame))
    frame["date"] = pd.Timestamp("2026-03-01")
    return frame.astype({"balls": "Int16", "strikes": "Int16"})


def test_pairs_follow_the_count_within_a_plate_appearance() -> None:
    pitches = by_hand(
        [
            ("p", "a", 0, 0, "fastball", "ball"),
            ("p", "a", 1, 0, "slider", "called_strike"),  # after a taken ball
            ("p", "a", 1, 1, "slider", "foul"),  # after a called strike
            ("p", "a", 1, 2, "curve", "foul"),  # after a foul
            ("p", "a", 1, 2, "curve", "swinging_strike"),  # after a foul that left the count
            ("p", "b", 0, 0, "fastball", "ball"),  # another batter
            ("p", "b", 1, 1, "fastball", "ball"),  # a pitch between was not charted
            ("q", "b", 2, 1, "fastball", "ball"),  # another pitcher
            ("p", "b", 2, 1, "slider", "in_play"),  # his own last was at 1-1, a ball
            ("p", "c", 0, 0, None, "ball"),  # not charted: breaks the chain
            ("p", "c", 1, 0, "fastball", None),
            ("p", "c", 1, 1, "fastball", "ball"),  # nobody charted what became of the one before
        ]
    )
    before, after, result = followed(pitches, learn_mix(pitches))
    names = list(BEFORE)
    pairs = {(int(b), int(a), names[r]) for b, a, r in zip(before, after, result, strict=True)}
    assert pairs == {
        (0, 1, "taken ball"),
        (1, 2, "called strike"),
        (2, 3, "foul"),
        (3, 4, "foul"),
        (6, 8, "taken ball"),
    }


def test_k_and_n_count_the_pairs(pitches: pd.DataFrame) -> None:
    mix = learn_mix(pitches)
    found = sequence(pitches, mix=mix).set_index(["player", "after", "result", "pitch"])
    before, after, result = followed(pitches, mix)
    player = pitches["pitcher"].cat.categories[0]
    pair = pd.DataFrame(
        {
            "player": pitches["pitcher"].to_numpy()[after],
            "before": pitches["pitch"].to_numpy()[before],
            "next": pitches["pitch"].to_numpy()[after],
            "game": pitches["game"].to_numpy()[after],
            "result": np.array(list(BEFORE))[result],
        }
    )
    own = pair[(pair["player"] == player) & (pair["before"] == "fastball")]
    for name, part in (("any", own), ("foul", own[own["result"] == "foul"])):
        row = found.loc[(player, "fastball", name, "fastball")]
        assert row["n"] == len(part) > 10
        assert row["k"] == (part["next"] == "fastball").sum()
        assert row["games"] == part["game"].nunique()


def test_estimates_are_shares(pitches: pd.DataFrame) -> None:
    found = sequence(pitches)
    for column in ("share", "expected"):
        totals = found.groupby(["player", "after", "result"], observed=True)[column].sum()
        np.testing.assert_allclose(totals, 1, atol=1e-9)
    assert (found["low"] <= found["share"]).all()
    assert (found["share"] <= found["high"]).all()
    assert not found.duplicated(["player", "after", "result", "pitch"]).any()


def test_where_the_count_is_all_there_is_next_to_nothing_is_told(pitches: pd.DataFrame) -> None:
    found = sequence(pitches)
    assert found.groupby("player", observed=True)["told"].any().mean() <= 0.10


def test_a_sequence_that_is_there_is_told(pitches: pd.DataFrame) -> None:
    changed = pitches.copy()
    mix = learn_mix(changed)
    before, after, result = followed(changed, mix)
    player = changed["pitcher"].cat.categories[3]
    fastball_fouled = (
        (changed["pitcher"].to_numpy()[before] == player)
        & (changed["pitch"].to_numpy()[before] == "fastball")
        & (result == list(BEFORE).index("foul"))
    )
    some = after[fastball_fouled]
    changed.loc[some[: int(len(some) * 0.7)], "pitch"] = "curve"
    found = sequence(changed)
    row = found[
        (found["player"] == player)
        & (found["after"] == "fastball")
        & (found["result"] == "foul")
        & (found["pitch"] == "curve")
    ].iloc[0]
    assert row["told"]
    assert row["share"] > row["expected"] + 0.2
    # Leaning: never further out than what was charted.
    assert row["share"] < row["k"] / row["n"]


def test_results_not_charted_leave_no_rows(pitches: pd.DataFrame) -> None:
    found = sequence(pitches)
    silent = sequence(pitches.assign(result=pd.Categorical([None] * len(pitches))))
    assert not len(silent)
    assert silent.columns.tolist() == found.columns.tolist()
