"""Every measure of a season, worked out once for everybody and handed out man by man."""

import hashlib
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TypeAlias

import pandas as pd

from scoutgen.measures import (
    extra_bases,
    freshness,
    habits,
    holds,
    locations,
    look_for,
    mix,
    positions,
    results,
    sequence,
    situations,
    speeds,
    throws,
    times,
    times_through,
    unknowns,
    usage,
)
from scoutgen.measures.intervals import Floats
from scoutgen.measures.usual import AT_HAND, Learning, Usual
from scoutgen.pages.hitter_tables import hitter_tables, level_tables, with_hands
from scoutgen.pages.rows import ByTeam, Rows, Table
from scoutgen.pages.running_game import running_tables
from scoutgen.records.season import Season
from scoutgen.records.series import Series
from scoutgen.records.side_by_side import side_by_side

#: (team, player, role) of whom something is asked.
Asked: TypeAlias = Sequence[tuple[str, str | None, str]]
TABLES = ("pitches", "times", "holds", "throws", "habits", "positions")


@dataclass(frozen=True)
class Findings:
    """The measures' rows by table, team and player; rows without a player are under None."""

    tables: Mapping[str, ByTeam]

    def of(self, table: str, team: str, player: str) -> Rows:
        """One man's rows, in the order of the measure."""
        return self.tables[table].of(team, player)

    def of_team(self, table: str, team: str) -> Rows:
        """One team's rows, man by man."""
        return self.tables[table].of_team(team)

    @property
    def frames(self) -> dict[str, pd.DataFrame]:
        """The tables as they were measured, where that was all at once."""
        return {name: table.frame for name, table in self.tables.items() if isinstance(table, Table)}

    def part(self, team: str) -> "Findings":
        """What was found of one team, and nothing of any other."""
        return Findings({name: table.part(team) for name, table in self.tables.items()})

    def digest(self, team: str) -> str:
        """A hash of everything that was found of a team."""
        whole = hashlib.sha256()
        for name, table in self.tables.items():
            whole.update(f"{name} {table.columns}\n".encode() + table.digest(team))
        return whole.hexdigest()


def find(
    season: Season,
    people: Asked,
    series: Series | None = None,
    *,
    usual: Usual = AT_HAND,
    about: Collection[str] | None = None,
) -> Findings:
    """Work out every measure.

    Args:
        season: the validated season, or the part of it that `about` asks for (`records.some_teams`).
        people: (team, player, role) whose gaps are listed as a charting to-do; see `measures.unknowns`.
        series: the coming series, if there is one.
        usual: what everybody has in common; learned from the season where it is not known.
        about: the teams that are asked about; None for all.
    """

    def others() -> dict[str, pd.DataFrame]:
        asked = [*people, *_likely_lineup(series)]
        return {
            **_of_pitches(season, usual, about),
            "extra_bases": extra_bases.extra_bases(season.pitches, usual),
            "unknowns": unknowns.unknowns(_frames(season), asked),
        }

    tables: dict[str, pd.DataFrame] = {}
    # What takes longest comes first, so that nobody waits for it in the end.
    for some in side_by_side(
        [
            lambda: _of_readings(season, people, series, usual, about),
            lambda: _of_mix(season, usual, about),
            lambda: _of_hitting(season, usual, about),
            others,
        ]
    ):
        tables |= some
    if about is not None:
        tables = {name: table[table["team"].isin(about)].reset_index(drop=True) for name, table in tables.items()}
    return Findings({name: Table(table) for name, table in tables.items()})


def learn_usual(season: Season, about: Collection[str]) -> dict[str, Floats]:
    """What some teams have in common, by question: what others lean on who are measured without them.

    Args:
        season: the part of a season that the teams ask for.
        about: they.
    """

    def learned(of: Callable[[Season, Usual, Collection[str]], object]) -> dict[str, Floats]:
        learning = Learning()
        of(season, learning, about)
        return learning.learned

    def of_readings(season: Season, usual: Usual, about: Collection[str]) -> object:
        return _of_readings(season, (), None, usual, about)

    def others(season: Season, usual: Usual, about: Collection[str]) -> object:
        extra_bases.extra_bases(season.pitches, usual)
        return _of_pitches(season, usual, about)

    learned_by = side_by_side([partial(learned, of) for of in (of_readings, _of_mix, _of_hitting, others)])
    return {question: numbers for some in learned_by for question, numbers in some.items()}


def _of_mix(season: Season, usual: Usual, about: Collection[str] | None) -> dict[str, pd.DataFrame]:
    """What a pitcher throws when."""
    pitches = _by(season.pitches, "pitcher_team", about)
    # Learned once for all that is said of the mix, and of the times through.
    learned = mix.learn_mix(pitches, vocabulary=tuple(season.program.pitch_names()), usual=usual)
    turns = times_through.learn_turns(pitches, learned, usual)
    used = usage.usage(pitches, mix=learned)
    return {
        "usage": used,
        "bases": situations.bases_usage(pitches, mix=learned, usual=usual),
        "times_through": times_through.times_through_usage(pitches, turns=turns),
        "changes": times_through.times_through_changes(pitches, turns=turns),
        "sequence": sequence.sequence(pitches, mix=learned, usual=usual),
        "look_for": look_for.look_for(used, season.program.thresholds),
        "put_away": look_for.put_away(pitches, mix=learned, usual=usual),
    }


def _of_pitches(season: Season, usual: Usual, about: Collection[str] | None) -> dict[str, pd.DataFrame]:
    """Where a pitcher's pitches go and how hard, and what comes of them."""
    pitches = _by(season.pitches, "pitcher_team", about)
    return {
        "results": results.results(pitches, usual),
        "grid": locations.location_grid(pitches),
        "places": locations.location_places(pitches, usual),
        "bands": speeds.speed_bands(pitches),
        "innings": speeds.speed_by_inning(pitches),
        "drops": speeds.speed_drop(pitches),
    }


def _of_hitting(season: Season, usual: Usual, about: Collection[str] | None) -> dict[str, pd.DataFrame]:
    """What hitters do."""
    faced = _by(season.pitches, "batter_team", about)
    return hitter_tables(with_hands(replace(season, pitches=faced)), usual)


def _of_readings(
    season: Season, people: Asked, series: Series | None, usual: Usual, about: Collection[str] | None
) -> dict[str, pd.DataFrame]:
    """What watch and eye say, and what rests on it: who can go, where to stand."""
    program = season.program
    error, few = program.watch_error_s, program.thresholds.few_readings
    frames = _frames(season)
    faced = replace(season, pitches=_by(season.pitches, "batter_team", about))
    tables = {
        "times": times.time_summary(season.times, watch_error_s=error, few_readings=few, usual=usual),
        "readings": season.times,
        "looks": holds.looks(season.holds, few_looks=program.thresholds.few_looks),
        "hold_times": holds.hold_times(season.holds),
        "moves": holds.hold_moves(season.holds, usual),
        "slide_steps": holds.slide_steps(season.holds, usual),
        "throw_times": throws.throw_times(season.throws, watch_error_s=error, few_readings=few, usual=usual),
        "accuracy": throws.throw_accuracy(season.throws, usual),
        "throw_results": throws.throw_results(season.throws, usual),
        "returns": times.returns(season.times, usual),
        "habits": habits.habit_rates(season.habits, usual),
        "feet": habits.habit_feet(season.habits),
        "stood": positions.stood(season.positions),
        "shades": positions.shades(season.positions, usual),
        "off_bag": positions.off_bag(season.positions, season.habits),
        "fresh": freshness.player_freshness(season.games, frames),
        "team_fresh": freshness.team_freshness(season.games, frames),
    }
    tables |= level_tables(with_hands(faced), tables["times"], program.levels, usual)
    return tables | running_tables(season, tables, people, series)


def _by(pitches: pd.DataFrame, column: str, about: Collection[str] | None) -> pd.DataFrame:
    """Pitches of the teams asked about, as throwing or hitting them."""
    return pitches if about is None else pitches[pitches[column].isin(about)].reset_index(drop=True)


def _frames(season: Season) -> dict[str, pd.DataFrame]:
    return {name: getattr(season, name) for name in TABLES}


def _likely_lineup(series: Series | None) -> Asked:
    """The hitters we are about to face, of whom the charting to-do speaks too."""
    return [(series.opponent, man, "hitter") for man in series.lineup] if series is not None else []
