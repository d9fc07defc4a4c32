"""Go, only if, not tonight: what the odds of a steal come to beside the odds that are needed."""

from typing import Final

import numpy as np
import pandas as pd

CALL_COLUMNS: Final = [
    "team", "player", "catcher", "runner", "base", "call", "because", "need", "margin_s", "p_safe", "low", "high",
    "picked", "stretch_margin_s", "stretch_p_safe", "stretch_plate_s", "stretch_plate_n", "slide_margin_s",
    "slide_p_safe", "slide_plate_s", "slide_plate_n", "run_s", "run_n", "plate_n", "pop_n",
]  # fmt: skip

_KEYS: Final = ["team", "player", "catcher", "runner", "base"]
_BY_STYLE: Final = ("margin_s", "p_safe", "plate_s", "plate_n")
_FACED: Final = ("margin_s", "p_safe", "low", "high", "picked", "run_s", "run_n", "plate_n", "pop_n")


def steal_calls(steals: pd.DataFrame, need: dict[str, float], *, few_readings: int = 5) -> pd.DataFrame:
    """What does each runner hear about each battery and base?

    He is told to go where even the low end of his chance, with the deliveries mixed as he will meet them, is as high as
    needed. Where the chance itself is, but not its low end, it is close; where only the full stretch makes it so, he
    needs a read of the delivery: both are "only if". Where the delivery or the throw it hangs on was hardly ever timed,
    nobody knows.

    Args:
        steals: what `steals` returned.
        need: chance that makes it even, by base; from `stakes.stake` at the moment asked about.
        few_readings: a delivery or a throw timed less often than this is not known.

    Returns:
        One row for each team, player (the pitcher), catcher, runner and base: CALL_COLUMNS. `because`: "sure" (go),
        "close" or "stretch" (only if), "late" (no), "few" (unknown). `margin_s`, `p_safe`, `low`, `high` and
        `picked` are of the deliveries mixed, `stretch_...` and `slide_...` of each, with the time to the plate it rests
        on; missing where he has no slide step.
    """
    faced = steals[steals["style"].eq("mixed") | ~steals.duplicated(_KEYS, keep=False)]
    table = faced[[*_KEYS, *_FACED]].reset_index(drop=True)
    for style, name in (("stretch", "stretch"), ("slide_step", "slide")):
        rows = steals.loc[steals["style"].eq(style), [*_KEYS, *_BY_STYLE]]
        rows = rows.rename(columns={column: f"{name}_{column}" for column in _BY_STYLE})
        table = table.merge(rows, on=_KEYS, how="left")
    table["slide_plate_n"] = table["slide_plate_n"].astype("Int64")
    table["need"] = table["base"].map(need).astype(float)
    few = (table["plate_n"] < few_readings) | (table["pop_n"] < few_readings)
    sure, close = table["low"] >= table["need"], table["p_safe"] >= table["need"]
    stretch = table["stretch_p_safe"] >= table["need"]
    cases = [few, sure, close, stretch]
    table["because"] = np.select(cases, ["few", "sure", "close", "stretch"], "late")
    table["call"] = np.select(cases, ["unknown", "go", "only_if", "only_if"], "no")
    return table[CALL_COLUMNS]
