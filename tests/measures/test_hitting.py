"""What hitters swing at, miss and hit hard: by hand, by the rules, and on hitters whose truth is known."""

import numpy as np
import pandas as pd
import pytest
from measures.rows import frame, seasonal

from scoutgen.measures.hitting import CHANGE_COLUMNS, FAMILIES, HITTING_COLUMNS, hitting, two_strike_change
from scoutgen.records.vocabulary import DEFAULT_PITCHES

MAN = {"batter": "reyes", "batter_team": "harbor", "bats": "R", "pitch": "fastball", "balls": 0, "strikes": 0}


def rates(*charted: dict[str, object], throws: str | None = None) -> pd.DataFrame:
    pitches = frame("pitches", *charted, **MAN)
    return hitting(pitches if throws is None else pitches.assign(throws=throws))


def cell(table: pd.DataFrame, split: str, value: str, measure: str, bats: str = "all") -> list[int]:
    keys = {"split": split, "value": value, "measure": measure, "bats": bats}
    rows = table[np.logical_and.reduce([table[name].eq(word) for name, word in keys.items()])]
    return [] if rows.empty else rows.iloc[0][["k", "n"]].tolist()


# What a hitter does at each result. Official Baseball Rules, Definitions of Terms, "strike", "ball", "foul tip",
# memory: struck at and missed, tipped or fouled, put in play; let go for a ball or strike; of the others he had no
# fair pitch to swing at, or bunted.
SWINGS = {"swinging_strike", "foul", "foul_tip", "in_play"}
TAKEN = {"ball", "called_strike"}
NEITHER = {"foul_bunt", "pitchout", "intentional_ball", "hit_by_pitch", "clock_ball", "clock_strike"}


@pytest.mark.parametrize("result", sorted(SWINGS | TAKEN | NEITHER))
def test_every_result_is_a_swing_a_pitch_let_go_or_neither(result: str) -> None:
    found = cell(rates({"result": result}), "first pitch", "all", "swing")
    assert found == ([1, 1] if result in SWINGS else [0, 1] if result in TAKEN else [])


def test_a_bunt_in_play_is_no_swing() -> None:
    table = rates({"result": "in_play", "contact": "bunt", "play": "single"}, {"result": "in_play", "contact": "line"})
    assert cell(table, "all", "all", "swing") == [1, 1]


def test_first_pitches_by_hand_of_the_pitcher() -> None:
    first = [
        {"result": "foul"},
        {"result": "ball"},
        {"result": "ball", "strikes": 1},
        {"result": "foul", "balls": None},
    ]
    table = rates(*first, throws="L")
    assert cell(table, "first pitch", "all", "swing") == [1, 2]
    assert cell(table, "first pitch", "L", "swing") == [1, 2]
    assert cell(table, "first pitch", "R", "swing") == []
    # The hand of many pitchers is not known: they count under all.
    assert cell(rates(*first), "first pitch", "L", "swing") == []
    assert cell(rates(*first), "first pitch", "all", "swing") == [1, 2]


def test_misses_are_of_swings_and_a_foul_tip_is_one() -> None:
    table = rates({"result": "swinging_strike"}, {"result": "foul_tip"}, {"result": "foul"}, {"result": "ball"})
    assert cell(table, "all", "all", "miss") == [2, 3]
    assert cell(table, "pitch", "fastball", "miss") == [2, 3]
    assert cell(table, "family", "fastballs", "swing") == [3, 4]


@pytest.mark.parametrize(
    ("ball", "hard"),
    [
        ({"contact": "line", "distance_ft": 301, "play": "out"}, [1, 1]),
        ({"contact": "fly", "distance_ft": 299, "play": "out"}, [0, 1]),
        ({"contact": "ground", "distance_ft": 310, "play": "single"}, [0, 1]),
        ({"contact": "ground", "play": "double"}, [1, 1]),
        ({"contact": "popup", "play": "out"}, [0, 1]),
        ({"contact": "fly", "play": "out"}, []),  # how far was not charted
        ({"contact": "line", "play": "triple"}, [1, 1]),
        ({}, []),
    ],
)
def test_what_counts_as_hit_hard(ball: dict[str, object], hard: list[int]) -> None:
    assert cell(rates({"result": "in_play", **ball}), "all", "all", "hard") == hard


def test_a_miss_and_a_foul_are_swings_not_hit_hard() -> None:
    table = rates({"result": "foul"}, {"result": "swinging_strike"}, {"result": "in_play", "play": "home_run"})
    assert cell(table, "all", "all", "hard") == [1, 3]


def test_in_is_the_batters_on_either_side() -> None:
    # Side 1 is the catcher's left, where a right-handed hitter stands (docs/charting-format.md).
    for bats, side in (("R", 1), ("R", 2), ("L", 4), ("L", 5)):
        assert cell(rates({"result": "foul", "side": side, "bats": bats}), "side", "in", "swing") == [1, 1]
    assert cell(rates({"result": "foul", "side": 3, "bats": "L"}), "side", "middle", "swing") == [1, 1]
    assert cell(rates({"result": "foul", "side": 1, "bats": None}), "side", "in", "swing") == []
    table = rates({"result": "foul", "height": 4}, {"result": "ball", "height": 5}, {"result": "ball", "height": 1})
    assert [cell(table, "height", value, "swing") for value in ("up", "center", "down")] == [[1, 2], [], [0, 1]]


def test_a_switch_hitter_has_both_sides_and_all() -> None:
    table = rates({"result": "foul", "bats": "L"}, {"result": "ball", "bats": "R"}, {"result": "ball", "bats": None})
    found = [cell(table, "all", "all", "swing", bats) for bats in ("all", "L", "R")]
    assert found == [[1, 3], [1, 1], [0, 1]]


def test_every_usual_pitch_has_its_family_and_an_added_one_is_other() -> None:
    assert sorted(name for names in FAMILIES.values() for name in names) == sorted(DEFAULT_PITCHES)
    assert cell(rates({"result": "foul", "pitch": "gyro"}), "family", "other", "swing") == [1, 1]


def test_families_and_pitches_add_up_to_all() -> None:
    charted = [
        {"pitch": pitch, "result": result, "strikes": strikes}
        for pitch in DEFAULT_PITCHES
        for result in ("ball", "foul", "swinging_strike")
        for strikes in (0, 2)
    ]
    table = rates(*charted)
    whole = table[table["bats"].eq("all") & table["measure"].eq("swing")].groupby("split")[["k", "n"]].sum()
    for split in ("all", "strikes", "family", "pitch"):
        assert whole.loc[split].tolist() == [2 * 2 * len(DEFAULT_PITCHES), 2 * 3 * len(DEFAULT_PITCHES)]


def test_a_season_without_hitters_has_every_column_and_no_row() -> None:
    table = hitting(frame("pitches", {"result": "ball", "pitcher": "x", "pitcher_team": "t"}))
    assert list(table.columns) == HITTING_COLUMNS
    assert table.empty
    assert list(two_strike_change(table).columns) == CHANGE_COLUMNS


def drawn(men: int, seen: int, *, early: np.ndarray, two: np.ndarray, seed: int) -> pd.DataFrame:
    """`seen` pitches of each man, half of them with two strikes, swung at as often as is true of him."""
    rng = np.random.default_rng(seed)
    strikes = np.tile(np.repeat([0, 2], seen // 2), men)
    man = np.repeat(np.arange(men), seen)
    swing = rng.random(men * seen) < np.where(strikes == 2, two[man], early[man])
    names = np.array([f"b{each:03d}" for each in range(men)])
    same = {"game": "g1", "date": "2026-03-06", "batter_team": "t", "bats": "R", "balls": 1, "pitch": "fastball"}
    result = np.where(swing, "foul", "ball")
    return seasonal("pitches", {"batter": names[man], "strikes": strikes, "result": result, **same})


def test_estimates_of_simulated_hitters_are_nearer_the_truth_than_counts_and_their_intervals_hold_it() -> None:
    rng = np.random.default_rng(11)
    truth = rng.beta(20, 30, 80)
    table = hitting(drawn(80, 40, early=truth, two=truth, seed=3))
    rows = table[table["bats"].eq("R") & table["split"].eq("all") & table["measure"].eq("swing")]
    assert len(rows) == 80
    ours = np.sqrt(((rows["share"].to_numpy() - truth) ** 2).mean())
    raw = np.sqrt(((rows["k"] / rows["n"]).to_numpy() - truth) ** 2).mean() ** 0.5
    assert ours < 0.9 * raw
    inside = ((rows["low"].to_numpy() <= truth) & (truth <= rows["high"].to_numpy())).mean()
    assert 0.82 <= inside <= 0.98


def test_a_change_with_two_strikes_is_told_of_the_men_who_change_and_seldom_of_the_others() -> None:
    rng = np.random.default_rng(5)
    early = rng.beta(40, 60, 100)
    changes = np.arange(100) % 5 == 0
    two = np.where(changes, early + 0.35, early)
    change = two_strike_change(hitting(drawn(100, 240, early=early, two=two, seed=8)))
    rows = change[change["bats"].eq("all") & change["measure"].eq("swing")]
    told = (rows["told"] & (rows["change"] > 0)).to_numpy()
    assert told[changes].mean() > 0.9
    assert rows["told"].to_numpy()[~changes].mean() < 0.2
    inside = (rows["change_low"] <= two - early) & (two - early <= rows["change_high"])
    assert inside.mean() > 0.85
    # A fifth of the men swing .35 oftener: .07 on the whole, which is unusual of none who does not.
    assert rows["usual"].iloc[0] == pytest.approx(0.07, abs=0.02)
    assert (rows["unusual"] & (rows["change"] > rows["usual"])).to_numpy()[changes].mean() > 0.9
