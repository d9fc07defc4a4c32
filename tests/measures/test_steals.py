"""Who can go: which readings an answer rests on, and what stands in where there are none."""

import pandas as pd
import pytest
from measures.rows import frame
from scipy import stats

from scoutgen.measures.holds import hold_moves, slide_steps
from scoutgen.measures.steal_odds import OFF_BAG_S, TAG_S, TAG_SPREAD_S, Seconds
from scoutgen.measures.steals import JUMP_SPREAD_S, ROSTER_MEAN_SD_S, STEAL_COLUMNS, USUAL, Runner, Tables, steals
from scoutgen.measures.throws import throw_accuracy, throw_times
from scoutgen.measures.times import time_summary

BATTERY = ("harbor", "reyes", "cho")
FAST, SLOW = Runner("fast", {"2": 3.30, "3": 3.10}), Runner("slow", {"2": 3.70})
PITCHER = {"team": "harbor", "player": "reyes", "measure": "plate", "method": "frames"}


def tables(
    times: pd.DataFrame | None = None, throws: pd.DataFrame | None = None, holds: pd.DataFrame | None = None
) -> Tables:
    times = frame("times") if times is None else times
    throws = frame("throws") if throws is None else throws
    holds = frame("holds") if holds is None else holds
    return Tables(
        times=time_summary(times),
        throw_times=throw_times(throws),
        accuracy=throw_accuracy(throws),
        slide_steps=slide_steps(holds),
        moves=hold_moves(holds),
    )


def only(found: pd.DataFrame, **keys: str) -> pd.Series:
    for key, value in keys.items():
        found = found[found[key] == value]
    assert len(found) == 1
    return found.iloc[0]


def deliveries(style: str, *seconds: float, bases: str = "1") -> list[dict[str, object]]:
    return [{"seconds": s, "style": style, "bases": bases} for s in seconds]


def test_nothing_charted_rests_on_what_is_usual_and_says_so() -> None:
    found = steals(tables(), [FAST, SLOW], [BATTERY], own_team="ours")
    assert list(found.columns) == STEAL_COLUMNS
    row = only(found, runner="fast", base="2")
    assert (row["plate_n"], row["pop_n"], row["run_n"]) == (0, 0, 0)
    assert not row["known"]
    assert row["margin_s"] == pytest.approx(USUAL["stretch"].mean + USUAL["pop_2"].mean + TAG_S - 3.30)
    assert row["high"] - row["low"] > 0.3
    # The slow man was never timed to third.
    assert set(found.loc[found["base"] == "3", "runner"]) == {"fast"}


def test_the_answer_rests_on_the_readings_whose_mean_is_known_best() -> None:
    times = frame(
        "times",
        *deliveries("stretch", 1.50, 1.52, 1.48, 1.50, 1.51, 1.49),
        {"seconds": 1.20, "style": "stretch", "bases": "1", "method": "watch"},
        {"seconds": 1.10, "style": "stretch", "bases": "1", "warmup": True},
        **PITCHER,
    )
    throws = frame(
        "throws",
        *[{"pop_seconds": s} for s in (2.10, 2.08, 2.12)],
        team="harbor",
        catcher="cho",
        to="2",
        method="frames",
    )
    row = only(steals(tables(times, throws), [FAST], [BATTERY], own_team="ours"), base="2")
    assert (row["plate_n"], row["pop_n"]) == (6, 3)
    assert row["plate_s"] == pytest.approx(1.50)
    assert row["pop_s"] == pytest.approx(2.10)
    assert row["known"]
    assert row["p_safe"] > 0.9


def test_a_few_frames_give_way_to_many_readings_by_the_watch() -> None:
    watch = [{"seconds": s, "style": "stretch", "bases": "1", "method": "watch"} for s in (1.4, 1.5, 1.45, 1.42, 1.48)]
    times = frame("times", *deliveries("stretch", 1.30, 1.30, 1.30), *watch, **PITCHER)
    found = only(steals(tables(times), [FAST], [BATTERY], own_team="ours"), base="2")
    assert found["plate_n"] == 5
    few = only(steals(tables(times), [FAST], [BATTERY], own_team="ours", few_readings=3), base="2")
    assert few["plate_n"] == 3


def test_our_own_readings_come_before_the_roster() -> None:
    times = frame(
        "times", *[{"seconds": s} for s in (3.40, 3.42, 3.44, 3.41, 3.43)],
        team="ours", player="fast", measure="first_second", method="frames",
    )  # fmt: skip
    row = only(steals(tables(times), [FAST], [BATTERY], own_team="ours"), base="2")
    assert (row["run_s"], row["run_n"]) == (pytest.approx(3.42), 5)
    few = only(steals(tables(times.iloc[:2]), [FAST], [BATTERY], own_team="ours"), base="2")
    assert (few["run_s"], few["run_n"]) == (3.30, 0)


def test_the_slide_step_stands_beside_the_stretch_only_where_it_was_seen() -> None:
    times = frame(
        "times", *deliveries("stretch", 1.45, 1.46, 1.44), *deliveries("slide_step", 1.20, 1.22, 1.18), **PITCHER
    )
    sets = [{"then": "pitch", "style": style} for style in ("slide_step", "stretch", "stretch", "stretch")]
    holds = frame("holds", *sets, team="harbor", pitcher="reyes", bases="1")
    found = steals(tables(times, holds=holds), [FAST], [BATTERY], own_team="ours")
    second = found[found["base"] == "2"].set_index("style")
    assert list(second.index) == ["stretch", "slide_step", "mixed"]
    assert second["p_safe"]["slide_step"] < second["p_safe"]["mixed"] < second["p_safe"]["stretch"]
    assert second["margin_s"]["stretch"] - second["margin_s"]["slide_step"] == pytest.approx(0.25, abs=1e-6)
    assert list(found.loc[found["base"] == "3", "style"]) == ["stretch"]


def test_a_slide_step_seen_but_never_timed_is_a_usual_one() -> None:
    times = frame("times", *deliveries("stretch", 1.45, 1.46, 1.44), **PITCHER)
    sets = [{"then": "pitch", "style": style} for style in ("slide_step", "stretch", "stretch", "stretch")]
    holds = frame("holds", *sets, team="harbor", pitcher="reyes", bases="1")
    found = steals(tables(times, holds=holds), [FAST], [BATTERY], own_team="ours")
    second = found[found["base"] == "2"].set_index("style")
    assert (second["plate_s"]["slide_step"], second["plate_n"]["slide_step"]) == (USUAL["slide_step"].mean, 0)
    assert second["p_safe"]["mixed"] < second["p_safe"]["stretch"]
    assert second["plate_n"]["mixed"] == 3


def test_he_is_timed_with_the_runners_the_steal_is_made_with() -> None:
    quick, slow = (1.38, 1.40, 1.42, 1.39, 1.41), (1.50, 1.52, 1.48, 1.51, 1.49)
    times = frame("times", *deliveries("stretch", *quick), *deliveries("stretch", *slow, bases="2"), **PITCHER)
    found = steals(tables(times), [FAST], [BATTERY], own_team="ours")
    assert only(found, base="2")["plate_s"] == pytest.approx(1.40)
    assert only(found, base="3")["plate_s"] == pytest.approx(1.50)


def test_a_few_readings_there_give_way_to_all_and_those_are_known_less_well_than_their_number_says() -> None:
    slow = (1.50, 1.52, 1.48, 1.51, 1.49)
    both = frame("times", *deliveries("stretch", 1.40, 1.42, 1.38), *deliveries("stretch", *slow, bases="2"), **PITCHER)
    assert only(steals(tables(both), [FAST], [BATTERY], own_team="ours"), base="2")["plate_n"] == 8
    there, off = (
        only(steals(tables(frame("times", *deliveries("stretch", *slow, bases=b), **PITCHER)), [FAST], [BATTERY],
                    own_team="ours"), base="2")
        for b in ("1", "2")
    )  # fmt: skip
    assert there["margin_s"] == pytest.approx(off["margin_s"])
    assert there["high"] - there["low"] < off["high"] - off["low"]


def test_throws_over_and_throws_off_the_bag_are_in_it() -> None:
    over = [{"then": "pickoff_1"}] * 8 + [{"then": "pitch", "style": "stretch"}] * 12
    never = [{"then": "pitch", "style": "stretch"}] * 20
    held, free = (
        only(
            steals(
                tables(holds=frame("holds", *rows, team="harbor", pitcher="reyes", bases="1")),
                [FAST], [BATTERY], own_team="ours",
            ),
            base="2",
        )
        for rows in (over, never)
    )  # fmt: skip
    assert held["picked"] > 0.1 > free["picked"]
    assert held["p_safe"] < free["p_safe"]
    wild = frame(
        "throws", *[{"accuracy": "dropped"}] * 6, *[{"accuracy": "on_bag"}] * 6, team="harbor", catcher="cho", to="2"
    )
    sure = frame("throws", *[{"accuracy": "on_bag"}] * 12, team="harbor", catcher="cho", to="2")
    chances = [
        only(steals(tables(throws=rows), [SLOW], [BATTERY], own_team="ours"), base="2")["p_safe"]
        for rows in (wild, sure)
    ]
    assert chances[0] > chances[1] + 0.1


def test_warm_ups_are_no_part_of_an_answer() -> None:
    live = deliveries("stretch", 1.50, 1.52, 1.48)
    times = frame("times", *live, *[{**row, "seconds": 1.2, "warmup": True} for row in live * 3], **PITCHER)
    pops = [{"pop_seconds": s, "accuracy": "on_bag"} for s in (2.10, 2.08, 2.12)]
    warm = [{"pop_seconds": 1.8, "accuracy": "dropped", "warmup": True}] * 9
    thrown = {"team": "harbor", "catcher": "cho", "to": "2", "method": "frames"}
    found, alone = (
        only(steals(tables(times, frame("throws", *rows, **thrown)), [SLOW], [BATTERY], own_team="ours"), base="2")
        for rows in ([*pops, *warm], pops)
    )
    assert (found["plate_n"], found["pop_n"]) == (3, 3)
    assert (found["plate_s"], found["pop_s"]) == (pytest.approx(1.50), pytest.approx(2.10))
    assert found["p_safe"] == pytest.approx(alone["p_safe"], abs=0.02)


def test_each_base_has_its_own_throws_over_and_throws() -> None:
    then = [{"then": "pickoff_1", "bases": "1"}] * 8 + [{"then": "pitch", "style": "stretch", "bases": "1"}] * 12
    never = [{"then": "pitch", "style": "stretch", "bases": "2"}] * 40
    holds = frame("holds", *then, *never, team="harbor", pitcher="reyes")
    wild = [{"to": "2", "accuracy": "dropped"}] * 10 + [{"to": "3", "accuracy": "on_bag"}] * 10
    throws = frame("throws", *wild, team="harbor", catcher="cho")
    found = steals(tables(throws=throws, holds=holds), [FAST], [BATTERY], own_team="ours").set_index("base")
    assert found["picked"]["2"] > found["picked"]["3"] + 0.1
    # What a throw that is lost adds to the clock.
    lost = (found["p_safe"] / (1 - found["picked"]) - found["p_clock"]) / (1 - found["p_clock"])
    assert lost["2"] > lost["3"] + 0.3


def test_an_answer_to_both_deliveries_rests_on_the_one_used_more() -> None:
    times = frame("times", *deliveries("stretch", *[1.45] * 3), *deliveries("slide_step", *[1.20] * 7), **PITCHER)
    for slides, n in ((2, 3), (18, 7)):
        styles = ["slide_step"] * slides + ["stretch"] * (20 - slides)
        sets = [{"then": "pitch", "style": style} for style in styles]
        holds = frame("holds", *sets, team="harbor", pitcher="reyes", bases="1")
        found = steals(tables(times, holds=holds), [FAST], [BATTERY], own_team="ours")
        assert only(found, base="2", style="mixed")["plate_n"] == n


def test_throws_off_the_bag_are_counted_of_those_that_are_caught() -> None:
    half = [{"accuracy": "dropped"}] * 30
    safe = {}
    for rest in ("on_bag", "field_side"):
        throws = frame("throws", *half, *[{"accuracy": rest}] * 30, team="harbor", catcher="cho", to="2")
        found = only(steals(tables(throws=throws), [SLOW], [BATTERY], own_team="ours"), base="2")
        safe[rest] = found["p_safe"], found["p_clock"]
    # Half are lost; every one that is caught is off the bag: a fifth of a second more to run in.
    plate, pop = USUAL["stretch"], USUAL["pop_2"]
    parts = (plate, pop, Seconds(0.0, ROSTER_MEAN_SD_S, JUMP_SPREAD_S), Seconds(0.0, 0.0, TAG_SPREAD_S))
    spread = sum(part.mean_sd**2 + part.own_sd**2 for part in parts) ** 0.5
    gained = stats.norm.cdf((plate.mean + pop.mean + TAG_S + OFF_BAG_S - 3.70) / spread) - safe["on_bag"][1]
    assert safe["field_side"][0] - safe["on_bag"][0] == pytest.approx(gained / 2, abs=0.04)
