"""Changes as a page says them: each pitch once, and of whom it is true."""

from typing import Any

from scoutgen.pages.times_through import Change, changes


def row(bats: str, times: str, pitch: str, change: float, verdict: str) -> dict[str, Any]:
    counts = {"k": 30, "n": 60, "first_k": 20, "first_n": 80}
    return {"bats": bats, "times": times, "pitch": pitch, "change": change, "low": -0.01, "high": 0.3,
            "verdict": verdict, **counts}  # fmt: skip


def said(*rows: dict[str, Any]) -> list[tuple[str, str, list[Change]]]:
    return [(turn.when, turn.whom, list(turn.changes)) for turn in changes(rows).turns]


def test_what_comes_from_one_side_is_said_of_that_side() -> None:
    ((when, whom, (slider,)),) = said(
        row("all", "3rd+", "slider", 0.10, "likely"),
        row("R", "3rd+", "slider", 0.16, "likely"),
        row("L", "3rd+", "slider", 0.01, "open"),
    )
    assert (when, whom) == ("Third time through", "to righties")
    assert slider.up
    assert not slider.proven


def test_what_can_be_told_of_each_side_is_said_of_all() -> None:
    ((_, whom, (curve,)),) = said(
        row("all", "3rd+", "curve", 0.2, "proven"),
        row("R", "3rd+", "curve", 0.17, "proven"),
        row("L", "3rd+", "curve", 0.24, "proven"),
    )
    assert whom == ""
    assert curve.proven


def test_each_pitch_stands_once_where_it_is_surest_and_pitches_of_one_turn_together() -> None:
    turns = said(
        row("R", "2nd", "slider", 0.2, "proven"),
        row("R", "3rd+", "slider", 0.3, "likely"),
        row("R", "2nd", "fastball", -0.2, "likely"),
        row("R", "2nd", "change", -0.01, "open"),
    )
    assert [(when, [change.pitch for change in found]) for when, _, found in turns] == [
        ("Second time through", ["slider", "fastball"])
    ]


def test_nothing_to_tell_counts_the_pitches_looked_at() -> None:
    found = changes([row("all", "2nd", "slider", 0.0, "open"), row("all", "3rd+", "slider", 0.0, "open")])
    assert found.turns == ()
    assert found.n == 120
