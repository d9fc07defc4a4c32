"""Strikes, misses and balls in play, held against the rules."""

import pandas as pd
import pytest
from measures.rows import frame

from scoutgen.measures.results import MISSES, STRIKES, SWINGS, results

ALL_RESULTS = (
    "ball", "called_strike", "swinging_strike", "foul", "foul_tip", "foul_bunt", "in_play", "hit_by_pitch", "pitchout",
    "intentional_ball", "clock_ball", "clock_strike",
)  # fmt: skip

# What a pitch adds to the count with 0, 1 and 2 strikes. Official Baseball Rules, Definitions of Terms ("strike",
# "foul tip", "ball"), 5.09(a)(1)-(4) and 5.05(b); memory. With two strikes a foul adds nothing, but a bunt fouled and
# a foul tip are strike three.
ADDS_STRIKE = {
    "called_strike": (1, 1, 1),
    "swinging_strike": (1, 1, 1),
    "foul": (1, 1, 0),
    "foul_tip": (1, 1, 1),
    "foul_bunt": (1, 1, 1),
}


def shares(*charted: str) -> pd.DataFrame:
    man = {"pitcher": "reyes", "pitcher_team": "harbor", "pitch": "slider", "bats": "R"}
    pitches = frame("pitches", *[{"result": r} for r in charted], **man)
    table = results(pitches)
    return table[table["bats"].eq("R") & table["pitch"].eq("slider")].set_index("measure")


@pytest.mark.parametrize("strikes", [0, 1, 2])
def test_whatever_adds_a_strike_by_rule_is_a_strike(strikes: int) -> None:
    by_rule = {result for result, adds in ADDS_STRIKE.items() if adds[strikes]}
    assert by_rule <= set(STRIKES)
    # The trade's share counts two things more: a ball put in play, and a foul that leaves the count as it was.
    assert set(STRIKES) - by_rule == ({"in_play", "foul"} if strikes == 2 else {"in_play"})


@pytest.mark.parametrize("strikes", [0, 1, 2])
def test_a_miss_is_a_strike_at_any_count_and_a_swing(strikes: int) -> None:
    assert all(ADDS_STRIKE[result][strikes] for result in MISSES)
    assert set(MISSES) < set(SWINGS)
    assert set(STRIKES) - set(SWINGS) == {"called_strike"}


def test_shares_by_hand() -> None:
    table = shares("ball", "called_strike", "swinging_strike", "foul", "foul_tip", "in_play", "in_play", "hit_by_pitch")
    assert table.loc["strike", ["k", "n"]].tolist() == [6, 8]
    assert table.loc["called_strike", ["k", "n"]].tolist() == [1, 8]
    assert table.loc["swinging_strike", ["k", "n"]].tolist() == [2, 8]
    assert table.loc["whiff", ["k", "n"]].tolist() == [2, 5]
    assert table.loc["in_play", ["k", "n"]].tolist() == [2, 8]


def test_a_penalty_of_the_clock_is_no_pitch() -> None:
    # Official Baseball Rules 5.07(c), pitch clock: a ball or strike is added without a pitch; memory.
    table = shares("ball", "clock_ball", "clock_strike", "called_strike")
    assert table.loc["strike", ["k", "n"]].tolist() == [1, 2]


def test_no_swing_no_whiff_row() -> None:
    table = shares("ball", "called_strike", "pitchout", "intentional_ball")
    assert "whiff" not in table.index
    assert table.loc["strike", ["k", "n"]].tolist() == [1, 4]


@pytest.mark.parametrize("result", ALL_RESULTS)
def test_every_result_is_counted_or_left_out_on_purpose(result: str) -> None:
    table = shares(result)
    assert (len(table) > 0) == (result not in ("clock_ball", "clock_strike"))


def test_a_side_not_charted_counts_under_all_only() -> None:
    pitches = frame(
        "pitches", {"result": "ball", "bats": "L"}, {"result": "foul"}, {"result": "foul", "bats": "R", "pitch": None},
        pitcher="reyes", pitcher_team="harbor", pitch="fastball",
    )  # fmt: skip
    table = results(pitches)
    strike = table[table["measure"].eq("strike")].set_index(["bats", "pitch"])
    assert strike.loc[("all", "all"), ["k", "n"]].tolist() == [1, 2]
    assert strike.loc[("L", "fastball"), ["k", "n"]].tolist() == [0, 1]
    assert ("R", "fastball") not in strike.index


def test_rollups_add_up() -> None:
    cycle = [{"pitch": p, "bats": b, "result": r, "game": f"g{i % 3}"} for i, (p, b, r) in enumerate(
        (p, b, r) for p in ("fastball", "curve") for b in "LR" for r in ALL_RESULTS[:8]
    )]  # fmt: skip
    table = results(frame("pitches", *cycle, pitcher="reyes", pitcher_team="harbor"))
    n = table[table["measure"].eq("strike")].set_index(["bats", "pitch"])["n"]
    assert n[("all", "all")] == 32
    assert n[("L", "all")] + n[("R", "all")] == 32
    assert n[("all", "fastball")] + n[("all", "curve")] == 32
    assert table.loc[table["bats"].eq("all") & table["pitch"].eq("all"), "games"].tolist() == [3] * 5
