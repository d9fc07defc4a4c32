"""Which rows a roll-up has, and in which order: every base state and its situations, each side, each style."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.counts import ALL

STATES: Final = ("", "1", "2", "3", "12", "13", "23", "123")
BASES: Final = (ALL, "empty", "on", "scoring", "1", "2", "3", "12", "13", "23", "123")
ORDERS: Final[dict[str, tuple[str, ...]]] = {
    "bases": BASES,
    "bats": (ALL, "L", "R"),
    "style": (ALL, "windup", "stretch", "slide_step", "firm", "lob", "knees", "full", "bunt", "out_of_box"),
    "measure": (
        "plate", "pickoff_1", "pickoff_2", "pickoff_3", "return_throw",
        "home_first", "first_second", "second_third", "third_home",
        "pop", "exchange",
        "strike", "called_strike", "swinging_strike", "whiff", "in_play",
    ),
    "move": ("pickoff", "pickoff_1", "pickoff_2", "pickoff_3", "step_off", "balk"),
    "split": (ALL, "bases", "count", "looks"),
    "to": (ALL, "2", "3", "1", "home"),
    "accuracy": ("on_bag", "first_side", "field_side", "high", "short_hop", "dropped"),
    "result": ("out", "safe"),
    "toward": ("line", "middle"),
    "where": ("in zone", "in", "middle", "away", "up", "center", "down"),
    "method": ("frames", "watch"),
    "pitch": (ALL,),
    "player": (ALL,),
}  # fmt: skip


def runner_on(bases: pd.Series, base: str) -> "pd.Series[bool]":
    """Whether a runner stands on one base; not charted counts as no, so filter by `bases.notna()` for shares."""
    return bases.isin([state for state in STATES if base in state])


def runners_on(bases: pd.Series) -> "pd.Series[bool]":
    """Whether anyone is on base; not charted counts as no."""
    return bases.isin(STATES[1:])


def by_base_state(frame: pd.DataFrame) -> pd.DataFrame:
    """Every row once for each base situation it belongs to.

    Returns:
        The rows again under `bases` "all", under the exact state ("empty", "1", ..., "123") and, with runners on,
        under "on" and "scoring" (second or third). A row whose bases were not charted stands under "all" only.
    """
    exact = frame["bases"].astype(object).replace({"": "empty"})
    parts = [
        frame.assign(bases=_fixed([ALL] * len(frame), frame.index)),
        frame.assign(bases=_fixed(exact.to_list(), frame.index))[frame["bases"].notna()],
        frame.assign(bases=_fixed(["on"] * len(frame), frame.index))[runners_on(frame["bases"])],
        frame.assign(bases=_fixed(["scoring"] * len(frame), frame.index))[
            runner_on(frame["bases"], "2") | runner_on(frame["bases"], "3")
        ],
    ]
    return pd.concat(parts, ignore_index=True)


def _fixed(values: Sequence[object], index: pd.Index) -> pd.Series:
    return pd.Series(values, index=index, dtype=pd.CategoricalDtype(list(BASES)))


def roll_up(frame: pd.DataFrame, column: str) -> pd.DataFrame:
    """Every row under "all" and, where `column` was charted, once more under its own value."""
    text = frame[column].astype("category")
    if ALL not in text.cat.categories:
        text = text.cat.add_categories([ALL])
    everyone = pd.Series(ALL, index=frame.index, dtype=text.dtype)
    return pd.concat(
        [frame.assign(**{column: everyone}), frame.assign(**{column: text})[text.notna()]], ignore_index=True
    )


def in_order(frame: pd.DataFrame, by: Sequence[str]) -> pd.DataFrame:
    """Sort by key columns: names by the alphabet, the trade's words in the trade's order, missing last."""
    ranks = []
    for column in by:
        order = {word: rank for rank, word in enumerate(ORDERS.get(column, ()))}
        codes, words = pd.factorize(frame[column])
        known = sorted((order.get(word, len(order)), word, place) for place, word in enumerate(words))
        rank_of = np.full(len(words) + 1, len(words))  # the last is for code -1: missing
        rank_of[[place for _, _, place in known]] = np.arange(len(words))
        ranks.append(rank_of[codes])
    return frame.iloc[np.lexsort(ranks[::-1])].reset_index(drop=True)


def grouped(frame: pd.DataFrame, by: Sequence[str]) -> pd.DataFrame:
    """The rows of each group next to each other, in the order they had.

    So numbers of a group are always added up in one way: where rows lie as they come, pandas has another way for them
    from case to case, and a man's last digit would hang on who else was charted.
    """
    group = frame.groupby(list(by), observed=True, sort=False).ngroup().to_numpy()
    return frame.iloc[np.argsort(group, kind="stable")]


def plain_text(frame: pd.DataFrame) -> pd.DataFrame:
    """Categories become text: a finished table is merged, filtered and written out, no longer grouped."""
    texts = [c for c in frame.columns if isinstance(frame[c].dtype, pd.CategoricalDtype)]
    return frame.astype(dict.fromkeys(texts, "str")) if texts else frame
