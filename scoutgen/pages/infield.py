"""One team's infield: where everybody stands, how far the corners are off the bag, the habits that open a door."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.findings import Findings
from scoutgen.pages.freshness import Freshness, freshness
from scoutgen.pages.habits import Habit, habits
from scoutgen.pages.people import Person, infield_address, team_address
from scoutgen.pages.positions import OffBag, Stand, off_bag, stands
from scoutgen.pages.usage import SIDE_WORDS
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season

OUTFIELD_FROM = 7


@dataclass(frozen=True)
class InfieldPage:
    """All that an infield's page says; outfielders' looks stand in parts of their own."""

    address: str
    title: str
    team_name: str
    team_address: str
    fresh: Freshness | None
    corners: tuple[OffBag, ...]
    sides: tuple[tuple[str, str, tuple[Stand, ...], tuple[Stand, ...]], ...]
    habits: tuple[Habit, ...]
    outfield_habits: tuple[Habit, ...]
    pages: dict[str, str]
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
    fielders = [
        h for h in habits(rates, feet, season.habit_kinds, team, limits) if h.kind.page in ("infield", "outfield")
    ]
    gaps = [r for r in findings.of_team("unknowns", team.key) if r["role"] == "infield"]
    return InfieldPage(
        address=infield_address(team),
        title=f"{team.name} infield",
        team_name=team.name,
        team_address=team_address(team),
        fresh=freshness(findings.of_team("team_fresh", team.key), as_of=season.as_of, limits=limits),
        corners=off_bag(findings.of_team("off_bag", team.key), team),
        sides=tuple(sides),
        habits=tuple(h for h in fielders if h.kind.page == "infield"),
        outfield_habits=tuple(h for h in fielders if h.kind.page == "outfield"),
        pages={person.man.key: person.address for person in people},
        unknowns=tuple((r["text"], r["why"]) for r in gaps),
        built=built,
        as_of=season.as_of,
    )
