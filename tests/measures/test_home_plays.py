"""Who comes home: from which lead, on which readings, with which habits."""

import pandas as pd
import pytest
from measures.rows import frame

from scoutgen.measures.habits import habit_rates
from scoutgen.measures.home_budget import seconds_to_run
from scoutgen.measures.home_plays import HOME_COLUMNS, HomeRunner, HomeTables, home_plays
from scoutgen.measures.positions import off_bag
from scoutgen.measures.times import time_summary

DEFENCE = ("harbor", "reyes", "cho", "lamb")
RUNNER = HomeRunner("fast", first_second=3.30, first_ft=13, third_ft=15, secondary_ft=10)


def looks(habit: str, yes: int, n: int, bases: str) -> list[dict[str, object]]:
    return [{"habit": habit, "seen": place < yes, "bases": bases, "player": "cho", "position": 2} for place in range(n)]


def tables(*, times: list[dict] = (), habits: list[dict] = (), feet: tuple[float, ...] = ()) -> HomeTables:
    stands = [{"off_bag_ft": f, "position": 5, "player": "lamb", "bases": "3"} for f in feet]
    charted = frame("habits", *habits, team="harbor")
    return HomeTables(
        times=time_summary(frame("times", *times, team="harbor", method="frames")),
        habits=habit_rates(charted),
        off_bag=off_bag(frame("positions", *stands, team="harbor"), charted),
    )


def play(found: pd.DataFrame, which: str = "return throw") -> pd.Series:
    rows = found[found["play"] == which]
    assert len(rows) == 1
    return rows.iloc[0]


def test_he_starts_as_far_off_as_the_third_baseman_lets_him() -> None:
    near = play(home_plays(tables(feet=(18, 20, 22)), [RUNNER], [DEFENCE], need=0.4))
    far = play(home_plays(tables(feet=(40, 40, 40)), [RUNNER], [DEFENCE], need=0.4))
    blind = play(home_plays(tables(), [RUNNER], [DEFENCE], need=0.4))
    assert (near["start_ft"], near["feet_n"]) == (20, 3)
    assert far["start_ft"] == 25
    assert (blind["start_ft"], blind["feet_n"]) == (15, 0)
    assert near["p_safe"] < far["p_safe"]
    assert near["run_s"] == pytest.approx(seconds_to_run(70, RUNNER.top_fps() or 0))


def test_only_looks_with_a_runner_on_third_count_for_the_habits() -> None:
    charted = [
        *looks("returns-without-look", 6, 8, "3"),
        *looks("returns-without-look", 3, 4, "123"),
        *looks("lobs-return", 5, 10, "13"),
        *looks("lobs-return", 9, 9, ""),
    ]
    found = play(home_plays(tables(habits=charted), [RUNNER], [DEFENCE], need=0.4))
    assert (found["look_k"], found["look_n"], found["lob_k"], found["lob_n"]) == (9, 12, 5, 10)
    assert found["there"] == pytest.approx(9.5 / 13 * 5.5 / 11)


def test_habits_never_looked_at_leave_it_unknown() -> None:
    found = play(home_plays(tables(), [RUNNER], [DEFENCE], need=0.4))
    assert (found["look_n"], found["lob_n"]) == (0, 0)
    assert pd.isna(found["there"])


def test_the_balls_way_is_the_sum_of_its_parts_and_rests_on_his_lobs() -> None:
    lobs = [{"player": "cho", "measure": "return_throw", "style": "lob", "seconds": s} for s in (1.2, 1.3, 1.25)]
    windups = [{"player": "reyes", "measure": "plate", "style": "windup", "seconds": s} for s in (1.8, 1.9)]
    found = home_plays(tables(times=[*lobs, *windups]), [RUNNER], [DEFENCE], need=0.4)
    assert list(found.columns) == HOME_COLUMNS
    slow, straight = play(found), play(found, "windup")
    assert (slow["flight_s"], slow["flight_n"]) == (pytest.approx(1.25), 3)
    assert slow["ball_s"] == pytest.approx(slow[["flight_s", "turn_s", "throw_s", "tag_s"]].sum())
    assert slow["margin_s"] == pytest.approx(slow["ball_s"] - slow["run_s"])
    assert (straight["flight_s"], straight["flight_n"]) == (pytest.approx(1.85), 2)
    assert straight["p_safe"] < 0.01
    assert straight["there"] == 1


def test_a_man_never_timed_from_a_known_lead_has_no_row() -> None:
    men = [
        HomeRunner("no-lead", first_second=3.3),
        HomeRunner("no-time", third_ft=15),
        HomeRunner("no-start", first_second=3.3, first_ft=13),
    ]
    assert not len(home_plays(tables(), men, [DEFENCE], need=0.4))


def test_the_call_goes_by_how_surely_it_is_enough() -> None:
    quick = HomeRunner("quick", first_second=3.0, first_ft=13, third_ft=18, secondary_ft=14)
    slow = HomeRunner("slow", first_second=3.8, first_ft=13, third_ft=12, secondary_ft=8)
    found = home_plays(tables(feet=(32, 32, 32)), [quick, slow], [DEFENCE], need=0.4)
    calls = found[found["play"] == "return throw"].set_index("runner")
    assert calls["call"].to_dict() == {"quick": "yes", "slow": "no"}
    assert calls["enough"]["quick"] >= 0.9
    middle = HomeRunner("middle", first_second=3.35, first_ft=13, third_ft=15, secondary_ft=10)
    chance = play(home_plays(tables(feet=(32, 32, 32)), [middle], [DEFENCE], need=0.4))["p_safe"]
    for need, said in ((chance - 0.01, "close"), (chance + 0.01, "no")):
        assert play(home_plays(tables(feet=(32, 32, 32)), [middle], [DEFENCE], need=need))["call"] == said


def test_straight_home_he_starts_at_his_lead_without_the_secondary() -> None:
    found = home_plays(tables(feet=(40, 40, 40)), [RUNNER], [DEFENCE], need=0.4)
    assert play(found, "windup")["start_ft"] == RUNNER.third_ft
    assert play(found)["start_ft"] == 25


def test_his_time_from_third_comes_before_the_one_from_first() -> None:
    both = HomeRunner("both", first_second=3.30, third_home=3.10, first_ft=13, third_ft=15)
    speed = both.top_fps()
    assert speed is not None
    assert seconds_to_run(75, speed) == pytest.approx(3.10)
    alone = HomeRunner("alone", first_second=3.30, first_ft=13, third_ft=15).top_fps()
    assert alone is not None
    assert seconds_to_run(77, alone) == pytest.approx(3.30)
    from_second = HomeRunner("second", first_second=3.30, second_third=3.05, second_ft=17, third_ft=15).top_fps()
    assert from_second is not None
    assert seconds_to_run(73, from_second) == pytest.approx(3.05)
    assert HomeRunner("no lead", second_third=3.05, third_ft=15).top_fps() is None
