"""Chances to win: what must hold for any rates, and games played out half inning by half inning."""

import numpy as np
import pytest

from scoutgen.measures.run_chain import RunChain, run_chain, runs_distribution, shares_for, state
from scoutgen.measures.win_chance import FURTHEST_LEAD, GameRules, WinTable, win_table


@pytest.fixture(scope="module")
def chain() -> RunChain:
    return run_chain(shares_for(6.0))


@pytest.fixture(scope="module")
def table(chain: RunChain) -> WinTable:
    return win_table(chain)


def test_equals_start_even(table: WinTable) -> None:
    assert table.chance(1, "top", 0, 0, "") == pytest.approx(0.5, abs=1e-9)
    assert table.chance(14, "top", 0, 0, "") == pytest.approx(0.5, abs=1e-9)


def test_a_lead_and_runners_help_and_outs_hurt(table: WinTable) -> None:
    # With the bases loaded and the runs sure to decide, a run more or less may make no difference at all.
    assert (np.diff(table.batting, axis=1) >= -1e-12).all()
    assert table.batting.min() >= 0
    assert table.batting.max() <= 1 + 1e-12
    for inning, half in ((1, "top"), (5, "bottom"), (9, "bottom")):
        chances = [table.chance(inning, half, -1, outs, "1") for outs in range(3)]
        assert chances == sorted(chances, reverse=True)
        assert table.chance(inning, half, -1, 1, "2") > table.chance(inning, half, -1, 1, "1")


def test_both_teams_chances_sum_to_one_between_half_innings(table: WinTable) -> None:
    for lead in range(-5, 6):
        after_three = table.chance(4, "top", lead, 3, "")
        assert after_three == pytest.approx(1 - table.chance(4, "bottom", -lead, 0, ""))


def test_the_home_team_wins_as_soon_as_it_leads_in_the_last(table: WinTable) -> None:
    assert table.chance(9, "bottom", 1, 0, "") == 1
    assert table.chance(9, "top", -1, 3, "") == 0
    assert table.chance(11, "bottom", 1, 2, "3") == 1
    # The third out with the game tied leaves it even.
    assert table.chance(9, "bottom", 0, 3, "") == pytest.approx(0.5)


def test_the_last_inning_is_what_the_runs_say(chain: RunChain, table: WinTable) -> None:
    shares = runs_distribution(chain)[state("2", 1)]
    by_hand = shares[2:].sum() + shares[1] * 0.5
    assert table.chance(9, "bottom", -1, 1, "2") == pytest.approx(by_hand)


def test_the_run_rule_ends_it_only_once_the_team_behind_has_batted(chain: RunChain) -> None:
    ruled = win_table(chain, GameRules(run_rule_lead=10))
    assert ruled.chance(7, "top", -10, 3, "") == 0
    assert 0 < 1 - ruled.chance(7, "top", 10, 3, "") < 0.01
    assert ruled.chance(7, "bottom", -10, 3, "") == 0
    assert ruled.chance(7, "bottom", 10, 0, "") == pytest.approx(1)
    assert ruled.chance(6, "bottom", -10, 3, "") > 0
    assert ruled.chance(1, "top", 0, 0, "") == pytest.approx(0.5, abs=1e-9)


def test_seven_innings_are_shorter(chain: RunChain, table: WinTable) -> None:
    short = win_table(chain, GameRules(innings=7))
    assert short.chance(7, "bottom", -1, 1, "2") == pytest.approx(table.chance(9, "bottom", -1, 1, "2"))
    assert short.chance(1, "top", 1, 0, "") > table.chance(1, "top", 1, 0, "")


def test_leads_off_the_table_are_its_ends(table: WinTable) -> None:
    assert table.chance(3, "top", 99, 0, "") == table.chance(3, "top", FURTHEST_LEAD, 0, "")


def test_games_played_out_end_as_often_so(chain: RunChain, table: WinTable) -> None:
    rng, times = np.random.default_rng(8), 20_000
    fresh = runs_distribution(chain)[state("", 0)].cumsum()

    def draw() -> np.ndarray:
        return np.searchsorted(fresh, rng.random(times))

    # From the top of the seventh, the visitors two behind.
    lead = np.full(times, 2)
    for _ in range(7, 10):
        lead = lead - draw()
        lead = lead + np.where((_ == 9) & (lead > 0), 0, draw())
    won = np.where(lead > 0, 1.0, np.where(lead < 0, 0.0, 0.5))
    expected = table.chance(7, "top", -2, 0, "")
    assert abs((1 - won.mean()) - expected) < 4 * won.std() / np.sqrt(times)
