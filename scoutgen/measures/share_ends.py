"""Between which ends a share lies: his usual one, and the one charted in his next game."""

from typing import NamedTuple

import numpy as np
from scipy import special

from scoutgen.measures.intervals import LEVEL, Floats, Interval, beta_of_moments
from scoutgen.measures.mix import Mix


class ShareEnds(NamedTuple):
    """Ends of the usual share and of the next game's, each players x labels x vocabulary."""

    low: Floats
    high: Floats
    tonight_low: Floats
    tonight_high: Floats


def share_ends(
    mix: Mix,
    share: Floats,
    weights: Floats,
    looks: Floats,
    *,
    own: Floats | None = None,
    once: Floats | None = None,
    level: float = LEVEL,
) -> ShareEnds:
    """Between which shares does each pitch lie, in labels that are weighted means of cells?

    Args:
        mix: what is open about the cells.
        share: estimates, players x labels x vocabulary.
        weights: of the cells in each label, players x labels x cells; they sum to 1.
        looks: pitches that a next game will have there, players x labels.
        own: variance of the usual share beside that of the cells, shaped as `share`.
        once: variance that a game adds beside that of the cells, shaped as `share`.
        level: coverage, 0-1.
    """
    who, what = np.nonzero(mix.thrown)
    here, weighing = share[who, :, what], weights[who]
    lasting, tonight = (_variance(weighing, covariance[who, what]) for covariance in (mix.lasting, mix.tonight))
    if own is not None:
        lasting, tonight = lasting + own[who, :, what], tonight + own[who, :, what]
    if once is not None:
        tonight = tonight + once[who, :, what]
    ends = (*beta_of_moments(here, lasting, level=level), *next_game(here, tonight, looks[who], level=level))
    # A pitch not shown has the same ends everywhere: they are worked out for the first label only.
    first = slice(0, 1)
    unseen = (
        *beta_of_moments(share[:, first], mix.lasting[:, None, :, 0, 0], level=level),
        *next_game(share[:, first], mix.tonight[:, None, :, 0, 0], looks[:, first, None], level=level),
    )
    out = []
    for seen, other in zip(ends, unseen, strict=True):
        filled = np.repeat(other, share.shape[1], axis=1)
        filled[who, :, what] = seen
        out.append(filled)
    return ShareEnds(
        np.minimum(out[0], share), np.maximum(out[1], share), np.minimum(out[2], share), np.maximum(out[3], share)
    )


def next_game(share: Floats, variance: Floats, looks: Floats, *, level: float = LEVEL) -> Interval:
    """Between which shares will he be charted in his next game?

    The share itself varies (`variance`), and so does what shows of it in some number of pitches (`looks`). An end is
    0 or 1 where seeing none or nothing else has more than its tail's chance.
    """
    tail = (1 - level) / 2
    total = variance + (share * (1 - share) - variance) / looks
    strength = np.maximum(share * (1 - share) / np.maximum(variance, 1e-12) - 1, 1e-3)
    a, b = share * strength, (1 - share) * strength
    none = np.exp(special.betaln(a, b + looks) - special.betaln(a, b))
    every = np.exp(special.betaln(a + looks, b) - special.betaln(a, b))
    # What one end takes in whole need not be left out at the other: seeing none is often likelier than its tail.
    below = np.where(none >= tail, 0.0, np.where(every >= tail, 2 * tail, tail))
    above = np.where(every >= tail, 0.0, np.where(none >= tail, 2 * tail, tail))
    return beta_of_moments(share, total, tails=(below, above))


def _variance(weights: Floats, covariance: Floats) -> Floats:
    """Variance of weighted means of the cells: pairs x labels."""
    return np.asarray(((weights @ covariance) * weights).sum(axis=2), dtype=np.float64)
