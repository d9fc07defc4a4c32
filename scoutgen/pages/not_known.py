"""What is not known yet of one opponent: a charting list in the order of what the next game's decisions need."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from scoutgen.measures.settling import MORE
from scoutgen.measures.standing import FEW_BALLS
from scoutgen.measures.told_apart import to_tell_apart
from scoutgen.pages.findings import Findings
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.rows import Row
from scoutgen.pages.usage import GLANCE
from scoutgen.pages.words import SHORT_SIDES
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series

MENU: Final = ("Not known yet",)
# On which blank sheet each table is charted: its page, and its name.
_SHEETS: Final = {
    "pitches": ("charting/pitches", "Pitches"),
    "times": ("charting/times", "Times"),
    "looks": ("charting/looks", "Looks"),
}
_ON: Final = {
    "pitches": "pitches", "at_bat": "pitches", "times": "times", "throws": "times", "holds": "looks", "habits": "looks",
    "off_bag": "looks", "infield_habits": "looks", "positions": "looks",
}  # fmt: skip
_TIMED: Final = {"stretch": "plate from the stretch", "slide_step": "plate on the slide step", "pop": "pop to {}"}
_BASES: Final = {"2": "second", "3": "third"}
# Of the lineup and of those who may come in as much as fits one sheet: down to which priority.
_LINEUP, _BULLPEN = 3, 1
# Fewer than half a runner is none.
_SETTLES: Final = 0.5


@dataclass(frozen=True)
class Item:
    """One thing to chart.

    Attributes:
        what: it, as a member of staff would say it.
        have, want: how much there is, and how much makes it usable.
        why: the decision it feeds.
        sheet, sheet_name: page and name of the blank sheet it is charted on.
    """

    what: str
    have: int
    want: int
    why: str
    sheet: str
    sheet_name: str


@dataclass(frozen=True)
class Steal:
    """What is open of a steal with one battery, and what more readings would settle.

    Attributes:
        base: "second" or "third".
        open, runners: so many of our runners have no sure answer.
        settles: what can be timed, readings there are, and how many answers `more` readings would settle on average;
            None where it was never timed.
    """

    base: str
    open: int
    runners: int
    settles: tuple[tuple[str, int, float | None], ...]
    more: int = MORE

    @property
    def mixed(self) -> bool:
        """He has more than one delivery."""
        return any(what == _TIMED["slide_step"] for what, _, _ in self.settles)

    @property
    def worth(self) -> tuple[tuple[str, int, float | None], ...]:
        """What is worth timing, what settles most in front; what was never timed before all."""
        worth = [part for part in self.settles if part[2] is None or part[2] >= _SETTLES]
        return tuple(sorted(worth, key=lambda part: (part[2] is not None, -(part[2] or 0.0))))


@dataclass(frozen=True)
class Apart:
    """Two pitches that cannot be told apart yet; `need` pitches would tell, None where they are too near for that.

    No more than there are where the estimate tells them apart already, but the tally puts the other first.
    """

    when: str
    pitches: tuple[str, str]
    n: int
    need: int | None


@dataclass(frozen=True)
class Gaps:
    """What is not known of one man, or of the infield."""

    title: str
    address: str
    role: str
    steals: tuple[Steal, ...]
    items: tuple[Item, ...]
    apart: tuple[Apart, ...] = ()

    @property
    def nothing(self) -> bool:
        """All of it is there."""
        return not (self.steals or self.items or self.apart)


@dataclass(frozen=True)
class Shared:
    """One thing to chart of several men: number and name, address, how much there is."""

    item: Item
    men: tuple[tuple[str, str, int], ...]


@dataclass(frozen=True)
class NotKnownPage:
    """All that the page says.

    Attributes:
        series: the coming series with them; None where another team comes first.
        first: tonight's starter, their catcher, the other starters, the infield.
        lineup: the same things of several men.
        bullpen: what is most urgent of those who may come in; all of it stands under `rest`.
        rest: everybody else of whom something is missing, those who may come in first.
        others: name and address of the other opponents' lists.
        few_balls: of a kind, on one side of the plate, from which on a level is moved for.
    """

    address: str
    title: str
    team_name: str
    team_address: str
    series: Series | None
    first: tuple[Gaps, ...]
    lineup: tuple[Shared, ...]
    bullpen: tuple[Shared, ...]
    rest: tuple[Gaps, ...]
    others: tuple[tuple[str, str], ...]
    built: str
    as_of: date
    few_balls: int = FEW_BALLS

    @property
    def menu(self) -> tuple[str, ...]:
        """The list for the next game stands in the menu; the others are linked from it and from their team's page."""
        return MENU if self.series else ()


def not_known_address(team: Team) -> str:
    """Where a team's list stands."""
    return f"not-known-yet/{team.key}"


def not_known_page(
    team: Team,
    people: Sequence[Person],
    findings: Findings,
    season: Season,
    *,
    series: Series | None,
    teams: Iterable[Team],
    built: str,
) -> NotKnownPage:
    """Put one team's list together.

    The order is that of the decisions, not of a formula: tonight's starter (what to look for, whether to steal), their
    catcher, the other starters, where the infield stands, the lineup (where we stand), who may come in, the rest. Of
    one man first the steals that are open, with what more readings would settle, then what the charting list calls most
    urgent, then pitches that cannot be told apart.

    Args:
        team: whose.
        people: its men.
        findings: the season's measures.
        season: for the day.
        series: the coming series, if it is with them.
        teams: all opponents, whose lists are linked.
        built: when, in words.
    """
    mine = {person.man.key: person for person in people}
    named: list[str] = []
    first: list[Gaps] = []
    if series is not None:
        starters = [(p.game, mine[p.pitcher]) for p in series.probables if p.pitcher in mine]
        catcher = [("their catcher", mine[series.catcher])] if series.catcher in mine else []
        meet = [*starters[:1], *catcher, *starters[1:]]
        first = [_gaps(person, role, findings, tonight=True) for role, person in meet]
        named = [person.man.key for _, person in meet]
    field = _items(findings.of_team("unknowns", team.key), None)
    infield = Gaps("Infield", infield_address(team), "", (), field)
    lineup = [mine[key] for key in (series.lineup if series else ()) if key in mine]
    pen = [mine[b.player] for b in (series.bullpen if series else ()) if b.state != "no" and b.player in mine]
    pen = [person for person in pen if person.man.key not in named]
    others = sorted(
        (p for p in people if (p.pitches or p.catches) and p.man.key not in named),
        key=lambda p: (p not in pen, p.catches, p.staff_place),
    )
    rest = [_gaps(person, "", findings) for person in others]
    return NotKnownPage(
        address=not_known_address(team),
        title=f"Not known yet: {team.name}",
        team_name=team.name,
        team_address=team_address(team),
        series=series,
        first=(*first, *([] if infield.nothing and first else [infield])),
        lineup=_shared(lineup, findings, "hitter", _LINEUP),
        bullpen=_shared(pen, findings, "pitcher", _BULLPEN),
        rest=tuple(gaps for gaps in rest if not gaps.nothing),
        others=tuple((other.name, not_known_address(other)) for other in teams if other.key != team.key),
        built=built,
        as_of=season.as_of,
    )


def _gaps(person: Person, role: str, findings: Findings, *, tonight: bool = False) -> Gaps:
    who = (person.team.key, person.man.key)
    roles = tuple(role for role, is_one in (("pitcher", person.pitches), ("catcher", person.catches)) if is_one)
    rows = [row for row in findings.of("unknowns", *who) if row["role"] in roles]
    return Gaps(
        title=person.title,
        address=person.address,
        role=role,
        steals=tuple(_steals(findings.of("settling", *who))) if tonight else (),
        items=_items(rows, person.man.key),
        apart=tuple(_apart(findings.of("look_for", *who))) if tonight and person.pitches else (),
    )


def _items(rows: Iterable[Row], player: str | None) -> tuple[Item, ...]:
    return tuple(_item(row) for row in rows if row["player"] == player)


def _item(row: Row) -> Item:
    return Item(row["what"], row["have"], row["want"], row["why"], *_SHEETS[_ON[row["table"]]])


def _steals(rows: Iterable[Row]) -> Iterator[Steal]:
    by_base: dict[str, list[Row]] = {}
    for row in rows:
        if row["open"]:
            by_base.setdefault(row["base"], []).append(row)
    for base, some in by_base.items():
        parts = tuple((_TIMED[r["what"]].format(_BASES[base]), r["have"], r["settles"]) for r in some)
        yield Steal(_BASES[base], some[0]["open"], some[0]["runners"], parts)


def _apart(rows: Iterable[Row]) -> Iterator[Apart]:
    """The situations a hitter asks about in which two pitches are as likely, what is soonest told in front."""
    found = []
    for row in rows:
        asked = row["bats"] in SHORT_SIDES and row["count"] in GLANCE
        if asked and row["sureness"] != "thin" and not row["ahead_of_second"]:
            need = to_tell_apart(row["n"], row["share"], row["low"], row["second_share"])
            when = f"{GLANCE[row['count']].lower()}, {SHORT_SIDES[row['bats']]}"
            found.append(Apart(when, (row["pitch"], row["second"]), row["n"], need))
    yield from sorted(found, key=lambda one: (one.need is None, one.need or 0, one.when))


def _shared(men: Sequence[Person], findings: Findings, role: str, urgent: int) -> tuple[Shared, ...]:
    """The same things of several men, the most urgent first, and of one thing who is furthest from it."""
    found: dict[tuple[int, str], list[tuple[Item, Person]]] = {}
    for person in men:
        for row in findings.of("unknowns", person.team.key, person.man.key):
            if row["role"] == role and row["priority"] <= urgent:
                found.setdefault((row["priority"], row["what"]), []).append((_item(row), person))
    lines = []
    for key in sorted(found, key=lambda key: key[0]):
        some = sorted(found[key], key=lambda pair: pair[0].have)
        lines.append(Shared(some[0][0], tuple((p.brief, p.address, item.have) for item, p in some)))
    return tuple(lines)
