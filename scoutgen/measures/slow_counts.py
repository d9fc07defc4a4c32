"""In which counts does he throw something slow, which gives a runner a few hundredths and a ball in the dirt?"""

from typing import Final

import pandas as pd

from scoutgen.measures.intervals import LEVEL
from scoutgen.measures.speeds import HARD, speed_bands
from scoutgen.measures.usage import usage

SLOW_COLUMNS: Final = ["team", "player", "count", "k", "n", "share", "low", "high", "later_s", "games", "last_seen"]

#: Feet a pitch travels, and what is left of its speed on the way on the whole. Common practice, from memory: let go
#: about five and a half feet before the rubber's distance of 60.5, a tenth of the speed lost by the plate.
FLIGHT_FT: Final = 55.0
MEAN_SPEED: Final = 0.95
_FPS_OF_MPH: Final = 5280 / 3600

#: The two names under which slow and hard pitches are counted; the league's usual moves with the count are those of
#: a breaking ball against a fastball.
_SLOW, _HARD = "slider", "fastball"


def flight_seconds(mph: float) -> float:
    """Seconds a pitch of that speed (out of the hand) is on its way."""
    return FLIGHT_FT / (mph * _FPS_OF_MPH * MEAN_SPEED)


def slow_counts(pitches: pd.DataFrame, *, level: float = LEVEL) -> pd.DataFrame:
    """How often does he throw a breaking ball or a change in each count, and how much later does it arrive?

    Args:
        pitches: the pitches of the men asked about; every pitch that is not of `speeds.HARD` is slow.
        level: coverage of the interval, 0-1.

    Returns:
        One row for each team, player and count (as `usage`, all batters): SLOW_COLUMNS. k of n slow pitches, the
        estimate leaning on his like counts, 90 % interval. `later_s`: how much later his slow pitches arrive than his
        hard ones by their median speeds; NaN where either was never timed.
    """
    known = pitches[pitches["pitch"].notna()].reset_index(drop=True)
    kinds = known["pitch"].astype(str).isin(HARD).map({True: _HARD, False: _SLOW})
    two = known.assign(pitch=pd.Categorical(kinds, categories=[_HARD, _SLOW]))
    used = usage(two, level=level)
    slow = used[used["pitch"].eq(_SLOW) & used["bats"].eq("all")]
    bands = speed_bands(two.assign(pitch=kinds.astype("category")))
    keys = ["team", "player"]
    hard, slower = (bands.loc[bands["pitch"].eq(kind), [*keys, "median_mph"]] for kind in (_HARD, _SLOW))
    speeds = hard.merge(slower, on=keys, suffixes=("", "_slow"))
    speeds["later_s"] = [flight_seconds(late) - flight_seconds(early) for early, late in
                         zip(speeds["median_mph"], speeds["median_mph_slow"], strict=True)]  # fmt: skip
    table = slow.astype(dict.fromkeys(keys, "str")).merge(speeds[[*keys, "later_s"]], on=keys, how="left")
    return table[SLOW_COLUMNS].reset_index(drop=True)
