"""The mix of every pitcher charted: tables, fits and what they leave open, worked out once for all measures of it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.measures.counts import COUNTS, SIDES
from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_centre import CELLS, Scales, kernel, league_log_shares
from scoutgen.measures.mix_fit import USUAL_SPREAD, Fit, fit_mix, softmax
from scoutgen.measures.mix_moments import moments
from scoutgen.measures.mix_scales import LEARN_FROM, Habits, learn_scales
from scoutgen.measures.mix_tables import Codes, MixTables, count_pitches, sum_by_player
from scoutgen.measures.mix_unseen import unseen_shares, worth_of_games
from scoutgen.measures.usual import AT_HAND, Usual


@dataclass(frozen=True)
class Mix:
    """What is known of each pitcher's mix by cell (batter's side and count).

    Attributes:
        tables: the pitches counted.
        habits: how far pitchers differ from the league and games from each other, as learned.
        thrown: which pitches each player has shown, players x vocabulary.
        share: expected share of each pitch in his next game, players x cells x vocabulary; every cell sums to 1.
        lasting: covariance between cells of what is open about his usual share, players x vocabulary x cells x cells.
        tonight: the same with what the next game adds to it.
        by_outing: expected share in each game charted, that game's own leaning included: outings x cells x vocabulary.
        visits: share of a game's pitches each cell has, players x cells.
        spread: standard deviation of log-shares from game to game, players x vocabulary.
    """

    tables: MixTables
    habits: Habits
    thrown: NDArray[np.bool_]
    share: Floats
    lasting: Floats
    tonight: Floats
    by_outing: Floats
    visits: Floats
    spread: Floats

    def by_side(self) -> Floats:
        """His usual share of each pitch to each side, at the counts he usually comes to: players x sides x pitches."""
        size = (len(self.tables.players), len(SIDES), len(COUNTS))
        share = self.share.reshape(*size, len(self.tables.vocabulary))
        usual = np.einsum("phc,phck->phk", self.visits.reshape(size), share)
        return np.asarray(usual / usual.sum(axis=2, keepdims=True), dtype=np.float64)


def learn_mix(
    pitches: pd.DataFrame,
    *,
    vocabulary: Sequence[str] = (),
    scales: Scales | None = None,
    usual_spread: float = USUAL_SPREAD,
    usual: Usual = AT_HAND,
) -> Mix:
    """Learn the mix of every pitcher in the season's pitches.

    Args:
        pitches: the season's pitches, all pitchers, in the order thrown.
        vocabulary: pitches that may be thrown beside the usual ones.
        scales: how far pitchers differ from the league; learned from them where not given.
        usual_spread: game-to-game spread of log-shares before any is seen.
        usual: how far pitchers differ from the league; learned from these where it is not known.
    """
    tables = count_pitches(pitches, vocabulary=vocabulary)
    cells = tables.cells()
    players, words = len(tables.players), len(tables.vocabulary)
    looked = sum_by_player(cells.sum(axis=1), tables.outing_player, players)
    thrown = looked > 0
    habits = Habits(scales or Scales(), usual_spread)
    most = np.argsort(-looked.sum(axis=1), kind="stable")[:LEARN_FROM]
    if scales is None:

        def learned() -> Floats:
            if len(most) < 2:
                return habits.numbers()
            teachers = list(_groups(tables, cells, thrown, np.sort(most)))
            return learn_scales(habits, lambda now: [(_fit(group, now), group.league) for group in teachers]).numbers()

        common = usual.of("mix", learned)
        habits = habits if common is None else Habits.of_numbers(common)
    mix = Mix(
        tables=tables,
        habits=habits,
        thrown=thrown,
        share=np.zeros((players, CELLS, words)),
        lasting=np.zeros((players, words, CELLS, CELLS)),
        tonight=np.zeros((players, words, CELLS, CELLS)),
        by_outing=np.zeros((len(cells), CELLS, words)),
        visits=tables.visits(),
        spread=np.full((players, words), habits.spread),
    )
    every = np.arange(CELLS)[:, None]
    for group in _groups(tables, cells, thrown, np.arange(players)):
        fit = _fit(group, habits)
        found = moments(fit)
        who, what = group.players, group.pitches
        mix.share[who[:, None, None], every, what[:, None, :]] = found.mean
        mix.lasting[who[:, None], what], mix.tonight[who[:, None], what] = found.lasting, found.tonight
        at_game = softmax(fit.centre[group.place] + fit.game[:, None, :])
        mix.by_outing[group.outings[:, None, None], every, what[group.place][:, None, :]] = at_game
        mix.spread[who[:, None], what] = fit.spread
    return _with_unseen(mix, thrown, cells)


@dataclass(frozen=True)
class _Group:
    """Players who throw the same number of pitches: which, what they throw, their outings and what was counted."""

    players: Codes
    pitches: Codes
    outings: Codes
    place: Codes
    age: Codes
    counted: Floats
    league: Floats


def _groups(tables: MixTables, cells: Floats, thrown: NDArray[np.bool_], players: Codes) -> Iterator[_Group]:
    """The players named, by the number of pitches they throw."""
    numbers = thrown.sum(axis=1)
    league = league_log_shares(tables.vocabulary)
    for number in np.unique(numbers[players]):
        who = players[numbers[players] == number]
        what = np.nonzero(thrown[who])[1].reshape(len(who), number)
        outings = np.flatnonzero(np.isin(tables.outing_player, who))
        place = np.searchsorted(who, tables.outing_player[outings])
        counted = np.take_along_axis(cells[outings], what[place][:, None, :], axis=2)
        leaning = np.take(league, what, axis=1).transpose(1, 0, 2)
        yield _Group(who, what, outings, place, tables.outing_age[outings], counted, leaning)


def _fit(group: _Group, habits: Habits) -> Fit:
    return fit_mix(
        group.counted, group.place, group.age, group.league, kernel(habits.scales), usual_spread=habits.spread
    )


def _with_unseen(mix: Mix, thrown: NDArray[np.bool_], cells: Floats) -> Mix:
    """Leave each pitcher a small share for pitches he has not shown, and what that leaves open of those he has."""
    games = worth_of_games(cells.sum(axis=(1, 2)))
    worth = sum_by_player(games, mix.tables.outing_player, len(thrown))
    new, new_variance = unseen_shares(worth, thrown, mix.tables.vocabulary)
    kept = 1 - new.sum(axis=1)
    shares = mix.share.transpose(0, 2, 1)
    opened = new_variance.sum(axis=1)[:, None, None, None] * shares[:, :, :, None] * shares[:, :, None, :]
    opened += new_variance[:, :, None, None]
    scale = (kept**2)[:, None, None, None]
    return replace(
        mix,
        share=mix.share * kept[:, None, None] + new[:, None, :],
        lasting=mix.lasting * scale + opened,
        tonight=mix.tonight * scale + opened,
    )
