"""The catcher's arm: pop and exchange, where the ball goes, whom it gets."""

from typing import Final

import pandas as pd

from scoutgen.measures.levels import roll_up
from scoutgen.measures.readings import SUMMARY, summarise_readings
from scoutgen.measures.tally import COUNTED, tally, tally_hits, with_pooled_shares, with_shares_of_one
from scoutgen.measures.usual import AT_HAND, Usual

THROW_TIME_KEYS: Final = ["team", "player", "measure", "to", "method", "warmup"]
THROW_TIME_COLUMNS: Final = [*THROW_TIME_KEYS, *SUMMARY]
ACCURACIES: Final = ("on_bag", "first_side", "field_side", "high", "short_hop", "dropped")
ACCURACY_COLUMNS: Final = ["team", "player", "to", "warmup", "accuracy", *COUNTED]
RESULT_COLUMNS: Final = ["team", "player", "to", *COUNTED, "safe", "no_play"]


def throw_times(
    throws: pd.DataFrame, *, watch_error_s: float = 0.10, few_readings: int = 5, usual: Usual = AT_HAND
) -> pd.DataFrame:
    """How fast is the ball from mitt to bag, and out of the glove?

    Args:
        throws: the season's `throws`.
        watch_error_s: standard deviation of one hand-held reading.
        few_readings: a row with fewer is marked `few`.
        usual: what times scatter by; learned from these where it is not known.

    Returns:
        One row per team, player, measure ("pop", "exchange"), to, method and warmup: THROW_TIME_COLUMNS, as
        `time_summary`. Pop is kept apart by base; exchange has "all" bases beside each. Live and warm-up throws,
        watch and frames are never mixed.
    """
    rows = _throws(throws)
    pops = rows.assign(measure="pop", seconds=rows["pop_seconds"])
    exchanges = roll_up(rows.assign(measure="exchange", seconds=rows["exchange_seconds"]), "to")
    readings = pd.concat([pops.astype({"to": object}), exchanges.astype({"to": object})], ignore_index=True)
    return summarise_readings(
        readings, THROW_TIME_KEYS, ["measure", "to", "method", "warmup"],
        watch_error_s=watch_error_s, few_readings=few_readings, usual=usual.about("throw times"),
    )  # fmt: skip


def throw_accuracy(throws: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """Where do his throws go?

    Args:
        throws: the season's `throws`; rows with `accuracy` count.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player, to ("all" and each base), warmup and accuracy: ACCURACY_COLUMNS; a place never seen
        has k = 0. Shares of a group sum to 1.
    """
    by = ["team", "player", "to", "warmup"]
    table = tally(roll_up(_throws(throws), "to"), by, "accuracy", ACCURACIES)
    return with_shares_of_one(table, by, ["to", "warmup", "accuracy"], usual.about("accuracy"))[ACCURACY_COLUMNS]


def throw_results(throws: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """How many of the runners he threw at were out?

    Args:
        throws: the season's `throws`; live rows that ended "out" or "safe" count.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player and to ("all" and each base): RESULT_COLUMNS. k outs of n throws that had a play;
        `safe` = n - k; `no_play` are throws without one, in no rate. A group with no play charted has no row.
    """
    rows = _throws(throws)
    live = roll_up(rows[~rows["warmup"]], "to")
    by = ["team", "player", "to"]
    decided = live[live["result"].isin(["out", "safe"])]
    table = tally_hits(decided.assign(hit=decided["result"].eq("out")), by, "hit")
    idle = live[live["result"].eq("no_play")].groupby(by, observed=True).size().rename("no_play").reset_index()
    pooled = with_pooled_shares(table, ["to"], usual.about("throw results"))
    table = pooled.merge(idle.astype(dict.fromkeys(by, "str")), on=by, how="left")
    table["no_play"] = table["no_play"].fillna(0).astype("int64")
    table["safe"] = table["n"] - table["k"]
    return table[RESULT_COLUMNS]


def _throws(throws: pd.DataFrame) -> pd.DataFrame:
    """The rows under the catcher's name as `player`, with `warmup` a plain yes or no."""
    rows = throws.rename(columns={"catcher": "player"})
    return rows.assign(warmup=rows["warmup"].astype("boolean").fillna(value=False).astype(bool))
