"""How he hits: what he swings at, where the ball goes, what changes with two strikes, whether he bunts."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from scoutgen.measures.batted import MIDDLE_DEG
from scoutgen.measures.hitting import HARD_HIT_FT
from scoutgen.pages import batted, swings
from scoutgen.pages.book import Chart
from scoutgen.pages.claims import Claim
from scoutgen.pages.findings import Findings
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.words import BATTING_WORDS, FIELD_SIDE_WORDS
from scoutgen.records.opponents import Team
from scoutgen.records.program import Thresholds

# The tables of the findings that a hitter's part is made of.
_TABLES = ("hitting", "two_strikes", "contact", "spray", "bunts", "balls")
_PLACES = (("side", ("in", "middle", "away")), ("height", ("up", "center", "down")))


@dataclass(frozen=True)
class Batting:
    """How he hits from one side; of a man charted from one side only, all that was charted.

    Attributes:
        side: "L" or "R"; "" where it was never charted.
        words: "batting left" of a switch hitter, empty of others.
        pull_side, other_side: which side of the field that is, in words.
        n, games, last_seen: plate appearances charted, in how many games, and until when.
        few: they say little.
        first: first pitches swung at: all, and by the pitcher's hand where known.
        changes: what is otherwise with two strikes.
        grounders, flies: where his balls go on the ground and in the air: all, by the pitcher's hand, by strikes.
        pitches, places, strikes: what he swings at, misses and hits hard.
        contact: kinds of contact: all, before two strikes, with two.
        drawn: balls with a direction and a distance, which the chart shows.
    """

    side: str
    words: str
    pull_side: str
    other_side: str
    n: int
    games: int
    last_seen: date | None
    few: bool
    first: Claim | None
    first_by_hand: tuple[tuple[str, Claim], ...]
    changes: swings.Changes
    grounders: tuple[batted.Way, ...]
    flies: tuple[batted.Way, ...]
    pitches: tuple[swings.HitLine, ...]
    places: tuple[swings.HitLine, ...]
    strikes: tuple[swings.HitLine, ...]
    contact: tuple[tuple[str, tuple[Claim, ...]], ...]
    bunts: batted.Bunts | None
    drawn: int
    chart: Chart | None

    @property
    def estimated(self) -> bool:
        """One of his directions is known well enough for a percent."""
        return any(way.estimated for way in (*self.grounders, *self.flies))

    @property
    def ground(self) -> batted.Way | None:
        """All his ground balls."""
        return next(iter(self.grounders), None)

    @property
    def air(self) -> batted.Way | None:
        """All his line drives and flies."""
        return next(iter(self.flies), None)

    @property
    def of_unknown_hand(self) -> int:
        """Balls off pitchers whose hand is on no roster: in the row of all, and in no row by hand."""
        return sum(_beside_hands(ways) for ways in (self.grounders, self.flies))

    @property
    def families(self) -> tuple[swings.HitLine, ...]:
        """Kinds of pitches with a swing that could have been hit hard."""
        return tuple(line for line in self.pitches if line.family and line.hard is not None)


@dataclass(frozen=True)
class Hitting:
    """A hitter's part of the page.

    Attributes:
        sides: how he hits from each side he was charted on.
        n: plate appearances in all; `few`: they say little.
        park: whose fences the drawing shows; empty where they are not known.
        hard_ft, middle_deg: what counts as hit hard, and how far from second base the middle reaches.
    """

    sides: tuple[Batting, ...]
    n: int
    few: bool
    park: str
    hard_ft: float = HARD_HIT_FT
    middle_deg: float = MIDDLE_DEG

    @property
    def charts(self) -> tuple[Chart, ...]:
        """Drawings of his balls."""
        return tuple(side.chart for side in self.sides if side.chart is not None)


def hitting(team: Team, player: str, name: str, findings: Findings, limits: Thresholds) -> Hitting | None:
    """How one man hits; None where he was never charted at the plate.

    Args:
        team: his team, whose park's fences the drawing shows.
        player: his key.
        name: his number and name, for the drawing's title.
        findings: the season's measures.
        limits: how sure a percent must be, and how few plate appearances say little.
    """
    seen = {row["bats"]: row for row in findings.of("appearances", team.key, player)}
    if "all" not in seen:
        return None
    stands = [side for side in ("L", "R") if side in seen]
    rows = {table: findings.of(table, team.key, player) for table in _TABLES}
    if len(stands) > 1:
        sides = [_batting(side, side, seen[side], rows, (team, name), limits=limits) for side in stands]
    else:
        sides = [_batting("all", stands[0] if stands else "", seen["all"], rows, (team, name), limits=limits)]
    n = seen["all"]["n"]
    return Hitting(
        tuple(sides), n, n < limits.few_pitches, (team.park.name or "their park") if team.park.fences else ""
    )


def _batting(
    bats: str, side: str, seen: Row, tables: Mapping[str, Rows], whose: tuple[Team, str], *, limits: Thresholds
) -> Batting:
    """One side's part: rates by `bats`, directions by the side he stands on."""
    rows = {
        table: [r for r in tables[table] if r["bats"] == bats]
        for table in ("hitting", "two_strikes", "contact", "bunts")
    }
    found = swings.swings(rows["hitting"], limits)
    ways = [r for r in tables["spray"] if r["bats"] == side]
    words = BATTING_WORDS[side] if bats != "all" else ""
    pull, other = FIELD_SIDE_WORDS[side] if side else ("", "")
    balls = [r for r in tables["balls"] if bats == "all" or r["bats"] == side]
    return Batting(
        side=side,
        words=words,
        pull_side=pull,
        other_side=other,
        n=seen["n"],
        games=seen["games"],
        last_seen=seen["last_seen"],
        few=seen["n"] < limits.few_pitches,
        first=found.get(("first pitch", "all"), {}).get("swing"),
        first_by_hand=tuple(
            (hand, found["first pitch", hand]["swing"]) for hand in ("L", "R") if ("first pitch", hand) in found
        ),
        changes=swings.changes(rows["two_strikes"], limits),
        grounders=batted.ways(ways, "ground", limits),
        flies=batted.ways(ways, "air", limits),
        pitches=swings.pitch_lines(found),
        places=swings.lines(found, [(split, value) for split, values in _PLACES for value in values]),
        strikes=swings.lines(found, [("strikes", "early"), ("strikes", "two")]),
        contact=batted.contact(rows["contact"], limits),
        bunts=batted.bunts(rows["bunts"], limits),
        drawn=len(balls),
        chart=batted.drawing(balls, *whose, words),
    )


def _beside_hands(ways: tuple[batted.Way, ...]) -> int:
    by_hand = [way.n for way in ways if way.by_hand]
    return ways[0].n - sum(by_hand) if by_hand else 0
