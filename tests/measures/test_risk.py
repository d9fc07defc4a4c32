"""The tables of risk are the stakes at each moment, and the plain answers follow from them."""

import pytest

from scoutgen.measures.risk import (
    LEADS,
    contrasts,
    innings_shown,
    late,
    needs,
    needs_by_outs,
    one_run,
    risk_tables,
)
from scoutgen.measures.run_chain import run_chain, shares_for
from scoutgen.measures.stakes import Moment, stake
from scoutgen.measures.win_chance import GameRules, WinTable, win_table


@pytest.fixture(scope="module")
def values() -> WinTable:
    return win_table(run_chain(shares_for(6.0)))


def test_needs_are_those_of_a_tied_game_halfway(values: WinTable) -> None:
    found = needs(values, "top")
    assert found == {base: stake(values, base, Moment(5, "top", 0, 1)).break_even for base in ("2", "3", "home")}
    assert needs_by_outs(values, "top", "2")[1] == found["2"]
    # A steal of home with two out is asked least of.
    assert needs_by_outs(values, "top", "home")[2] < 0.5 < needs_by_outs(values, "top", "home")[0]


def test_every_lead_and_inning_has_its_stake(values: WinTable) -> None:
    tables = risk_tables(values, "top")
    assert [(table.base, table.outs) for table in tables] == [(base, outs) for base in "23" for outs in (1, 0, 2)]
    for table in tables:
        assert [row.lead for row in table.rows] == list(LEADS)
        assert all(len(row.stakes) == len(innings_shown(values.rules)) for row in table.rows)
    at_home = risk_tables(values, "bottom")[0]
    over = {row.lead: row.stakes[-1] is None for row in at_home.rows}
    assert over == {lead: lead > 0 for lead in LEADS}


def test_two_up_and_two_down_stand_beside_a_tied_game(values: WinTable) -> None:
    up, down = contrasts(values, "top")
    assert (up.lead, down.lead) == (2, -2)
    assert up.part == pytest.approx(up.other.gain / up.tied.gain)
    assert up.part < 0.5
    assert down.other.break_even > down.tied.break_even + 0.05


def test_playing_for_one_run_by_arithmetic(values: WinTable) -> None:
    (tied,) = one_run(values, "top", leads=(0,))
    cost = values.chance(late(values.rules), "top", 0, 0, "1") - values.chance(late(values.rules), "top", 0, 1, "2")
    assert tied.sacrifice == pytest.approx(cost)
    # 2.1 points, tied in the eighth, at 5.29 runs (shared trade note, computed there).
    assert 0.01 < tied.sacrifice < 0.035
    # A bunt hit is even near the league's on-base share, a little above since hits go farther than first.
    assert 0.37 < tied.bunt_for_hit < 0.50


def test_a_short_game_has_its_own_parts() -> None:
    assert innings_shown(GameRules(innings=7)) == (2, 4, 5, 6, 7)
    assert innings_shown(GameRules()) == (2, 5, 7, 8, 9)
    assert late(GameRules(innings=7)) == 6
