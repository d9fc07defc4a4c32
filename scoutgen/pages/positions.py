"""Where their fielders stand, in rows a page can print."""

from dataclasses import dataclass
from datetime import date

from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.habits import POSITION_WORDS
from scoutgen.pages.rows import Row, Rows
from scoutgen.pages.times import RUNNER_WORDS
from scoutgen.records.opponents import Team
from scoutgen.records.program import Thresholds

# Situations in which the infield moves; others are in the numbers.
SITUATIONS = ("all", "empty", "1", "3", "13")


@dataclass(frozen=True)
class Stand:
    """Where one position stood against hitters of one side in one situation, in feet; None where not charted."""

    position: int
    bases: str
    n: int
    depth: float | None
    depth_low: float | None
    depth_high: float | None
    off_bag: float | None
    off_bag_n: int
    shade: Claim | None
    last_seen: date | None

    @property
    def where(self) -> str:
        """The position in words."""
        return POSITION_WORDS[self.position]


@dataclass(frozen=True)
class OffBag:
    """How far a corner infielder is off his bag with a runner on it, in feet."""

    position: int
    runner_on: str
    name: str
    n: int
    median: float
    least: float
    most: float
    last_seen: date | None

    @property
    def where(self) -> str:
        """The position in words."""
        return POSITION_WORDS[self.position]


def stands(stood: Rows, shades: Rows, side: str, limits: Thresholds) -> tuple[Stand, ...]:
    """Where they stand against hitters of one side: one row a position and situation, whoever played there.

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
        if at not in most or claim.k > most[at].k:
            most[at] = claim
    mine = [r for r in stood if r["player"] == "all" and r["bats"] == side and r["bases"] in SITUATIONS]
    return tuple(_stand(row, most) for row in mine)


def _stand(row: Row, shades: dict[tuple[int, str], Claim]) -> Stand:
    position, bases = row["position"], row["bases"]
    return Stand(
        position=position,
        bases=RUNNER_WORDS[bases],
        n=row["n"],
        depth=row["depth_median_ft"],
        depth_low=row["depth_p10_ft"],
        depth_high=row["depth_p90_ft"],
        off_bag=row["off_bag_median_ft"],
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
                runner_on="first" if row["runner_on"] == "1" else "third",
                name="whoever plays there" if row["player"] == "all" else man.name if man else row["player"],
                n=row["n"],
                median=row["median_ft"],
                least=row["min_ft"],
                most=row["max_ft"],
                last_seen=row["last_seen"],
            )
        )
    return tuple(found)
