"""How much to leave for pitches a man has not shown: he may well have them when he has been seen little."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy import special

from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_centre import usual

#: Pitches that one game is worth here, however long: in it he may have left one of his pitches at home.
GAME_WORTH: Final = 14.0

#: The chance that a man has a pitch at all, for a fastball; for others in the ratio they are usual.
_HAS: Final = 0.45

#: Share of a pitch among those who have it: a beta distribution with mean a quarter and the worth of four pitches.
_A, _B = 1.0, 3.0

#: Pitches' worth for what comes new whatever was seen: a pitch learned, or named otherwise from now on.
_NEW: Final = 0.03


def worth_of_games(pitches: Floats) -> Floats:
    """Independent pitches that games of so many pitches are worth, as to which pitches a man has."""
    return np.asarray(pitches * GAME_WORTH / (pitches + GAME_WORTH), dtype=np.float64)


def unseen_shares(worth: Floats, thrown: NDArray[np.bool_], vocabulary: Sequence[str]) -> tuple[Floats, Floats]:
    """Share to expect of each pitch not seen, and the variance of what is left open about it.

    Bayes' rule: he has the pitch or not; if he has it, not to have seen it makes a large share of it unlikely.

    Args:
        worth: what each player's games are worth in pitches.
        thrown: which pitches he has shown, players x vocabulary; those get 0 here.
        vocabulary: the pitches that may be thrown.
    """
    frequency = np.array([usual(pitch) for pitch in vocabulary])
    looks = worth[:, None]
    silent = np.exp(special.betaln(_A, _B + looks) - special.betaln(_A, _B))
    has = _HAS * frequency * silent / (_HAS * frequency * silent + 1 - _HAS * frequency)
    total = _A + _B + looks
    mean, square = _A / total, _A * (_A + 1) / (total * (total + 1))
    new = _NEW * frequency / frequency.sum() / (looks + 1)
    share = np.where(thrown, 0.0, has * mean + new)
    variance = np.where(thrown, 0.0, np.maximum(has * square + new / total - share**2, 0.0))
    return share, variance
