"""Stakes by arithmetic on published tables, and what must hold for any table."""

import pytest

from scoutgen.measures.run_chain import run_chain, shares_for
from scoutgen.measures.stakes import Moment, even_odds, send, stake
from scoutgen.measures.win_chance import WinTable, win_table

# Runs after and before a steal, NCAA 2009 (Zimmerman, Beyond the Box Score, 10 June 2009) and big leagues 1999-2002
# (The Book, 2007): before, safe, out with none, one and two out; and the break-even they make, by arithmetic.
PUBLISHED = {
    "college, second": ((1.19, 0.69, 0.28), (1.34, 0.83, 0.40), (0.37, 0.13, 0.0), (0.85, 0.80, 0.70)),
    "college, third": ((1.34, 0.83, 0.40), (1.56, 1.06, 0.44), (0.37, 0.13, 0.0), (0.82, 0.75, 0.91)),
    "college, home": ((1.56, 1.06, 0.44), (1.70, 1.37, 1.13), (0.37, 0.13, 0.0), (0.90, 0.75, 0.39)),
    "majors, second": ((0.953, 0.573, 0.251), (1.189, 0.725, 0.344), (0.297, 0.117, 0.0), (0.735, 0.750, 0.730)),
    "majors, third": ((1.189, 0.725, 0.344), (1.482, 0.983, 0.387), (0.297, 0.117, 0.0), (0.753, 0.702, 0.889)),
}


@pytest.fixture(scope="module")
def table() -> WinTable:
    return win_table(run_chain(shares_for(5.3)))


@pytest.mark.parametrize("which", PUBLISHED)
def test_even_odds_are_the_published_ones(which: str) -> None:
    before, safe, out, published = PUBLISHED[which]
    for outs in range(3):
        found = even_odds(safe[outs] - before[outs], before[outs] - out[outs])
        assert found == pytest.approx(published[outs], abs=0.006)


def test_nothing_to_gain_needs_certainty() -> None:
    assert even_odds(0.0, 0.1) == 1.0


# A model at 5.29 runs in nine innings, rates assumed: break-evens of a steal of second with one out in the eighth by
# lead -2 ... 2 (shared trade note, computed there). Which half is not said; the top is taken.
@pytest.mark.parametrize(("lead", "published"), [(-2, 0.85), (-1, 0.73), (0, 0.67), (1, 0.68), (2, 0.68)])
def test_break_evens_of_the_eighth(table: WinTable, lead: int, published: float) -> None:
    assert stake(table, "2", Moment(8, "top", lead, 1)).break_even == pytest.approx(published, abs=0.03)


def test_two_runs_up_the_same_odds_are_needed_and_less_is_to_win(table: WinTable) -> None:
    tied, up = stake(table, "2", Moment(8, "top", 0, 1)), stake(table, "2", Moment(8, "top", 2, 1))
    assert up.break_even == pytest.approx(tied.break_even, abs=0.03)
    assert up.gain < tied.gain / 2
    assert up.cost < tied.cost / 2


def test_home_ends_a_tied_last_inning(table: WinTable) -> None:
    found = stake(table, "home", Moment(9, "bottom", 0, 2))
    assert found.before + found.gain == pytest.approx(1)
    assert found.before - found.cost == pytest.approx(0.5)


def test_other_runners_stay_where_they_are(table: WinTable) -> None:
    found = stake(table, "2", Moment(5, "top", 0, 1), others="3")
    assert found.before == pytest.approx(table.chance(5, "top", 0, 1, "13"))
    assert found.before + found.gain == pytest.approx(table.chance(5, "top", 0, 1, "23"))
    assert found.before - found.cost == pytest.approx(table.chance(5, "top", 0, 2, "3"))


# Runs with the runner held, safe and out, by arithmetic on the same tables (the batter on first; on second for the
# double): big leagues 1999-2002 (The Book, 2007), with none, one and two out.
SENT = {
    "first_third": ((1.573, 0.971, 0.466), (1.904, 1.243, 0.538), (0.573, 0.251, 0.0)),
    "second_home": ((1.904, 1.243, 0.538), (1.953, 1.573, 1.251), (0.573, 0.251, 0.0)),
    "first_home": ((2.052, 1.467, 0.634), (2.189, 1.725, 1.344), (0.725, 0.344, 0.0)),
}


@pytest.mark.parametrize("play", SENT)
def test_sending_a_runner_needs_what_published_runs_say(table: WinTable, play: str) -> None:
    held, safe, out = SENT[play]
    for outs in range(3):
        published = even_odds(safe[outs] - held[outs], held[outs] - out[outs])
        # Early, when a run is worth about the same whoever leads.
        assert send(table, play, Moment(2, "top", 0, outs)).break_even == pytest.approx(published, abs=0.07)


def test_with_two_out_home_is_worth_the_risk_and_third_is_not(table: WinTable) -> None:
    two_out = Moment(5, "top", 0, 2)
    assert send(table, "second_home", two_out).break_even < 0.5
    assert send(table, "first_third", two_out).break_even > 0.85
