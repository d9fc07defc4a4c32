"""What changes when he faces the order again: usage by times through, and the changes the data can tell."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import pandas as pd
from scipy import special

from scoutgen.measures.counts import BATS, COUNTS, SIDES, SIDES_OF_BATS, TIMES_THROUGH, times_through_index
from scoutgen.measures.intervals import LEVEL, Floats
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.situations import Departures, departures, situation_usage, with_both
from scoutgen.measures.tilting import Tilt, tilted
from scoutgen.measures.usual import AT_HAND, Usual

#: The way the times through are expected to differ: what he does more of the second time, twice that the third.
STEADILY: Final[Floats] = np.array([-1.0, 0.0, 1.0])

#: What is said of a change, and the chance that it lies to that side of none.
VERDICTS: Final = ("proven", "likely", "open")
PROVEN: Final = 0.95
LIKELY: Final = 0.90

#: A change is looked for only where each side of it has this many pitches: fewer cannot show one worth saying.
_ENOUGH: Final = 20


@dataclass(frozen=True)
class Turns:
    """What is told of the times through the order beyond the mix, for every measure of them.

    Attributes:
        mix: what he throws at each count.
        found: his pitches by time through beside what the mix would give.
        tilts: how far each time through leans from it.
    """

    mix: Mix
    found: Departures
    tilts: Tilt


def learn_turns(pitches: pd.DataFrame, mix: Mix, usual: Usual = AT_HAND) -> Turns:
    """Learn it once for all that is said of the times through.

    Args:
        pitches: as the mix was learned from.
        mix: see there.
        usual: how far times through differ for pitchers; learned from these where it is not known.
    """
    found = departures(mix, times_through_index(pitches), np.eye(len(TIMES_THROUGH)))
    return Turns(mix, found, found.tilts(STEADILY, usual.about("times through")))


def times_through_usage(
    pitches: pd.DataFrame,
    *,
    vocabulary: Sequence[str] = (),
    mix: Mix | None = None,
    turns: Turns | None = None,
    level: float = LEVEL,
    usual: Usual = AT_HAND,
) -> pd.DataFrame:
    """Share of each pitch the first, second and later times a batter comes up against him in a game.

    Returns:
        Columns as `usage`, with `times` ("1st", "2nd", "3rd+") instead of `count`. Only players with a pitch whose
        batter was charted have rows.
    """
    if turns is None:
        turns = learn_turns(pitches, learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix, usual)
    return situation_usage(turns.mix, turns.found, turns.tilts, "times", TIMES_THROUGH, level=level)


def times_through_changes(
    pitches: pd.DataFrame,
    *,
    vocabulary: Sequence[str] = (),
    mix: Mix | None = None,
    turns: Turns | None = None,
    level: float = LEVEL,
    usual: Usual = AT_HAND,
) -> pd.DataFrame:
    """How does each pitch's share change from the first time through to the second and the third?

    Counts differ from one time through to the next, and so does the mix they bring: the change is what is left at
    the counts he usually comes to, the game's own mix taken out. It leans on none, by as much as his own counts and
    those of all pitchers tell (`tilting.tilt`), so that no further correction for looking at many is needed.

    Returns:
        One row for each team, player, bats ("all", "L", "R"), times ("2nd", "3rd+") and pitch he throws, where both
        times have enough pitches: `k` of `n` that time, `first_k` of `first_n` the first time; `change` of the share
        with its interval `low`, `high` (level 90 %); `verdict`: "proven", "likely" or "open", whether it lies to one
        side of none with a chance of 95 or 90 %; `told`: proven.

    Source:
        Gelman, Hill and Yajima, Journal of Research on Educational Effectiveness 5 (2012) 189-211.
    """
    if turns is None:
        turns = learn_turns(pitches, learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix, usual)
    learned, found = turns.mix, turns.found
    change, variance = _changed(turns)
    n = with_both(found.n, axis=1)
    k = with_both(found.k, axis=1)
    usable = (n[..., 1:] >= _ENOUGH) & (n[..., :1] >= _ENOUGH)
    player, bats, time, pitch = np.nonzero(usable[..., None] & learned.thrown[:, None, None])
    change, spread = change[player, bats, time, pitch], np.sqrt(variance[player, bats, time, pitch])
    z = float(special.ndtri(0.5 + level / 2))
    sure = special.ndtr(np.abs(change) / np.maximum(spread, 1e-9))
    verdict = (sure < PROVEN).astype(int) + (sure < LIKELY)
    return pd.DataFrame(
        {
            **learned.tables.named(player),
            "bats": pd.Categorical.from_codes(bats, categories=pd.Index(BATS)),
            "times": pd.Categorical.from_codes(time + 1, categories=pd.Index(TIMES_THROUGH)),
            "pitch": learned.tables.pitch_names(pitch),
            "k": k[player, bats, time + 1, pitch].astype(np.int64),
            "n": n[player, bats, time + 1].astype(np.int64),
            "first_k": k[player, bats, 0, pitch].astype(np.int64),
            "first_n": n[player, bats, 0].astype(np.int64),
            "change": change,
            "low": np.maximum(change - z * spread, -1.0),
            "high": np.minimum(change + z * spread, 1.0),
            "verdict": pd.Categorical.from_codes(verdict, categories=pd.Index(VERDICTS)),
            "told": sure >= PROVEN,
        }
    )


def _changed(turns: Turns) -> tuple[Floats, Floats]:
    """Change of each share since the first time through and its variance: players x BATS x later times x pitches."""
    times = len(TIMES_THROUGH)
    mix = turns.mix
    by_side = mix.by_side()
    players, _, words = by_side.shape
    places = tilted(np.repeat(by_side, times, axis=1), turns.tilts)
    sides = SIDES_OF_BATS[None] * mix.visits.reshape(players, len(SIDES), len(COUNTS)).sum(axis=2)[:, None]
    sides /= sides.sum(axis=2, keepdims=True)
    # Each row: this time less the first, of one side or both.
    apart = np.hstack([-np.ones((times - 1, 1)), np.eye(times - 1)])
    weights = np.einsum("pbh,ts->pbths", sides, apart).reshape(players, len(BATS) * (times - 1), len(SIDES) * times)
    variance = np.einsum("prc,pkcd,prd->prk", weights, places.covariance, weights, optimize=True)
    shape = (players, len(BATS), times - 1, words)
    return (weights @ places.share).reshape(shape), variance.reshape(shape)
