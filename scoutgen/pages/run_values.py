"""The program's run environment as chances to win."""

from scoutgen.measures.run_chain import EventShares, RunChain, run_chain, shares_for
from scoutgen.measures.win_chance import GameRules, WinTable, win_table
from scoutgen.records.program import RunEnvironment
from scoutgen.records.series import Series


def chain_of(environment: RunEnvironment) -> RunChain:
    """Plate appearances of the league the program plays in."""
    rates = environment.rates
    if rates is None:
        return run_chain(shares_for(environment.runs_per_team_game))
    usual = EventShares()
    return run_chain(
        EventShares(
            walk=rates.walk,
            single=rates.single,
            double=rates.double,
            triple=rates.triple,
            home_run=rates.home_run,
            strikeout=usual.strikeout if rates.strikeout is None else rates.strikeout,
            error=usual.error if rates.error is None else rates.error,
        )
    )


def win_values(environment: RunEnvironment) -> WinTable:
    """Chances to win in that league, by its rules of the length of a game."""
    rules = GameRules(environment.innings, environment.run_rule_lead, environment.run_rule_innings)
    return win_table(chain_of(environment), rules)


def half_of(series: Series | None) -> str:
    """Which half of an inning is ours: the bottom at home; the top where it is not said."""
    return "bottom" if series is not None and series.where == "home" else "top"
