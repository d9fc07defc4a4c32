"""Shares of pitches as a tidy table: one row a pitcher, batter's side, situation and pitch."""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from scoutgen.measures.counts import BATS
from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_tables import MixTables, Seen
from scoutgen.measures.share_ends import ShareEnds


def share_rows(
    tables: MixTables,
    column: str,
    labels: Sequence[str],
    *,
    k: Floats,
    n: Floats,
    share: Floats,
    ends: ShareEnds,
    seen: Seen,
) -> pd.DataFrame:
    """Lay shares of every pitch by BATS and situation out in rows.

    Args:
        tables: the players and the vocabulary.
        column: name of the column that holds the situation.
        labels: its values, in the order shown; a label of the arrays is one of BATS and one of these.
        k: times charted, players x (bats x labels) x vocabulary.
        n: pitches there, players x (bats x labels).
        share: estimates, shaped as `k`.
        ends: their ends, shaped as `k`.
        seen: games in which the label came up and the date of the last, shaped as `n`.

    Returns:
        team, player, bats, `column`, pitch, k, n, share, low, high, tonight_low, tonight_high, games, last_seen: all
        pitches of the vocabulary for every player and label.
    """
    players, words = len(tables.players), len(tables.vocabulary)
    player, bats, label, pitch = np.indices((players, len(BATS), len(labels), words)).reshape(4, -1)
    return pd.DataFrame(
        {
            **tables.named(player),
            "bats": pd.Categorical.from_codes(bats, categories=pd.Index(BATS)),
            column: pd.Categorical.from_codes(label, categories=pd.Index(labels)),
            "pitch": tables.pitch_names(pitch),
            "k": k.ravel().astype(np.int64),
            "n": np.repeat(n.astype(np.int64), words),
            "share": share.ravel(),
            "low": ends.low.ravel(),
            "high": ends.high.ravel(),
            "tonight_low": ends.tonight_low.ravel(),
            "tonight_high": ends.tonight_high.ravel(),
            "games": np.repeat(seen.games, words),
            "last_seen": np.repeat(seen.last, words),
        }
    )
