"""The tables of the running game: our runners against every battery we may meet."""

from collections.abc import Iterable, Mapping
from itertools import product

import pandas as pd

from scoutgen.measures.calls import steal_calls
from scoutgen.measures.home_plays import HomeRunner, HomeTables, home_plays
from scoutgen.measures.risk import needs, needs_by_outs
from scoutgen.measures.settling import settling
from scoutgen.measures.slow_counts import slow_counts
from scoutgen.measures.steals import STEALS, Runner, Tables, steals
from scoutgen.measures.win_chance import WinTable
from scoutgen.measures.workload import workload
from scoutgen.pages.run_values import half_of, win_values
from scoutgen.records.program import Program
from scoutgen.records.season import Season
from scoutgen.records.series import Series

_THIRD_BASE = 5


def running_tables(
    season: Season,
    tables: Mapping[str, pd.DataFrame],
    asked: Iterable[tuple[str, str | None, str]],
    series: Series | None,
) -> dict[str, pd.DataFrame]:
    """Steals, what they come to, runs home, slow counts and the pitches of the last days.

    Args:
        season: the validated season.
        tables: the other measures' frames by their names in `findings`.
        asked: (team, player, role) of everybody with a page; pitchers and catchers of a team with a file make its
            batteries.
        series: the coming series, whose lineup says who plays third base; None where there is none.
    """
    program = season.program
    batteries = _batteries(season, asked)
    third = {team: _third_baseman(tables["off_bag"], team, series) for team in {team for team, _, _ in batteries}}
    timed = Tables(
        times=tables["times"],
        throw_times=tables["throw_times"],
        accuracy=tables["accuracy"],
        slide_steps=tables["slide_steps"],
        moves=tables["moves"],
    )
    found = steals(
        timed,
        _runners(program),
        batteries,
        own_team=program.key,
        few_readings=program.thresholds.few_readings,
    )
    values, half = win_values(program.run_environment), half_of(series)
    near = [b for b in batteries if series is not None and b[0] == series.opponent]
    home = home_plays(
        HomeTables(times=tables["times"], habits=tables["habits"], off_bag=tables["off_bag"]),
        _home_runners(program),
        [(*battery, third[battery[0]]) for battery in near],
        need=needs_by_outs(values, half, "home")[2],
        few_readings=program.thresholds.few_readings,
    )
    starters = {p.pitcher for p in series.probables} if series is not None else set()
    settled = settling(
        timed,
        _runners(program),
        [b for b in near if b[1] in starters and b[2] == (series.catcher if series is not None else None)],
        needs(values, half),
        own_team=program.key,
        few_readings=program.thresholds.few_readings,
    )
    theirs = season.pitches[season.pitches["pitcher_team"].isin([series.opponent] if series else [])]
    return {
        "steals": found.assign(**_even(found["base"], values, half)),
        "calls": steal_calls(found, needs(values, half), few_readings=program.thresholds.few_readings),
        "settling": settled,
        "home": home,
        "slow": slow_counts(theirs.reset_index(drop=True)),
        "workload": workload(season.pitches, season.as_of),
    }


def _even(base: pd.Series, values: WinTable, half: str) -> dict[str, pd.Series]:
    """Chance that is even with none, one and two out, as columns."""
    by_base = {each: needs_by_outs(values, half, each) for each in STEALS}
    return {
        f"even_{outs}": base.map({each: even[outs] for each, even in by_base.items()}).astype(float)
        for outs in range(3)
    }


def _batteries(season: Season, asked: Iterable[tuple[str, str | None, str]]) -> list[tuple[str, str, str]]:
    """Every pitcher with every catcher of his team; teams known from charts only have no roster to say who catches."""
    men: dict[tuple[str, str], list[str]] = {}
    for team, player, role in asked:
        if player is not None and season.teams[team].listed:
            men.setdefault((team, role), []).append(player)
    teams = dict.fromkeys(team for team, _ in men)
    return [
        (team, pitcher, catcher)
        for team in teams
        for pitcher, catcher in product(men.get((team, "pitcher"), ()), men.get((team, "catcher"), ()))
    ]


def _third_baseman(off_bag: pd.DataFrame, team: str, series: Series | None) -> str | None:
    """Who plays third: of those measured off the bag the one in the lineup, else the one measured most."""
    at = off_bag["team"].eq(team) & off_bag["position"].eq(_THIRD_BASE) & off_bag["runner_on"].eq("3")
    men = off_bag[at & off_bag["player"].ne("all")]
    lineup = series.lineup if series is not None and series.opponent == team else ()
    named = men[men["player"].isin(lineup)]
    chosen = (named if len(named) else men).sort_values("n", ascending=False, kind="stable")
    return str(chosen["player"].iloc[0]) if len(chosen) else None


def _runners(program: Program) -> list[Runner]:
    runners = []
    for man in program.roster:
        times = {"2": man.times.first_second, "3": man.times.second_third} if man.times else {}
        if times or "P" not in man.positions:
            runners.append(Runner(man.key, {base: seconds for base, seconds in times.items() if seconds is not None}))
    return runners


def _home_runners(program: Program) -> list[HomeRunner]:
    return [
        HomeRunner(
            man.key,
            first_second=man.times.first_second,
            second_third=man.times.second_third,
            third_home=man.times.third_home,
            first_ft=man.leads.first_ft,
            second_ft=man.leads.second_ft,
            third_ft=man.leads.third_ft,
            secondary_ft=man.leads.secondary_ft,
        )
        for man in program.roster
        if man.times and man.leads
    ]
