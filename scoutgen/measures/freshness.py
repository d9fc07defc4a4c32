"""How fresh it is: when a player was last charted, how often, how it was seen and by whom."""

from collections.abc import Mapping
from typing import Final

import pandas as pd

from scoutgen.measures.levels import in_order, plain_text

SOURCES: Final = ("video", "own_game", "same_site", "on_campus", "second_hand")
#: What each table counts, and under which columns it has the man and his team.
TABLES: Final[dict[str, tuple[str, str, str]]] = {
    "pitches": ("pitches", "pitcher", "pitcher_team"),
    "caught": ("pitches", "catcher", "pitcher_team"),
    "faced": ("pitches", "batter", "batter_team"),
    "times": ("times", "player", "team"),
    "holds": ("holds", "pitcher", "team"),
    "throws": ("throws", "catcher", "team"),
    "habits": ("habits", "player", "team"),
    "positions": ("positions", "player", "team"),
}
READINGS: Final = ("times", "holds", "throws", "habits", "positions")
FRESH_COLUMNS: Final = [
    "team", "player", "first_seen", "last_seen", "games", "outings", *TABLES, "readings", *SOURCES, "charted_by",
]  # fmt: skip
TEAM_FRESH_COLUMNS: Final = [c for c in FRESH_COLUMNS if c != "player"]


def player_freshness(games: pd.DataFrame, frames: Mapping[str, pd.DataFrame]) -> pd.DataFrame:
    """When was each player last seen, in how many games, from which sources, charted by whom?

    Args:
        games: the season's `games`.
        frames: the season's other frames by name: pitches, times, holds, throws, habits, positions; absent ones are
            empty.

    Returns:
        One row per team and player charted anywhere: FRESH_COLUMNS. `games` in which he was charted, `outings` those
        in which he threw a pitch; `pitches` thrown, `caught` and `faced`; rows of each other table, together
        `readings`; games per source; `charted_by`, the initials in alphabetical order, parted by ", ", missing where
        none were written.
    """
    return _freshness(games, frames, ["team", "player"])[FRESH_COLUMNS]


def team_freshness(games: pd.DataFrame, frames: Mapping[str, pd.DataFrame]) -> pd.DataFrame:
    """The same for whole teams, rows without a player included: TEAM_FRESH_COLUMNS, one row a team."""
    return _freshness(games, frames, ["team"])[TEAM_FRESH_COLUMNS]


def _freshness(games: pd.DataFrame, frames: Mapping[str, pd.DataFrame], who: list[str]) -> pd.DataFrame:
    seen = pd.concat([_seen(frames, column, who) for column in TABLES], ignore_index=True)
    counts = seen.pivot_table(index=who, columns="column", values="rows", aggfunc="sum", observed=True)
    counts = counts.reindex(columns=list(TABLES)).fillna(0).astype("int64")
    outings = seen[[*who, "game"]].drop_duplicates().merge(_games(games), on="game", how="left")
    table = outings.groupby(who, sort=False).agg(
        first_seen=("date", "min"), last_seen=("date", "max"), games=("game", "nunique"),
        **{source: (source, "sum") for source in SOURCES},
    )  # fmt: skip
    table["charted_by"] = outings.groupby(who, sort=False)["charted_by"].agg(_initials)
    table = table.join(counts)
    thrown = seen[seen["column"].eq("pitches")].groupby(who, sort=False)["game"].nunique()
    table["outings"] = thrown.reindex(table.index).fillna(0).astype("int64")
    table["readings"] = table[list(READINGS)].sum(axis=1)
    return plain_text(in_order(table.reset_index(), who))


def _seen(frames: Mapping[str, pd.DataFrame], column: str, who: list[str]) -> pd.DataFrame:
    """One row a man (or team) and game: how many rows of one table are about him."""
    name, player, team = TABLES[column]
    empty = pd.DataFrame(
        {key: pd.Series(dtype=object) for key in [*who, "game", "column"]} | {"rows": pd.Series(dtype="int64")}
    )
    if name not in frames or frames[name].empty:
        return empty
    keys = [{"player": player, "team": team}[key] for key in who]
    charted = frames[name]
    if column == "caught":
        charted = charted[charted[player].notna()]
    rows = charted.groupby([*keys, "game"], observed=True, sort=False).size().rename("rows").reset_index()
    rows = rows.rename(columns=dict(zip(keys, who, strict=True)))
    return rows.astype(dict.fromkeys([*who, "game"], object)).assign(column=column)


def _games(games: pd.DataFrame) -> pd.DataFrame:
    rows = games[["game", "date", "charted_by"]].astype({"game": object, "charted_by": object})
    return rows.assign(**{source: games["source"].eq(source).astype("int64") for source in SOURCES})


def _initials(texts: pd.Series) -> str | None:
    """Each chart keeper once, None where nobody is named; a game charted by two names both, parted by a comma."""
    names = {name.strip() for text in texts.dropna() for name in str(text).split(",")}
    return ", ".join(sorted(names - {""})) or None
