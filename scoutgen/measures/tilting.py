"""How a situation tilts the mix that its counts would give, by an amount learned for each pitcher from all of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

from scoutgen.measures.intervals import Floats
from scoutgen.measures.usual import AT_HAND, Usual

#: Sizes of a tilt that are weighed against each other, as standard deviations of log-shares, and what is thought of
#: them beforehand: three men in ten do not tilt at all, three by a third or more. That counts for as much as this
#: many pitchers.
SIZES: Final[Floats] = np.array([0.0, 0.1, 0.2, 0.35, 0.6, 1.0])
_PRIOR_OF_SIZE: Final[Floats] = np.array([0.30, 0.20, 0.20, 0.15, 0.10, 0.05])
_PRIOR_PLAYERS: Final = 40.0

#: A tilt is shown to both sides, nearly alike; or to left-handed or right-handed batters only.
_SIDES: Final[Floats] = np.array([[[1.0, 0.8], [0.8, 1.0]], [[1.0, 0.0], [0.0, 0.01]], [[0.01, 0.0], [0.0, 1.0]]])
_PRIOR_OF_SIDES: Final[Floats] = np.array([0.6, 0.2, 0.2])
_PRIOR: Final[Floats] = np.outer(_PRIOR_OF_SIDES, _PRIOR_OF_SIZE).ravel()

#: Part of a tilt's variance that follows the direction expected; the rest is each situation's own.
_ALONG: Final = 0.6

_LEARN_ROUNDS: Final = 30
#: Times the counts are looked at again from where the tilt has moved to.
_LOOKS: Final = 2
#: Keeps a share of nothing from being divided by nothing.
_NOTHING: Final = 1e-9


class Tilt(NamedTuple):
    """Tilts of log-shares by place (a side and a situation), 0 for pitches not thrown.

    Attributes:
        log: mean, players x places x pitches.
        covariance: players x (places * pitches) x (places * pitches).
    """

    log: Floats
    covariance: Floats


class TiltedShares(NamedTuple):
    """Shares by place, players x places x pitches, and their covariance, players x pitches x places x places."""

    share: Floats
    covariance: Floats


def kernels(direction: Floats) -> tuple[Floats, ...]:
    """How tilts of one size may hang together: against both sides nearly alike, or against one side only.

    Args:
        direction: the way the situations are expected to differ, one number each, as -1, 0, 1 for a steady change.

    Returns:
        Places x places each, sides first; the tilted side's mean variance is 1.
    """
    line = direction / np.sqrt((direction**2).mean())
    situations = _ALONG * np.outer(line, line) + (1 - _ALONG) * np.eye(len(line))
    return tuple(np.kron(sides, situations) for sides in _SIDES)


def tilt(k: Floats, expected: Floats, direction: Floats, usual: Usual = AT_HAND) -> Tilt:
    """By how much is each pitch thrown more or less in a place than the counts and games there would give?

    Tilts are normal about none, their covariance between places one of `kernels` times a squared size. Which fits is
    a weighing for each pitcher by the evidence of his own counts, times the weights that all pitchers give (learned
    by EM), so that one man's real change is not shrunk away because nobody else changes.

    Args:
        k: counts, or what they are worth, players x places x pitches.
        expected: shares expected, of the same shape; 0 for a pitch that is not thrown.
        direction: the way the situations are expected to differ, one number a situation.
        usual: the weights that all pitchers give; learned from these where they are not known.

    Source:
        MacKay, Neural Computation 4 (1992) 415-447, for the evidence by Laplace's approximation; weights by EM,
        Laird, JASA 73 (1978) 805-811.
    """
    players, places, words = k.shape
    roots = [linalg.cholesky(kernel, lower=True) for kernel in kernels(direction)]
    fits = [_PlayerFit(k[at], expected[at], roots) for at in range(players)]
    common = usual.of("tilts", partial(_weights, fits))
    overall = _PRIOR if common is None else common
    out = Tilt(np.zeros(k.shape), np.zeros((players, places * words, places * words)))
    for at, fit in enumerate(fits):
        mean, covariance = fit.weighed(overall)
        thrown = np.flatnonzero(fit.thrown)
        out.log[at][:, thrown] = mean
        where = (np.arange(places)[:, None] * words + thrown).ravel()
        out.covariance[at][np.ix_(where, where)] = covariance
    return out


def _weights(fits: Sequence["_PlayerFit"]) -> Floats:
    """How often tilts of each kernel and size are met among those charted, kernels first."""
    logs = np.array([fit.evidence for fit in fits]).reshape(len(fits), len(_PRIOR))
    told = logs[[fit.charted for fit in fits]]
    likelihood = np.exp(told - told.max(axis=1, keepdims=True, initial=-np.inf))
    overall = _PRIOR
    for _ in range(_LEARN_ROUNDS):
        each = likelihood * overall
        each /= each.sum(axis=1, keepdims=True)
        overall = (_PRIOR_PLAYERS * _PRIOR + each.sum(axis=0)) / (_PRIOR_PLAYERS + len(each))
    return overall


def tilted(base: Floats, by: Tilt) -> TiltedShares:
    """The shares that tilts make of those their counts alone would give; `base`: players x places x pitches."""
    share = base * np.exp(by.log)
    share /= share.sum(axis=2, keepdims=True)
    players, places, words = share.shape
    covariance = np.empty((players, words, places, places))
    for at in range(players):
        bend = -share[at][:, :, None] * share[at][:, None, :]
        bend[:, np.arange(words), np.arange(words)] += share[at]
        apart = by.covariance[at].reshape(places, words, places, words)
        covariance[at] = np.einsum("ckl,cldm,dkm->kcd", bend, apart, bend, optimize=True)
    return TiltedShares(share, covariance)


class _PlayerFit:
    """One pitcher's counts seen as a normal likelihood of his tilts, under each kernel in its own directions."""

    def __init__(self, k: Floats, expected: Floats, roots: Sequence[Floats]) -> None:
        self.thrown: NDArray[np.bool_] = np.asarray((expected > 0).any(axis=0))
        self.charted = bool(k.sum() > 0)
        k, expected = k[:, self.thrown], expected[:, self.thrown]
        self._shape = places, words = k.shape
        n = k.sum(axis=1)
        wide = [np.asarray(np.kron(root, np.eye(words)), dtype=np.float64) for root in roots]
        here, pitch = np.arange(places), np.arange(words)
        moved = np.zeros(k.shape)
        for look in range(_LOOKS + 1):
            share = expected * np.exp(moved)
            share /= np.maximum(share.sum(axis=1, keepdims=True), _NOTHING)
            curve = np.zeros((places, words, places, words))
            curve[here, :, here, :] = -n[:, None, None] * share[:, :, None] * share[:, None, :]
            curve[here[:, None], pitch, here[:, None], pitch] += n[:, None] * share
            flat = curve.reshape(places * words, -1)
            slope = (k - n[:, None] * share).ravel() + flat @ moved.ravel()
            self._under = [_Directions.of(root, flat, slope) for root in wide]
            if look < _LOOKS:
                moved = self.weighed(_PRIOR)[0]

    @property
    def evidence(self) -> Floats:
        """Log-evidence for each kernel and size against no tilt at all, kernels first."""
        return np.concatenate([each.evidence() for each in self._under])

    def weighed(self, beforehand: Floats) -> tuple[Floats, Floats]:
        """Mean (places x pitches thrown) and covariance of the tilts, kernels and sizes weighed."""
        log = self.evidence
        weights = beforehand * np.exp(log - log.max())
        weights /= weights.sum()
        parts = [each.weighed(own) for each, own in zip(self._under, np.split(weights, len(self._under)), strict=True)]
        mean = np.sum([part[0] for part in parts], axis=0)
        covariance = np.sum([part[1] for part in parts], axis=0) - np.outer(mean, mean)
        return mean.reshape(self._shape), covariance


@dataclass(frozen=True)
class _Directions:
    """Directions of tilts that say nothing of each other under a kernel.

    Attributes:
        back: from these directions to tilts by place and pitch.
        said: what the counts say of each, as a precision where the kernel's is 1.
        seen: that times what they were seen to be.
    """

    back: Floats
    said: Floats
    seen: Floats

    @classmethod
    def of(cls, root: Floats, curve: Floats, slope: Floats) -> "_Directions":
        said, turn = np.linalg.eigh(root.T @ curve @ root)
        back = root @ turn
        return cls(back, np.maximum(said, 0.0), back.T @ slope)

    def evidence(self) -> Floats:
        size = SIZES[:, None] ** 2
        gain = size * self.seen**2 / (1 + size * self.said) - np.log1p(size * self.said)
        return np.asarray(gain.sum(axis=1) / 2, dtype=np.float64)

    def weighed(self, weights: Floats) -> tuple[Floats, Floats]:
        """Weighted first and second moments of the tilts over the sizes; the weights need not sum to 1."""
        size = SIZES[:, None] ** 2
        open_ = size / (1 + size * self.said)
        means = open_ * self.seen
        second = (means * weights[:, None]).T @ means
        second[np.diag_indices_from(second)] += weights @ open_
        return self.back @ (weights @ means), self.back @ second @ self.back.T
