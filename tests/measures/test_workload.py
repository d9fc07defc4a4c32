"""Pitches of the last days, by hand."""

from datetime import date

import pytest
from measures.rows import frame

from scoutgen.measures.workload import WORKLOAD_COLUMNS, workload

AS_OF = date(2026, 4, 10)


def thrown(pitcher: str, day: str, n: int) -> list[dict[str, object]]:
    row = {"pitcher": pitcher, "pitcher_team": "harbor", "pitch": "fastball", "date": day, "game": f"g-{day}"}
    return [row] * n


def test_pitches_by_day_and_days_in_a_row() -> None:
    pitches = frame(
        "pitches",
        *thrown("busy", "2026-04-07", 10),
        *thrown("busy", "2026-04-08", 12),
        *thrown("busy", "2026-04-09", 20),
        *thrown("rested", "2026-04-08", 30),
        *thrown("long-ago", "2026-03-20", 90),
        *thrown("today", "2026-04-10", 5),
    )
    found = workload(pitches, AS_OF).set_index("player")
    assert [*found.columns.insert(1, "player")] == WORKLOAD_COLUMNS
    busy = found.loc["busy"]
    assert [busy[f"day_{back}"] for back in (1, 2, 3, 4)] == [20, 12, 10, 0]
    assert (busy["recent"], busy["days_in_a_row"], busy["days_ago"], busy["last_pitches"]) == (42, 3, 1, 20)
    rested = found.loc["rested"]
    assert (rested["recent"], rested["days_in_a_row"], rested["days_ago"]) == (30, 0, 2)
    assert (found.loc["long-ago", "recent"], found.loc["long-ago", "days_ago"]) == (0, 21)
    assert "today" not in found.index


def test_what_is_no_pitch_is_no_work() -> None:
    pitches = frame(
        "pitches",
        {"pitcher": "reyes", "pitcher_team": "harbor", "pitch": "fastball", "result": "clock_ball"},
        {"pitcher": "reyes", "pitcher_team": "harbor", "play": "walk"},
    )
    assert not len(workload(pitches, AS_OF))


@pytest.mark.parametrize("rows", [[], thrown("today", "2026-04-10", 3)])
def test_nothing_before_leaves_no_rows(rows: list[dict[str, object]]) -> None:
    found = workload(frame("pitches", *rows), AS_OF)
    assert list(found.columns) == WORKLOAD_COLUMNS
    assert not len(found)
