"""Runs, chances of a run and chances to win against published tables, fed the rates of those leagues."""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from scoutgen.measures.run_chain import (
    BASE_STATES,
    Advancement,
    EventShares,
    run_chain,
    run_expectancy,
    runs_distribution,
    shares_for,
    state,
)
from scoutgen.measures.win_chance import win_table

HERE = Path(__file__).parent

# Big leagues 1999-2002, runs to the end of the inning with none, one and two out: Tango, Lichtman and Dolphin,
# The Book (2007), as quoted by public articles.
RUNS_1999_2002 = {
    "": (0.555, 0.297, 0.117),
    "1": (0.953, 0.573, 0.251),
    "2": (1.189, 0.725, 0.344),
    "3": (1.482, 0.983, 0.387),
    "12": (1.573, 0.971, 0.466),
    "13": (1.904, 1.243, 0.538),
    "23": (2.052, 1.467, 0.634),
    "123": (2.417, 1.650, 0.815),
}

# Big leagues 1984-94, observed: times the state came up, runs from there, times without one, by outs
# (NSSL public data page expectedruns.html, Brooks).
SEEN_1984_94 = {
    "": ((377390, 186702, 273565), (270279, 70996, 227329), (215735, 21306, 201378)),
    "1": ((97684, 85966, 55235), (112513, 58731, 81420), (113013, 25469, 98497)),
    "2": ((29342, 33131, 10768), (52502, 36227, 30789), (64639, 21275, 50176)),
    "12": ((21978, 32895, 7994), (39375, 36031, 22649), (50463, 22358, 38792)),
    "3": ((5360, 7333, 871), (18798, 18020, 6257), (27006, 10272, 19583)),
    "13": ((9845, 17210, 1284), (19988, 23348, 6942), (25826, 13007, 18447)),
    "23": ((5571, 11011, 781), (14152, 19800, 4443), (15357, 9304, 11100)),
    "123": ((5233, 12419, 617), (13474, 21175, 4339), (16281, 12332, 11060)),
}

# NCAA Division I 2009, a Markov chain's output at 6.26 runs a team-game (Zimmerman, Beyond the Box Score,
# 10 June 2009).
RUNS_NCAA_2009 = {
    "": (0.70, 0.37, 0.13),
    "1": (1.19, 0.69, 0.28),
    "2": (1.34, 0.83, 0.40),
    "3": (1.56, 1.06, 0.44),
    "12": (1.87, 1.19, 0.56),
    "13": (2.06, 1.39, 0.59),
    "23": (2.21, 1.53, 0.71),
    "123": (2.77, 1.94, 0.93),
}


def league_1999_2002() -> EventShares:
    """Totals of both leagues: Lahman database (CC BY-SA 3.0); on an error .0105 a plate appearance (a guess)."""
    at_bats, hits, doubles, triples, home_runs = 666243, 177724, 35154, 3732, 21738
    walks, hit, bunts, flies, strikeouts = 68180, 6788, 6472, 5801, 126273
    appearances = at_bats + walks + hit + bunts + flies
    return EventShares(
        walk=(walks + hit) / appearances,
        single=(hits - doubles - triples - home_runs) / appearances,
        double=doubles / appearances,
        triple=triples / appearances,
        home_run=home_runs / appearances,
        strikeout=strikeouts / appearances,
        error=0.0105,
    )


def apart(shares: EventShares, published: dict[str, tuple[float, ...]]) -> np.ndarray:
    table = run_expectancy(run_chain(shares))
    rows = [
        [table[outs, BASE_STATES.index(bases)] - runs[outs] for outs in range(3)] for bases, runs in published.items()
    ]
    return np.array(rows)


# Largest error .079 (first and third, none out), rms .029; a plain chain with round rates reaches .088 and .032.
def test_runs_expected_1999_2002() -> None:
    errors = apart(league_1999_2002(), RUNS_1999_2002)
    assert np.abs(errors).max() <= 0.10
    assert np.sqrt((errors**2).mean()) <= 0.04


# Largest error .052 (second and third, one out), rms .024; only the runs an inning are set to that league's.
def test_runs_expected_1984_94() -> None:
    seen = {bases: tuple(runs / times for times, runs, _ in outs) for bases, outs in SEEN_1984_94.items()}
    errors = apart(shares_for(9 * seen[""][0], league_1999_2002()), seen)
    assert np.abs(errors).max() <= 0.06
    assert np.sqrt((errors**2).mean()) <= 0.03


def test_chance_of_a_run_1984_94() -> None:
    _, runs, _ = SEEN_1984_94[""][0]
    shares = shares_for(9 * runs / SEEN_1984_94[""][0][0], league_1999_2002())
    scoreless = runs_distribution(run_chain(shares))[:, 0]
    for bases, outs in SEEN_1984_94.items():
        for out, (times, _, none) in enumerate(outs):
            assert 1 - scoreless[state(bases, out)] == pytest.approx(1 - none / times, abs=0.05), (bases, out)


# Another chain, whose rates are not given: round agreement is all that can be asked.
def test_runs_expected_of_college_2009() -> None:
    errors = apart(shares_for(6.26), RUNS_NCAA_2009)
    assert np.abs(errors).max() <= 0.20
    assert np.sqrt((errors**2).mean()) <= 0.08


# Hardball Times' win probability inquirer, a model: runs a game, inning, half, lead, outs, bases and the chance.
@pytest.mark.parametrize(
    ("runs", "at", "published"),
    [
        (3.0, (8, "bottom", -1, 0, ""), 0.2288),
        (3.0, (8, "bottom", -3, 0, ""), 0.0481),
        (4.0, (9, "bottom", 0, 1, "12"), 0.6987),
        (4.0, (9, "top", 0, 0, ""), 0.5000),
    ],
)
def test_chances_to_win(runs: float, at: tuple[int, str, int, int, str], published: float) -> None:
    table = win_table(run_chain(shares_for(runs, league_1999_2002())))
    assert table.chance(*at) == pytest.approx(published, abs=0.01)


@pytest.fixture(scope="module")
def plays() -> pd.DataFrame:
    """Plays of 2019, innings one to eight (Retrosheet; see README.md here), with what each base's runner did."""
    rows = pd.read_csv(HERE / "transitions_2019_inn1_8.csv")
    for place, base in enumerate(("first", "second", "third")):
        rows[base] = (rows["b"] & 1 << place) > 0
    rows["men"] = rows[["first", "second", "third"]].sum(axis=1)
    rows["made"] = rows["o2"] - rows["o"]
    rows["two_out"] = rows["o"] == 2
    return rows


def share(plays: pd.DataFrame, of: pd.Series, those: pd.Series) -> float:
    return float(plays.loc[of & those, "n"].sum() / plays.loc[of, "n"].sum())


@pytest.mark.parametrize("two_out", [False, True])
def test_advancement_on_hits_is_that_of_2019(plays: pd.DataFrame, two_out: bool) -> None:
    how, at = Advancement(), plays["two_out"] == two_out
    single, double = at & (plays["cat"] == "1B"), at & (plays["cat"] == "2B")
    alone = plays["b"] == 1
    assert how.first_to_third[two_out] == pytest.approx(share(plays, single & alone, (plays["b2"] & 4) > 0), abs=0.006)
    home = plays["R"] > plays["third"].astype(int)
    assert how.second_scores[two_out] == pytest.approx(share(plays, single & plays["second"], home), abs=0.006)
    everybody = plays["R"] >= plays["men"]
    assert how.first_scores[two_out] == pytest.approx(share(plays, double & plays["first"], everybody), abs=0.01)


def test_advancement_on_outs_is_that_of_2019(plays: pd.DataFrame) -> None:
    how, out = Advancement(), (plays["cat"] == "O") & ~plays["two_out"]
    assert how.double_play == pytest.approx(share(plays, out & plays["first"], plays["made"] >= 2), abs=0.006)
    one = out & (plays["made"] == 1)
    for first in (False, True):
        of = one & plays["third"] & (plays["first"] == first)
        assert how.third_scores[first] == pytest.approx(share(plays, of, plays["R"] > 0), abs=0.006)
    to_third = ((plays["b2"] & 4) > 0) | (plays["R"] > 0)
    assert how.second_moves == pytest.approx(share(plays, one & (plays["b"] == 2), to_third), abs=0.006)
    assert how.first_moves == pytest.approx(share(plays, one & (plays["b"] == 1), (plays["b2"] & 2) > 0), abs=0.006)


@pytest.mark.parametrize("bases", BASE_STATES[1:])
def test_moves_between_plate_appearances_are_those_of_2019(plays: pd.DataFrame, bases: str) -> None:
    how, there, between = Advancement(), plays["b"] == BASE_STATES.index(bases), plays["cat"] == "NB"
    appearances = plays.loc[there & ~between, "n"].sum()
    up = plays.loc[there & between & (plays["made"] == 0), "n"].sum() / appearances
    out = plays.loc[there & between & (plays["made"] > 0), "n"].sum() / appearances
    assert how.moved_up[bases] == pytest.approx(up, abs=0.001)
    assert how.picked_out[bases] == pytest.approx(out, abs=0.001)
