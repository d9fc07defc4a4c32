"""On which side of the plate did a hitter stand where nobody charted it? Where his roster says he has but one."""

from collections.abc import Iterator, Mapping

import numpy as np
import pandas as pd

from scoutgen.records.check import listed
from scoutgen.records.opponents import Team
from scoutgen.records.problems import Problem
from scoutgen.records.table import Rows

# Charts in which so many pitches, and such a share of them, have no side say little of what a pitcher throws to whom.
MANY_WITHOUT_SIDE, SHARE_WITHOUT_SIDE = 20, 0.1
MOST_MEN_NAMED = 8
_TABLE = "data/pitches"


def fill_sides(pitches: Rows, teams: Mapping[str, Team]) -> list[Problem]:
    """Give pitches the side of a hitter who always bats from it; a switch hitter's stays blank.

    Whoever was charted on another side than his roster has is left as he was charted: one of the two is a slip.

    Args:
        pitches: the table, its hitters resolved; `bats` is filled in.
        teams: for their rosters.

    Returns:
        Warnings of such men, and of many pitches whose side is still not known.
    """
    frame = pitches.frame
    blank = frame["bats"].isna().to_numpy(bool)
    if not blank.any():
        return []
    known = {(team.key, man.key): man.bats for team in teams.values() for man in team.roster if man.bats in ("L", "R")}
    team, batter = frame["batter_team"].astype("category").cat, frame["batter"].astype("category").cat
    # A number for each man of each team; -1 where nobody knows who hit.
    man = np.where(team.codes < 0, -1, team.codes.to_numpy(np.int64) * len(batter.categories) + batter.codes)
    man = np.where(batter.codes < 0, -1, man)
    numbers, code = np.unique(man, return_inverse=True)
    who = [
        (team.categories[n // len(batter.categories)], batter.categories[n % len(batter.categories)])
        if n >= 0
        else ("", "")
        for n in numbers.tolist()
    ]
    # Sides are numbers here: their places in the vocabulary, -1 for none.
    vocabulary = frame["bats"].cat.categories
    place = {word: number for number, word in enumerate(vocabulary)}
    side = np.array([place.get(known.get(one, ""), -1) for one in who], np.int8)
    charted = frame["bats"].cat.codes.to_numpy(copy=True)
    against = np.unique(code[(charted >= 0) & (side[code] >= 0) & (side[code] != charted)])
    side[against] = -1
    charted[blank] = side[code][blank]
    frame["bats"] = pd.Categorical.from_codes(charted, vocabulary)
    return [*_against([who[at] for at in against], known), *_without_side(pitches)]


def _against(men: list[tuple[str, str]], known: Mapping[tuple[str, str], str | None]) -> Iterator[Problem]:
    if men:
        some = [f"{team} {man} ({known[team, man]})" for team, man in men[:MOST_MEN_NAMED]]
        more = [f"{len(men) - MOST_MEN_NAMED:,} more"] if len(men) > MOST_MEN_NAMED else []
        text = f"charted on another side than the roster has: {listed([*some, *more], 'and')}"
        said = f"{text}; mend the roster or the chart, until then a blank side of theirs stays blank"
        yield Problem(_TABLE, 0, "bats", said, "warning")


def _without_side(pitches: Rows) -> Iterator[Problem]:
    """A warning where no page by side can count many pitches."""
    usable = pitches.frame[~pitches.bad]
    count, lacking = len(usable), int(usable["bats"].isna().sum())
    if lacking >= MANY_WITHOUT_SIDE and lacking >= SHARE_WITHOUT_SIDE * count:
        text = (
            f"{lacking:,} of {count:,} pitches do not say on which side the hitter stood, and no page by side counts "
            "them; chart L or R, or who hit and on his roster how he bats"
        )
        yield Problem(_TABLE, 0, "bats", text, "warning")
