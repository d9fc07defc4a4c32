"""How hard he throws: each pitch's band, and whether he loses speed as the game goes on."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import pandas as pd
from scipy import special

from scoutgen.measures.levels import grouped, in_order, plain_text
from scoutgen.measures.outings import charted_pitches

HARD: Final = ("fastball", "sinker", "cutter")
BAND_COLUMNS: Final = ["team", "player", "pitch", "n", "median_mph", "p10_mph", "p90_mph", "games", "last_seen"]
INNING_COLUMNS: Final = ["team", "player", "pitch", "inning", *BAND_COLUMNS[3:]]
DROP_COLUMNS: Final = [
    "team", "player", "pitch", "n_early", "early_mph", "n_late", "late_mph", "drop_mph", "low", "high", "known",
    "games", "last_seen",
]  # fmt: skip
LAST_EARLY: Final = 2
FIRST_LATE: Final = 5
_KEYS: Final = ["team", "player", "pitch"]


def speed_bands(pitches: pd.DataFrame) -> pd.DataFrame:
    """How hard is each of his pitches?

    Args:
        pitches: the season's `pitches`; rows with a pitch and a speed count.

    Returns:
        One row per team, player and pitch: BAND_COLUMNS, miles an hour; p10-p90 is the middle 80 % of the pitches
        seen (linear interpolation, as numpy's default).
    """
    return _bands(_timed(pitches), _KEYS)[BAND_COLUMNS]


def speed_by_inning(pitches: pd.DataFrame, *, hard: Sequence[str] = HARD) -> pd.DataFrame:
    """How hard is his most used hard pitch in each inning?

    Args:
        pitches: the season's `pitches`; rows with an inning count.
        hard: pitches that count as hard; the first named wins where two are used as often.

    Returns:
        One row per team, player and inning: INNING_COLUMNS.
    """
    rows = _hardest_used(_timed(pitches), hard)
    return _bands(rows[rows["inning"].notna()], [*_KEYS, "inning"])[INNING_COLUMNS]


def speed_drop(pitches: pd.DataFrame, *, hard: Sequence[str] = HARD, enough: int = 15) -> pd.DataFrame:
    """Has he lost speed from the fifth inning on, against the first two?

    Args:
        pitches: the season's `pitches`; rows with an inning count.
        hard: pitches that count as hard.
        enough: pitches wanted both early and late before anything is said.

    Returns:
        One row per team and player with a hard pitch timed: DROP_COLUMNS. n and mean of each part, and the drop with
        its 90 % interval, all from games in which he was timed both early and late, so that a cold night is not taken
        for a tired arm. `drop_mph` (positive: slower late), `low` and `high` are NaN where no game has both. `known`:
        `enough` on both sides. `early_mph` - `late_mph` differs from `drop_mph` where games count unequally.
    Source:
        The within-group (fixed effects) estimator: speed on game and part, ordinary least squares; Wooldridge,
        Econometric Analysis of Cross Section and Panel Data, 2nd ed. (2010), 10.5. Fifteen a pitch: common practice.
    """
    rows = _hardest_used(_timed(pitches), hard)
    who = rows.groupby(_KEYS, observed=True, sort=False).agg(games=("game", "nunique"), last_seen=("date", "max"))
    rows = rows[rows["inning"].notna()]
    inning = rows["inning"].to_numpy(np.int64)
    rows = rows.assign(late=inning >= FIRST_LATE)[(inning <= LAST_EARLY) | (inning >= FIRST_LATE)]
    keys = [*_KEYS, "game"]
    parts = grouped(rows, [*keys, "late"]).groupby([*keys, "late"], observed=True, sort=False)["speed_mph"]
    table = parts.agg(n="size", mean="mean", var="var").reset_index()
    # One pitch has no variance of its own and leaves nothing over.
    table["squares"] = (table["n"] - 1) * table["var"].fillna(0)
    early, late = (table[table["late"].eq(when)].drop(columns=["late", "var"]) for when in (False, True))
    both = early.merge(late, on=keys, suffixes=("_early", "_late"))
    both["weight"] = both["n_early"] * both["n_late"] / (both["n_early"] + both["n_late"])
    both["drop"] = both["mean_early"] - both["mean_late"]
    out = who.reset_index().merge(_fitted(both), on=_KEYS, how="left")
    counts = ["n_early", "n_late"]
    out[counts] = out[counts].fillna(0).astype("int64")
    out["known"] = (out["n_early"] >= enough) & (out["n_late"] >= enough)
    return plain_text(in_order(out, _KEYS))[DROP_COLUMNS]


def _fitted(both: pd.DataFrame) -> pd.DataFrame:
    """The drop of each pitcher over his games that have both parts, weighted as least squares does."""
    w = both.assign(
        weighted=both["weight"] * both["drop"], weighted_squares=both["weight"] * both["drop"] ** 2,
        squares=both["squares_early"] + both["squares_late"],
        sum_early=both["n_early"] * both["mean_early"], sum_late=both["n_late"] * both["mean_late"], one=1,
    )  # fmt: skip
    columns = ["weight", "weighted", "weighted_squares", "squares", "n_early", "n_late", "sum_early", "sum_late", "one"]
    s = grouped(w, _KEYS).groupby(_KEYS, observed=True, sort=False)[columns].sum().reset_index()
    s["drop_mph"] = s["weighted"] / s["weight"]
    # What is left within games, and between their drops; one parameter a game and one for the drop are spent.
    left = s["squares"] + (s["weighted_squares"] - s["weight"] * s["drop_mph"] ** 2).clip(lower=0)
    freedom = (s["n_early"] + s["n_late"] - s["one"] - 1).astype(float)
    usable = freedom > 0
    error = np.sqrt(left / freedom.where(usable) / s["weight"])
    half = special.stdtrit(freedom.where(usable), 0.95) * error
    s["low"], s["high"] = s["drop_mph"] - half, s["drop_mph"] + half
    s["early_mph"], s["late_mph"] = s["sum_early"] / s["n_early"], s["sum_late"] / s["n_late"]
    return s[[*_KEYS, "n_early", "early_mph", "n_late", "late_mph", "drop_mph", "low", "high"]]


def _timed(pitches: pd.DataFrame) -> pd.DataFrame:
    charted = charted_pitches(pitches)
    return charted.loc[charted["speed_mph"].notna(), ["team", "player", "game", "date", "inning", "pitch", "speed_mph"]]


def _hardest_used(timed: pd.DataFrame, hard: Sequence[str]) -> pd.DataFrame:
    """The rows of each pitcher's most used hard pitch."""
    rows = timed[timed["pitch"].isin(list(hard))]
    used = rows.groupby(_KEYS, observed=True, sort=False).size().rename("used").reset_index()
    used["rank"] = used["pitch"].astype("str").map({name: rank for rank, name in enumerate(hard)})
    used = used.sort_values(["used", "rank"], ascending=[False, True], kind="stable")
    first = used.drop_duplicates(["team", "player"])[_KEYS]
    return rows.merge(first, on=_KEYS, how="inner")


def _bands(rows: pd.DataFrame, keys: list[str]) -> pd.DataFrame:
    groups = rows.groupby(keys, observed=True, sort=False)
    table = groups.agg(
        n=("speed_mph", "size"),
        median_mph=("speed_mph", "median"),
        games=("game", "nunique"),
        last_seen=("date", "max"),
    )
    table["p10_mph"], table["p90_mph"] = groups["speed_mph"].quantile(0.1), groups["speed_mph"].quantile(0.9)
    return in_order(plain_text(table.reset_index()), keys)
