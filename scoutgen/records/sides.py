"""On which side of the plate did a hitter stand where nobody charted it? Where his roster says he has but one."""

from collections.abc import Mapping

import numpy as np
import pandas as pd

from scoutgen.records.opponents import Team
from scoutgen.records.problems import Problem
from scoutgen.records.table import Rows

# Charts in which so many pitches, and such a share of them, have no side say little of what a pitcher throws to whom.
MANY_WITHOUT_SIDE, SHARE_WITHOUT_SIDE = 20, 0.1


def fill_sides(pitches: Rows, teams: Mapping[str, Team]) -> None:
    """Give pitches the side of a hitter who always bats from it; a switch hitter's stays blank.

    Args:
        pitches: the table, its hitters resolved; `bats` is filled in.
        teams: for their rosters.
    """
    frame = pitches.frame
    blank = (frame["bats"].isna() & frame["batter"].notna() & frame["batter_team"].notna()).to_numpy(bool)
    if not blank.any():
        return
    known = {(team.key, man.key): man.bats for team in teams.values() for man in team.roster if man.bats in ("L", "R")}
    men = frame.loc[blank, ["batter_team", "batter"]]
    code, who = pd.factorize(pd.MultiIndex.from_frame(men.astype("object")))
    sides = np.array([known.get(man) for man in who], dtype=object)[code]
    filled = frame["bats"].astype("object").to_numpy(copy=True)
    filled[blank] = sides
    frame["bats"] = pd.Categorical(filled, categories=frame["bats"].cat.categories)


def without_side(pitches: Rows) -> list[Problem]:
    """A warning where the side is not known of many pitches: no page by side can count them."""
    usable = pitches.frame[~pitches.bad]
    count, lacking = len(usable), int(usable["bats"].isna().sum())
    if lacking < MANY_WITHOUT_SIDE or lacking < SHARE_WITHOUT_SIDE * count:
        return []
    text = (
        f"{lacking:,} of {count:,} pitches do not say on which side the hitter stood, and no page by side counts them; "
        "chart L or R, or give bats on his roster"
    )
    return [Problem("data/pitches", 0, "bats", text, "warning")]
