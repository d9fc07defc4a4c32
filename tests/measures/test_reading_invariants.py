"""What holds whatever was charted: k <= n, low <= share <= high, one row a key, one order."""

from collections.abc import Callable, Mapping
from functools import cache

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from measures.rows import COLUMNS, frame
from properties import few

from scoutgen.measures.freshness import FRESH_COLUMNS, TEAM_FRESH_COLUMNS, player_freshness, team_freshness
from scoutgen.measures.habits import FEET_COLUMNS, HABIT_COLUMNS, HABIT_KEYS, habit_feet, habit_rates
from scoutgen.measures.holds import (
    HOLD_COLUMNS,
    LOOK_COLUMNS,
    MOVE_COLUMNS,
    SLIDE_STEP_COLUMNS,
    hold_moves,
    hold_times,
    looks,
    slide_steps,
)
from scoutgen.measures.locations import GRID_COLUMNS, PLACE_COLUMNS, location_grid, location_places
from scoutgen.measures.outings import PITCH_KEYS
from scoutgen.measures.positions import (
    OFF_BAG_COLUMNS,
    SHADE_COLUMNS,
    STOOD_COLUMNS,
    STOOD_KEYS,
    off_bag,
    shades,
    stood,
)
from scoutgen.measures.results import RESULT_COLUMNS, RESULT_KEYS, results
from scoutgen.measures.speeds import (
    BAND_COLUMNS,
    DROP_COLUMNS,
    INNING_COLUMNS,
    speed_bands,
    speed_by_inning,
    speed_drop,
)
from scoutgen.measures.throws import (
    ACCURACY_COLUMNS,
    THROW_TIME_COLUMNS,
    THROW_TIME_KEYS,
    throw_accuracy,
    throw_results,
    throw_times,
)
from scoutgen.measures.throws import (
    RESULT_COLUMNS as THROW_RESULT_COLUMNS,
)
from scoutgen.measures.times import RETURN_COLUMNS, TIME_COLUMNS, TIME_KEYS, returns, time_summary

Frames = Mapping[str, pd.DataFrame]
#: Each measure: the frames it reads, its columns, the columns that name a row.
MEASURES: dict[str, tuple[Callable[[Frames], pd.DataFrame], list[str], list[str]]] = {
    "time_summary": (lambda f: time_summary(f["times"]), TIME_COLUMNS, TIME_KEYS),
    "returns": (lambda f: returns(f["times"]), RETURN_COLUMNS, ["team", "player", "style", "bases"]),
    "looks": (lambda f: looks(f["holds"]), LOOK_COLUMNS, ["team", "player", "bases"]),
    "hold_times": (lambda f: hold_times(f["holds"]), HOLD_COLUMNS, ["team", "player", "bases"]),
    "hold_moves": (lambda f: hold_moves(f["holds"]), MOVE_COLUMNS, ["team", "player", "move", "split", "value"]),
    "slide_steps": (lambda f: slide_steps(f["holds"]), SLIDE_STEP_COLUMNS, ["team", "player", "bases"]),
    "throw_times": (lambda f: throw_times(f["throws"]), THROW_TIME_COLUMNS, THROW_TIME_KEYS),
    "throw_accuracy": (
        lambda f: throw_accuracy(f["throws"]), ACCURACY_COLUMNS, ["team", "player", "to", "warmup", "accuracy"]
    ),
    "throw_results": (lambda f: throw_results(f["throws"]), THROW_RESULT_COLUMNS, ["team", "player", "to"]),
    "habit_rates": (lambda f: habit_rates(f["habits"]), HABIT_COLUMNS, HABIT_KEYS),
    "habit_feet": (lambda f: habit_feet(f["habits"]), FEET_COLUMNS, HABIT_KEYS),
    "stood": (lambda f: stood(f["positions"]), STOOD_COLUMNS, STOOD_KEYS),
    "shades": (lambda f: shades(f["positions"]), SHADE_COLUMNS, [*STOOD_KEYS, "toward"]),
    "off_bag": (
        lambda f: off_bag(f["positions"], f["habits"]), OFF_BAG_COLUMNS, ["team", "position", "player", "runner_on"]
    ),
    "results": (lambda f: results(f["pitches"]), RESULT_COLUMNS, RESULT_KEYS),
    "location_grid": (lambda f: location_grid(f["pitches"]), GRID_COLUMNS, [*PITCH_KEYS, "height", "side"]),
    "location_places": (lambda f: location_places(f["pitches"]), PLACE_COLUMNS, [*PITCH_KEYS, "where"]),
    "speed_bands": (lambda f: speed_bands(f["pitches"]), BAND_COLUMNS, ["team", "player", "pitch"]),
    "speed_by_inning": (lambda f: speed_by_inning(f["pitches"]), INNING_COLUMNS, ["team", "player", "inning"]),
    "speed_drop": (lambda f: speed_drop(f["pitches"]), DROP_COLUMNS, ["team", "player"]),
    "player_freshness": (lambda f: player_freshness(f["games"], f), FRESH_COLUMNS, ["team", "player"]),
    "team_freshness": (lambda f: team_freshness(f["games"], f), TEAM_FRESH_COLUMNS, ["team"]),
}  # fmt: skip

BASES = st.sampled_from([None, "", "1", "2", "3", "12", "13", "23", "123"])
TEAMS = st.sampled_from(["harbor", "valley"])
MEN = st.sampled_from(["reyes", "vance", "okafor"])
YES_NO = st.sampled_from([None, True, False])
OUTING = st.sampled_from([("g1", "2026-03-06"), ("g2", "2026-03-13"), ("g3", "2026-03-20")])


def maybe(*words: object) -> st.SearchStrategy[object]:
    return st.sampled_from([None, *words])


def rows(table: str, **cells: st.SearchStrategy[object]) -> st.SearchStrategy[pd.DataFrame]:
    """Frames of one table, from none to two dozen rows."""
    row = st.fixed_dictionaries({"outing": OUTING, **cells})
    return st.lists(row, max_size=24).map(lambda found: frame(table, *[in_game(cells) for cells in found]))


def in_game(cells: dict[str, object]) -> dict[str, object]:
    (game, date), rest = cells["outing"], {key: value for key, value in cells.items() if key != "outing"}
    return {**rest, "game": game, "date": date}


TABLES = {
    "times": rows(
        "times", team=TEAMS, player=MEN, measure=st.sampled_from(["plate", "pickoff_1", "return_throw"]),
        style=maybe("stretch", "lob", "knees"), bases=BASES, seconds=st.sampled_from([0.9, 1.1, 1.1, 1.3, 1.47]),
        method=st.sampled_from(["watch", "frames"]), warmup=YES_NO,
    ),
    "holds": rows(
        "holds", team=TEAMS, pitcher=MEN, bases=st.sampled_from(["1", "2", "3", "12", "123"]),
        looks=maybe(0, 1, 2, 3, 9), balls=maybe(0, 3), strikes=maybe(0, 2), hold_seconds=maybe(0.0, 1.2, 4.0),
        style=maybe("stretch", "slide_step"),
        then=st.sampled_from(["pitch", "pickoff_1", "pickoff_2", "pickoff_3", "step_off", "balk"]),
    ),
    "throws": rows(
        "throws", team=TEAMS, catcher=MEN, to=st.sampled_from(["1", "2", "3", "home"]),
        pop_seconds=maybe(1.6, 1.95, 2.1), exchange_seconds=maybe(0.7, 0.8), method=maybe("watch", "frames"),
        accuracy=maybe("on_bag", "high", "dropped"), result=maybe("out", "safe", "no_play"), warmup=YES_NO,
    ),
    "habits": rows(
        "habits", team=TEAMS, player=maybe("reyes", "vance"), position=maybe(2, 3, 5), bases=BASES, seen=YES_NO,
        habit=st.sampled_from(["lobs-return", "third-off-bag"]), feet=maybe(5.0, 12.5),
    ),
    "positions": rows(
        "positions", team=TEAMS, player=maybe("reyes", "vance"), position=st.sampled_from([3, 5, 6]), bases=BASES,
        bats=maybe("L", "R"), depth_ft=maybe(80.0, 120.0), off_bag_ft=maybe(4.0, 20.0), toward=maybe("line", "middle"),
    ),
    "pitches": rows(
        "pitches", pitcher_team=TEAMS, pitcher=MEN, catcher=maybe("okafor"), bats=maybe("L", "R"),
        inning=maybe(1, 2, 5, 7), pitch=maybe("fastball", "sinker", "curve"), speed_mph=maybe(88.0, 91.5, 93.0),
        height=maybe(1, 3, 5), side=maybe(1, 2, 5),
        result=maybe("ball", "called_strike", "foul_tip", "foul", "in_play", "clock_ball"),
    ),
    "games": st.just(frame("games", *[
        {"game": g, "date": d, "source": s, "charted_by": b}
        for g, d, s, b in (("g1", "2026-03-06", "video", "MK"), ("g2", "2026-03-13", "own_game", None),
                           ("g3", "2026-03-20", "video", "AB"))
    ])),
}  # fmt: skip


class Noting(dict[str, pd.DataFrame]):
    """Frames that note which of them are read."""

    def __init__(self) -> None:
        super().__init__({table: frame(table) for table in COLUMNS})
        self.read: set[str] = set()

    def __getitem__(self, table: str) -> pd.DataFrame:
        self.read.add(table)
        return super().__getitem__(table)


@cache
def season_of(name: str) -> st.SearchStrategy[Frames]:
    """Seasons as far as a measure reads them: to make up the rest too took most of the time."""
    frames = Noting()
    MEASURES[name][0](frames)
    assert frames.read
    return st.fixed_dictionaries({table: TABLES[table] for table in sorted(frames.read)})


@pytest.mark.parametrize("name", MEASURES)
@few(12)
@given(data=st.data())
def test_shares_lie_within_their_intervals_and_keys_are_unique(name: str, data: st.DataObject) -> None:
    measure, columns, keys = MEASURES[name]
    table = measure(data.draw(season_of(name)))
    assert list(table.columns) == columns
    assert isinstance(table.index, pd.RangeIndex)
    assert not table.duplicated(keys).any()
    if "k" in table:
        assert ((table["k"] >= 0) & (table["k"] <= table["n"]) & (table["n"] > 0)).all()
        assert (table["low"] >= 0).all()
        assert (table["high"] <= 1).all()
        assert (table["low"] <= table["share"] + 1e-12).all()
        assert (table["share"] <= table["high"] + 1e-12).all()
    for least, middle, most in (("fastest", "median", "slowest"), ("p10_mph", "median_mph", "p90_mph"),
                                ("min_ft", "median_ft", "max_ft"), ("shortest", "median", "longest")):  # fmt: skip
        if {least, middle, most} <= set(columns):
            known = table[table[middle].notna()]
            assert (known[least] <= known[middle]).all()
            assert (known[middle] <= known[most]).all()
    if "own_sd" in table:
        assert (table["own_sd"].fillna(0) <= table["sd"].fillna(0)).all()
        assert table.loc[table["n"] < 2, ["sd", "own_sd", "low", "high"]].isna().all(axis=None)
        known = table[table["n"] >= 2]
        assert (known["low"] < known["mean_low"]).all()
        assert (known["mean_high"] < known["high"]).all()
        assert (table["mean_sd"] > 0).all()
        assert (table["spread"] > 0).all()


@pytest.mark.parametrize("name", MEASURES)
@few(6)
@given(data=st.data(), seed=st.integers(0, 99))
def test_the_order_rows_were_charted_in_changes_nothing(name: str, data: st.DataObject, seed: int) -> None:
    measure, season = MEASURES[name][0], data.draw(season_of(name))
    rng = np.random.default_rng(seed)
    shuffled = {table: rows.iloc[rng.permutation(len(rows))].reset_index(drop=True) for table, rows in season.items()}
    # Sums of floats may differ in the last digit with the order of their terms.
    pd.testing.assert_frame_equal(measure(season), measure(shuffled), rtol=1e-9, atol=1e-12)


@pytest.mark.parametrize("name", MEASURES)
def test_nothing_charted_gives_an_empty_table_with_all_its_columns(name: str) -> None:
    measure, columns, _ = MEASURES[name]
    table = measure(Noting())
    assert table.empty
    assert list(table.columns) == columns


@pytest.mark.parametrize("name", MEASURES)
@few(4)
@given(data=st.data())
def test_the_frames_read_are_left_as_they_were(name: str, data: st.DataObject) -> None:
    season = data.draw(season_of(name))
    before = {table: rows.copy(deep=True) for table, rows in season.items()}
    MEASURES[name][0](season)
    for table, rows in before.items():
        pd.testing.assert_frame_equal(season[table], rows)
