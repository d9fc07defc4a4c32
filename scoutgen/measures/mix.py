"""The mix of every pitcher charted: tables, fits and what they leave open, worked out once for all measures of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_centre import CELLS, Scales, kernel, league_log_shares, usual
from scoutgen.measures.mix_fit import USUAL_SPREAD, fit_mix, softmax
from scoutgen.measures.mix_moments import moments
from scoutgen.measures.mix_tables import MixTables, count_pitches, sum_by_player

#: How strongly a pitch not yet seen is expected, in pitches, and how many independent pitches a long game is worth.
UNSEEN: Final = 0.15
GAME_WORTH: Final = 14.0


@dataclass(frozen=True)
class Mix:
    """What is known of each pitcher's mix by cell (batter's side and count).

    Attributes:
        tables: the pitches counted.
        share: expected share of each pitch in his next game, players x cells x vocabulary; every cell sums to 1.
        lasting: covariance between cells of what is open about his usual share, players x vocabulary x cells x cells.
        tonight: the same with what the next game adds to it.
        by_outing: expected share in each game charted, that game's own leaning included: outings x cells x vocabulary.
        visits: share of a game's pitches each cell has, players x cells.
        spread: standard deviation of log-shares from game to game, each player's.
    """

    tables: MixTables
    share: Floats
    lasting: Floats
    tonight: Floats
    by_outing: Floats
    visits: Floats
    spread: Floats


def learn_mix(
    pitches: pd.DataFrame,
    *,
    vocabulary: Sequence[str] = (),
    scales: Scales | None = None,
    usual_spread: float = USUAL_SPREAD,
) -> Mix:
    """Learn the mix of every pitcher in the season's pitches.

    Args:
        pitches: the season's pitches, all pitchers, in the order thrown.
        vocabulary: pitches that may be thrown beside the usual ones.
        scales: how far pitchers differ from the league; learned from them where not given.
        usual_spread: game-to-game spread of log-shares before any is seen.
    """
    tables = count_pitches(pitches, vocabulary=vocabulary)
    cells = tables.cells()
    players, words = len(tables.players), len(tables.vocabulary)
    looked = sum_by_player(cells.sum(axis=1), tables.outing_player, players)
    covariance = kernel(scales or Scales())
    share = np.zeros((players, CELLS, words))
    lasting, tonight = np.zeros((players, words, CELLS, CELLS)), np.zeros((players, words, CELLS, CELLS))
    by_outing = np.zeros((len(cells), CELLS, words))
    spread = np.full(players, usual_spread)
    thrown = looked > 0
    for pitches_thrown in np.unique(thrown.sum(axis=1)):
        who = np.flatnonzero(thrown.sum(axis=1) == pitches_thrown)
        what = np.nonzero(thrown[who])[1].reshape(len(who), pitches_thrown)
        own = np.flatnonzero(np.isin(tables.outing_player, who))
        place = np.searchsorted(who, tables.outing_player[own])
        theirs = np.take_along_axis(cells[own], what[place][:, None, :], axis=2)
        league = np.take(league_log_shares(tables.vocabulary), what, axis=1).transpose(1, 0, 2)
        fit = fit_mix(theirs, place, tables.outing_age[own], league, covariance, usual_spread=usual_spread)
        found = moments(fit)
        share[who[:, None, None], np.arange(CELLS)[:, None], what[:, None, :]] = found.mean
        lasting[who[:, None], what], tonight[who[:, None], what] = found.lasting, found.tonight
        at_game = softmax(fit.centre[place] + fit.game[:, None, :])
        by_outing[own[:, None, None], np.arange(CELLS)[:, None], what[place][:, None, :]] = at_game
        spread[who] = fit.spread
    mix = Mix(tables, share, lasting, tonight, by_outing, tables.visits(), spread)
    return _with_unseen(mix, thrown, cells)


def _with_unseen(mix: Mix, thrown: np.ndarray, cells: Floats) -> Mix:
    """Leave each pitcher a small share for pitches he has not shown, split as they are usual in the trade."""
    pitches = cells.sum(axis=(1, 2))
    worth = sum_by_player(pitches * GAME_WORTH / (pitches + GAME_WORTH), mix.tables.outing_player, len(thrown))
    new = np.where(thrown, 0.0, [usual(pitch) for pitch in mix.tables.vocabulary])
    total = new.sum(axis=1, keepdims=True)
    new /= np.where(total > 0, total, 1.0)
    kept = np.where(total[:, 0] > 0, worth / (worth + UNSEEN), 1.0)
    new *= (1 - kept)[:, None]
    share = mix.share * kept[:, None, None] + new[:, None, :]
    open_ = np.where(thrown, 0.0, new * (1 - new) / (worth + UNSEEN + 1)[:, None])[:, :, None, None]
    by_outing = (
        mix.by_outing * kept[mix.tables.outing_player][:, None, None] + new[mix.tables.outing_player][:, None, :]
    )
    return Mix(mix.tables, share, mix.lasting + open_, mix.tonight + open_, by_outing, mix.visits, mix.spread)
