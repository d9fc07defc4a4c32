"""What have their pitchers thrown in the last days?"""

from datetime import date
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.levels import in_order, plain_text
from scoutgen.measures.outings import charted_pitches

#: Days back that are told apart, the day before first.
DAYS: Final = 4
WORKLOAD_COLUMNS: Final = [
    "team", "player", "last_day", "days_ago", "last_pitches", *[f"day_{back}" for back in range(1, DAYS + 1)],
    "recent", "days_in_a_row",
]  # fmt: skip


def workload(pitches: pd.DataFrame, as_of: date) -> pd.DataFrame:
    """How many pitches has each of them thrown in the days before?

    Only charted games are known; a game nobody charted is not rest.

    Args:
        pitches: the season's `pitches`.
        as_of: the day asked about; its own pitches do not count.

    Returns:
        One row per team and player with a pitch charted before that day: WORKLOAD_COLUMNS. `last_pitches` on his last
        day, `days_ago`; `day_1` ... `day_4` the pitches of each of the days before, `recent` their sum; `days_in_a_row`
        days he pitched without a day between, up to the day before; 0 where he did not pitch then.
    """
    thrown = charted_pitches(pitches)
    today = np.datetime64(as_of, "D")
    rows = thrown[thrown["date"].to_numpy().astype("datetime64[D]") < today]
    by_day = rows.groupby(["team", "player", "date"], observed=True, sort=False).size().rename("n").reset_index()
    back = (today - by_day["date"].to_numpy().astype("datetime64[D]")).astype(int)
    by_day = by_day.assign(back=back)
    last = by_day.sort_values("back", kind="stable").drop_duplicates(["team", "player"])
    out = last.rename(columns={"date": "last_day", "back": "days_ago", "n": "last_pitches"}).reset_index(drop=True)
    key = pd.MultiIndex.from_frame(out[["team", "player"]].astype(str))
    days = np.zeros((len(out), DAYS), dtype=np.int64)
    near = by_day[by_day["back"] <= DAYS]
    place = key.get_indexer(pd.MultiIndex.from_frame(near[["team", "player"]].astype(str)))
    np.add.at(days, (place, near["back"].to_numpy() - 1), near["n"].to_numpy())
    for at in range(DAYS):
        out[f"day_{at + 1}"] = days[:, at]
    out["recent"] = days.sum(axis=1)
    out["days_in_a_row"] = np.cumprod(days > 0, axis=1).sum(axis=1)
    return plain_text(in_order(out, ["team", "player"]))[WORKLOAD_COLUMNS]
