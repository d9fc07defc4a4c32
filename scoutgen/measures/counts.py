"""Which situation a pitch was thrown in: the count, the bases, the times through the order."""

from typing import Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

ALL: Final = "all"

#: The twelve counts, balls-strikes, as a scout reads them out.
COUNTS: Final[tuple[str, ...]] = tuple(f"{balls}-{strikes}" for balls in range(4) for strikes in range(3))

#: Named groups of counts, from the pitcher's side; they overlap on purpose.
COUNT_GROUPS: Final[dict[str, tuple[str, ...]]] = {
    "first pitch": ("0-0",),
    "ahead": ("0-1", "0-2", "1-2"),
    "even": ("1-1", "2-2"),
    "behind": ("1-0", "2-0", "2-1", "3-0", "3-1"),
    "two strikes": ("0-2", "1-2", "2-2", "3-2"),
    "full": ("3-2",),
}

#: Every value the column `count` of a measure may have, in the order they are shown.
COUNT_LABELS: Final[tuple[str, ...]] = (ALL, *COUNT_GROUPS, *COUNTS)

BASES_SITUATIONS: Final[tuple[str, ...]] = ("empty", "on", "scoring")
TIMES_THROUGH: Final[tuple[str, ...]] = ("1st", "2nd", "3rd+")
SIDES: Final[tuple[str, ...]] = ("L", "R")

#: Values of the column `bats` of a measure, in the order they are shown, and which of SIDES each takes in.
BATS: Final[tuple[str, ...]] = (ALL, *SIDES)
SIDES_OF_BATS: Final[NDArray[np.float64]] = np.array([[1.0, 1.0], [1.0, 0.0], [0.0, 1.0]])


def count_index(pitches: pd.DataFrame) -> NDArray[np.int8]:
    """Place of each pitch's count in COUNTS; -1 where balls or strikes were not charted."""
    balls = pitches["balls"].to_numpy(dtype=np.float64, na_value=np.nan)
    strikes = pitches["strikes"].to_numpy(dtype=np.float64, na_value=np.nan)
    known = (balls >= 0) & (balls <= 3) & (strikes >= 0) & (strikes <= 2)
    return np.where(known, np.where(known, balls, 0) * 3 + np.where(known, strikes, 0), -1).astype(np.int8)


def count_of(pitches: pd.DataFrame) -> pd.Series:
    """The count before each pitch, "0-0" to "3-2", as a category; NA where it was not charted."""
    codes = count_index(pitches)
    labels = pd.Categorical.from_codes(codes, categories=pd.Index(COUNTS))
    return pd.Series(labels, index=pitches.index, name="count")


def count_members() -> NDArray[np.bool_]:
    """Which counts each label of COUNT_LABELS takes in: True/False, labels x the twelve counts.

    The label "all" takes in all twelve here; that it also takes in pitches whose count was not charted is
    for the measure to add.
    """
    groups = {ALL: COUNTS, **COUNT_GROUPS, **{count: (count,) for count in COUNTS}}
    return np.array([[count in groups[label] for count in COUNTS] for label in COUNT_LABELS])


def bases_index(pitches: pd.DataFrame) -> NDArray[np.int8]:
    """0 with the bases empty, 1 with a runner on first only, 2 with one on second or third; -1 not charted.

    "on" is 1 and 2 together, "scoring" is 2.
    """
    bases = pitches["bases"].astype("category")
    # Looked up once for each of the handful of base states, not once a row.
    value = [0 if not str(state) else 2 if set(str(state)) & set("23") else 1 for state in bases.cat.categories]
    return np.append(np.array(value, dtype=np.int8), np.int8(-1))[bases.cat.codes.to_numpy()]


def bases_members() -> NDArray[np.bool_]:
    """Which values of `bases_index` each label of BASES_SITUATIONS takes in: labels x (empty, first, scoring)."""
    return np.array([[True, False, False], [False, True, True], [False, False, True]])


def appearance_number(pitches: pd.DataFrame) -> NDArray[np.int16]:
    """How many times this batter has come up against this pitcher in this game, from 1; 0 not known.

    A new appearance begins where the batter changes from the pitch this pitcher threw before in this game, or
    where that pitch ended a plate appearance. An at-bat cut short by the end of an inning goes on as the same one.
    Rows must be in the order thrown; a row without a batter has no number.
    """
    if not len(pitches):
        return np.zeros(0, dtype=np.int16)
    game = pitches["game"].astype("category").cat.codes.to_numpy()
    pitcher = pitches["pitcher"].astype("category").cat.codes.to_numpy()
    batter = pitches["batter"].astype("category").cat.codes.to_numpy()
    ended = pitches["play"].notna().to_numpy()
    # Both teams' pitchers alternate through a game: bring each pitcher's own pitches together, order kept.
    order = np.lexsort((np.arange(len(game)), pitcher, game))
    game, pitcher, batter, ended = game[order], pitcher[order], batter[order], ended[order]
    same_outing = np.append(False, (game[1:] == game[:-1]) & (pitcher[1:] == pitcher[:-1]))
    same_batter = np.append(False, batter[1:] == batter[:-1])
    begins = ~(same_outing & same_batter & ~np.append(True, ended[:-1]))
    faced = pd.DataFrame({"game": game, "pitcher": pitcher, "batter": batter, "begins": begins.astype(np.int16)})
    number = faced.groupby(["game", "pitcher", "batter"], sort=False)["begins"].cumsum().to_numpy()
    out = np.zeros(len(game), dtype=np.int16)
    out[order] = np.where(batter >= 0, number, 0)
    return out


def times_through_index(pitches: pd.DataFrame) -> NDArray[np.int8]:
    """Place of each pitch in TIMES_THROUGH by its batter's appearances; -1 where the batter is not known."""
    return (np.minimum(appearance_number(pitches), 3) - 1).astype(np.int8)
