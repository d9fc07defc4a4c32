"""The simulator plays by the rules, and what it says is true is what it draws."""

from itertools import pairwise

import pytest
from league.arms import pitchers
from league.bats import hitters
from league.chance import stream
from league.contact import fifths
from league.log import GameLog, PitchMade
from league.plate import base_shares, day_shares, season_mix
from league.season import CUT_OFF, play_season
from league.truth import GAME_CONCENTRATION, HitterTruth

OUTS = {"out": 1, "strikeout": 1, "sacrifice": 1, "fielders_choice": 1, "double_play": 2}


@pytest.fixture(scope="module")
def logs() -> list[GameLog]:
    played = [log for _, log in play_season()]
    # Everything below is asked pitch by pitch, and would pass if there were none.
    assert len(played) > 10
    assert all(len(log.pitches) > 100 for log in played)
    return played


def half_innings(log: GameLog) -> list[list[PitchMade]]:
    halves: dict[tuple[int, str], list[PitchMade]] = {}
    for made in log.pitches:
        halves.setdefault((made.moment.inning, made.moment.half), []).append(made)
    return list(halves.values())


# The count by the official rules, 5.04(b), 5.05, 5.09(a) and the definitions of ball and strike (memory): a foul is
# a strike with fewer than two, a bunted foul and a caught foul tip always are.
def test_the_count_follows_from_the_pitch_before(logs: list[GameLog]) -> None:
    for log in logs:
        for half in half_innings(log):
            for before, after in pairwise(half):
                at, then = before.moment, after.moment
                if before.play:
                    assert (then.balls, then.strikes) == (0, 0)
                    assert then.batter != at.batter
                    continue
                ball = before.result == "ball"
                strike = before.result in {"called_strike", "swinging_strike", "foul_tip", "foul_bunt"} or (
                    before.result == "foul" and at.strikes < 2
                )
                assert (then.balls, then.strikes) == (at.balls + ball, at.strikes + strike)
                assert (then.batter, then.pitcher) == (at.batter, at.pitcher)


def test_an_appearance_ends_when_it_must_and_says_how(logs: list[GameLog]) -> None:
    for made in (made for log in logs for made in log.pitches):
        full = made.moment.strikes == 2 and made.result in {"called_strike", "swinging_strike", "foul_tip", "foul_bunt"}
        assert (made.play == "strikeout") == full
        assert (made.play == "walk") == (made.moment.balls == 3 and made.result == "ball")
        assert (made.play == "hit_by_pitch") == (made.result == "hit_by_pitch")
        assert (made.batted is not None) == (made.result == "in_play")


def test_outs_never_fall_and_a_half_inning_has_three(logs: list[GameLog]) -> None:
    for log in logs:
        halves = half_innings(log)
        for half in halves:
            for before, after in pairwise(half):
                assert after.moment.outs >= before.moment.outs + OUTS.get(before.play, 0)
                assert after.moment.outs <= 2
            # Outs on the bases are not in the pitch rows, so that the last play may leave fewer than three.
            assert half[-1].moment.outs + OUTS.get(half[-1].play, 0) <= 3


def test_no_bases_hold_two_men_and_nobody_vanishes(logs: list[GameLog]) -> None:
    for log in logs:
        for half in half_innings(log):
            assert half[0].moment.bases == ""
            for before, after in pairwise(half):
                out = after.moment.outs - before.moment.outs
                runs = before.moment.lead - after.moment.lead
                came = 1 if before.play else 0
                assert len(after.moment.bases) == len(before.moment.bases) + came - out - runs


def test_games_end_when_they_are_won(logs: list[GameLog]) -> None:
    for log in logs:
        if log.game == CUT_OFF[0]:
            continue
        last = log.pitches[-1].moment
        assert last.inning >= 9
        assert log.runs[log.home] != log.runs[log.away]
        home_ahead = log.runs[log.home] > log.runs[log.away]
        if last.half == "top":
            assert home_ahead
        elif home_ahead:
            assert last.lead >= 0, "the home team batted though it was ahead"


# NCAA Division I teams scored 5.08 (2014) to 6.26 (2009) runs a game: collegebaseballdaily.com, 4 March 2015, and
# Zimmerman, Beyond the Box Score, 10 June 2009. A season this short may be a little off.
def test_the_league_scores_like_college_baseball(logs: list[GameLog]) -> None:
    runs = [runs for log in logs if log.game != CUT_OFF[0] for runs in log.runs.values()]
    assert 4.6 <= sum(runs) / len(runs) <= 6.8


# Ground balls by fifths, left to right: Blengino, FanGraphs, January 2014.
def test_a_plain_hitter_hits_ground_balls_where_the_league_does() -> None:
    plain = HitterTruth(bats="R")
    assert fifths(plain, "R", "ground", strikes=0) == pytest.approx((0.412, 0.259, 0.127, 0.124, 0.078), abs=1e-3)
    assert fifths(plain, "L", "ground", strikes=0) == pytest.approx((0.084, 0.124, 0.127, 0.258, 0.407), abs=0.01)


def test_planted_hitters_pull_and_go_the_other_way() -> None:
    everyone = hitters()
    tarkowski, lindqvist = everyone["harbor", "gus-tarkowski"], everyone["harbor", "anders-lindqvist"]
    assert sum(fifths(tarkowski, "R", "ground", strikes=0)[:2]) > 0.8
    assert sum(fifths(lindqvist, "L", "ground", strikes=2)[:2]) > 2 * 0.124


def test_the_mix_of_a_day_moves_around_the_season_as_much_as_said() -> None:
    truth = pitchers()["harbor", "iker-nunez"]
    rng = stream("test", "days")
    days = [day_shares(rng, truth)["R"]["slider"] for _ in range(4_000)]
    share = base_shares(truth, "R")["slider"]
    mean = sum(days) / len(days)
    spread = sum((day - mean) ** 2 for day in days) / len(days)
    assert mean == pytest.approx(share, abs=0.01)
    # Variance of a Dirichlet share: p (1 - p) / (concentration + 1).
    assert spread == pytest.approx(share * (1 - share) / (GAME_CONCENTRATION + 1), rel=0.08)


def test_the_planted_friday_starter_does_what_the_notes_say() -> None:
    truth = pitchers()["harbor", "iker-nunez"]
    assert season_mix(truth, "L", "0-0")["curve"] > 2 * season_mix(truth, "R", "0-0")["curve"]
    assert max(season_mix(truth, "R", "1-2"), key=season_mix(truth, "R", "1-2").__getitem__) == "slider"
    assert max(season_mix(truth, "L", "1-2"), key=season_mix(truth, "L", "1-2").__getitem__) == "change"
    assert season_mix(truth, "R", "3-0")["fastball"] > 0.85
