"""In how many games a pitch was charted, and when last: for every roll-up of pitcher, side and pitch."""

from typing import Final

import pandas as pd

from scoutgen.measures.levels import roll_up

PITCH_KEYS: Final = ["team", "player", "bats", "pitch"]


def charted_pitches(pitches: pd.DataFrame) -> pd.DataFrame:
    """The rows that chart a pitch, under the pitcher's name as `player` and his team as `team`.

    A row with a batted ball alone has no pitch; a penalty of the clock puts a ball or strike on the count without
    one.
    """
    thrown = pitches["pitch"].notna() & ~pitches["result"].isin(["clock_ball", "clock_strike"])
    names = {"pitcher": "player", "pitcher_team": "team"}
    return pitches.loc[thrown].drop(columns="team", errors="ignore").rename(columns=names)


def seen_in(charted: pd.DataFrame) -> pd.DataFrame:
    """PITCH_KEYS (each side and pitch beside "all") + [games, last_seen]."""
    outings = (
        charted[["team", "player", "game", "date", "bats", "pitch"]]
        .groupby(["team", "player", "game", "bats", "pitch"], observed=True, dropna=False, sort=False)["date"]
        .max()
        .reset_index()
    )
    groups = roll_up(roll_up(outings, "bats"), "pitch").groupby(PITCH_KEYS, observed=True, sort=False)
    return groups.agg(games=("game", "nunique"), last_seen=("date", "max")).reset_index()
