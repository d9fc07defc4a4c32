"""What a base taken gains, what an out on the way costs, and which odds make it even."""

from itertools import product
from typing import Final, NamedTuple

import pandas as pd

from scoutgen.measures.run_chain import BASE_STATES
from scoutgen.measures.win_chance import HALVES, WinTable

#: What the bases are after a steal of each base succeeds or fails, with only that runner on; home leaves nobody.
STEALS: Final = {"2": ("1", "2"), "3": ("2", "3"), "home": ("3", "")}

STAKE_COLUMNS: Final = ["base", "inning", "half", "lead", "outs", "before", "gain", "cost", "break_even"]


class Moment(NamedTuple):
    """When a decision falls: `inning` from 1, `half` "top" or "bottom", `lead` of the team at bat, `outs` 0-2."""

    inning: int
    half: str
    lead: int
    outs: int


class Stake(NamedTuple):
    """One decision in chances to win.

    Attributes:
        before: chance to win now.
        gain: what success adds.
        cost: what failure takes away.
        break_even: chance of success that makes it even.
    """

    before: float
    gain: float
    cost: float
    break_even: float


def even_odds(gain: float, cost: float) -> float:
    """Chance of success at which a risk is even; 1 where success gains nothing."""
    return cost / (gain + cost) if gain > 0 else 1.0


def stake(table: WinTable, base: str, when: Moment, *, others: str = "") -> Stake:
    """What hangs on one attempt?

    Args:
        table: chances to win.
        base: the base to be taken, "2", "3" or "home".
        when: the moment.
        others: runners beside the one who goes; they stay where they are.
    """
    left, reached = STEALS[base]
    inning, half, lead, outs = when
    before = table.chance(inning, half, lead, outs, _with(others, left))
    scored = int(base == "home")
    safe = table.chance(inning, half, lead + scored, outs, _with(others, reached))
    out = table.chance(inning, half, lead, outs + 1, others if outs < 2 else "")
    return Stake(before, safe - before, before - out, even_odds(safe - before, before - out))


def stake_table(table: WinTable, bases: tuple[str, ...] = ("2", "3"), *, furthest: int = 4) -> pd.DataFrame:
    """Every decision that a coach meets: STAKE_COLUMNS, a row for each base, inning, half, lead and outs.

    Leads run from -`furthest` to `furthest`; a game already won in its last half inning has no rows.
    """
    innings = range(1, table.rules.innings + 1)
    leads = range(-furthest, furthest + 1)
    rows = [
        (base, *when, *stake(table, base, when))
        for base, when in product(bases, map(Moment._make, product(innings, HALVES, leads, range(3))))
        if not (when.half == "bottom" and when.inning == table.rules.innings and when.lead > 0)
    ]
    return pd.DataFrame(rows, columns=STAKE_COLUMNS)


def _with(others: str, base: str) -> str:
    word = "".join(sorted(set(others + base)))
    if word not in BASE_STATES:
        raise ValueError(f"{word!r} are no bases")
    return word
