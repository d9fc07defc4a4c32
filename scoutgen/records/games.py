"""Which games were charted, when, between whom, and how were they seen?"""

from datetime import date
from pathlib import Path

import numpy as np
import pandas as pd

from scoutgen.records.check import quoted
from scoutgen.records.problems import Problem
from scoutgen.records.table import Rows, read_rows
from scoutgen.records.vocabulary import Day, Label, Note, Row, Source


class Game(Row):
    """One game."""

    game: Label
    date: Day
    away: Label | None = None
    home: Label | None = None
    source: Source
    charted_by: Note | None = None
    clip: Note | None = None
    note: Note | None = None


def read_games(root: Path, *, as_of: date) -> Rows:
    """All games in the files of data/games, checked.

    Args:
        root: the project's folder.
        as_of: the day the build speaks from; a game after it is an error.
    """
    rows = read_rows(root, "games", Game)
    frame = rows.frame
    first = frame.groupby("game", observed=True)["line"].transform("idxmin") if len(frame) else frame["line"]
    place = first.to_numpy(float, na_value=np.nan)
    again = ~np.isnan(place) & (place != np.arange(len(frame)))

    def twice(row: int) -> str:
        key, other = quoted(rows.cell(row, "game")), rows.place(int(place[row]), row)
        return f"{key} is already the key of the game in {other}; give each game its own"

    rows.flag(again, "game", twice)

    def late(row: int) -> str:
        day = f"{rows.cell(row, 'date'):%Y-%m-%d}"
        return f"{day} is after the day of this build, {as_of}; correct the date, or build with --as-of {day} or later"

    rows.flag((frame["date"] > pd.Timestamp(as_of)).to_numpy(), "date", late)
    same = frame["away"].astype("object").to_numpy() == frame["home"].astype("object").to_numpy()
    rows.flag(same & frame["away"].notna().to_numpy(), "home", "is the same team as away; a game has two")
    return rows


def made_up_games(tables: list[Rows]) -> tuple[pd.DataFrame, Problem]:
    """Games in order of appearance in the tables, without date or teams, for a project that has no data/games."""
    keys = list(dict.fromkeys(key for rows in tables for key in rows.frame["game"].dropna().unique()))
    frame = pd.DataFrame(
        {
            "game": pd.Categorical(keys, categories=pd.Index(sorted(keys), dtype="str")),
            "date": pd.array([pd.NaT] * len(keys), dtype="datetime64[s]"),
            **{name: pd.Categorical([None] * len(keys), categories=pd.Index([], dtype="str")) for name in
               ("away", "home", "source", "charted_by", "clip", "note")},
            "file": pd.Categorical([None] * len(keys), categories=pd.Index([], dtype="str")),
            "line": np.zeros(len(keys), np.int32),
        }
    )  # fmt: skip
    text = (
        f"there is no such file; {len(keys):,} {'game is' if len(keys) == 1 else 'games are'} taken from the other "
        "tables in order of appearance, without dates, teams or sources; add rows of game,date,away,home,source"
    )
    return frame, Problem("data/games.csv", 0, "", text, "warning")
