"""What more readings would settle, on batteries made up so that the answer is plain."""

import pandas as pd
from measures.rows import frame

from scoutgen.measures.holds import hold_moves, slide_steps
from scoutgen.measures.settling import SETTLING_COLUMNS, settling
from scoutgen.measures.steals import Runner, Tables
from scoutgen.measures.throws import throw_accuracy, throw_times
from scoutgen.measures.times import time_summary

BATTERY = ("harbor", "reyes", "cho")
NEED = {"2": 0.73, "3": 0.73}
# From a man who is there long before the ball to one who never is.
RUNNERS = [Runner(f"r{n}", {"2": 3.00 + n / 50}) for n in range(30)]


def tables(plate: list[float], pops: list[float], *, method: str = "watch", bases: str = "1") -> Tables:
    times = frame(
        "times",
        *[{"seconds": s, "style": "stretch", "bases": bases} for s in plate],
        team="harbor", player="reyes", measure="plate", method=method,
    )  # fmt: skip
    throws = frame(
        "throws", *[{"pop_seconds": s} for s in pops], team="harbor", catcher="cho", to="2", method=method,
    )  # fmt: skip
    holds = frame("holds")
    return Tables(
        times=time_summary(times), throw_times=throw_times(throws), accuracy=throw_accuracy(throws),
        slide_steps=slide_steps(holds), moves=hold_moves(holds),
    )  # fmt: skip


def found(given: Tables, runners: list[Runner] = RUNNERS) -> dict[str, "pd.Series[object]"]:
    table = settling(given, runners, [BATTERY], NEED, own_team="ours")
    assert list(table.columns) == SETTLING_COLUMNS
    return {row["what"]: row for _, row in table[table["base"] == "2"].iterrows()}


FEW_PLATES = [1.30, 1.55, 1.40, 1.62, 1.35]
MANY_POPS = [2.0, 2.02, 1.98, 2.01, 1.99] * 8


def test_the_time_that_is_known_worst_settles_most() -> None:
    rows = found(tables(FEW_PLATES, MANY_POPS))
    assert set(rows) == {"stretch", "pop"}, "no slide step was seen, so none is asked for"
    assert (rows["stretch"]["have"], rows["pop"]["have"]) == (5, 40)
    assert rows["stretch"]["runners"] == len(RUNNERS)
    assert 2 <= rows["stretch"]["open"] < len(RUNNERS)
    assert rows["stretch"]["settles"] > rows["pop"]["settles"]
    assert rows["stretch"]["settles"] >= 1


def test_what_is_known_for_sure_has_nothing_left_to_settle() -> None:
    rows = found(tables([1.40, 1.41, 1.39] * 40, [2.0, 2.01, 1.99] * 40, method="frames"), [RUNNERS[0], RUNNERS[-1]])
    for row in rows.values():
        assert (row["open"], row["settles"]) == (0, 0)


def test_never_timed_is_open_for_all_and_nobody_knows_what_it_would_show() -> None:
    rows = found(tables([], MANY_POPS))
    assert (rows["stretch"]["have"], rows["stretch"]["open"]) == (0, len(RUNNERS))
    assert pd.isna(rows["stretch"]["settles"])


def test_too_few_for_an_answer_are_settled_by_enough() -> None:
    """Three pops are too few; thirteen are not, and those far from even have their answer then."""
    rows = found(tables([1.40, 1.42, 1.38] * 10, [2.0, 2.02, 1.98], method="frames"))
    assert rows["pop"]["open"] == len(RUNNERS)
    assert rows["pop"]["settles"] > len(RUNNERS) / 2
    assert rows["stretch"]["settles"] == 0, "however often the plate is timed, the pop stays unknown"


def test_settled_are_never_more_than_open() -> None:
    for plate in ([1.4, 1.5], FEW_PLATES, FEW_PLATES * 4):
        for row in found(tables(plate, [1.9, 2.1, 2.0, 2.2, 1.95, 2.05])).values():
            assert pd.isna(row["settles"]) or 0 <= row["settles"] <= row["open"] <= row["runners"]


def test_no_battery_and_no_runner_is_an_empty_table() -> None:
    assert settling(tables([], []), RUNNERS, [], NEED, own_team="ours").empty
    assert settling(tables([], []), [], [BATTERY], NEED, own_team="ours").empty
