"""A season as pages on some of its teams ask for it: their games, and what our own runners were timed at."""

from collections.abc import Collection
from dataclasses import replace
from typing import Any, Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.records.season import Season

#: Tables with one team a row.
_BY_TEAM: Final = ("times", "holds", "throws", "habits", "positions")
#: What our own runners are timed at for the bases they may steal, whoever pitches.
_OURS: Final = ("first_second", "second_third")
_Rows = NDArray[np.bool_]


def some_teams(season: Season, teams: Collection[str]) -> Season:
    """The games in which teams were charted, whole, and every other row about them.

    The other side's half of their games stays, since a run is read off the row after it; so do our own runners' times
    to the next base. Whoever measures it takes the rows of these teams and leaves the others.

    Args:
        season: the validated season.
        teams: by key.
    """
    frames: dict[str, Any] = {
        table: _alone(getattr(season, table)[rows]) for table, rows in rows_about(season, teams).items()
    }
    return replace(season, **frames)


def rows_about(season: Season, teams: Collection[str]) -> dict[str, _Rows]:
    """Which rows of each table `some_teams` keeps."""
    rows = {"pitches": _played_by(season.pitches, teams)}
    for table in _BY_TEAM:
        frame: pd.DataFrame = getattr(season, table)
        rows[table] = frame["team"].isin(teams).to_numpy(bool)
        if table == "times":
            ours = frame["team"].eq(season.program.key) & frame["measure"].isin(_OURS)
            rows[table] = rows[table] | ours.to_numpy(bool)
    charted: set[str] = set()
    for table, kept in rows.items():
        charted.update(getattr(season, table)["game"][kept].unique())
    return {"games": season.games["game"].isin(charted).to_numpy(bool), **rows}


def _played_by(pitches: pd.DataFrame, teams: Collection[str]) -> _Rows:
    """Which pitches are of games in which one of the teams threw or hit one."""
    theirs = pitches["pitcher_team"].isin(teams).to_numpy(bool) | pitches["batter_team"].isin(teams).to_numpy(bool)
    game = pitches["game"].astype("category").cat.codes.to_numpy()
    among = np.zeros(int(game.max(initial=0)) + 1, dtype=bool)
    among[game[theirs]] = True
    return among[game]


def _alone(frame: pd.DataFrame) -> pd.DataFrame:
    """Rows as if no others had ever been there: the words of a column are those it holds, by the alphabet."""
    out = frame.reset_index(drop=True)
    for name in out.columns[out.dtypes == "category"]:
        held = out[name].cat.remove_unused_categories()
        out[name] = held.cat.set_categories(held.cat.categories.sort_values())
    return out
