"""How likely is it that the team at bat wins, by inning, half, lead, outs and bases?"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from scoutgen.measures.intervals import Floats
from scoutgen.measures.run_chain import STATES, RunChain, runs_distribution, state

#: Leads further apart than this are all but over; the tables hold them as this.
FURTHEST_LEAD: Final = 30

HALVES: Final = ("top", "bottom")

_LEADS: Final = np.arange(-FURTHEST_LEAD, FURTHEST_LEAD + 1)


@dataclass(frozen=True)
class GameRules:
    """What ends a game.

    Attributes:
        innings: innings played unless tied; 7 in some doubleheaders.
        run_rule_lead: a lead that ends the game once the trailing team has batted `run_rule_innings` times; None where
            no such rule is played. Which games have one is for the conference and the rule book.
        run_rule_innings: see there.
    """

    innings: int = 9
    run_rule_lead: int | None = None
    run_rule_innings: int = 7


@dataclass(frozen=True)
class WinTable:
    """Chances to win of the team at bat.

    Attributes:
        rules: the rules it was worked out for.
        batting: half innings (top of the first, bottom of the first, ...) x leads of the team at bat (from
            -FURTHEST_LEAD on) x states. The last two half innings stand for every extra one.
    """

    rules: GameRules
    batting: Floats

    def chance(self, inning: int, half: str, lead: int, outs: int, bases: str) -> float:
        """Chance that the team at bat wins.

        Args:
            inning: from 1; extra innings are alike.
            half: "top" or "bottom".
            lead: of the team at bat, negative when behind.
            outs: 0-2; 3 is the end of the half inning.
            bases: occupied bases, as "13"; nobody is left on when the half inning is over.
        """
        place = min(inning - 1, self.rules.innings) * 2 + HALVES.index(half)
        at = int(np.clip(lead, -FURTHEST_LEAD, FURTHEST_LEAD)) + FURTHEST_LEAD
        if outs < 3:
            return float(self.batting[place, at, state(bases, outs)])
        return float(_after(self, place)[at])


def win_table(chain: RunChain, rules: GameRules | None = None) -> WinTable:
    """Chances to win between equal teams, from the last half inning back to the first.

    Both teams score by `chain`. The home team stops batting when it is ahead in the last inning or later, and the
    game ends at once when it gets there; a tie goes to extra innings until one does not end tied.

    Source:
        Lindsey, Operations Research 11 (1963) 477-501, for the way; the chain is `run_chain`.
    """
    played = rules or GameRules()
    runs = runs_distribution(chain)
    halves = 2 * (played.innings + 1)
    table = WinTable(played, np.empty((halves, len(_LEADS), STATES)))
    for place in reversed(range(halves)):
        after = _after(table, place)
        # Chances after each number of runs more: runs x leads.
        more = np.array([_shifted(after, scored) for scored in range(runs.shape[1])])
        table.batting[place] = (runs @ more).T
    return table


def _after(table: WinTable, place: int) -> Floats:
    """The batting team's chance when its half inning is over, by its lead then: leads."""
    rules, innings = table.rules, table.rules.innings
    inning, bottom = place // 2 + 1, place % 2 == 1
    if not bottom:
        # The lead turns round with the side at bat. The home team need not bat when it is ahead at the last.
        home = 1 - table.batting[place + 1, ::-1, 0]
        if inning >= innings:
            home = np.where(_LEADS < 0, 0.0, home)
        return _ended(home, rules, inning, bottom=False)
    if inning >= innings:
        # Between equals a new inning is worth as much to either.
        return np.where(_LEADS > 0, 1.0, np.where(_LEADS < 0, 0.0, 0.5))
    return _ended(1 - table.batting[place + 1, ::-1, 0], rules, inning, bottom=True)


def _ended(chance: Floats, rules: GameRules, inning: int, *, bottom: bool) -> Floats:
    """With games that the run rule stops after this half inning taken as won and lost, by the lead of its batters."""
    if rules.run_rule_lead is None or inning < rules.run_rule_innings:
        return np.asarray(chance, dtype=np.float64)
    lost, won = -rules.run_rule_lead >= _LEADS, rules.run_rule_lead <= _LEADS
    # After the top the home team has its turn still to come when it is the one behind.
    return np.where(lost, 0.0, np.where(won & bottom, 1.0, chance))


def _shifted(after: Floats, runs: int) -> Floats:
    """`after` at each lead with so many runs more; leads beyond the table count as its end."""
    return np.asarray(after[np.minimum(np.arange(len(_LEADS)) + runs, len(_LEADS) - 1)], dtype=np.float64)
