"""The mix learned from counts: each cell leans on the others and on the league, each game strays from the rest."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce
from typing import Final

import numpy as np
from scipy import linalg, special

from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_centre import CELLS
from scoutgen.measures.mix_tables import Codes

#: Game-to-game spread of a log-share before any is seen. A Dirichlet concentration of 12-16 between games gives
#: a pitch thrown a third of the time a spread of about this much.
USUAL_SPREAD: Final = 0.45

#: The Dirichlet concentration between games that the ratios between pitches follow.
USUAL_CONCENTRATION: Final = 14.0
RAREST: Final = 4.0

#: How many games' worth of evidence the usual spread stands for against the pitcher's own games.
SPREAD_WEIGHT: Final = 4.0

#: How much the spread (as a variance) of a game grows with each later game: his mix wanders over a season.
AGEING: Final = 0.10

_STEPS: Final = 12
_SPREAD_STEPS: Final = (1, 3)
#: The last step in log-shares. Newton steps square the error, so that what is left is a thousandth or less.
_CLOSE_ENOUGH: Final = 0.03


@dataclass(frozen=True)
class Fit:
    """What is known of the mix of players who all throw the same number of pitches (K).

    Attributes:
        centre: log-shares, players x cells x K.
        factor: lower Cholesky factor of the posterior's precision over (cell, pitch): players x CELLS*K x CELLS*K.
        game: what each game's log-shares had on top: outings x K.
        spread: standard deviation of the next game's part, players x K.
        held: standard deviation that the latest games' parts of a usual pitch were held to, each player's.
        strayed: sum of squares of the games' parts, each player's.
        determined: how many of those parts the data determine, each player's.
    """

    centre: Floats
    factor: Floats
    game: Floats
    spread: Floats
    held: Floats
    strayed: Floats
    determined: Floats


def softmax(values: Floats) -> Floats:
    """Shares of the last axis from log-shares."""
    # The last axis is short: going over it pitch by pitch is many times faster than numpy's own reductions.
    pitches = range(values.shape[-1])
    top = reduce(np.maximum, (values[..., at] for at in pitches))
    raised = np.exp(values - top[..., None])
    total = reduce(np.add, (raised[..., at] for at in pitches))
    return np.asarray(raised / total[..., None], dtype=np.float64)


def fit_mix(
    counted: Floats,
    outing_player: Codes,
    outing_age: Codes,
    league: Floats,
    covariance: Floats,
    *,
    usual_spread: float = USUAL_SPREAD,
) -> Fit:
    """Which mix does each player have, by cell, and how far does it stray from game to game?

    Log-shares are normal about the league's (`covariance` between cells, pitches alike); a game adds one normal part
    to all its cells, whose variance is the player's own, under a scaled inverse chi-square prior about the usual one,
    and grows with the game's age, so that older games say less. The mode is found by Newton steps on both at once,
    the games eliminated; what is left open is the curvature there (Laplace's approximation).

    Args:
        counted: outings x CELLS x K, pitches.
        outing_player: place in `league` of each outing, sorted.
        outing_age: later outings of the same player.
        league: log-shares leaned on, players x CELLS x K.
        covariance: CELLS x CELLS, from `kernel`.
        usual_spread: standard deviation of a game's part where no games have been seen.

    Source:
        Gelman and others, Bayesian Data Analysis (3rd ed. 2013), ch. 4 and 15; MacKay, Neural Computation 4 (1992)
        415-447 for the update of the spread.
    """
    players, _, pitches = league.shape
    precision = np.asarray(np.kron(linalg.inv(covariance), np.eye(pitches)), dtype=np.float64)
    out = Fit(
        centre=np.empty_like(league),
        factor=np.empty((players, CELLS * pitches, CELLS * pitches)),
        game=np.zeros((len(counted), pitches)),
        spread=np.empty((players, pitches)),
        held=np.empty(players),
        strayed=np.empty(players),
        determined=np.empty(players),
    )
    for few, own in _batches(outing_player, players):
        part = _fit_batch(
            counted[own],
            outing_player[own] - few.start,
            outing_age[own],
            league[few],
            precision=precision,
            usual_spread=usual_spread,
        )
        out.centre[few], out.factor[few], out.game[own] = part.centre, part.factor, part.game
        out.spread[few], out.held[few] = part.spread, part.held
        out.strayed[few], out.determined[few] = part.strayed, part.determined
    return out


def _batches(outing_player: Codes, players: int, size: int = 16) -> Iterator[tuple[slice, slice]]:
    """A few players at a time with their outings: what they need stays in the processor's cache."""
    for start in range(0, players, size):
        stop = min(start + size, players)
        own = np.searchsorted(outing_player, [start, stop])
        yield slice(start, stop), slice(int(own[0]), int(own[1]))


def _fit_batch(
    counted: Floats, player: Codes, age: Codes, league: Floats, *, precision: Floats, usual_spread: float
) -> Fit:
    """The fit of a few players."""
    players, _, pitches = league.shape
    size = CELLS * pitches
    starts = np.searchsorted(player, np.arange(players))
    looked = counted.sum(axis=2)
    # Variance of each part of a game, against the player's own: outings x pitches.
    rarity = _rarity(np.add.reduceat(counted.sum(axis=1), starts, axis=0))
    times = (1 + AGEING * age.astype(np.float64))[:, None] * rarity[player]
    centre, game = _first_guess(counted, looked, starts, league), np.zeros((len(counted), pitches))
    variance, coming = np.full(players, usual_spread**2), np.full(players, usual_spread**2)
    strayed, determined = np.zeros(players), np.zeros(players)
    # With one pitch nothing can stray, and any weight keeps the usual spread.
    weight = SPREAD_WEIGHT * max(pitches - 1, 1)
    factor, moved = np.empty((players, size, size)), np.empty((players, size))
    corner, arrived = np.arange(pitches), np.zeros(players, dtype=bool)
    for step in range(_STEPS):
        spread = variance[player, None] * times
        share = softmax(centre[player] + game[:, None, :])
        missed, curve = _slope_and_curve(counted, looked, share)
        own = curve.sum(axis=1)
        own[:, corner, corner] += 1 / spread
        root = np.linalg.inv(np.linalg.cholesky(own))
        tied = curve.reshape(-1, size, pitches) @ root.transpose(0, 2, 1)
        half = np.einsum("gkl,gl->gk", root, missed.sum(axis=1) - game / spread)
        slope = np.add.reduceat(missed, starts, axis=0).reshape(players, size)
        slope -= np.stack([precision @ away.ravel() for away in centre - league])
        blocks = np.add.reduceat(curve, starts, axis=0)
        for at, its in enumerate(map(slice, starts, [*starts[1:], len(player)])):
            if arrived[at]:
                continue
            matrix = precision.copy()
            grid = matrix.reshape(CELLS, pitches, CELLS, pitches)
            grid[np.arange(CELLS), :, np.arange(CELLS), :] += blocks[at]
            beside = tied[its].transpose(1, 0, 2).reshape(size, -1)
            matrix -= beside @ beside.T
            factor[at] = linalg.cholesky(matrix, lower=True, check_finite=False)
            moved[at] = linalg.cho_solve((factor[at], True), slope[at] - beside @ half[its].ravel(), check_finite=False)
            half[its] -= (moved[at] @ beside).reshape(-1, pitches)
            if step in _SPREAD_STEPS:
                through = linalg.solve_triangular(factor[at], beside, lower=True, check_finite=False)
                left_open = _left_open(root[its], through.reshape(size, -1, pitches))
                determined[at] = max(0.0, float((1 - left_open / spread[its]).sum()))
                strayed[at] = float((game[its] ** 2 / times[its]).sum())
                whole = float((game[its] ** 2).sum(axis=0) @ (1 / rarity[at]))
                variance[at] = (weight * usual_spread**2 + strayed[at]) / (weight + determined[at])
                # The next game is not held to the wider spread that age allows to old ones: had the mix not
                # wandered, what they strayed would be spread between games, too.
                coming[at] = (weight * usual_spread**2 + whole) / (weight + determined[at])
        # Each man goes his own way to his own end: his numbers must not hang on who is worked out beside him.
        furthest = np.abs(moved).max(axis=1)
        length = np.where(arrived, 0.0, np.minimum(1.0, 2.0 / np.maximum(1e-9, furthest)))
        centre += length[:, None, None] * moved.reshape(centre.shape)
        game += length[player, None] * np.einsum("glk,gl->gk", root, half)
        arrived |= (step > max(_SPREAD_STEPS)) & (furthest < _CLOSE_ENOUGH)
        if arrived.all():
            break
    return Fit(centre, factor, game, np.sqrt(coming[:, None] * rarity), np.sqrt(variance), strayed, determined)


def _slope_and_curve(counted: Floats, looked: Floats, share: Floats) -> tuple[Floats, Floats]:
    """What the counts say of the log-shares where these are `share`: first derivatives and minus the second."""
    weighted = looked[:, :, None] * share
    curve = weighted[:, :, :, None] * share[:, :, None, :]
    np.negative(curve, out=curve)
    corner = np.arange(share.shape[2])
    curve[:, :, corner, corner] += weighted
    return counted - weighted, curve


def _first_guess(counted: Floats, looked: Floats, starts: Codes, league: Floats) -> Floats:
    """The league's log-shares, moved alike in all cells so that each pitch is as frequent as it was."""
    expected = np.einsum("pc,pck->pk", np.add.reduceat(looked, starts, axis=0), softmax(league))
    thrown = np.add.reduceat(counted.sum(axis=1), starts, axis=0)
    return np.asarray(league + np.log((thrown + 1) / (expected + 1))[:, None, :], dtype=np.float64)


def _rarity(thrown: Floats) -> Floats:
    """How much further a rare pitch strays than one thrown a third of the time, as a ratio of variances.

    That of the log of a gamma variable, which a Dirichlet distribution of the usual concentration is made of.
    """
    share = (thrown + 0.5) / (thrown + 0.5).sum(axis=1, keepdims=True)
    ratio = special.zeta(2, USUAL_CONCENTRATION * share) / special.zeta(2, USUAL_CONCENTRATION / 3)
    return np.asarray(np.clip(ratio, 0.5, RAREST), dtype=np.float64)


def _left_open(root: Floats, through: Floats) -> Floats:
    """Posterior variance of each game's parts, what is open about the centre included: outings x pitches."""
    known = np.eye(root.shape[1]) + np.einsum("igk,igl->gkl", through, through)
    return np.asarray(np.einsum("gkl,gki,gli->gi", known, root, root), dtype=np.float64)
