"""What would more readings settle: of the steals that are open, how many more of each time would decide."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Final

import numpy as np
import pandas as pd
from scipy import special

from scoutgen.measures.calls import steal_calls
from scoutgen.measures.steals import Runner, Tables, steals

SETTLING_COLUMNS: Final = ["team", "player", "catcher", "base", "what", "have", "runners", "open", "settles"]
#: How many more readings are asked about: what a man's outing brings.
MORE: Final = 10
THINGS: Final = ("stretch", "slide_step", "pop")

#: Where his true mean may turn out to be, as normal deviates of equal weight.
_TURNS: Final[Mapping[str, float]] = {
    name: float(special.ndtri(share)) for name, share in (("quicker", 1 / 6), ("as now", 1 / 2), ("slower", 5 / 6))
}


def settling(
    tables: Tables,
    runners: Iterable[Runner],
    batteries: Iterable[tuple[str, str, str]],
    need: dict[str, float],
    *,
    own_team: str,
    few_readings: int = 5,
) -> pd.DataFrame:
    """How many of our runners' answers are open with each battery, and how many would MORE readings of a time settle?

    An answer is open where the chance that is needed lies inside the interval of his chance to be safe, or where the
    delivery or the throw was timed too seldom for an answer. With more readings a mean is known better, and it may turn
    out anywhere where it may be now: the answers are worked out anew at three such places of equal weight, and what is
    open then is compared with what is open now. So it is weighed before anything is charted (preposterior analysis:
    Raiffa and Schlaifer, Applied Statistical Decision Theory, 1961, ch. 4).

    Args:
        tables: as for `steals`.
        runners: our men.
        batteries: team, pitcher and catcher, by key.
        need: chance that is even, by base.
        own_team: our key.
        few_readings: as for `steals`.

    Returns:
        One row for each battery, base ("2", "3") and what can be timed ("stretch", "slide_step" where he uses it,
        "pop"): SETTLING_COLUMNS. `have` readings there are; of `runners` asked about `open` are open; `settles` of them
        on average with MORE readings, missing where it was never timed, since nobody knows then what it would show.
    """
    men, pairs = list(runners), list(batteries)
    rows: list[tuple[object, ...]] = []
    for team, pitcher, catcher in pairs:
        whose = ((team, pitcher), (team, catcher))
        mine = Tables(**{name: _of(getattr(tables, name), whose, own_team) for name in Tables.__dataclass_fields__})
        # Each case is a battery of a team of its own, so that all are asked about at once.
        cases = {team: mine} | {
            f"{team} {what} {turn}": _timed(mine, what, (pitcher, catcher), z)
            for what in THINGS
            for turn, z in _TURNS.items()
        }
        found = steals(
            _together(cases, team), men, [(case, pitcher, catcher) for case in cases],
            own_team=own_team, few_readings=few_readings,
        )  # fmt: skip
        calls = steal_calls(found, need, few_readings=few_readings)
        open_in = {at: _open(rows) for at, rows in calls.groupby(["team", "base"], sort=False)}
        for base, answers in calls[calls["team"].eq(team)].groupby("base", sort=False):
            undecided = open_in[team, base]
            for what in THINGS:
                have = _have(answers, what)
                if have is None:
                    continue
                left = float(np.mean([open_in[f"{team} {what} {turn}", base] for turn in _TURNS]))
                settles = max(undecided - left, 0.0) if have else None
                rows.append((team, pitcher, catcher, base, what, have, len(answers), undecided, settles))
    table = pd.DataFrame(rows, columns=SETTLING_COLUMNS)
    return table.astype({**dict.fromkeys(("have", "runners", "open"), "int64"), "settles": "float64"})


def _of(table: pd.DataFrame, men: tuple[tuple[str, str], ...], own_team: str) -> pd.DataFrame:
    """The rows of the battery and of our own men."""
    at = table["team"].eq(own_team)
    for team, player in men:
        at |= table["team"].eq(team) & table["player"].eq(player)
    return table[at]


def _together(cases: Mapping[str, Tables], team: str) -> Tables:
    """The tables of all cases in one, each under its own name of the team; our own men's are in it once."""
    parts = {}
    for name in Tables.__dataclass_fields__:
        tables = [(case, getattr(given, name)) for case, given in cases.items()]
        theirs = [rows[rows["team"].eq(team)].assign(team=case) for case, rows in tables]
        parts[name] = pd.concat([tables[0][1], *theirs[1:]], ignore_index=True)
    return Tables(**parts)


def _open(answers: pd.DataFrame) -> int:
    inside = (answers["low"] < answers["need"]) & (answers["need"] <= answers["high"])
    return int((inside | answers["call"].eq("unknown")).sum())


def _have(answers: pd.DataFrame, what: str) -> int | None:
    """Readings behind that time; None where the answers do not hang on it."""
    column = {"stretch": "stretch_plate_n", "slide_step": "slide_plate_n", "pop": "pop_n"}[what]
    n = answers[column].iloc[0]
    return None if pd.isna(n) else int(n)


def _timed(tables: Tables, what: str, men: tuple[str, str], z: float) -> Tables:
    """The tables with MORE readings of one time, whose mean turned out z deviates from where it is now."""
    pitcher, catcher = men
    name = "throw_times" if what == "pop" else "times"
    table = getattr(tables, name)
    at = table["player"].eq(catcher if what == "pop" else pitcher) & ~table["warmup"]
    at &= table["measure"].eq("pop") if what == "pop" else table["measure"].eq("plate") & table["style"].eq(what)
    n = table.loc[at, "n"].astype(float)
    known = table.loc[at, "mean_sd"] * np.sqrt(n / (n + MORE))
    changed = table.copy()
    moved = z * np.sqrt((table.loc[at, "mean_sd"] ** 2 - known**2).clip(lower=0))
    changed.loc[at, "mean"] = table.loc[at, "mean"] + moved
    changed.loc[at, "mean_sd"] = known
    changed.loc[at, "n"] = (n + MORE).astype(table["n"].dtype)
    return replace(tables, **{name: changed})
