"""What he always does: how often a habit was seen, in which situation, how far off the bag."""

from typing import Final

import pandas as pd

from scoutgen.measures.counts import ALL
from scoutgen.measures.levels import by_base_state, in_order, plain_text
from scoutgen.measures.tally import COUNTED, tally_hits, with_pooled_shares
from scoutgen.measures.usual import AT_HAND, Usual

HABIT_KEYS: Final = ["team", "player", "position", "habit", "bases"]
HABIT_COLUMNS: Final = [*HABIT_KEYS, *COUNTED, "last_yes"]
FEET_COLUMNS: Final = [
    *HABIT_KEYS, "n", "median_ft", "min_ft", "max_ft", "p10_ft", "p90_ft", "games", "last_seen",
]  # fmt: skip


def habit_rates(habits: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """Does he do it, how often, and when?

    Args:
        habits: the season's `habits`; rows with `seen` yes or no count.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player, position, habit and bases (see `by_base_state`): HABIT_COLUMNS. k times yes of n
        looks; the share leans on everybody looked at for the same habit in the same situation. `last_yes` is the last
        day it was seen, NaT if never. A player that was not charted is missing, not guessed; so is a position, unless
        the same player's looks at the same habit all name one. Within a player the habits that most surely recur come
        first (by the low end of the interval over all situations), then their situations.
    """
    rows = by_base_state(_placed(habits[habits["seen"].notna()]))
    table = with_pooled_shares(tally_hits(rows, HABIT_KEYS, "seen"), ["habit", "bases"], usual.about("habits"))
    yes = rows[rows["seen"].astype("boolean").fillna(value=False).astype(bool)]
    last = yes.groupby(HABIT_KEYS, observed=True, dropna=False)["date"].max().rename("last_yes").reset_index()
    table = table.merge(plain_text(last), on=HABIT_KEYS, how="left")
    whole = table[table["bases"].eq(ALL)].assign(sure=lambda t: -t["low"])
    own = ["team", "player", "position", "habit"]
    table = table.merge(whole[[*own, "sure"]], on=own, how="left")
    return in_order(table, ["team", "player", "position", "sure", "habit", "bases"])[HABIT_COLUMNS]


def habit_feet(habits: pd.DataFrame) -> pd.DataFrame:
    """For habits measured as a distance: how many feet?

    Args:
        habits: the season's `habits`; rows with `feet` count.

    Returns:
        One row per team, player, position, habit and bases: FEET_COLUMNS, feet.
    """
    rows = by_base_state(_placed(habits[habits["feet"].notna()]))
    groups = rows.groupby(HABIT_KEYS, observed=True, dropna=False, sort=False)
    table = groups.agg(
        n=("feet", "size"), median_ft=("feet", "median"), min_ft=("feet", "min"), max_ft=("feet", "max"),
        games=("game", "nunique"), last_seen=("date", "max"),
    )  # fmt: skip
    table["p10_ft"], table["p90_ft"] = groups["feet"].quantile(0.1), groups["feet"].quantile(0.9)
    return plain_text(in_order(table.reset_index(), HABIT_KEYS))[FEET_COLUMNS]


def _placed(habits: pd.DataFrame) -> pd.DataFrame:
    """A blank position filled in where the same player's looks at the same habit all name one and the same."""
    charted = habits.groupby(["team", "player", "habit"], observed=True)["position"]
    only = charted.transform("first").where(charted.transform("nunique").eq(1))
    return habits.assign(position=habits["position"].fillna(only.astype("Int16")))
