"""How a hitter puts it in play: which way, kinds of contact, bunts, and a drawing of it all."""

from dataclasses import dataclass
from datetime import date

from scoutgen.measures.batted import CONTACTS, THIRDS
from scoutgen.pages.book import Chart
from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.spray_charts import spray_chart
from scoutgen.pages.words import CONTACT_WORDS, SPRAY_WORDS, VALUE_WORDS
from scoutgen.records.opponents import Team
from scoutgen.records.program import Thresholds

# Fewer balls than this make a picture of chance.
ENOUGH_TO_DRAW = 8


@dataclass(frozen=True)
class Way:
    """Where one kind of ball goes: the hitter's pull side, the middle, the other way.

    Attributes:
        label: the kind of ball, and against whom or with how many strikes.
        pull, middle, other: claims of n balls.
        held: how far the percents rest on other hitters, 0-1.
        by_hand: of balls off pitchers of one hand.
    """

    label: str
    pull: Claim
    middle: Claim
    other: Claim
    held: float
    by_hand: bool = False

    @property
    def n(self) -> int:
        """Balls charted."""
        return self.pull.n

    @property
    def estimated(self) -> bool:
        """One of its cells shows a percent."""
        return any(claim.k and claim.sure != "thin" for claim in (self.pull, self.middle, self.other))


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


def ways(rows: Rows, kind: str, limits: Thresholds) -> tuple[Way, ...]:
    """One kind of ball, all of them first."""
    found: dict[tuple[str, str], dict[str, Row]] = {}
    for row in rows:
        if row["kind"] == kind:
            found.setdefault((row["split"], row["value"]), {})[row["where"]] = row
    lines = []
    for key in SPRAY_WORDS:
        if key in found:
            pull, middle, other = claims([found[key][where] for where in THIRDS], "where", limits)
            lines.append(Way(SPRAY_WORDS[key], pull, middle, other, found[key]["pull"]["held"], key[0] == "hand"))
    return tuple(lines)


def contact(rows: Rows, limits: Thresholds) -> tuple[tuple[str, tuple[Claim, ...]], ...]:
    """Kinds of contact: all, before two strikes, with two."""
    found: dict[str, dict[str, Claim]] = {}
    for row, claim in zip(rows, claims(rows, "contact", limits, CONTACT_WORDS), strict=True):
        found.setdefault(row["value"], {})[row["contact"]] = claim
    values = [value for value in ("all", "early", "two") if value in found]
    return tuple((VALUE_WORDS[value], tuple(found[value][kind] for kind in CONTACTS)) for value in values)


def bunts(rows: Rows, limits: Thresholds) -> Bunts | None:
    """One side's row of `bunts`; None where there is none."""
    if not rows:
        return None
    row = rows[0]
    claim = claims([{**row, "what": "bunts"}], "what", limits)[0]
    names = {"third": "to third", "middle": "to the mound", "first": "to first"}
    where = tuple((word, row[name]) for name, word in names.items() if row[name])
    return Bunts(claim, row["fouled"], where, row["hits"], row["sacrifices"], row["nobody_on"], row["last_bunt"])


def drawing(balls: Rows, team: Team, name: str, words: str) -> Chart | None:
    """His balls on the field of his team's park; None where too few have a place."""
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
