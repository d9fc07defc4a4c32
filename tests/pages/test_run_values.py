"""The program's run environment as values."""

import pytest

from scoutgen.measures.run_chain import run_expectancy
from scoutgen.pages.run_values import chain_of, half_of, win_values
from scoutgen.records.program import EventRates, RunEnvironment


def test_runs_or_rates_set_the_league() -> None:
    by_runs = run_expectancy(chain_of(RunEnvironment(runs_per_team_game=7.5)))[0, 0]
    assert by_runs * 9 == pytest.approx(7.5)
    rates = EventRates(walk=0.09, single=0.155, double=0.045, triple=0.005, home_run=0.03)
    low = chain_of(RunEnvironment(runs_per_team_game=7.5, rates=rates))
    assert run_expectancy(low)[0, 0] * 9 < 6.5


def test_where_nothing_is_said_we_bat_first() -> None:
    assert half_of(None) == "top"


def test_the_length_of_a_game_and_the_run_rule_are_the_programs() -> None:
    short = win_values(RunEnvironment(innings=7, run_rule_lead=10, run_rule_innings=5))
    assert short.chance(5, "bottom", -10, 3, "") == 0
    assert short.chance(7, "bottom", 0, 3, "") == pytest.approx(0.5)
