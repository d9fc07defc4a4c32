"""What comes of each pitch: strikes, misses, balls in play."""

from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.levels import in_order, plain_text, roll_up
from scoutgen.measures.outings import PITCH_KEYS, charted_pitches, seen_in
from scoutgen.measures.tally import COUNTED, with_pooled_shares
from scoutgen.measures.usual import AT_HAND, Usual

#: Struck at and missed. A foul tip is caught off the bat and is a strike like a miss, at two strikes too, where any
#: other foul adds nothing. Official Baseball Rules, Definitions of Terms, "strike" (a), "foul tip"; memory.
MISSES: Final = ("swinging_strike", "foul_tip")
#: Struck at at all, bunts included. Definitions of Terms, "strike" (a), (c), (d), (g).
SWINGS: Final = (*MISSES, "foul", "foul_bunt", "in_play")
#: What the trade counts as a strike thrown: the rule's strikes, a foul also with two strikes, and every ball put in
#: play.
STRIKES: Final = (*SWINGS, "called_strike")
#: Each measure: the results that count for it, and the results it is a share of (none named: of every charted pitch).
MEASURES: Final[dict[str, tuple[tuple[str, ...], tuple[str, ...]]]] = {
    "strike": (STRIKES, ()),
    "called_strike": (("called_strike",), ()),
    "swinging_strike": (MISSES, ()),
    "whiff": (MISSES, SWINGS),
    "in_play": (("in_play",), ()),
}
RESULT_KEYS: Final = [*PITCH_KEYS, "measure"]
RESULT_COLUMNS: Final = [*RESULT_KEYS, *COUNTED]


def results(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """How often is each pitch a strike, a miss, put in play?

    Args:
        pitches: the season's `pitches`; rows with a pitch and a result count, penalties of the clock left out (no
            pitch is thrown).
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player, bats, pitch (each side and pitch beside "all") and measure: RESULT_COLUMNS.
        "strike": called, missed, fouled (any way) or put in play, of all charted pitches; pitchouts, intentional balls
        and hit batters are pitches that were none. "called_strike": taken for a strike, of all. "swinging_strike":
        missed or tipped into the mitt, of all. "whiff": the same, of swings only. "in_play": put in play, of all.
        Shares lean on the other pitchers' same pitch to the same side; a measure with no look has no row.
    """
    charted = charted_pitches(pitches)
    charted = charted.loc[charted["result"].notna(), ["team", "player", "game", "date", "bats", "pitch", "result"]]
    cells = (
        charted.groupby([*PITCH_KEYS, "result"], observed=True, dropna=False, sort=False)
        .size()
        .rename("seen")
        .reset_index()
    )
    cells = roll_up(roll_up(cells, "bats"), "pitch")
    parts = []
    for measure, (counted, among) in MEASURES.items():
        n = cells["seen"].where(cells["result"].isin(among), 0) if among else cells["seen"]
        k = cells["seen"].where(cells["result"].isin(counted), 0)
        groups = cells.assign(k=k, n=n).groupby(PITCH_KEYS, observed=True, sort=False)[["k", "n"]].sum().reset_index()
        parts.append(groups.assign(measure=np.full(len(groups), measure, dtype=object)))
    table = pd.concat(parts, ignore_index=True)
    table = table[table["n"] > 0].merge(seen_in(charted), on=PITCH_KEYS, how="left")
    table = in_order(plain_text(table), RESULT_KEYS).astype({"measure": "str"})
    return with_pooled_shares(table, ["bats", "pitch", "measure"], usual.about("results"))[RESULT_COLUMNS]
