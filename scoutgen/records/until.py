"""A season as it stood before a day: what had been charted and seen until then."""

from dataclasses import replace
from datetime import date

import pandas as pd

from scoutgen.records.opponents import Entry, Observation, Team
from scoutgen.records.season import Season


def last_charted(season: Season) -> date | None:
    """The day of the latest game; None where no game has a date."""
    return last_day(season.games)


def last_day(table: pd.DataFrame) -> date | None:
    """The latest date in a table; None where it has none."""
    last = table["date"].max() if len(table) else pd.NaT
    return None if pd.isna(last) else pd.Timestamp(last).date()


def before_day(season: Season, day: date) -> Season:
    """The season without the games of that day and later, and without what was seen then.

    What has no date stays: rosters, summaries, series, and games of which nobody wrote the day.
    """
    teams = {key: _team(team, day) for key, team in season.teams.items()}
    entries = {key: _entry(entry, day) for key, entry in season.entries.items()}
    return replace(
        season,
        teams=teams,
        entries=entries,
        games=_until(season.games, day),
        pitches=_until(season.pitches, day),
        times=_until(season.times, day),
        holds=_until(season.holds, day),
        throws=_until(season.throws, day),
        habits=_until(season.habits, day),
        positions=_until(season.positions, day),
    )


def _until(frame: pd.DataFrame, day: date) -> pd.DataFrame:
    kept = frame[~(frame["date"] >= pd.Timestamp(day)).to_numpy(bool)].reset_index(drop=True)
    for name in kept.columns[kept.dtypes == "category"]:
        kept[name] = kept[name].cat.remove_unused_categories()
    return kept


def _team(team: Team, day: date) -> Team:
    return replace(team, tendencies=_seen_before(team.tendencies, day))


def _entry(entry: Entry, day: date) -> Entry:
    grades = entry.grades if entry.grades and entry.grades.seen < day else None
    return replace(entry, grades=grades, observations=_seen_before(entry.observations, day))


def _seen_before(observations: tuple[Observation, ...], day: date) -> tuple[Observation, ...]:
    return tuple(one for one in observations if one.seen < day)
