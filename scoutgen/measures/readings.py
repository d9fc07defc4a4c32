"""One table of readings in seconds, one row a group: the middle, the spread, the next one."""

from collections.abc import Sequence
from functools import partial
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.counts import ALL
from scoutgen.measures.levels import grouped, in_order, plain_text
from scoutgen.measures.spread import Floats, UsualSpread, learn_usual_spread, mean_between, moderated_variance, next_one
from scoutgen.measures.usual import AT_HAND, Usual

# Counting frames at 60 a second: start and stop each fall somewhere within a frame; arithmetic, sqrt(2/12)/60.
FRAMES_ERROR_S: Final = 0.007
# What one man's own times scatter by before any reading, seconds. Common practice, from memory; the readings of the
# season correct it.
STATED_SPREAD_S: Final[dict[str, float]] = {
    "plate": 0.06, "pickoff_1": 0.08, "pickoff_2": 0.08, "pickoff_3": 0.08, "return_throw": 0.15,
    "home_first": 0.10, "first_second": 0.10, "second_third": 0.10, "third_home": 0.12,
    "pop": 0.07, "exchange": 0.05,
}  # fmt: skip
SUMMARY: Final = [
    "n", "median", "mean", "sd", "own_sd", "low", "high", "mean_low", "mean_high", "mean_sd", "spread",
    "fastest", "slowest", "few", "games", "last_seen",
]  # fmt: skip


def summarise_readings(
    readings: pd.DataFrame,
    keys: Sequence[str],
    alike: Sequence[str],
    *,
    watch_error_s: float,
    few_readings: int,
    usual: Usual = AT_HAND,
) -> pd.DataFrame:
    """Middle, spread and next reading of each group.

    Args:
        readings: one row a reading with `measure`, `method`, `seconds`, `game`, `date` and the columns of `keys`.
        keys: columns that make a group; rows where one is missing are left out.
        alike: those of `keys` within which everybody's spread is comparable.
        watch_error_s: standard deviation of one hand-held reading.
        few_readings: a group with fewer is marked `few`.
        usual: what readings of a kind scatter by; learned from these where it is not known.

    Returns:
        keys + SUMMARY. `sd` is of the readings (n >= 2), `own_sd` has the error of the method taken out; `low`-`high`
        is the 90 % interval of the next reading by the same method, `mean_low`-`mean_high` that of the mean (both n
        >= 2). `mean_sd` is how far the true mean may be from `mean`, `spread` what his own times scatter by, the error
        of the method taken out; both lean on the usual scatter and are known from one reading on.
    """
    charted = readings[readings["seconds"].notna()]
    groups = grouped(charted, keys).groupby(list(keys), observed=True, sort=False)
    table = groups.agg(
        n=("seconds", "size"), median=("seconds", "median"), mean=("seconds", "mean"), sd=("seconds", "std"),
        fastest=("seconds", "min"), slowest=("seconds", "max"), games=("game", "nunique"), last_seen=("date", "max"),
    ).reset_index()  # fmt: skip
    table = in_order(table, keys)
    error = pd.Series(np.where(table["method"].eq("watch"), watch_error_s, FRAMES_ERROR_S), index=table.index)
    table["own_sd"] = np.sqrt((table["sd"] ** 2 - error**2).clip(lower=0))
    table["few"] = table["n"] < few_readings
    bounds = ["low", "high", "mean_low", "mean_high", "mean_sd", "spread"]
    table[bounds] = np.nan
    # A group that mixes styles scatters more than one style does: the two are not alike.
    mixed = table["style"].eq(ALL) if "style" in table else pd.Series(data=False, index=table.index)
    for kind, rows in table.groupby([*alike, mixed.rename("mixed")], observed=True, sort=False):
        question = " ".join(map(str, kind))
        table.loc[rows.index, bounds] = _bounds(rows, error.loc[rows.index], usual, question)
    return plain_text(table)[[*keys, *SUMMARY]]


def _bounds(group: pd.DataFrame, error: pd.Series, usual: Usual, question: str) -> pd.DataFrame:
    stated = float(np.hypot(STATED_SPREAD_S[group["measure"].iloc[0]], error.iloc[0]))
    whole = group[group["bases"].eq(ALL)] if "bases" in group else group

    def learned(some: pd.DataFrame) -> Floats:
        spread = learn_usual_spread(some["sd"].to_numpy(float), some["n"].to_numpy(np.int64), stated_s=stated)
        return np.array([spread.scale_s, spread.weight])

    common = usual.of(question, partial(learned, whole))
    scale_s, weight = learned(whole.iloc[:0]) if common is None else common
    n, mean = group["n"].to_numpy(np.int64), group["mean"].to_numpy(float)
    variance, freedom = moderated_variance(group["sd"].to_numpy(float), n, UsualSpread(scale_s, weight))
    low, high = next_one(mean, variance, freedom, n)
    mean_low, mean_high = mean_between(mean, variance, freedom, n)
    # A man is never taken to be steadier than a third of what is usual: readings by a watch cannot show it.
    steady = STATED_SPREAD_S[group["measure"].iloc[0]] / 3
    spread = np.sqrt(np.maximum(variance - error.to_numpy(float) ** 2, steady**2))
    found = {"low": low, "high": high, "mean_low": mean_low, "mean_high": mean_high}
    return pd.DataFrame({**found, "mean_sd": np.sqrt(variance / n), "spread": spread}, index=group.index)
