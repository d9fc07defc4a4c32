"""Every measure of a season, worked out once for everybody and handed out man by man."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

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


def find(season: Season, people: Sequence[tuple[str, str | None, str]], series: Series | None = None) -> Findings:
    """Work out every measure.

    Args:
        season: the validated season.
        people: (team, player, role) whose gaps are listed as a charting to-do; see `measures.unknowns`.
        series: the coming series, if there is one.
    """
    program, limits = season.program, season.program.thresholds
    names = tuple(program.pitch_names())
    error, few = program.watch_error_s, limits.few_readings
    frames = {name: getattr(season, name) for name in TABLES}
    pitches = season.pitches
    # Learned once for all that is said of the mix.
    learned = mix.learn_mix(pitches, vocabulary=names)
    used = usage.usage(pitches, mix=learned)
    tables = {
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
        "times": times.time_summary(season.times, watch_error_s=error, few_readings=few),
        "readings": season.times,
        "looks": holds.looks(season.holds, few_looks=limits.few_looks),
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
        "extra_bases": extra_bases.extra_bases(pitches),
        "fresh": freshness.player_freshness(season.games, frames),
        "team_fresh": freshness.team_freshness(season.games, frames),
        "unknowns": unknowns.unknowns(frames, [*people, *_likely_lineup(series)]),
    }
    batted = with_hands(season)
    tables |= hitter_tables(batted)
    tables |= level_tables(batted, tables["times"], program.levels)
    tables |= running_tables(season, tables, people, series)
    return Findings({name: Table(table) for name, table in tables.items()})


def _likely_lineup(series: Series | None) -> list[tuple[str, str | None, str]]:
    """The hitters we are about to face, of whom the charting to-do speaks too."""
    return [(series.opponent, man, "hitter") for man in series.lineup] if series is not None else []
