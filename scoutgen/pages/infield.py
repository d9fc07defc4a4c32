"""One team's infield by the decisions it bears on: bunt, steal of third and home, middle, first and third, lead."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.findings import Findings
from scoutgen.pages.freshness import Freshness, freshness
from scoutgen.pages.habits import Habit, habits
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.positions import Asked, Distance, OffBag, Stand, distances, off_bag, stands
from scoutgen.pages.words import SIDE_WORDS
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season

OUTFIELD_FROM = 7


@dataclass(frozen=True)
class Question:
    """One decision and what it asks of the infield.

    Attributes:
        title: the decision.
        corner: feet off the bag are asked of the corner with a runner on this base; empty for none.
        asked: other feet it asks for.
        doors: what the habits that bear on it open.
        state: habits are counted with these runners on only; empty for all looks.
    """

    title: str
    corner: str
    asked: tuple[Asked, ...]
    doors: tuple[str, ...]
    state: str = ""


_BY_SIDE = (("R", "all"), ("L", "all"))
_DOUBLE_PLAY = (("all", "empty"), ("all", "1"))
_FIRST_AND_THIRD = (("all", "13"),)
# In the order in which a staff asks: what a hitter can do, then what a runner can, the base nearest home first.
QUESTIONS = (
    Question("Bunt for a hit", "", (Asked(5, "depth", _BY_SIDE), Asked(3, "depth", _BY_SIDE)), ("bunt",)),
    Question(
        "Steal of third, steal of home", "third", (Asked(5, "off_bag", (("all", "2"), ("all", "12"))),),
        ("steal_third", "steal_home"),
    ),
    Question(
        "Double-play depth and the middle", "", (Asked(6, "depth", _DOUBLE_PLAY), Asked(4, "depth", _DOUBLE_PLAY)),
        ("steal_second", "delayed_steal", "hit_and_run"),
    ),
    Question(
        "First and third", "",
        (
            Asked(6, "depth", _FIRST_AND_THIRD), Asked(4, "depth", _FIRST_AND_THIRD),
            Asked(3, "off_bag", _FIRST_AND_THIRD), Asked(5, "off_bag", _FIRST_AND_THIRD),
        ),
        ("double_steal", "delayed_steal", "steal_home", "bigger_lead"), "13",
    ),
    Question("Lead off first", "first", (), ("bigger_lead",)),
)  # fmt: skip


@dataclass(frozen=True)
class Answer:
    """What is known for one decision; `counted` are habits with k of n in the one situation it asks about."""

    title: str
    corners: tuple[OffBag, ...]
    distances: tuple[Distance, ...]
    habits: tuple[Habit, ...]
    counted: tuple[tuple[Habit, int, int], ...]


@dataclass(frozen=True)
class InfieldPage:
    """All that an infield's page says; outfielders' looks stand in parts of their own.

    Attributes:
        answers: by decision, in the order of QUESTIONS.
        habits: every infielder's habit, for the table of all looks.
        few_looks: fewer looks than this are no claim.
    """

    address: str
    title: str
    team_name: str
    team_address: str
    fresh: Freshness | None
    answers: tuple[Answer, ...]
    sides: tuple[tuple[str, str, tuple[Stand, ...], tuple[Stand, ...]], ...]
    habits: tuple[Habit, ...]
    outfield_habits: tuple[Habit, ...]
    pages: dict[str, str]
    few_looks: int
    unknowns: tuple[tuple[str, str], ...]
    built: str
    as_of: date


def infield_page(
    team: Team, people: Sequence[Person], findings: Findings, season: Season, *, built: str
) -> InfieldPage:
    """Put one infield's page together."""
    limits = season.program.thresholds
    stood, shades = findings.of_team("stood", team.key), findings.of_team("shades", team.key)
    sides = []
    for side, words in SIDE_WORDS.items():
        found = stands(stood, shades, side, limits)
        inner = tuple(s for s in found if s.position < OUTFIELD_FROM)
        sides.append((side, words, inner, tuple(s for s in found if s.position >= OUTFIELD_FROM)))
    rates, feet = findings.of_team("habits", team.key), findings.of_team("feet", team.key)
    every = habits(rates, feet, season.habit_kinds, team, limits)
    infielders = tuple(h for h in every if h.kind.page == "infield")
    # A pitcher late to cover first is part of the bunt defense.
    bearing = tuple(h for h in every if h in infielders or h.kind.opens == "bunt")
    corners = off_bag(findings.of_team("off_bag", team.key), team)
    gaps = [r for r in findings.of_team("unknowns", team.key) if r["role"] == "infield"]
    return InfieldPage(
        address=infield_address(team),
        title=f"{team.name} infield",
        team_name=team.name,
        team_address=team_address(team),
        fresh=freshness(findings.of_team("team_fresh", team.key), as_of=season.as_of, limits=limits),
        answers=tuple(
            Answer(
                title=q.title,
                corners=_men(corners, q.corner, limits.few_looks),
                distances=distances(q.asked, stood, limits.few_looks),
                habits=() if q.state else _bearing(bearing, q.doors),
                counted=_in_state(infielders, q.doors, q.state, limits.few_looks) if q.state else (),
            )
            for q in QUESTIONS
        ),
        sides=tuple(sides),
        habits=infielders,
        outfield_habits=tuple(h for h in every if h.kind.page == "outfield"),
        pages={person.man.key: person.address for person in people},
        few_looks=limits.few_looks,
        unknowns=tuple((r["text"], r["why"]) for r in gaps),
        built=built,
        as_of=season.as_of,
    )


def _men(corners: Sequence[OffBag], base: str, few_looks: int) -> tuple[OffBag, ...]:
    """Each man at the corner of a base, the most looked at first; whoever played there where no man was named."""
    enough = [c for c in corners if c.runner_on == base and c.n >= few_looks]
    men = [c for c in enough if c.player != "all"]
    return tuple(sorted(men or enough, key=lambda c: (-c.n, c.name)))


def _bearing(found: Sequence[Habit], doors: Sequence[str]) -> tuple[Habit, ...]:
    """The habits that bear on a decision: those that recur first, the surest first; feet stand with the corners."""
    mine = [h for h in found if h.kind.opens in doors and h.kind.measured != "feet"]
    return tuple(sorted(mine, key=lambda h: (not h.recurs, -(h.claim.low or 0.0), h.kind.key, h.name)))


def _in_state(
    found: Sequence[Habit], doors: Sequence[str], state: str, few_looks: int
) -> tuple[tuple[Habit, int, int], ...]:
    """The same, counted with these runners on; what was never seen there or looked at too few times is left out."""
    counted = [
        (h, c.k, c.n)
        for h in _bearing(found, doors)
        for at, (_, c) in zip(h.states, h.situations, strict=True)
        if at == state and c.k and c.n >= few_looks
    ]
    return tuple(sorted(counted, key=lambda part: -part[1] / part[2]))
