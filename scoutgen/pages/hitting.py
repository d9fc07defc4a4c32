"""How he hits: what he swings at, where the ball goes, what changes with two strikes, whether he bunts."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from scoutgen.measures.batted import CONTACTS, MIDDLE_DEG, THIRDS
from scoutgen.measures.hitting import FAMILIES, HARD_HIT_FT
from scoutgen.pages.book import Chart
from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.findings import Findings
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.spray_charts import spray_chart
from scoutgen.pages.words import BATTING_WORDS, CONTACT_WORDS, FIELD_SIDE_WORDS, SPRAY_WORDS, VALUE_WORDS
from scoutgen.records.opponents import Team
from scoutgen.records.program import Thresholds

# Fewer balls than this make a picture of chance.
ENOUGH_TO_DRAW = 8
_PLACES = (("side", ("in", "middle", "away")), ("height", ("up", "center", "down")))


@dataclass(frozen=True)
class HitLine:
    """One row of a table of his swings: how often he swings, misses, hits it hard; None where nothing was charted."""

    label: str
    swing: Claim | None
    miss: Claim | None
    hard: Claim | None
    family: bool = False


@dataclass(frozen=True)
class Way:
    """Where one kind of ball goes: the hitter's pull side, the middle, the other way.

    Attributes:
        label: the kind of ball, and against whom or with how many strikes.
        pull, middle, other: claims of n balls.
        held: how far the percents rest on other hitters, 0-1.
    """

    label: str
    pull: Claim
    middle: Claim
    other: Claim
    held: float

    @property
    def n(self) -> int:
        """Balls charted."""
        return self.pull.n


@dataclass(frozen=True)
class Change:
    """One thing with two strikes: now, before, and whether the data can tell the two apart."""

    two: Claim
    early: Claim
    told: bool
    more: bool


@dataclass(frozen=True)
class Changes:
    """What he does with two strikes against what he does before: swings, misses, the other way; None: not charted."""

    swing: Change | None
    miss: Change | None
    other: Change | None


@dataclass(frozen=True)
class Bunts:
    """What is known of his bunts; `where` names each third of the field with its number."""

    claim: Claim
    fouled: int
    where: tuple[tuple[str, int], ...]
    hits: int
    sacrifices: int
    nobody_on: int
    last: date | None


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
        drawn, placed: balls with a direction, those of them with a distance too, which the chart shows.
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
    changes: Changes
    grounders: tuple[Way, ...]
    flies: tuple[Way, ...]
    pitches: tuple[HitLine, ...]
    places: tuple[HitLine, ...]
    strikes: tuple[HitLine, ...]
    contact: tuple[tuple[str, tuple[Claim, ...]], ...]
    bunts: Bunts | None
    balls: int
    drawn: int
    chart: Chart | None

    @property
    def ground(self) -> Way | None:
        """All his ground balls."""
        return next(iter(self.grounders), None)

    @property
    def air(self) -> Way | None:
        """All his line drives and flies."""
        return next(iter(self.flies), None)

    @property
    def families(self) -> tuple[HitLine, ...]:
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


_TABLES = ("hitting", "two_strikes", "contact", "spray", "bunts", "balls")


def _batting(
    bats: str, side: str, seen: Row, tables: Mapping[str, Rows], whose: tuple[Team, str], *, limits: Thresholds
) -> Batting:
    """One side's part: rates by `bats`, directions by the side he stands on."""
    rows = {
        table: [r for r in tables[table] if r["bats"] == bats]
        for table in ("hitting", "two_strikes", "contact", "bunts")
    }
    swings = _by_value(rows["hitting"], limits)
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
        first=swings.get(("first pitch", "all"), {}).get("swing"),
        first_by_hand=tuple(
            (hand, swings["first pitch", hand]["swing"]) for hand in ("L", "R") if ("first pitch", hand) in swings
        ),
        changes=_changes(rows["two_strikes"], limits),
        grounders=_ways(ways, "ground", limits),
        flies=_ways(ways, "air", limits),
        pitches=_pitch_lines(swings),
        places=tuple(_lines(swings, [(split, value) for split, values in _PLACES for value in values])),
        strikes=tuple(_lines(swings, [("strikes", "early"), ("strikes", "two")])),
        contact=_contact(rows["contact"], limits),
        bunts=_bunts(rows["bunts"], limits),
        balls=seen["balls"],
        drawn=len(balls),
        chart=_chart(balls, *whose, words),
    )


def _by_value(rows: Rows, limits: Thresholds) -> dict[tuple[str, str], dict[str, Claim]]:
    found: dict[tuple[str, str], dict[str, Claim]] = {}
    for row, claim in zip(rows, claims(rows, "measure", limits), strict=True):
        found.setdefault((row["split"], row["value"]), {})[row["measure"]] = claim
    return found


def _lines(swings: Mapping[tuple[str, str], Mapping[str, Claim]], keys: Iterable[tuple[str, str]]) -> list[HitLine]:
    return [_line(swings[key], VALUE_WORDS.get(key[1], key[1])) for key in keys if key in swings]


def _line(found: Mapping[str, Claim], label: str, *, family: bool = False) -> HitLine:
    return HitLine(label, found.get("swing"), found.get("miss"), found.get("hard"), family)


def _pitch_lines(swings: Mapping[tuple[str, str], Mapping[str, Claim]]) -> tuple[HitLine, ...]:
    """Each kind of pitch, and under it its pitches, the commonest first; a kind of one pitch has that line alone."""
    lines: list[HitLine] = []
    named = {name: family for family, names in FAMILIES.items() for name in names}
    pitches = [value for split, value in swings if split == "pitch"]
    for family in FAMILIES:
        mine = [pitch for pitch in pitches if named.get(pitch, "other") == family]
        if not mine:
            continue
        if len(mine) == 1:
            lines.append(_line(swings["pitch", mine[0]], mine[0].capitalize(), family=True))
        else:
            lines.append(_line(swings["family", family], VALUE_WORDS[family], family=True))
            by_use = sorted(mine, key=lambda pitch: (-_looks(swings["pitch", pitch]), pitch))
            lines += [_line(swings["pitch", pitch], pitch) for pitch in by_use]
    return tuple(lines)


def _looks(found: Mapping[str, Claim]) -> int:
    return found["swing"].n if "swing" in found else 0


def _changes(rows: Rows, limits: Thresholds) -> Changes:
    two = claims(rows, "measure", limits)
    early = claims([_early(row) for row in rows], "measure", limits)
    found = {
        row["measure"]: Change(now, before, row["told"], row["change"] > 0)
        for row, now, before in zip(rows, two, early, strict=True)
    }
    return Changes(found.get("swing"), found.get("miss"), found.get("other way"))


def _early(row: Row) -> Row:
    return {"measure": row["measure"], **{name: row[f"early_{name}"] for name in ("k", "n", "share", "low", "high")}}


def _ways(rows: Rows, kind: str, limits: Thresholds) -> tuple[Way, ...]:
    """One kind of ball, all of them first."""
    found: dict[tuple[str, str], dict[str, Row]] = {}
    for row in rows:
        if row["kind"] == kind:
            found.setdefault((row["split"], row["value"]), {})[row["where"]] = row
    lines = []
    for key in SPRAY_WORDS:
        if key in found:
            pull, middle, other = claims([found[key][where] for where in THIRDS], "where", limits)
            lines.append(Way(SPRAY_WORDS[key], pull, middle, other, found[key]["pull"]["held"]))
    return tuple(lines)


def _contact(rows: Rows, limits: Thresholds) -> tuple[tuple[str, tuple[Claim, ...]], ...]:
    found: dict[str, dict[str, Claim]] = {}
    for row, claim in zip(rows, claims(rows, "contact", limits, CONTACT_WORDS), strict=True):
        found.setdefault(row["value"], {})[row["contact"]] = claim
    values = [value for value in ("all", "early", "two") if value in found]
    return tuple((VALUE_WORDS[value], tuple(found[value][kind] for kind in CONTACTS)) for value in values)


def _bunts(rows: Rows, limits: Thresholds) -> Bunts | None:
    if not rows:
        return None
    row = rows[0]
    claim = claims([{**row, "what": "bunts"}], "what", limits)[0]
    names = {"third": "to third", "middle": "to the mound", "first": "to first"}
    where = tuple((word, row[name]) for name, word in names.items() if row[name])
    return Bunts(claim, row["fouled"], where, row["hits"], row["sacrifices"], row["nobody_on"], row["last_bunt"])


def _chart(balls: Rows, team: Team, name: str, words: str) -> Chart | None:
    if len(balls) < ENOUGH_TO_DRAW:
        return None
    kinds = {kind: sum(ball["contact"] == kind for ball in balls) for kind in (*CONTACTS, "bunt")}
    told = ", ".join(f"{CONTACT_WORDS[kind]} {n}" for kind, n in kinds.items() if n)
    park = f", on the fences of {team.park.name or 'their park'}" if team.park.fences else ""
    return spray_chart(
        balls,
        team.park.fences,
        title=f"{name}: where his balls went{', ' + words if words else ''}",
        description=f"The field from above, home plate below{park}. {len(balls)} balls: {told}. Full marks are hits. "
        "The table has the directions in numbers.",
    )
