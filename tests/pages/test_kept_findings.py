"""Measures are kept by all that they come from: found again where none of it changed, worked out where it did."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pandas as pd
import pytest

from scoutgen.pages import kept_findings
from scoutgen.pages.findings import Findings
from scoutgen.pages.kept_findings import kept_or_found
from scoutgen.records.season import Season


class Shelf(dict[str, bytes]):
    """A shelf in memory."""

    put = dict.__setitem__


@pytest.fixture
def worked_out(monkeypatch: pytest.MonkeyPatch) -> list[Season]:
    """The seasons that were measured, with measures that cost nothing and say how many pitches there were."""
    seasons: list[Season] = []

    def find(season: Season, *_: object) -> Findings:
        seasons.append(season)
        table = pd.DataFrame({"team": ["harbor"], "player": ["iker-nunez"], "n": [len(season.pitches)]})
        return Findings({"usage": kept_findings.Table(table)})

    monkeypatch.setattr(kept_findings, "find", find)
    return seasons


ASKED = [("harbor", "iker-nunez", "pitcher")]


def test_what_was_measured_is_found_again(demo_season: Season, worked_out: list[Season]) -> None:
    shelf = Shelf()
    first = kept_or_found(demo_season, ASKED, None, shelf)
    again = kept_or_found(demo_season, ASKED, None, shelf)
    assert len(worked_out) == 1
    assert first.of("usage", "harbor", "iker-nunez") == again.of("usage", "harbor", "iker-nunez")
    kept_or_found(demo_season, ASKED, None, None)
    assert len(worked_out) == 2


def test_notes_and_plans_are_no_reason_to_measure_anew_and_no_measure_sees_them(
    demo_season: Season, worked_out: list[Season]
) -> None:
    shelf = Shelf()
    kept_or_found(demo_season, ASKED, None, shelf)
    teams = {key: replace(team, tendencies=()) for key, team in demo_season.teams.items()}
    kept_or_found(replace(demo_season, entries={}, series=(), pages=(), teams=teams), ASKED, None, shelf)
    assert len(worked_out) == 1
    [seen] = worked_out
    assert (seen.entries, seen.series, seen.pages, seen.habit_kinds) == ({}, (), (), {})
    assert not any(team.tendencies or team.park.notes for team in seen.teams.values())


def _pitches(season: Season, column: str, value: object) -> Season:
    pitches = season.pitches.copy()
    pitches.loc[pitches.index[0], column] = value
    return replace(season, pitches=pitches)


def _few(season: Season) -> Season:
    limits = season.program.thresholds.model_copy(update={"few_readings": 7})
    return replace(season, program=season.program.model_copy(update={"thresholds": limits}))


def _roster(season: Season) -> Season:
    team = season.teams["harbor"]
    man = team.roster[0].model_copy(update={"throws": "L" if team.roster[0].throws == "R" else "R"})
    return replace(season, teams={**season.teams, "harbor": replace(team, roster=(man, *team.roster[1:]))})


CHANGES: dict[str, Callable[[Season], Any]] = {
    "a speed": lambda season: (_pitches(season, "speed_mph", 99.5), ASKED, None),
    "a row less": lambda season: (replace(season, holds=season.holds.iloc[1:]), ASKED, None),
    "the day": lambda season: (replace(season, as_of=season.as_of.replace(day=10)), ASKED, None),
    "a threshold": lambda season: (_few(season), ASKED, None),
    "a hand on a roster": lambda season: (_roster(season), ASKED, None),
    "who is asked about": lambda season: (season, [], None),
    "the coming series": lambda season: (season, ASKED, season.series[0]),
}


@pytest.mark.parametrize("what", CHANGES)
def test_anything_that_a_measure_comes_from_is_a_reason(
    demo_season: Season, worked_out: list[Season], what: str
) -> None:
    shelf = Shelf()
    kept_or_found(demo_season, ASKED, None, shelf)
    season, asked, series = CHANGES[what](demo_season)
    kept_or_found(season, asked, series, shelf)
    assert len(worked_out) == 2
