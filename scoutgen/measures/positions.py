"""Where each fielder stood."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

import pandas as pd

from scoutgen.measures.counts import ALL
from scoutgen.measures.levels import by_base_state, in_order, plain_text, roll_up, runner_on
from scoutgen.measures.tally import COUNTED, tally, with_shares_of_one
from scoutgen.measures.usual import AT_HAND, Usual

STOOD_KEYS: Final = ["team", "position", "player", "bats", "bases"]
STOOD_COLUMNS: Final = [
    *STOOD_KEYS, "n", "depth_n", "depth_median_ft", "depth_p10_ft", "depth_p90_ft",
    "off_bag_n", "off_bag_median_ft", "off_bag_min_ft", "off_bag_max_ft", "games", "last_seen",
]  # fmt: skip
TOWARD: Final = ("line", "middle")
SHADE_COLUMNS: Final = [*STOOD_KEYS, "toward", *COUNTED]
OFF_BAG_COLUMNS: Final = [
    "team", "position", "player", "runner_on", "n", "median_ft", "min_ft", "max_ft", "at_bag", "away_ft",
    "from_positions", "from_habits", "games", "last_seen",
]  # fmt: skip
#: Whose feet off the bag a runner takes his lead from: the corner at the runner's base.
CORNERS: Final = {"1": 3, "3": 5}
#: A fielder no farther off than this stands at the bag and holds the runner; common practice, from memory.
AT_BAG_FT: Final = 3.0
#: Habits that come filled in and ask for a corner's feet off the bag.
FEET_HABITS: Final[Mapping[str, tuple[int, str]]] = MappingProxyType({"third-off-bag": (5, "3")})


def stood(positions: pd.DataFrame) -> pd.DataFrame:
    """How deep does each fielder play, and how far off the bag?

    Args:
        positions: the season's `positions`.

    Returns:
        One row per team, position, player ("all" and each charted one), bats ("all", "L", "R") and bases (see
        `by_base_state`): STOOD_COLUMNS, feet; n looks, of which `depth_n` and `off_bag_n` had a distance. NaN where
        none had.
    """
    rows = _rows(positions)
    groups = rows.groupby(STOOD_KEYS, observed=True, sort=False)
    table = groups.agg(
        n=("game", "size"), depth_n=("depth_ft", "count"), depth_median_ft=("depth_ft", "median"),
        off_bag_n=("off_bag_ft", "count"), off_bag_median_ft=("off_bag_ft", "median"),
        off_bag_min_ft=("off_bag_ft", "min"), off_bag_max_ft=("off_bag_ft", "max"),
        games=("game", "nunique"), last_seen=("date", "max"),
    )  # fmt: skip
    table["depth_p10_ft"], table["depth_p90_ft"] = groups["depth_ft"].quantile(0.1), groups["depth_ft"].quantile(0.9)
    return plain_text(in_order(table.reset_index(), STOOD_KEYS))[STOOD_COLUMNS]


def shades(positions: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """Toward the line or the middle: how often each, of the looks where it was charted?

    Args:
        positions: the season's `positions`; rows with `toward` count.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, position, player, bats, bases and toward: SHADE_COLUMNS. Shares of a group sum to 1.
    """
    table = tally(_rows(positions), STOOD_KEYS, "toward", TOWARD)
    # A man does not lean on the team's row, which has his own looks in it.
    table["team_row"] = table["player"].eq(ALL)
    alike = ["position", "bats", "bases", "toward", "team_row"]
    return with_shares_of_one(table, STOOD_KEYS, alike, usual.about("shades"))[SHADE_COLUMNS]


def off_bag(
    positions: pd.DataFrame, habits: pd.DataFrame, *, feet_habits: Mapping[str, tuple[int, str]] = FEET_HABITS
) -> pd.DataFrame:
    """How far off the bag is the corner infielder with a runner on his base?

    Args:
        positions: the season's `positions`.
        habits: the season's `habits`.
        feet_habits: see `off_bag_looks`.

    Returns:
        One row per team, position, player ("all" and each charted one) and runner_on ("1", "3"): OFF_BAG_COLUMNS; n
        looks from both tables together, `from_positions` and `from_habits` apart. A first baseman holds a runner or
        plays behind him, and no one number says both: `at_bag` of the looks found him within AT_BAG_FT, and `away_ft`
        is the median of the others.
    """
    rows = roll_up(off_bag_looks(positions, habits, feet_habits=feet_habits), "player")
    rows["from_positions"] = rows["table"].eq("positions").astype("int64")
    rows["from_habits"] = rows["table"].eq("habits").astype("int64")
    rows["at_bag"] = rows["feet"] <= AT_BAG_FT
    rows["away"] = rows["feet"].where(~rows["at_bag"])
    keys = ["team", "position", "player", "runner_on"]
    table = rows.groupby(keys, observed=True, sort=False).agg(
        n=("feet", "size"), median_ft=("feet", "median"), min_ft=("feet", "min"), max_ft=("feet", "max"),
        at_bag=("at_bag", "sum"), away_ft=("away", "median"),
        from_positions=("from_positions", "sum"), from_habits=("from_habits", "sum"),
        games=("game", "nunique"), last_seen=("date", "max"),
    )  # fmt: skip
    return plain_text(in_order(table.reset_index(), keys))[OFF_BAG_COLUMNS]


def off_bag_looks(
    positions: pd.DataFrame, habits: pd.DataFrame, *, feet_habits: Mapping[str, tuple[int, str]] = FEET_HABITS
) -> pd.DataFrame:
    """The looks behind `off_bag`, one row each.

    Args:
        positions: `off_bag_ft` of the first baseman with a runner on first and of the third baseman with one on third.
        habits: `feet` of the same two men in the same situations.
        feet_habits: by habit, whose feet it asks for and with a runner on which base: what a look at it means where
            position or bases were left blank.

    Returns:
        game, date, team, position, player, runner_on ("1" or "3"), feet, table ("positions" or "habits").
    """
    asked = habits["habit"].astype(object)
    looks = habits.assign(
        position=habits["position"].fillna(
            asked.map({key: at for key, (at, _) in feet_habits.items()}).astype("Int16")
        ),
        bases=habits["bases"].astype(object).fillna(asked.map({key: on for key, (_, on) in feet_habits.items()})),
    )
    stands = positions.assign(feet=positions["off_bag_ft"])
    columns = ["game", "date", "team", "position", "player", "runner_on", "feet", "table"]
    parts = []
    for base, corner in CORNERS.items():
        for name, rows in (("positions", stands), ("habits", looks)):
            hit = (
                rows["feet"].notna() & rows["position"].eq(corner).fillna(value=False) & runner_on(rows["bases"], base)
            )
            kept = rows[hit.astype(bool)].astype(dict.fromkeys(["game", "team", "player"], object))
            parts.append(kept.assign(runner_on=base, table=name)[columns])
    return pd.concat(parts, ignore_index=True)


def _rows(positions: pd.DataFrame) -> pd.DataFrame:
    return by_base_state(roll_up(roll_up(positions, "bats"), "player"))
