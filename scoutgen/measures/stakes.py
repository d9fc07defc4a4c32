"""What a base taken gains, what an out on the way costs, and which odds make it even."""

from typing import Final, NamedTuple

from scoutgen.measures.run_chain import BASE_STATES
from scoutgen.measures.win_chance import WinTable

#: What the bases are after a steal of each base succeeds or fails, with only that runner on; home leaves nobody.
_BASES_AFTER: Final = {"2": ("1", "2"), "3": ("2", "3"), "home": ("3", "")}

#: An extra base on a hit with that runner alone: the bases where he is held, where he is safe and where he is out, and
#: the runs that safe brings; the batter stops at the base he hit for.
_SENT: Final = {
    "first_third": ("12", "13", "1", 0),
    "second_home": ("13", "1", "1", 1),
    "first_home": ("23", "2", "2", 1),
}


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
    left, reached = _BASES_AFTER[base]
    inning, half, lead, outs = when
    before = table.chance(inning, half, lead, outs, _with(others, left))
    scored = int(base == "home")
    safe = table.chance(inning, half, lead + scored, outs, _with(others, reached))
    out = table.chance(inning, half, lead, outs + 1, others if outs < 2 else "")
    return Stake(before, safe - before, before - out, even_odds(safe - before, before - out))


def send(table: WinTable, play: str, when: Moment) -> Stake:
    """What hangs on sending a runner for the extra base, beside holding him?

    Args:
        table: chances to win.
        play: "first_third" and "second_home" on a single, "first_home" on a double.
        when: the moment of the hit.
    """
    held, safe_bases, out_bases, scored = _SENT[play]
    inning, half, lead, outs = when
    before = table.chance(inning, half, lead, outs, held)
    safe = table.chance(inning, half, lead + scored, outs, safe_bases)
    out = table.chance(inning, half, lead, outs + 1, out_bases if outs < 2 else "")
    return Stake(before, safe - before, before - out, even_odds(safe - before, before - out))


def _with(others: str, base: str) -> str:
    word = "".join(sorted(set(others + base)))
    if word not in BASE_STATES:
        raise ValueError(f"{word!r} are no bases")
    return word
