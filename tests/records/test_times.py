"""Readings of a watch: what a measure can be, and in which styles."""

from collections.abc import Callable

import pytest

from scoutgen.records.season import Season

Complaints = Callable[..., list[str]]
Read = Callable[..., Season]

# Charting format, version 1.
LIMITS = {
    "plate": (0.8, 2.6),
    "pickoff_1": (0.5, 2.5),
    "pickoff_2": (0.5, 2.5),
    "pickoff_3": (0.5, 2.5),
    "return_throw": (0.4, 2.5),
    "home_first": (3.0, 6.0),
    "first_second": (2.6, 5.0),
    "second_third": (2.6, 5.0),
    "third_home": (1.5, 5.0),
}


def times(*rows: str) -> dict[str, str]:
    lines = "".join(f"g1,A,{row}\n" for row in rows)
    return {"data/times.csv": f"game,player,measure,style,seconds,method,warmup\n{lines}"}


@pytest.mark.parametrize("measure", LIMITS)
def test_the_limits_of_each_measure(complaints: Complaints, measure: str) -> None:
    low, high = LIMITS[measure]
    inside = [f"{measure},,{low},watch,", f"{measure},,{high},watch,"]
    assert complaints(times(*inside)) == []
    said = complaints(times(*inside, f"{measure},,{low - 0.01:.2f},watch,", f"{measure},,{high + 0.01:.2f},watch,"))
    assert said == [
        (
            f'data/times.csv:{line}: seconds: {seconds:g} cannot be a time of "{measure}"; allowed are '
            f"{low:g} to {high:g} seconds; "
            "correct it, or delete the row when the watch was stopped wrongly"
        )
        for line, seconds in ((4, round(low - 0.01, 2)), (5, round(high + 0.01, 2)))
    ]


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (
            "plate,lob,1.3,watch,",
            '"lob" is not a style of plate; write windup, stretch or slide_step, or leave it blank',
        ),
        ("pickoff_1,stretch,1.3,watch,", '"stretch" is not a style of pickoff_1; leave it blank'),
        (
            "return_throw,full,1.3,watch,",
            '"full" is not a style of return_throw; write firm, lob or knees, or leave it blank',
        ),
    ],
)
def test_styles_belong_to_their_measure(complaints: Complaints, row: str, words: str) -> None:
    assert complaints(times(row)) == [f"data/times.csv:2: style: {words}"]


def test_a_blank_warm_up_is_a_live_reading(season: Read) -> None:
    read = season(times("plate,,1.3,watch,yes", "plate,,1.3,frames,", "plate,,1.3,watch,no"))
    assert read.times["warmup"].tolist() == [True, False, False]
