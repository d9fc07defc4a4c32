"""How long he takes: to the plate, on a pickoff, back to the mound, down the line."""

from typing import Final

import pandas as pd

from scoutgen.measures.levels import by_base_state, roll_up
from scoutgen.measures.readings import SUMMARY, summarise_readings
from scoutgen.measures.tally import SHARE, tally, with_shares_of_one
from scoutgen.measures.usual import AT_HAND, Usual

TIME_KEYS: Final = ["team", "player", "measure", "style", "bases", "method", "warmup"]
TIME_COLUMNS: Final = [*TIME_KEYS, *SUMMARY]
RETURN_STYLES: Final = ("firm", "lob", "knees")
RETURN_COLUMNS: Final = [
    "team", "player", "style", "bases", *SHARE, "games", "last_seen", "method", "timed", "median", "fastest", "slowest",
]  # fmt: skip


def time_summary(
    times: pd.DataFrame, *, watch_error_s: float = 0.10, few_readings: int = 5, usual: Usual = AT_HAND
) -> pd.DataFrame:
    """How long does he take, how steady is he, and what will the next reading be?

    Args:
        times: the season's `times`.
        watch_error_s: standard deviation of one hand-held reading, start and stop.
        few_readings: a row with fewer is marked `few`.
        usual: what times scatter by; learned from these where it is not known.

    Returns:
        One row per team, player, measure, style, bases, method and warmup: TIME_COLUMNS, seconds throughout. `style`
        and `bases` have a rolled-up "all" beside each value; `bases` also "on" and "scoring" (see `by_base_state`).
        `method` and `warmup` are never rolled up: a watch and a count of frames, and a live and a warm-up throw, are
        different things. `own_sd` is sqrt(max(sd² - error², 0)). `low`-`high` holds 90 % of the next readings by the
        same method; it leans on the usual spread of such readings while there are few. NaN where n is too small to
        say.
    Source:
        Error of a hand-held reading: Am. J. Phys. 87(2):110 (2019). Interval: see `scoutgen.measures.spread`.
    """
    rows = by_base_state(roll_up(_live_or_not(times), "style"))
    return summarise_readings(
        rows, TIME_KEYS, ["measure", "method", "warmup"],
        watch_error_s=watch_error_s, few_readings=few_readings, usual=usual.about("times"),
    )  # fmt: skip


def returns(times: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """How does the catcher give the ball back: firm, lobbed, from his knees, and how long is it in the air?

    Args:
        times: the season's `times`; live `return_throw` rows count.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player, style and bases: RETURN_COLUMNS. k of n returns whose style was charted; share, low
        and high (90 %) lean on the other catchers. `median`, `fastest` and `slowest` (seconds) are of the `timed`
        readings by one `method`, the one with most readings; frames before watch where equal.
    """
    live = times[times["measure"].eq("return_throw") & ~_warmup(times)]
    charted = by_base_state(live[live["style"].notna()])
    by = ["team", "player", "bases"]
    counted = tally(charted, by, "style", RETURN_STYLES)
    table = with_shares_of_one(counted, by, ["style", "bases"], usual.about("returns"))
    keys = ["team", "player", "style", "bases"]
    timed = (
        charted[charted["seconds"].notna()]
        .groupby([*keys, "method"], observed=True)["seconds"]
        .agg(timed="size", median="median", fastest="min", slowest="max")
        .reset_index()
        .astype(dict.fromkeys([*keys, "method"], "str"))
        .sort_values([*keys, "timed", "method"], ascending=[True] * 4 + [False, True], kind="stable")
        .drop_duplicates(keys)
    )
    return table.merge(timed, on=keys, how="left").astype({"timed": "Int64"})[RETURN_COLUMNS]


def _warmup(frame: pd.DataFrame) -> "pd.Series[bool]":
    return frame["warmup"].astype("boolean").fillna(value=False).astype(bool)


def _live_or_not(times: pd.DataFrame) -> pd.DataFrame:
    return times.assign(warmup=_warmup(times))
