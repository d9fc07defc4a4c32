"""Which part of the season may an edition know?

What an edition leaves out is taken out of the season itself, before anything is measured or written: what no measure,
view or template has ever held can stand in no page, index, fact, drawing, comment or file's name.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, TypeVar

import pandas as pd

from scoutgen.records.hand_pages import HandPage
from scoutgen.records.opponents import NO_PARK, Entry, Observation, Team
from scoutgen.records.season import Season
from scoutgen.records.series import PlanLine, Series

# Columns of the charts that are for whoever charts and mends them. Who charted stands on the staff's pages alone; what
# clip and note say stands on no page of any edition.
PRIVATE_COLUMNS = ("charted_by", "clip", "note")
# What an evaluation measures; the other tables say how to beat a team tonight.
EVALUATED_TABLES = ("games", "pitches", "times", "throws")
_TABLES = ("games", "pitches", "times", "holds", "throws", "habits", "positions")


@dataclass(frozen=True)
class Shows:
    """What an edition has beside its own notes and pages.

    Attributes:
        game_plan: series with plan and bullpen, habits, parks, who can go, where to stand, cards.
        evaluations: grades, and the pages made of them.
        risk: what a steal is worth by lead and inning.
        data_quality: problems with what was charted, and who charted it.
        method: how the numbers are made, with formulas and sources.
        every_file: files in content/pages that no page of any edition links to.
    """

    game_plan: bool
    evaluations: bool
    risk: bool
    data_quality: bool
    method: bool
    every_file: bool


_NO_STAFF = {"risk": False, "data_quality": False, "method": False, "every_file": False}
SHOWS = {
    "staff": Shows(game_plan=True, evaluations=True, risk=True, data_quality=True, method=True, every_file=True),
    "players": Shows(game_plan=True, evaluations=False, **_NO_STAFF),
    "recruiting": Shows(
        game_plan=False, evaluations=True, risk=False, data_quality=False, method=False, every_file=False
    ),
}
# Whose marks an edition reads: the staff sees whatever anybody sees.
READS = {"staff": ("staff", "players", "recruiting"), "players": ("players",), "recruiting": ("recruiting",)}
# Where an edition has both, what is marked for one part alone does not stand in the other.
_GAME_MARKS, _EVALUATION_MARKS = ("staff", "players"), ("recruiting",)
Marked = TypeVar("Marked", Observation, PlanLine)


def for_edition(season: Season, edition: str) -> Season:
    """The season as one edition may know it.

    Args:
        season: all that the staff has.
        edition: a key of SHOWS.

    Returns:
        A season without: observations, tendencies, lines of the plan and pages that are not marked for this edition;
        grades, unless it has evaluations; problems of the input and who charted what, unless it has data quality;
        series, habits, where fielders stood, how runners are held, parks and our own men, unless it has the game
        plan.
    """
    shows = SHOWS[edition]
    season = replace(
        season,
        teams={key: replace(team, tendencies=_marked(team.tendencies, edition)) for key, team in season.teams.items()},
        entries={who: _entry(entry, edition, shows) for who, entry in season.entries.items()},
        series=tuple(replace(one, plan=_marked(one.plan, edition)) for one in season.series),
        pages=pages_for(season.pages, edition),
    )
    if not shows.data_quality:
        season = _without_who_charted(season)
    return season if shows.game_plan else evaluation_part(season)


def game_part(season: Season) -> Season:
    """The season as the pages about a game may know it: without grades and notes that are for evaluations alone."""
    entries = {
        who: replace(entry, grades=None, observations=_for_any(entry.observations, _GAME_MARKS))
        for who, entry in season.entries.items()
    }
    return replace(season, entries=entries)


def pages_for(pages: Iterable[HandPage], edition: str) -> tuple[HandPage, ...]:
    """Of the pages written by hand those that an edition has."""
    return tuple(page for page in pages if _is_for(page.editions, edition))


def _marked(some: Iterable[Marked], edition: str) -> tuple[Marked, ...]:
    return _for_any(some, READS[edition])


def _for_any(some: Iterable[Marked], marks: tuple[str, ...]) -> tuple[Marked, ...]:
    return tuple(one for one in some if any(mark in marks for mark in one.editions))


def _is_for(marks: Iterable[str], edition: str) -> bool:
    return any(mark in READS[edition] for mark in marks)


def _entry(entry: Entry, edition: str, shows: Shows) -> Entry:
    return replace(
        entry,
        summary=entry.summary if shows.game_plan else None,
        observations=_marked(entry.observations, edition),
        grades=entry.grades if shows.evaluations else None,
    )


def _without_who_charted(season: Season) -> Season:
    frames: dict[str, Any] = {name: _blanked(getattr(season, name)) for name in _TABLES}
    return replace(season, **frames, warnings=(), skipped=(), rows_left_out=0, files_left_out=0)


def _blanked(frame: pd.DataFrame) -> pd.DataFrame:
    """A frame whose private columns say nothing, not even as categories nobody uses."""
    nothing = pd.Series(pd.NA, index=frame.index, dtype="object").astype("category")
    return frame.assign(**{name: nothing for name in PRIVATE_COLUMNS if name in frame})


def evaluation_part(season: Season) -> Season:
    """Men, grades, what was timed and thrown, and notes marked for evaluations; no plan and nobody of ours."""
    entries = {
        who: replace(entry, summary=None, observations=_for_any(entry.observations, _EVALUATION_MARKS))
        for who, entry in season.entries.items()
    }
    program = season.program.model_copy(update={"roster": ()})
    teams = {key: _roster_alone(team) for key, team in season.teams.items() if not team.own}
    empty: dict[str, Any] = {name: getattr(season, name).iloc[:0] for name in _TABLES if name not in EVALUATED_TABLES}
    no_series: tuple[Series, ...] = ()
    return replace(season, program=program, teams=teams, entries=entries, series=no_series, habit_kinds={}, **empty)


def _roster_alone(team: Team) -> Team:
    return replace(team, park=NO_PARK, tendencies=())
