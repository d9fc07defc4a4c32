"""Clocks: hand-computed small tables, and what the intervals are worth on men whose truth is known."""

import numpy as np
import pandas as pd
import pytest
from measures.rows import frame, seasonal

from scoutgen.measures.readings import FRAMES_ERROR_S
from scoutgen.measures.times import RETURN_COLUMNS, TIME_COLUMNS, returns, time_summary

MAN = {"team": "harbor", "player": "reyes", "measure": "plate", "method": "watch"}


def row(table: pd.DataFrame, **keys: object) -> pd.Series:
    for key, value in keys.items():
        table = table[table[key].eq(value)]
    assert len(table) == 1, f"{len(table)} rows for {keys}"
    return table.iloc[0]


def test_middle_spread_and_reading_error_by_hand() -> None:
    times = frame("times", *[{"seconds": s} for s in (1.20, 1.30, 1.40, 1.50)], style="stretch", bases="1", **MAN)
    found = row(time_summary(times), style="stretch", bases="1")
    # Mean 1.35, squared distances .0225 + .0025 + .0025 + .0225 = .05, over 3 = .016667; less .10² = .006667.
    assert found["n"] == 4
    assert found["median"] == pytest.approx(1.35)
    assert found["mean"] == pytest.approx(1.35)
    assert found["sd"] == pytest.approx(0.0166667**0.5, abs=1e-5)
    assert found["own_sd"] == pytest.approx(0.0066667**0.5, abs=1e-4)
    assert (found["fastest"], found["slowest"]) == (1.20, 1.50)
    assert found["few"]
    assert not row(time_summary(times, few_readings=4), style="stretch", bases="1")["few"]


def test_readings_closer_than_the_watch_leave_no_spread_of_his_own() -> None:
    times = frame("times", *[{"seconds": s} for s in (1.30, 1.31, 1.32)], **MAN)
    assert row(time_summary(times), style="all", bases="all")["own_sd"] == 0


def test_frames_have_their_own_small_error() -> None:
    # Counting frames at 60 a second: sd .007 s (arithmetic: sqrt(2/12)/60).
    assert pytest.approx((2 / 12) ** 0.5 / 60, abs=2e-4) == FRAMES_ERROR_S
    times = frame("times", *[{"seconds": s} for s in (1.30, 1.40)], **{**MAN, "method": "frames"})
    assert row(time_summary(times), style="all", bases="all")["own_sd"] == pytest.approx((0.005 - 0.007**2) ** 0.5)


def test_watch_and_frames_live_and_warmup_are_never_mixed() -> None:
    times = frame(
        "times",
        {"seconds": 1.30},
        {"seconds": 1.50, "method": "frames"},
        {"seconds": 1.10, "warmup": True},
        {"seconds": 1.40, "warmup": False},
        **{**MAN, "style": "stretch"},
    )
    table = time_summary(times)
    whole = table[table["style"].eq("stretch") & table["bases"].eq("all")]
    assert [tuple(r) for r in whole[["method", "warmup", "n", "mean"]].itertuples(index=False)] == [
        ("frames", False, 1, 1.50),
        ("watch", False, 2, pytest.approx(1.35)),
        ("watch", True, 1, 1.10),
    ]


def test_styles_and_bases_are_rolled_up_and_blanks_stand_under_all_only() -> None:
    times = frame(
        "times",
        {"seconds": 1.10, "style": "slide_step", "bases": "1"},
        {"seconds": 1.30, "style": "stretch", "bases": "12"},
        {"seconds": 1.70, "style": "windup", "bases": ""},
        {"seconds": 1.50},
        **MAN,
    )
    table = time_summary(times)
    n = table.set_index(["style", "bases"])["n"].to_dict()
    assert n[("all", "all")] == 4
    assert n[("all", "on")] == 2
    assert n[("all", "scoring")] == 1
    assert n[("all", "empty")] == 1
    assert n[("stretch", "all")] == n[("stretch", "12")] == 1
    assert ("stretch", "1") not in n
    assert sum(n[key] for key in n if key[1] == "all" and key[0] != "all") == 3
    # The trade's order, not the alphabet's: all, then windup, stretch, slide step.
    assert list(dict.fromkeys(table["style"])) == ["all", "windup", "stretch", "slide_step"]


def test_games_and_last_seen_are_of_the_row() -> None:
    times = frame(
        "times",
        {"seconds": 1.3, "game": "g1", "date": "2026-03-06", "bases": "1"},
        {"seconds": 1.4, "game": "g2", "date": "2026-03-13", "bases": "2"},
        {"seconds": 1.4, "game": "g2", "date": "2026-03-13", "bases": "1"},
        **MAN,
    )
    table = time_summary(times)
    assert row(table, style="all", bases="2")["games"] == 1
    assert row(table, style="all", bases="all")["games"] == 2
    assert row(table, style="all", bases="all")["last_seen"] == pd.Timestamp("2026-03-13")


def simulated(men: int, n: int, own: np.ndarray, error: float, seed: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    mean = rng.uniform(1.2, 1.6, men)[:, None]
    return mean + own[:, None] * rng.standard_normal((men, n + 1)) + error * rng.standard_normal((men, n + 1))


def charted(readings: np.ndarray, method: str) -> pd.DataFrame:
    men, n = readings.shape
    who = np.repeat([f"p{man:04d}" for man in range(men)], n)
    same = {"game": "g1", "date": "2026-03-06", "team": "t", "measure": "plate", "style": "stretch", "bases": "1"}
    return seasonal("times", {"player": who, "seconds": readings.ravel(), "method": method, **same})


@pytest.mark.parametrize("n", [3, 5, 10, 20])
@pytest.mark.parametrize(("error", "method"), [(0.10, "watch"), (0.0, "frames")])
def test_nine_in_ten_of_the_next_readings_fall_within(n: int, error: float, method: str) -> None:
    # Own spreads as unlike as .03 and .10 s; the error of a hand-held reading is sd .10 s, Am. J. Phys. 87(2):110
    # (2019).
    own = np.random.default_rng(n).uniform(0.03, 0.10, 1500)
    readings = simulated(1500, n, own, error, seed=100 + n)
    table = time_summary(charted(readings[:, :n], method))
    table = table[table["style"].eq("stretch") & table["bases"].eq("1")].sort_values("player")
    inside = (table["low"].to_numpy() <= readings[:, n]) & (readings[:, n] <= table["high"].to_numpy())
    assert 0.86 <= inside.mean() <= 0.94


@pytest.mark.parametrize("men", [1, 4])
def test_it_holds_with_few_men_too(men: int) -> None:
    # One staff of pitchers: the stated spread carries most of the weight.
    inside = []
    for league in range(240 // (men + 1)):
        own = np.random.default_rng(league).uniform(0.03, 0.10, men)
        readings = simulated(men, 4, own, 0.10, seed=9000 + league)
        table = time_summary(charted(readings[:, :4], "watch"))
        table = table[table["style"].eq("stretch") & table["bases"].eq("1")].sort_values("player")
        inside += list((table["low"].to_numpy() <= readings[:, 4]) & (readings[:, 4] <= table["high"].to_numpy()))
    assert 0.86 <= np.mean(inside) <= 0.94


@pytest.mark.parametrize("own", [0.06, 0.12])
def test_his_own_spread_is_recovered_from_many_watch_readings(own: float) -> None:
    readings = simulated(60, 400, np.full(60, own), 0.10, seed=3)
    table = time_summary(charted(readings, "watch"))
    found = table.loc[table["bases"].eq("all") & table["style"].eq("all"), "own_sd"]
    # Pooled as variances: roots of noisy squares lean low.
    assert np.sqrt((found**2).mean()) == pytest.approx(own, rel=0.05)
    assert found.max() < (own**2 + 0.10**2) ** 0.5


def test_usual_times_give_usual_intervals() -> None:
    # Norms of the trade as limits of plausibility: 1.1-1.5 s from the stretch (seen: Kansas City Star, 26 March 2014);
    # slide step 1.05-1.25, windup 1.7-2.2 (memory). Five readings about 1.30 must promise neither 1.0 nor 1.6.
    times = frame("times", *[{"seconds": s} for s in (1.22, 1.30, 1.38, 1.26, 1.34)], style="stretch", **MAN)
    found = row(time_summary(times), style="stretch", bases="all")
    assert 1.0 < found["low"] < 1.2
    assert 1.4 < found["high"] < 1.6


def test_returns_by_style_and_situation() -> None:
    times = frame(
        "times",
        *[{"style": "lob", "bases": "3", "seconds": s} for s in (1.20, 1.30)],
        {"style": "lob", "bases": "", "seconds": 1.10, "method": "frames"},
        {"style": "firm", "bases": "", "seconds": 0.75},
        {"style": "knees", "bases": "", "seconds": 1.00, "warmup": True},
        {"seconds": 1.00},
        **{**MAN, "player": "okafor", "measure": "return_throw"},
    )
    table = returns(times)
    assert list(table.columns) == RETURN_COLUMNS
    whole = row(table, style="lob", bases="all")
    assert (whole["k"], whole["n"]) == (3, 4)
    # Two by watch, one by frames: the watch's two are summed up, and it says so.
    assert (whole["method"], whole["timed"], whole["median"]) == ("watch", 2, pytest.approx(1.25))
    assert (row(table, style="lob", bases="3")["k"], row(table, style="lob", bases="3")["n"]) == (2, 2)
    # From the knees only in warm-ups: never seen in four.
    knees = row(table, style="knees", bases="all")
    assert knees["k"] == 0
    assert pd.isna(knees["median"])
    assert knees["high"] > 0.2
    sums = table.groupby("bases")["share"].sum()
    np.testing.assert_allclose(sums, 1.0)


def test_a_lob_takes_as_long_as_arithmetic_says() -> None:
    # 57 ft at 30-40 mph without drag: .97-1.30 s, 57 / (1.4667 x mph). Readings made from it come back as its middle.
    seconds = [57 / (1.4667 * mph) for mph in (30, 35, 40)]
    times = frame("times", *[{"seconds": s, "style": "lob"} for s in seconds], **{**MAN, "measure": "return_throw"})
    found = row(returns(times), style="lob", bases="all")
    assert found["fastest"] == pytest.approx(0.97, abs=0.005)
    assert found["slowest"] == pytest.approx(1.30, abs=0.005)


def test_nothing_charted() -> None:
    empty = frame("times")
    assert list(time_summary(empty).columns) == TIME_COLUMNS
    assert time_summary(empty).empty
    assert returns(empty).empty


@pytest.mark.parametrize(("error", "method"), [(0.10, "watch"), (0.0, "frames")])
def test_his_own_scatter_leaning_on_the_usual_is_nearer_the_truth(error: float, method: str) -> None:
    own = np.random.default_rng(3).uniform(0.03, 0.10, 600)
    table = time_summary(charted(simulated(600, 6, own, error, seed=9), method))
    whole = table[table["style"].eq("stretch") & table["bases"].eq("all")].sort_values("player")
    assert (whole["spread"] - own).abs().mean() < (whole["own_sd"] - own).abs().mean()
    assert whole["spread"].mean() == pytest.approx(own.mean(), abs=0.03)
    # The mean is known to the readings' scatter over the root of their number.
    assert whole["mean_sd"].mean() == pytest.approx(np.hypot(error, 0.068) / np.sqrt(7), rel=0.15)
