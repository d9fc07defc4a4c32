"""Clocks as a page shows them: which row is gone by, and what is never mixed."""

import json
from dataclasses import replace

from measures.rows import frame

from scoutgen.measures.times import time_summary
from scoutgen.pages.rows import plain_rows
from scoutgen.pages.times import Clock, PitcherClocks, clocks, pitcher_clocks, to_go_by

MAN = {"player": "reyes", "team": "harbor", "measure": "plate"}


def timed(*readings: dict[str, object]) -> PitcherClocks:
    """His clocks, from readings with the watch unless they say otherwise."""
    rows = [{"method": "watch", "style": "stretch", "warmup": False, **reading} for reading in readings]
    times = frame("times", *rows, **MAN)
    return pitcher_clocks(plain_rows(time_summary(times)), plain_rows(times), "Reyes")


def read(seconds: list[float], **how: object) -> list[dict[str, object]]:
    return [{"seconds": s, **how} for s in seconds]


def test_of_watch_and_frames_the_one_whose_mean_is_known_best_is_gone_by() -> None:
    watch = read([1.30, 1.50, 1.35, 1.45])
    frames = read([1.40, 1.41, 1.40], method="frames")
    found = timed(*watch, *frames)
    assert found.stretch
    assert found.stretch.method == "frames"
    assert [clock.method for clock in found.go_by] == ["frames"]
    # Both are shown, each by itself.
    assert sorted((clock.method, clock.n) for clock in found.plate) == [("frames", 3), ("watch", 4)]


def test_a_single_reading_is_never_gone_by_where_there_are_two() -> None:
    found = timed(*read([1.2], method="frames"), *read([1.4, 1.5]))
    assert found.stretch
    assert (found.stretch.method, found.stretch.n) == ("watch", 2)


def test_nothing_timed_leaves_nothing_to_go_by() -> None:
    assert to_go_by(()) is None
    assert timed().go_by == ()
    assert timed().strip is None


def test_warm_ups_stand_apart_and_are_in_no_drawing() -> None:
    found = timed(*read([1.40, 1.42]), *read([1.1] * 5, warmup=True))
    assert [clock.n for clock in found.plate] == [2]
    assert [(clock.n, clock.warmup) for clock in found.warmups] == [(5, True)]
    # Two live readings are no picture of a spread, and five of the warm-up do not make it one.
    assert found.strip is None


def test_the_drawing_has_a_mark_for_every_live_time_of_a_known_style_and_how_often_it_was_read() -> None:
    found = timed(*read([1.40, 1.42, 1.40, 1.45, 1.40]), *read([1.40], method="frames"), *read([1.9], style=None))
    assert found.strip
    drawn = json.loads(found.strip.spec)["datasets"]
    assert [(mark["label"], mark["method"], mark["seconds"], mark["times"]) for mark in drawn["readings"]] == [
        ("stretch", "watch", 1.40, 3), ("stretch", "watch", 1.42, 1), ("stretch", "watch", 1.45, 1),
        ("stretch (frames)", "frames", 1.40, 1),
    ]  # fmt: skip
    # Of all readings, not of the marks.
    assert drawn["medians"] == [{"label": "stretch", "seconds": 1.40}, {"label": "stretch (frames)", "seconds": 1.40}]


def test_styles_not_charted_are_shown_as_such_and_only_where_none_was() -> None:
    (unnamed,) = timed(*read([1.4, 1.5], style=None)).plate
    assert (unnamed.label, unnamed.n) == ("style not charted", 2)
    assert [clock.label for clock in timed(*read([1.4]), *read([1.5], style=None)).plate] == ["stretch"]


def test_a_throw_over_is_not_a_time_to_the_plate() -> None:
    found = timed(*read([1.40]), *read([0.9], measure="pickoff_1", style=None))
    assert [clock.label for clock in found.pickoffs] == ["Pickoff to first"]
    assert [clock.label for clock in found.go_by] == ["stretch", "Pickoff to first"]


def test_quick_and_slow_take_in_their_bounds() -> None:
    def pace(seconds: float) -> str:
        return replace(one(seconds), few=False).pace

    assert [pace(s) for s in (1.30, 1.31, 1.49, 1.50)] == ["quick", "average", "average", "slow"]


def test_of_a_few_readings_nobody_says_how_quick_he_is() -> None:
    assert one(1.30).few
    assert one(1.30).pace == ""


def one(seconds: float) -> Clock:
    (clock,) = clocks(
        plain_rows(time_summary(frame("times", *read([seconds], method="watch"), **MAN)))[:1], "{measure}"
    )
    assert clock.low is None
    assert clock.mean_half is None
    return clock
