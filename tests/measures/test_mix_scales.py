"""Scales learned over pitchers move toward the truth, and stay where there is little to learn from."""

from dataclasses import replace

import numpy as np
import pandas as pd
from league.mixes import draw_league, throw

from scoutgen.measures.mix import learn_mix
from scoutgen.measures.mix_centre import Scales, kernel, league_log_shares
from scoutgen.measures.mix_fit import USUAL_SPREAD, softmax

PITCHES = ["fastball", "slider", "curve", "change"]


def drawn_from_the_model(scales: Scales, pitchers: int, games: int, spread: float, seed: int = 1) -> pd.DataFrame:
    rng = np.random.default_rng(seed)
    league = league_log_shares(PITCHES)
    root = np.linalg.cholesky(kernel(scales))
    frame = throw(draw_league(pitchers), games, seed=seed)
    own = league + np.einsum("ce,pek->pck", root, rng.normal(size=(pitchers, 24, 4)))
    who = frame["pitcher"].cat.codes.to_numpy()
    cell = (frame["bats"] == "R").to_numpy() * 12 + (frame["balls"] * 3 + frame["strikes"]).to_numpy(dtype=int)
    game = frame["game"].cat.codes.to_numpy()
    strayed = spread * rng.normal(size=(pitchers * games, 4))
    shares = softmax(own[who, cell] + strayed[game])
    pitch = (rng.random((len(frame), 1)) > shares.cumsum(axis=1)[:, :-1]).sum(axis=1)
    return frame.assign(pitch=pd.Categorical.from_codes(pitch, categories=PITCHES))


def test_scales_move_to_those_the_pitchers_were_drawn_with() -> None:
    truth = replace(Scales(), side=2.0, balls=0.05, cell=0.4)
    learned = learn_mix(drawn_from_the_model(truth, 24, 12, spread=0.8)).habits
    assert learned.scales.side > 1.5
    assert learned.scales.balls < 0.25
    assert learned.scales.cell > 0.2
    # Drawn alike for all pitches, where the model lets rare ones stray further: the scale is between.
    assert 0.35 < learned.spread < 0.9


def test_games_that_do_not_stray_are_learned_not_to() -> None:
    assert learn_mix(drawn_from_the_model(Scales(), 24, 12, spread=0.0)).habits.spread < 0.2


def test_one_pitcher_leaves_the_usual_scales() -> None:
    frame = throw(draw_league(1), 6)
    habits = learn_mix(frame).habits
    assert habits.scales == Scales()
    assert habits.spread == USUAL_SPREAD
