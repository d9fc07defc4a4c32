"""What do rows say that other rows, other files or the calendar contradict?"""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import numpy.typing as npt
import pandas as pd

from scoutgen.records.check import nearest, quoted
from scoutgen.records.directory import Directory
from scoutgen.records.table import Mask, Rows

# Numbers that only one who was there, or saw the video, can have measured.
HARD_NUMBERS = {
    "pitches": ("speed_mph",),
    "times": ("seconds",),
    "holds": ("hold_seconds",),
    "throws": ("pop_seconds", "exchange_seconds"),
    "habits": ("feet",),
    "positions": ("depth_ft", "off_bag_ft"),
}
# A row that fills all of these is charted so fully that its exact likeness is a copy (pitches) or looks like one. Looks
# at habits and positions have no such row: the same man does the same thing pitch after pitch.
FULLY_CHARTED = {
    "pitches": ("game", "inning", "half", "batter", "balls", "strikes", "result"),
    "times": ("game", "inning", "player", "measure", "outs", "balls", "strikes", "seconds"),
    "holds": ("game", "inning", "pitcher", "balls", "strikes", "looks", "hold_seconds"),
    "throws": ("game", "inning", "catcher", "runner", "pop_seconds", "result"),
}


def check_games_known(rows: Rows, games: Rows, *, made_up: bool) -> None:
    """Every row's game is one of the games; rows of a game that cannot be used cannot be used either.

    Args:
        rows: a table.
        games: the games as read, wrong ones included.
        made_up: there is no table of games.
    """
    if made_up or rows.frame.empty:
        return
    column = rows.frame["game"].cat
    codes = column.codes.to_numpy()
    fine = set(games.frame["game"][~games.bad].dropna())
    broken = set(games.frame["game"].dropna()) - fine
    of_broken = np.array([name in broken for name in column.categories] + [False])[codes]
    unknown = np.array([name not in fine and name not in broken for name in column.categories] + [False])[codes]
    if games.unread:
        # Their games may stand where the file could not be read; that is said there.
        of_broken, unknown = of_broken | unknown, np.zeros(len(codes), bool)
    rows.bad |= of_broken
    for code in np.unique(codes[of_broken]).tolist():
        members = np.flatnonzero(codes == code)
        many = "1 row is" if len(members) == 1 else f"{len(members):,} rows are"
        rows.say(
            members[:1], "game", f"{many} of {quoted(column.categories[code])}, whose row in data/games cannot be used"
        )

    def text(row: int) -> str:
        word = column.categories[codes[row]]
        close = nearest(word, sorted(fine), 2)
        meant = f"; did you mean {' or '.join(map(quoted, close))}? Add it there" if close else "; add it there"
        return f"{quoted(word)} is not a game of data/games{meant}, or correct it here"

    rows.flag(unknown, "game", text, by=codes)


def check_second_hand(rows: Rows, second_hand: set[str]) -> None:
    """What was heard of is no measurement."""
    column = rows.frame["game"].cat
    heard = np.array([name in second_hand for name in column.categories] + [False])[column.codes.to_numpy()]
    if not heard.any():
        return
    for name in HARD_NUMBERS[rows.table]:
        rows.flag(
            heard & rows.frame[name].notna().to_numpy(bool),
            name,
            "the game is charted second_hand, and a number that nobody of ours measured cannot stand behind a page; "
            "put it in an observation, or leave the cell blank"
            + (" (delete the row)" if rows.table == "times" else ""),
        )


def check_team_plays(rows: Rows, directory: Directory, teams: Mapping[str, Sequence[str]]) -> None:
    """A row's team is one of the two that the game names.

    Args:
        rows: habits or positions, with team keys.
        directory: for the teams' names.
        teams: per game the teams it names.
    """
    frame = rows.frame
    pairs = frame[["game", "team"]].dropna().drop_duplicates()
    wrong = {
        (game, team)
        for game, team in pairs.itertuples(index=False)
        if len(teams.get(game, ())) > 1 and team not in teams[game]
    }
    if wrong:
        where = pd.MultiIndex.from_frame(frame[["game", "team"]].astype("object")).isin(list(wrong))

        def text(row: int) -> str:
            playing = " and ".join(quoted(team) for team in teams[rows.cell(row, "game")])
            return f"{quoted(directory.teams[rows.cell(row, 'team')].name)} does not play in this game; {playing} do"

        rows.flag(np.asarray(where), "team", text)


def check_order(rows: Rows) -> None:
    """Warn where inning, half or outs go back within a game's rows of one file."""
    frame = rows.frame
    if len(frame) < 2:
        return
    file, game = (frame[name].cat.codes.to_numpy() for name in ("file", "game"))
    together = np.concatenate([[False], (file[1:] == file[:-1]) & (game[1:] == game[:-1])]) & ~rows.bad
    inning = frame["inning"].to_numpy(float, na_value=np.nan)
    half = frame["half"].cat.codes.to_numpy().astype(float) if "half" in frame else np.zeros(len(frame))
    half = np.where(half < 0, np.nan, half)
    outs = frame["outs"].to_numpy(float, na_value=np.nan)
    slip = "is it a slip, or are rows out of order?"
    back = _falls(inning) & together
    rows.flag(
        back,
        "inning",
        lambda i: f"goes back from {inning[i - 1]:.0f} to {inning[i]:.0f} after {rows.place(i - 1, i)}; {slip}",
        "warning",
    )
    same_inning = together & np.concatenate([[False], inning[1:] == inning[:-1]])
    back = _falls(half) & same_inning
    rows.flag(
        back,
        "half",
        lambda i: f"goes back to the top of inning {inning[i]:.0f} after {rows.place(i - 1, i)}; {slip}",
        "warning",
    )
    same_half = same_inning & np.concatenate([[False], half[1:] == half[:-1]])
    back = _falls(outs) & same_half
    rows.flag(
        back,
        "outs",
        lambda i: (
            f"go back from {outs[i - 1]:.0f} to {outs[i]:.0f} after {rows.place(i - 1, i)} in the same half inning; "
            f"{slip}"
        ),
        "warning",
    )


def _falls(values: npt.NDArray[np.float64]) -> Mask:
    return np.concatenate([[False], values[1:] < values[:-1]])


def check_twice(rows: Rows) -> None:
    """Fully charted rows that say exactly the same: certain to be copies for pitches, worth a look elsewhere."""
    frame = rows.frame
    if rows.table not in FULLY_CHARTED:
        return
    full: Mask = ~rows.bad
    for name in FULLY_CHARTED[rows.table]:
        full = full & frame[name].notna().to_numpy(bool)
    places = np.flatnonzero(full)
    if len(places) < 2:
        return
    # One number a row, mixed from all its cells: quick to compare; the few that agree are then compared cell by cell.
    mixed = np.zeros(len(places), np.uint64)
    names = [name for name in frame.columns if name not in ("file", "line")]
    for name in names:
        mixed = mixed * np.uint64(6364136223846793005) + _bits(frame[name])[places] + np.uint64(1442695040888963407)
    alike = places[pd.Series(mixed).duplicated(keep=False).to_numpy()]
    part = frame.loc[alike, names].astype("object")
    again = alike[part.duplicated().to_numpy()]
    if not again.size:
        return
    group = part.groupby(names, dropna=False, sort=False).ngroup().to_numpy()
    number = dict(zip(alike.tolist(), group.tolist(), strict=True))
    first = {n: place for place, n in reversed(number.items())}
    file, repeats = frame["file"].cat.codes.to_numpy(), _may_repeat(rows)
    where = np.zeros(len(frame), bool)
    # What may repeat does so in one file; the same again in another file is a copy like all else.
    where[[row for row in again.tolist() if not repeats[row] or file[row] != file[first[number[row]]]]] = True

    def text(row: int) -> str:
        other = rows.place(first[number[row]], row)
        if rows.table == "pitches":
            return (
                f"is the same pitch as {other} (game, inning, half, batter, count and all else); delete one of the two"
            )
        return f"says exactly the same as {other}; delete one if it was typed twice"

    rows.flag(where, "", text, "error" if rows.table == "pitches" else "warning")


def _may_repeat(rows: Rows) -> Mask:
    """Rows that may happen twice in the same count: a foul with two strikes, a throw to a base instead of a pitch."""
    frame = rows.frame
    repeats = np.zeros(len(frame), bool)
    if "strikes" in frame:
        repeats |= (frame["strikes"] == 2).to_numpy(bool, na_value=False)
    if rows.table == "pitches":
        repeats &= (frame["result"] == "foul").to_numpy(bool)
    if rows.table == "holds":
        repeats |= (frame["then"] != "pitch").to_numpy(bool)
    if rows.table == "times":
        repeats |= frame["measure"].isin(["pickoff_1", "pickoff_2", "pickoff_3"]).to_numpy(bool)
    return repeats


def _bits(column: "pd.Series[Any]") -> npt.NDArray[np.uint64]:
    if column.dtype == "category":
        return column.cat.codes.to_numpy().astype(np.int64).view(np.uint64)
    values = column.to_numpy(float, na_value=-9999.0)
    return values.view(np.uint64)
