"""Who of ours comes home on their return throw, or straight on the windup, and on which habits that hangs."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

import pandas as pd

from scoutgen.measures.counts import ALL
from scoutgen.measures.home_budget import (
    BASE_PATH_FT,
    USUAL_RETURN,
    Budget,
    return_budget,
    top_speed,
    windup_budget,
)
from scoutgen.measures.intervals import LEVEL
from scoutgen.measures.levels import runner_on
from scoutgen.measures.steal_odds import Chance, Seconds
from scoutgen.measures.steals import surest

HOME_COLUMNS: Final = [
    "team", "player", "catcher", "third_baseman", "runner", "play", "start_ft", "run_s", "ball_s", "flight_s",
    "flight_n", "flight_method", "turn_s", "throw_s", "tag_s", "margin_s", "p_safe", "low", "high", "enough", "call",
    "there", "look_k", "look_n", "lob_k", "lob_n", "feet_n",
]  # fmt: skip

#: The habits a run home on the return throw hangs on, as `usual_habits.yml` names them.
NO_LOOK: Final = "returns-without-look"
LOB: Final = "lobs-return"

#: A run home is a yes where it is enough in so many cases of what is not known: where, as in a steal that is a go, the
#: low end of the chance's interval is enough.
YES: Final = 0.5 + LEVEL / 2

#: To the plate from the windup where he was never timed. Common practice, memory: 1.7 to 2.2 s and more.
USUAL_WINDUP: Final = Seconds(1.85, 0.12, 0.07)


@dataclass(frozen=True)
class HomeRunner:
    """One of our men: his usual times in seconds and leads in feet; None where not known."""

    key: str
    first_second: float | None = None
    second_third: float | None = None
    third_home: float | None = None
    first_ft: float | None = None
    second_ft: float | None = None
    third_ft: float | None = None
    secondary_ft: float | None = None

    def top_fps(self) -> float | None:
        """His top speed, from third to home, else from first to second or second to third, each from his lead.

        None without a time, and without a lead off third: he has to start somewhere.
        """
        if self.third_ft is None:
            return None
        timed = (
            (self.third_home, self.third_ft),
            (self.first_second, self.first_ft),
            (self.second_third, self.second_ft),
        )
        for seconds, lead in timed:
            if seconds is not None and lead is not None:
                return top_speed(seconds, BASE_PATH_FT - lead)
        return None


@dataclass(frozen=True)
class HomeTables:
    """`time_summary`, `habit_rates` and `off_bag` of the season."""

    times: pd.DataFrame
    habits: pd.DataFrame
    off_bag: pd.DataFrame


@dataclass(frozen=True)
class _Seen:
    k: int
    n: int

    def chance(self) -> Chance:
        """Mean of the share under Jeffreys' prior: half a look each way; not known without a look."""
        return Chance((self.k + 0.5) / (self.n + 1) if self.n else math.nan)


def home_plays(
    tables: HomeTables,
    runners: Iterable[HomeRunner],
    defences: Iterable[tuple[str, str, str, str | None]],
    *,
    need: float,
    few_readings: int = 5,
) -> pd.DataFrame:
    """Home on the return throw and straight home: seconds on both sides, for every runner of ours.

    Args:
        tables: what the other measures say of the season.
        runners: our men; who has no lead off third, or no time with the lead it was taken from, has no row.
        defences: team, pitcher, catcher and third baseman, by key.
        need: chance that makes it even.
        few_readings: of one thing timed by watch and by frames, what has fewer gives way to what has not.

    Returns:
        One row for each team, player (the pitcher), catcher, runner and play ("return throw", "windup"): HOME_COLUMNS.
        He starts as far off as his own lead goes (with the secondary, where known, for the return throw), but no
        farther than the third baseman stands off the bag (median of `feet_n` looks; his own lead where none were
        charted). `ball_s` is all that the defence needs, `flight_s` of it the return throw or the pitch (`flight_n`
        readings by `flight_method`, 0 for a usual one). `enough`: how likely his true chance is at least `need`;
        `call`: "yes" where that is as good as sure, "close" where the chance itself is enough, else "no". `there`:
        chance that no look and a lob come together, not known without looks at both, from `look_k` of `look_n` and
        `lob_k` of `lob_n` looks with a runner on third.
    """
    live = tables.times[~tables.times["warmup"]]
    flights = surest(live, ["team", "player", "measure", "style", "bases"], few_readings)
    rows = []
    men = [
        (runner, speed, runner.third_ft)
        for runner in runners
        if (speed := runner.top_fps()) is not None and runner.third_ft is not None
    ]
    for team, pitcher, catcher, third_baseman in defences:
        off = _feet(tables.off_bag, team, third_baseman)
        look, lob = (_seen(tables.habits, team, catcher, habit) for habit in (NO_LOOK, LOB))
        flight = flights.get((team, catcher, "return_throw", "lob", ALL), USUAL_RETURN["lob"])
        windup = flights.get((team, pitcher, "plate", "windup", ALL), USUAL_WINDUP)
        for runner, speed, lead in men:
            key = (team, pitcher, catcher, third_baseman, runner.key)
            start = _start(lead + (runner.secondary_ft or 0.0), off, lead)
            slow = return_budget(speed, start, flight, no_look=look.chance(), lobs=lob.chance())
            rows.append((*key, "return throw", *_amounts(slow, flight, need), look.k, look.n, lob.k, lob.n, off[1]))
            straight = windup_budget(speed, _start(lead, off, lead), windup)
            rows.append((*key, "windup", *_amounts(straight, windup, need), 0, 0, 0, 0, off[1]))
    return pd.DataFrame(rows, columns=HOME_COLUMNS)


def _call(budget: Budget, need: float) -> str:
    return "yes" if budget.enough(need) >= YES else "close" if budget.p_safe >= need else "no"


def _amounts(budget: Budget, flight: Seconds, need: float) -> tuple[float | str, ...]:
    parts = {name: part.mean for name, part in budget.ball}
    return (
        budget.start_ft, budget.run.mean, sum(parts.values()), flight.mean, flight.n, flight.method,
        parts.get("pitcher's turn", 0.0), parts.get("throw home", 0.0), parts["tag"],
        budget.margin_s, budget.p_safe, budget.low, budget.high, budget.enough(need), _call(budget, need),
        budget.there,
    )  # fmt: skip


def _start(reach: float, off: tuple[float | None, int], lead: float) -> float:
    return lead if off[0] is None else min(reach, off[0])


def _feet(off_bag: pd.DataFrame, team: str, third_baseman: str | None) -> tuple[float | None, int]:
    """How far off the bag with a runner on third, and of how many looks."""
    at = off_bag["team"].eq(team) & off_bag["position"].eq(5) & off_bag["runner_on"].eq("3")
    rows = off_bag[at & off_bag["player"].eq(third_baseman or ALL)]
    return (float(rows["median_ft"].iloc[0]), int(rows["n"].iloc[0])) if len(rows) else (None, 0)


def _seen(habits: pd.DataFrame, team: str, catcher: str, habit: str) -> _Seen:
    """Looks with a runner on third, in whatever state of the other bases."""
    his = habits["team"].eq(team) & habits["player"].eq(catcher) & habits["habit"].eq(habit)
    rows = habits[his & runner_on(habits["bases"], "3")]
    return _Seen(int(rows["k"].sum()), int(rows["n"].sum()))
