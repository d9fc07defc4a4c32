"""What changes when he faces the order again: usage by times through, and the changes the data can tell."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import pandas as pd
from scipy import special

from scoutgen.measures.counts import TIMES_THROUGH, times_through_index
from scoutgen.measures.intervals import LEVEL
from scoutgen.measures.leaning import can_tell
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.situations import Departures, departures, situation_usage

#: A change is looked for only where each side of it has this many pitches: fewer cannot show one worth saying.
_ENOUGH: Final = 20


def times_through_usage(
    pitches: pd.DataFrame, *, vocabulary: Sequence[str] = (), mix: Mix | None = None, level: float = LEVEL
) -> pd.DataFrame:
    """Share of each pitch the first, second and later times a batter comes up against him in a game.

    Returns:
        Columns as `usage`, with `times` ("1st", "2nd", "3rd+") instead of `count`. Only players with a pitch whose
        batter was charted have rows.
    """
    learned = learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix
    return situation_usage(learned, _departures(pitches, learned), "times", TIMES_THROUGH, level=level)


def times_through_changes(
    pitches: pd.DataFrame,
    *,
    vocabulary: Sequence[str] = (),
    mix: Mix | None = None,
    level: float = LEVEL,
    among: float = 0.05,
) -> pd.DataFrame:
    """How does each pitch's share change from the first time through to the second and the third?

    Counts differ from one time through to the next, and so does the mix they bring: the change is what is left when
    each pitch is held against what its own count, side and game would give.

    Returns:
        One row for each team, player, times ("2nd", "3rd+") and pitch he throws, where both times have enough
        pitches: `k` of `n` that time, `first_k` of `first_n` the first time; `change` of the share with its interval
        `low`, `high` (level 90 %); `told`: the data can tell (false discoveries among a pitcher's told changes are
        held to `among`).

    Source:
        Benjamini and Hochberg, Journal of the Royal Statistical Society B 57 (1995) 289-300.
    """
    learned = learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix
    found = _departures(pitches, learned)
    tables = learned.tables
    k, n, looked, expected = found.k[:, 0], found.n[:, 0], found.worth[:, 0], found.expected[:, 0]
    apart = k / np.maximum(n, 1.0)[..., None] - expected
    variance = expected * (1 - expected) / np.maximum(looked, 1.0)[..., None]
    change = apart[:, 1:] - apart[:, :1]
    spread = np.sqrt(variance[:, 1:] + variance[:, :1])
    usable = (n[:, 1:] >= _ENOUGH) & (n[:, :1] >= _ENOUGH)
    player, time, pitch = np.nonzero(usable[..., None] & learned.thrown[:, None])
    change, spread = change[player, time, pitch], spread[player, time, pitch]
    z = float(special.ndtri(0.5 + level / 2))
    chances = 2 * special.ndtr(-np.abs(change) / np.maximum(spread, 1e-9))
    return pd.DataFrame(
        {
            "team": tables.players["team"].array.take(player),
            "player": tables.players["player"].array.take(player),
            "times": pd.Categorical.from_codes(time + 1, categories=pd.Index(TIMES_THROUGH)),
            "pitch": pd.Categorical.from_codes(pitch, categories=pd.Index(tables.vocabulary)),
            "k": k[player, time + 1, pitch].astype(np.int64),
            "n": n[player, time + 1].astype(np.int64),
            "first_k": k[player, 0, pitch].astype(np.int64),
            "first_n": n[player, 0].astype(np.int64),
            "change": change,
            "low": np.maximum(change - z * spread, -1.0),
            "high": np.minimum(change + z * spread, 1.0),
            "told": can_tell(chances, player, among=among),
        }
    )


def _departures(pitches: pd.DataFrame, mix: Mix) -> Departures:
    return departures(mix, times_through_index(pitches), np.eye(len(TIMES_THROUGH)))
