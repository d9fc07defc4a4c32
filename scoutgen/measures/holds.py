"""How he holds runners: looks, hold time, throws over, step-offs, balks, the slide step."""

from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.counts import ALL, COUNT_GROUPS, count_of
from scoutgen.measures.intervals import wilson
from scoutgen.measures.levels import STATES, by_base_state, grouped, in_order, plain_text, runner_on, runners_on
from scoutgen.measures.tally import COUNTED, tally_hits, with_pooled_shares
from scoutgen.measures.usual import AT_HAND, Usual

LOOKS: Final = [f"looks_{number}" for number in range(10)]
LOOK_COLUMNS: Final = [
    "team", "player", "bases", "n", "mode", "k_mode", "pattern", "minimum", "maximum", "mean", *LOOKS,
    "games", "last_seen",
]  # fmt: skip
HOLD_COLUMNS: Final = [
    "team", "player", "bases", "n", "median", "mean", "sd", "variation", "regular", "p10", "p90", "shortest", "longest",
    "games", "last_seen",
]  # fmt: skip
MOVES: Final = ("pickoff", "pickoff_1", "pickoff_2", "pickoff_3", "step_off", "balk")
MOVE_COLUMNS: Final = ["team", "player", "move", "split", "value", *COUNTED]
SLIDE_STEP_COLUMNS: Final = ["team", "player", "bases", *COUNTED]
#: A holder whose times scatter less than this part of their mean goes on a beat a runner can learn; with fewer holds
#: than these a steady beat may be chance. Common practice, from memory.
REGULAR_VARIATION: Final = 0.15
REGULAR_FROM: Final = 8
LOOK_WORDS: Final = ("0", "1", "2", "3+")
_KEYS: Final = ["team", "player", "bases"]


def looks(holds: pd.DataFrame, *, few_looks: int = 3) -> pd.DataFrame:
    """How often does he look at the runner before he goes, and does he ever look more often than that?

    Args:
        holds: the season's `holds`; rows with `looks` count.
        few_looks: fewer sets than this have no pattern.

    Returns:
        One row per team, player and bases (see `by_base_state`): LOOK_COLUMNS. `mode` is the commonest number of
        looks (the smaller of two as common), seen `k_mode` of `n` times; `minimum` and `maximum` the fewest and most
        ever seen; looks_0 ... looks_9 how many times each number was seen. `pattern`: whether a runner may time his
        break by the mode, see `_has_pattern`.
    """
    rows = by_base_state(_sets(holds).dropna(subset=["looks"]))
    rows["looks"] = rows["looks"].astype("int64")
    table = _counted(rows, mean=("looks", "mean"), minimum=("looks", "min"), maximum=("looks", "max"))
    flags = rows[_KEYS].assign(**{name: rows["looks"].eq(number).astype("int64") for number, name in enumerate(LOOKS)})
    spread = flags.groupby(_KEYS, observed=True, sort=False)[LOOKS].sum().reset_index()
    table = table.merge(spread, on=_KEYS, how="left")
    table["k_mode"] = table[LOOKS].max(axis=1).astype("int64")
    # argmax gives the first of equals: the smaller number of looks.
    table["mode"] = table[LOOKS].to_numpy().argmax(axis=1) if len(table) else pd.Series(dtype="int64")
    table["pattern"] = _has_pattern(table, few_looks)
    return _finished(table, LOOK_COLUMNS)


def _has_pattern(table: pd.DataFrame, few_looks: int) -> "pd.Series[bool]":
    """Whether the commonest number of looks is one to go by.

    It is where he did it in at least half of his sets, since a runner who times his break by it would otherwise be
    wrong more often than right; and where the low end of its share (Wilson, 90 %) lies above the share of the next
    commonest number, since a few more sets could otherwise put that one first.
    """
    seen = np.sort(table[LOOKS].to_numpy(dtype=float), axis=1) if len(table) else np.zeros((0, len(LOOKS)))
    first, second, n = seen[:, -1], seen[:, -2], table["n"].to_numpy(dtype=float)
    low = wilson(first, n).low
    return pd.Series((n >= few_looks) & (first * 2 >= n) & (low * n > second), index=table.index, dtype=bool)


def hold_times(holds: pd.DataFrame) -> pd.DataFrame:
    """How long does he hold the ball once set, and how regular is it?

    Args:
        holds: the season's `holds`; rows with `hold_seconds` count.

    Returns:
        One row per team, player and bases: HOLD_COLUMNS, seconds. `variation` is sd / mean (a pitcher who always goes
        on the same beat has a small one); `regular`: whether it is under REGULAR_VARIATION, NA with fewer than
        REGULAR_FROM holds; p10-p90 is the middle 80 % (linear interpolation, as numpy's default).
    """
    rows = by_base_state(_sets(holds).dropna(subset=["hold_seconds"]))
    seconds = "hold_seconds"
    table = _counted(
        rows, median=(seconds, "median"), mean=(seconds, "mean"), sd=(seconds, "std"),
        shortest=(seconds, "min"), longest=(seconds, "max"),
    )  # fmt: skip
    groups = rows.groupby(_KEYS, observed=True, sort=False)[seconds]
    for name, part in (("p10", 0.1), ("p90", 0.9)):
        table = table.merge(groups.quantile(part).rename(name), left_on=_KEYS, right_index=True, how="left")
    table["variation"] = table["sd"] / table["mean"].where(table["mean"] > 0)
    table["regular"] = (table["variation"] < REGULAR_VARIATION).astype("boolean")
    table.loc[table["n"].lt(REGULAR_FROM) | table["variation"].isna(), "regular"] = pd.NA
    return _finished(table, HOLD_COLUMNS)


def hold_moves(holds: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """Once set, how often does he throw over, step off or balk; in which count, after how many looks?

    Args:
        holds: the season's `holds`.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player, move, split and value: MOVE_COLUMNS. `move`: "pickoff" (to any base), "pickoff_1" to
        "pickoff_3" (n: times set with that base occupied), "step_off", "balk" (n: times set with a runner on). `split`
        and `value`: "all" "all"; "bases" the exact state; "count" a group of counts (they overlap); "looks" "0" to
        "3+". Shares lean on the other pitchers in the same situation.
    """
    rows = _sets(holds)
    rows = rows[rows["then"].notna()]
    parts = []
    for move in MOVES:
        base = move.removeprefix("pickoff_")
        at_risk = rows[runner_on(rows["bases"], base)] if base in ("1", "2", "3") else rows
        hit = at_risk["then"].astype(str).str.startswith("pickoff") if move == "pickoff" else at_risk["then"].eq(move)
        parts.append(_split(at_risk.assign(hit=hit, move=pd.Categorical([move] * len(at_risk), categories=MOVES))))
    table = tally_hits(pd.concat(parts, ignore_index=True), ["team", "player", "move", "split", "value"], "hit")
    # The "1" of bases and the "1" of looks are different words: each split has its own order.
    words = [("bases", STATES), ("count", tuple(COUNT_GROUPS)), ("looks", LOOK_WORDS)]
    order = {(split, value): rank for split, values in words for rank, value in enumerate(values)}
    rank = [order.get(pair, 0) for pair in zip(table["split"], table["value"], strict=True)]
    by_value = in_order(table.assign(rank=rank), ["team", "player", "move", "split", "rank"])
    alike = ["move", "split", "value"]
    return with_pooled_shares(by_value.drop(columns="rank"), alike, usual.about("moves"))[MOVE_COLUMNS]


def slide_steps(holds: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """With runners on, how many of his pitches come from the slide step?

    Args:
        holds: the season's `holds`; rows that ended in a pitch and whose `style` was charted count.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player and bases: SLIDE_STEP_COLUMNS.
    """
    rows = _sets(holds)
    rows = rows[rows["then"].eq("pitch") & rows["style"].notna()]
    rows = by_base_state(rows.assign(hit=rows["style"].eq("slide_step")))
    return with_pooled_shares(tally_hits(rows, _KEYS, "hit"), ["bases"], usual.about("slide steps"))[SLIDE_STEP_COLUMNS]


def _sets(holds: pd.DataFrame) -> pd.DataFrame:
    """The rows with a runner on, under the pitcher's name as `player`."""
    return holds[runners_on(holds["bases"])].rename(columns={"pitcher": "player"})


def _split(rows: pd.DataFrame) -> pd.DataFrame:
    """The rows again under each split they belong to."""
    number = rows["looks"].astype("Float64")
    looked = number.clip(upper=3).map({0.0: "0", 1.0: "1", 2.0: "2", 3.0: "3+"}, na_action="ignore")
    count = count_of(rows).astype(object)
    values: list[tuple[str, pd.Series]] = [
        (ALL, pd.Series(ALL, index=rows.index, dtype=object)),
        ("bases", rows["bases"].astype(object)),
        ("looks", looked.astype(object)),
        *[("count", count.isin(members).map({True: group, False: None})) for group, members in COUNT_GROUPS.items()],
    ]
    parts = [rows.assign(split=split, value=value)[value.notna().to_numpy()] for split, value in values]
    return pd.concat(parts, ignore_index=True)


def _counted(rows: pd.DataFrame, **columns: tuple[str, str]) -> pd.DataFrame:
    groups = grouped(rows, _KEYS).groupby(_KEYS, observed=True, sort=False)
    return groups.agg(n=("game", "size"), games=("game", "nunique"), last_seen=("date", "max"), **columns).reset_index()


def _finished(table: pd.DataFrame, columns: list[str]) -> pd.DataFrame:
    return plain_text(in_order(table, _KEYS))[columns]
