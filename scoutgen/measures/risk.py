"""What a base taken is worth over a game: the odds that are even, at every lead and inning a coach asks about."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from scoutgen.measures.stakes import Moment, Stake, even_odds, send, stake
from scoutgen.measures.win_chance import GameRules, WinTable

#: The leads a coach asks about.
LEADS: Final = (-3, -2, -1, 0, 1, 2, 3)


@dataclass(frozen=True)
class RiskRow:
    """One lead: the stake in each of `innings_shown`; None where the game is over."""

    lead: int
    stakes: tuple[Stake | None, ...]


@dataclass(frozen=True)
class RiskTable:
    """What one steal hangs on with so many outs; `title` names it."""

    base: str
    outs: int
    rows: tuple[RiskRow, ...]


@dataclass(frozen=True)
class Contrast:
    """The same steal late with one out, in a tied game and at a lead."""

    lead: int
    tied: Stake
    other: Stake

    @property
    def part(self) -> float:
        """What there is to win, as a part of what there is in a tied game."""
        return self.other.gain / self.tied.gain


@dataclass(frozen=True)
class OneRun:
    """What playing for one run is worth late in a game, at a lead.

    Attributes:
        lead: of the team at bat.
        sacrifice: chance to win lost by a sacrifice that works, first occupied and none out.
        bunt_for_hit: chance of a bunt hit that is even with a usual plate appearance, bases empty and none out.
    """

    lead: int
    sacrifice: float
    bunt_for_hit: float


def innings_shown(rules: GameRules) -> tuple[int, ...]:
    """Innings that stand for the parts of a game: early, halfway, and the last three."""
    last = rules.innings
    return tuple(dict.fromkeys((2, (last + 1) // 2, last - 2, last - 1, last)))


def late(rules: GameRules) -> int:
    """The inning that sentences about the end of a game speak of: the last but one."""
    return rules.innings - 1


def usual_moment(rules: GameRules, half: str, outs: int = 1) -> Moment:
    """The moment a plain answer is given for: a tied game halfway."""
    return Moment((rules.innings + 1) // 2, half, 0, outs)


def needs(table: WinTable, half: str, bases: Sequence[str] = ("2", "3", "home")) -> dict[str, float]:
    """Chance of success that is even, by base, in a tied game halfway with one out."""
    return {base: stake(table, base, usual_moment(table.rules, half)).break_even for base in bases}


def needs_by_outs(table: WinTable, half: str, base: str, *, others: str = "") -> tuple[float, ...]:
    """The same for none, one and two out; `others` stay on their bases."""
    moments = [usual_moment(table.rules, half, outs) for outs in range(3)]
    return tuple(stake(table, base, when, others=others).break_even for when in moments)


def sending_by_outs(table: WinTable, half: str, play: str) -> tuple[float, ...]:
    """Chance of success that is even when a runner is sent for the extra base, for none, one and two out."""
    return tuple(send(table, play, usual_moment(table.rules, half, outs)).break_even for outs in range(3))


def risk_tables(table: WinTable, half: str, bases: Sequence[str] = ("2", "3")) -> tuple[RiskTable, ...]:
    """What a steal hangs on at every lead and inning; one out first, since that is asked most."""
    return tuple(RiskTable(base, outs, _rows(table, half, base, outs)) for base in bases for outs in (1, 0, 2))


def contrasts(table: WinTable, half: str, leads: Sequence[int] = (2, -2)) -> tuple[Contrast, ...]:
    """A steal of second late in the game beside the same one in a tied game."""
    inning = late(table.rules)
    tied = stake(table, "2", Moment(inning, half, 0, 1))
    return tuple(Contrast(lead, tied, stake(table, "2", Moment(inning, half, lead, 1))) for lead in leads)


def one_run(table: WinTable, half: str, leads: Sequence[int] = (-1, 0, 1)) -> tuple[OneRun, ...]:
    """What a sacrifice costs and a bunt for a hit needs, late with none out."""
    inning, found = late(table.rules), []
    for lead in leads:
        on, moved = table.chance(inning, half, lead, 0, "1"), table.chance(inning, half, lead, 1, "2")
        now, out = table.chance(inning, half, lead, 0, ""), table.chance(inning, half, lead, 1, "")
        found.append(OneRun(lead, on - moved, even_odds(on - now, now - out)))
    return tuple(found)


def _rows(table: WinTable, half: str, base: str, outs: int) -> tuple[RiskRow, ...]:
    last = table.rules.innings
    return tuple(
        RiskRow(
            lead,
            tuple(
                None
                if half == "bottom" and inning >= last and lead > 0
                else stake(table, base, Moment(inning, half, lead, outs))
                for inning in innings_shown(table.rules)
            ),
        )
        for lead in LEADS
    )
