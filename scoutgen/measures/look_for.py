"""What to look for: the likeliest pitch at each count, and what he finishes hitters with."""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from scoutgen.measures.counts import BATS, COUNT_GROUPS, COUNTS, SIDES, SIDES_OF_BATS
from scoutgen.measures.intervals import LEVEL, beta_of_moments
from scoutgen.measures.leaning import lean
from scoutgen.measures.mix import Mix, learn_mix
from scoutgen.measures.mix_centre import CELLS
from scoutgen.measures.mix_tables import Codes, MixTables
from scoutgen.measures.sureness import SurenessLimits, sureness
from scoutgen.measures.usual import AT_HAND, Usual


def look_for(used: pd.DataFrame, thresholds: SurenessLimits) -> pd.DataFrame:
    """For each side and count, which pitch is likeliest, how often does it come, and how sure is that?

    Args:
        used: what `usage` returned.
        thresholds: half-widths for `sureness`.

    Returns:
        One row for each team, player, bats and count that he has been charted in, with the columns of `usage` for its
        likeliest pitch; `sureness`; `second`, the next likeliest pitch, and `second_share`; `ahead_of_second`: its
        interval lies wholly over the second's share, and it was seen more often. Of equal shares the pitch named first
        in the vocabulary wins.
    """
    keys = ["team", "player", "bats", "count"]
    words = len(used["pitch"].cat.categories)
    # `usage` gives every cell all pitches in the same order: a table a row a cell.
    shares = used["share"].to_numpy().reshape(-1, words)
    ranked = np.argsort(-shares, axis=1, kind="stable")[:, :2]
    cell = np.arange(len(shares))
    top = used.iloc[cell * words + ranked[:, 0]].reset_index(drop=True)
    second = used.iloc[cell * words + ranked[:, 1]]
    top["sureness"] = pd.Categorical(sureness(top["low"], top["high"], thresholds))
    top["second"] = second["pitch"].array
    top["second_share"] = second["share"].to_numpy()
    seen_more = top["k"].to_numpy() > second["k"].to_numpy()
    top["ahead_of_second"] = (top["low"] > top["second_share"]) & seen_more
    out = top[top["n"] > 0].reset_index(drop=True)
    return out[[*keys, *(name for name in out.columns if name not in keys)]]


def put_away(
    pitches: pd.DataFrame,
    *,
    vocabulary: Sequence[str] = (),
    mix: Mix | None = None,
    level: float = LEVEL,
    usual: Usual = AT_HAND,
) -> pd.DataFrame:
    """Which pitch did his strikeouts end on, of hitters of either side?

    Returns:
        One row for each team, player, bats ("all", "L", "R") with a strikeout charted, and pitch he throws: `k` of `n`
        strikeouts ended on it ("all" takes in those of hitters whose side was not charted); `expected`, its share of
        his two-strike pitches to them; `share`, leaning on that, with `low`, `high` (90 %).
    """
    learned = learn_mix(pitches, vocabulary=vocabulary) if mix is None else mix
    tables = learned.tables
    players, words = len(tables.players), len(tables.vocabulary)
    k = _strikeout_pitches(pitches, tables)
    n = k.sum(axis=2)
    at_two = np.array([count in COUNT_GROUPS["two strikes"] for count in COUNTS])
    visits = learned.visits.reshape(players, 1, len(SIDES), len(COUNTS)) * at_two
    often = np.broadcast_to(SIDES_OF_BATS[None, :, :, None] * visits, (players, len(BATS), len(SIDES), len(COUNTS)))
    two_strikes = often.reshape(players, len(BATS), CELLS)
    two_strikes = two_strikes / two_strikes.sum(axis=2, keepdims=True)
    expected = two_strikes @ learned.share
    flat = (players * len(BATS), words)
    leaned = lean(k.reshape(flat).astype(np.float64), expected.reshape(flat), usual=usual.about("put away"))
    who, bats, pitch = np.nonzero(learned.thrown[:, None] & (n > 0)[..., None])
    share = leaned.share.reshape(k.shape)[who, bats, pitch]
    open_ = np.einsum("pbe,pkef,pbf->pbk", two_strikes, learned.lasting, two_strikes, optimize=True)
    pull = leaned.pull.reshape(n.shape)[who, bats]
    variance = leaned.variance.reshape(k.shape)[who, bats, pitch] + pull**2 * open_[who, bats, pitch]
    low, high = beta_of_moments(share, variance, level=level)
    return pd.DataFrame(
        {
            **tables.named(who),
            "bats": pd.Categorical.from_codes(bats, categories=pd.Index(BATS)),
            "pitch": tables.pitch_names(pitch),
            "k": k[who, bats, pitch],
            "n": n[who, bats],
            "expected": expected[who, bats, pitch],
            "share": share,
            "low": low,
            "high": high,
        }
    )


def _strikeout_pitches(pitches: pd.DataFrame, tables: MixTables) -> Codes:
    """How many strikeouts ended on each pitch: players x BATS x pitches; "all" takes in sides not charted."""
    players, words = len(tables.players), len(tables.vocabulary)
    result, play = pitches["result"].astype("object"), pitches["play"].astype("object")
    # -1, a count not charted, would leave a remainder of 2 as well.
    two_before = (tables.row_count >= 0) & (tables.row_count % 3 == 2)
    third_strike = two_before & result.isin(["called_strike", "swinging_strike", "foul_tip", "foul_bunt"]).to_numpy()
    ended = (third_strike | (play == "strikeout").to_numpy()) & (tables.row_outing >= 0)
    owner = tables.outing_player[tables.row_outing[ended]]
    # Sides L and R, and those not charted in a place of their own.
    place = (owner * (len(SIDES) + 1) + tables.row_side[ended] % (len(SIDES) + 1)) * words + tables.row_pitch[ended]
    by_side = np.bincount(place, minlength=players * (len(SIDES) + 1) * words).reshape(players, len(SIDES) + 1, words)
    return np.concatenate([by_side.sum(axis=1, keepdims=True), by_side[:, : len(SIDES)]], axis=1)
