"""Small habits and what each gives us."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.words import DOOR_WORDS, POSITION_WORDS, RUNNER_WORDS
from scoutgen.records.habit_kinds import HabitKind
from scoutgen.records.opponents import Team
from scoutgen.records.program import Thresholds


@dataclass(frozen=True)
class Tally:
    """How often it was seen in how many looks, with runners where `runners` says, and when last; None if never."""

    k: int
    n: int
    runners: str
    last_yes: date | None


# The runners a decision needs, whoever else is on: what a habit does without them says less about it.
_DECIDING = {
    "steal_home": ("with a runner on third", ("3", "13", "23", "123")),
    "bigger_lead": ("with first occupied and second open", ("1", "13")),
}


@dataclass(frozen=True)
class Habit:
    """One habit of one man, or of whoever plays a position.

    Attributes:
        kind: what it is, what it gives and which decision it feeds.
        player: his key; empty where only the position was charted.
        name: his name, or the position.
        position: scorekeeping number; None where not charted.
        claim: k of n over all situations.
        states: base states it was looked at in: "empty", "1", ... "123".
        situations: the same in words, each with its claim.
        days: for each of them the last day it was seen there; None if never.
        last_yes: the last day it was seen; None if never.
        feet: median, least, most and n, for habits measured as a distance.
        few_looks: fewer looks than this are no claim.
    """

    kind: HabitKind
    player: str
    name: str
    position: int | None
    claim: Claim
    states: tuple[str, ...]
    situations: tuple[tuple[str, Claim], ...]
    days: tuple[date | None, ...]
    last_yes: date | None
    feet: tuple[float, float, float, int] | None
    few_looks: int

    @property
    def third(self) -> Tally:
        """The looks with a runner on third, whoever else was on."""
        return self._in(*_DECIDING["steal_home"])

    @property
    def deciding(self) -> Tally:
        """The looks its decision rests on, if there are enough.

        For a steal of home those with a runner on third, for a lead off first those with nobody on second.
        """
        if self.kind.opens in _DECIDING and (there := self._in(*_DECIDING[self.kind.opens])).n >= self.few_looks:
            return there
        return Tally(self.claim.k, self.claim.n, "any runners", self.last_yes)

    def _in(self, runners: str, states: tuple[str, ...]) -> Tally:
        there = [
            (c, day)
            for state, (_, c), day in zip(self.states, self.situations, self.days, strict=True)
            if state in states
        ]
        seen = [day for _, day in there if day is not None]
        return Tally(sum(c.k for c, _ in there), sum(c.n for c, _ in there), runners, max(seen, default=None))

    @property
    def enough(self) -> bool:
        """Looked at often enough for a claim."""
        return self.claim.n >= self.few_looks

    @property
    def recurs(self) -> bool:
        """Looked at often enough and seen in half of the deciding looks or more: only then is it worth advice."""
        looks = self.deciding
        return looks.n >= self.few_looks and looks.k * 2 >= looks.n

    @property
    def where(self) -> str:
        """The position in words."""
        return POSITION_WORDS.get(self.position or 0, "")

    @property
    def door(self) -> str:
        """What it opens, in words; empty where it opens nothing by itself."""
        return DOOR_WORDS[self.kind.opens] if self.kind.opens else ""


def habits(
    rates: Rows, feet: Rows, kinds: Mapping[str, HabitKind], team: Team, limits: Thresholds
) -> tuple[Habit, ...]:
    """Habits of one team's men, in the order of the measure: those that most surely recur first within a man.

    Args:
        rates: the team's, or one man's, rows of `habit_rates`.
        feet: the same of `habit_feet`.
        kinds: what the staff charts, by key.
        team: for names.
        limits: how sure a percent must be.
    """
    distances = {_who(r): (r["median_ft"], r["min_ft"], r["max_ft"], r["n"]) for r in feet if r["bases"] == "all"}
    rows: dict[tuple[str, int | None, str], list[tuple[Row, Claim]]] = {}
    for row, claim in zip(rates, claims(rates, "habit", limits), strict=True):
        rows.setdefault(_who(row), []).append((row, claim))
    found = []
    for who, parts in rows.items():
        player, position, key = who
        whole, claim = next(((r, c) for r, c in parts if r["bases"] == "all"), parts[0])
        man = team.player(player)
        found.append(
            Habit(
                kind=kinds[key],
                player=player,
                name=man.name if man else POSITION_WORDS.get(position or 0, team.name),
                position=position,
                claim=claim,
                states=tuple(str(r["bases"]) for r, _ in parts if r["bases"] not in _ROLLED_UP),
                situations=tuple((RUNNER_WORDS[str(r["bases"])], c) for r, c in parts if r["bases"] not in _ROLLED_UP),
                days=tuple(r["last_yes"] for r, _ in parts if r["bases"] not in _ROLLED_UP),
                last_yes=whole["last_yes"],
                feet=distances.get(who),
                few_looks=limits.few_looks,
            )
        )
    return tuple(found)


_ROLLED_UP = ("all", "on", "scoring")


def doors(found: Iterable[Habit]) -> tuple[Habit, ...]:
    """Habits that open something and recur, the surest first."""
    open_ones = [h for h in found if h.kind.opens and h.recurs]
    return tuple(sorted(open_ones, key=lambda h: (-(h.claim.low or 0.0), h.name, h.kind.key)))


def _who(row: Row) -> tuple[str, int | None, str]:
    return row["player"] or "", row["position"], row["habit"]
