"""Every measure of a season, worked out once for everybody and handed out man by man."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
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
from scoutgen.pages.hitter_tables import hitter_tables, level_tables, with_hands
from scoutgen.pages.rows import Rows, Table
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

    tables: Mapping[str, Table]

    def of(self, table: str, team: str, player: str) -> Rows:
        """One man's rows, in the order of the measure."""
        return self.tables[table].of(team, player)

    def of_team(self, table: str, team: str) -> Rows:
        """One team's rows, man by man."""
        return self.tables[table].of_team(team)

    def part(self, team: str) -> "Findings":
        """What was found of one team, and nothing of any other."""
        return Findings({name: table.part(team) for name, table in self.tables.items()})

    def digest(self, team: str) -> str:
        """A hash of everything that was found of a team."""
        whole = hashlib.sha256()
        for name, table in self.tables.items():
            whole.update(f"{name} {table.columns}\n".encode() + table.digest(team))
        return whole.hexdigest()


def find(season: Season, people: Asked, series: Series | None = None) -> Findings:
    """Work out every measure.

    Args:
        season: the validated season.
        people: (team, player, role) whose gaps are listed as a charting to-do; see `measures.unknowns`.
        series: the coming series, if there is one.
    """
    asked = [*people, *_likely_lineup(series)]
    tables: dict[str, pd.DataFrame] = {}
    for some in side_by_side([lambda: _of_pitches(season, asked), lambda: _of_readings(season, people, series)]):
        tables |= some
    return Findings({name: Table(table) for name, table in tables.items()})


def _of_pitches(season: Season, asked: Asked) -> dict[str, pd.DataFrame]:
    """What pitches say of whoever throws and hits them, and what is not known."""
    pitches, limits = season.pitches, season.program.thresholds
    # Learned once for all that is said of the mix.
    learned = mix.learn_mix(pitches, vocabulary=tuple(season.program.pitch_names()))
    used = usage.usage(pitches, mix=learned)
    return {
        "usage": used,
        "bases": situations.bases_usage(pitches, mix=learned),
        "times_through": times_through.times_through_usage(pitches, mix=learned),
        "changes": times_through.times_through_changes(pitches, mix=learned),
        "sequence": sequence.sequence(pitches, mix=learned),
        "look_for": look_for.look_for(used, limits),
        "put_away": look_for.put_away(pitches, mix=learned),
        "results": results.results(pitches),
        "grid": locations.location_grid(pitches),
        "places": locations.location_places(pitches),
        "bands": speeds.speed_bands(pitches),
        "innings": speeds.speed_by_inning(pitches),
        "drops": speeds.speed_drop(pitches),
        "extra_bases": extra_bases.extra_bases(pitches),
        "unknowns": unknowns.unknowns(_frames(season), asked),
        **hitter_tables(with_hands(season)),
    }


def _of_readings(season: Season, people: Asked, series: Series | None) -> dict[str, pd.DataFrame]:
    """What watch and eye say, and what rests on it: who can go, where to stand."""
    program = season.program
    error, few = program.watch_error_s, program.thresholds.few_readings
    frames = _frames(season)
    tables = {
        "times": times.time_summary(season.times, watch_error_s=error, few_readings=few),
        "readings": season.times,
        "looks": holds.looks(season.holds, few_looks=program.thresholds.few_looks),
        "hold_times": holds.hold_times(season.holds),
        "moves": holds.hold_moves(season.holds),
        "slide_steps": holds.slide_steps(season.holds),
        "throw_times": throws.throw_times(season.throws, watch_error_s=error, few_readings=few),
        "accuracy": throws.throw_accuracy(season.throws),
        "throw_results": throws.throw_results(season.throws),
        "returns": times.returns(season.times),
        "habits": habits.habit_rates(season.habits),
        "feet": habits.habit_feet(season.habits),
        "stood": positions.stood(season.positions),
        "shades": positions.shades(season.positions),
        "off_bag": positions.off_bag(season.positions, season.habits),
        "fresh": freshness.player_freshness(season.games, frames),
        "team_fresh": freshness.team_freshness(season.games, frames),
    }
    tables |= level_tables(with_hands(season), tables["times"], program.levels)
    return tables | running_tables(season, tables, people, series)


def _frames(season: Season) -> dict[str, pd.DataFrame]:
    return {name: getattr(season, name) for name in TABLES}


def _likely_lineup(series: Series | None) -> Asked:
    """The hitters we are about to face, of whom the charting to-do speaks too."""
    return [(series.opponent, man, "hitter") for man in series.lineup] if series is not None else []
