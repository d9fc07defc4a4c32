"""Where their fielders stand, in rows a page can print."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.words import FIELDER_WORDS, POSITION_WORDS, RUNNER_WORDS, SIDE_WORDS
from scoutgen.records.opponents import Team
from scoutgen.records.program import Thresholds

# The line that is a fielder's own, in as few letters as a narrow cell has room for; nobody wrote which is meant of the
# center fielder's.
_LINES = {
    3: "1B line", 4: "1B line", 5: "3B line", 6: "3B line", 7: "LF line", 8: "a line", 9: "RF line",
}  # fmt: skip
# Situations in which the infield moves; others are in the numbers.
SITUATIONS = ("all", "empty", "1", "2", "3", "13")


@dataclass(frozen=True)
class Stand:
    """Where one position stood against hitters of one side in one situation, in feet; None where not charted."""

    position: int
    bases: str
    depth: float | None
    depth_n: int
    off_bag: float | None
    off_bag_n: int
    shade: Claim | None
    last_seen: date | None

    @property
    def where(self) -> str:
        """The position in words."""
        return POSITION_WORDS[self.position]

    @property
    def any_runners(self) -> bool:
        """Whoever was on base."""
        return self.bases == RUNNER_WORDS["all"]

    @property
    def leans(self) -> str:
        """Toward the middle, or toward which foul line."""
        toward = self.shade.what if self.shade else ""
        return _LINES[self.position] if toward == "line" else toward


@dataclass(frozen=True)
class OffBag:
    """How far a corner infielder is off his bag with a runner on it, in feet; `player` "all" is whoever plays there.

    `at_bag` of the looks found him holding the runner; `away` is the middle of the others.
    """

    position: int
    player: str
    runner_on: str
    name: str
    n: int
    median: float
    least: float
    most: float
    at_bag: int
    away: float | None
    last_seen: date | None

    @property
    def where(self) -> str:
        """The position in words."""
        return POSITION_WORDS[self.position]

    @property
    def off_bag(self) -> int:
        """In how many looks he was away."""
        return self.n - self.at_bag

    @property
    def both_ways(self) -> bool:
        """He stands at the bag in some looks and away in others: one number would be neither."""
        return 0 < self.at_bag < self.n


@dataclass(frozen=True)
class Feet:
    """One distance in one situation: the middle of so many looks, and between what they lay."""

    words: str
    median: float
    least: float
    most: float
    n: int


@dataclass(frozen=True)
class Distance:
    """One fielder's feet in the situations a decision asks for; `parts` is empty where too few were charted."""

    what: str
    parts: tuple[Feet, ...]
    last_seen: date | None


@dataclass(frozen=True)
class Asked:
    """Which feet a decision asks for.

    Attributes:
        position: scorekeeping number.
        measure: "depth" or "off_bag".
        situations: (bats, bases) as `stood` has them, in the order in which they are said.
    """

    position: int
    measure: str
    situations: tuple[tuple[str, str], ...]


# The ends of depths are the middle 80 % of the looks, those of feet off the bag the least and the most seen.
_FEET = {
    "depth": ("depth_median_ft", "depth_p10_ft", "depth_p90_ft", "depth_n", "depth"),
    "off_bag": ("off_bag_median_ft", "off_bag_min_ft", "off_bag_max_ft", "off_bag_n", "feet off the bag"),
}


def distances(asked: Iterable[Asked], stood: Rows, few_looks: int) -> tuple[Distance, ...]:
    """The feet that are asked for, whoever played there; situations of too few looks are left out.

    Args:
        asked: what is asked for.
        stood: the team's rows of `stood`.
        few_looks: fewer looks than this are no claim.
    """
    rows = {(r["position"], r["bats"], r["bases"]): r for r in stood if r["player"] == "all"}
    found = []
    for ask in asked:
        median, least, most, n, words = _FEET[ask.measure]
        there = [
            (row, _situation(bats, bases))
            for bats, bases in ask.situations
            if (row := rows.get((ask.position, bats, bases))) and row[n] >= few_looks
        ]
        found.append(
            Distance(
                what=f"{FIELDER_WORDS[ask.position]}'s {words}",
                parts=tuple(Feet(said, row[median], row[least], row[most], row[n]) for row, said in there),
                last_seen=max((row["last_seen"] for row, _ in there if row["last_seen"]), default=None),
            )
        )
    return tuple(found)


def _situation(bats: str, bases: str) -> str:
    runners = "" if bases == "all" and bats != "all" else RUNNER_WORDS[bases]
    return ", ".join(word for word in (SIDE_WORDS.get(bats, ""), runners) if word)


def stands(stood: Rows, shades: Rows, side: str, limits: Thresholds) -> tuple[Stand, ...]:
    """Where they stand against hitters of one side: one row a position and situation, whoever played there.

    Situations of too few looks are left out, and so is which way they lean where it was charted too few times.

    Args:
        stood: the team's rows of `stood`.
        shades: the team's rows of `shades`.
        side: "L" or "R".
        limits: how sure a percent must be.
    """
    leaning = [r for r in shades if r["player"] == "all" and r["bats"] == side]
    most: dict[tuple[int, str], Claim] = {}
    for row, claim in zip(leaning, claims(leaning, "toward", limits), strict=True):
        at = (row["position"], row["bases"])
        if claim.n >= limits.few_looks and (at not in most or claim.k > most[at].k):
            most[at] = claim
    mine = [r for r in stood if r["player"] == "all" and r["bats"] == side and r["bases"] in SITUATIONS]
    return tuple(_stand(row, most, limits.few_looks) for row in mine if row["n"] >= limits.few_looks)


def _stand(row: Row, shades: dict[tuple[int, str], Claim], few_looks: int) -> Stand:
    position, bases = row["position"], row["bases"]
    return Stand(
        position=position,
        bases=RUNNER_WORDS[bases],
        depth=row["depth_median_ft"] if row["depth_n"] >= few_looks else None,
        depth_n=row["depth_n"],
        off_bag=row["off_bag_median_ft"] if row["off_bag_n"] >= few_looks else None,
        off_bag_n=row["off_bag_n"],
        shade=shades.get((position, bases)),
        last_seen=row["last_seen"],
    )


def off_bag(rows: Rows, team: Team) -> tuple[OffBag, ...]:
    """Feet off the bag of the corners: everybody together first, then each man.

    Args:
        rows: the team's rows of `off_bag`.
        team: for names.
    """
    found = []
    for row in rows:
        man = team.player(row["player"])
        found.append(
            OffBag(
                position=row["position"],
                player=row["player"],
                runner_on="first" if row["runner_on"] == "1" else "third",
                name="whoever plays there" if row["player"] == "all" else man.name if man else row["player"],
                n=row["n"],
                median=row["median_ft"],
                least=row["min_ft"],
                most=row["max_ft"],
                at_bag=row["at_bag"],
                away=row["away_ft"],
                last_seen=row["last_seen"],
            )
        )
    return tuple(found)
