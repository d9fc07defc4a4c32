"""One line of a real page, read slowly: the example of how to read the others, drawn from the rows of the project."""

from collections.abc import Sequence
from dataclasses import dataclass

from scoutgen.pages.claims import Claim
from scoutgen.pages.findings import Findings
from scoutgen.pages.people import Person
from scoutgen.pages.player import MIX_TABLES
from scoutgen.pages.times import Clock, pitcher_clocks
from scoutgen.pages.usage import Situation, UsageSide, usage_side
from scoutgen.records.program import Thresholds


@dataclass(frozen=True)
class WorkedExample:
    """One pitcher's line that carries a percent, one that does not, and one of his times.

    Attributes:
        person: whose line it is.
        side: of which hitters, in words.
        when: the situation of the line, as his page calls it.
        claim: the pitch that comes most in it; never thin.
        thin_when, thin: a situation too thin for a percent, and its commonest pitch; None where he has none.
        clock: his time to the plate with an interval for the next one; None where he was timed once at most.
    """

    person: Person
    side: str
    when: str
    claim: Claim
    thin_when: str
    thin: Claim | None
    clock: Clock | None

    @property
    def half(self) -> float:
        """Half the width of the interval: what decides how sure it is."""
        assert self.claim.low is not None  # noqa: S101 - a claim that is not thin has both ends
        assert self.claim.high is not None  # noqa: S101
        return (self.claim.high - self.claim.low) / 2

    @property
    def half_points(self) -> float:
        """The same in points of a percent."""
        return self.half * 100

    @property
    def charted_share(self) -> float:
        """What the tally is taken alone, 0-1."""
        return self.claim.k / self.claim.n

    @property
    def others_in_ten(self) -> float:
        """Of ten such pitches those that are another, by the estimate."""
        assert self.claim.share is not None  # noqa: S101 - a claim that is not thin has an estimate
        return (1 - self.claim.share) * 10


def worked_example(people: Sequence[Person], findings: Findings, limits: Thresholds) -> WorkedExample | None:
    """The first man with a line that carries a percent.

    Args:
        people: those to try, in order: who is met next comes first.
        findings: the season's measures.
        limits: how sure a percent must be.

    Returns:
        None where nobody was charted enough for a percent.
    """
    for person in people:
        if not person.pitches or person.charted < limits.few_pitches:
            continue
        who = (person.team.key, person.man.key)
        sides = [
            usage_side(side, limits, **{table: findings.of(table, *who) for table in MIX_TABLES}) for side in ("L", "R")
        ]
        for mix in sides:
            line = next((row for row in mix.glance if row.best and row.best.sure != "thin" and row.best.k), None)
            if line is None or line.best is None:
                continue
            thin = _thin(mix)
            clock = pitcher_clocks(findings.of("times", *who), (), person.title).stretch
            return WorkedExample(
                person=person,
                side=mix.words,
                when=line.label,
                claim=line.best,
                thin_when=thin.label if thin else "",
                thin=thin.best if thin else None,
                clock=clock if clock and clock.low is not None else None,
            )
    return None


def _thin(mix: UsageSide) -> Situation | None:
    """The count with the most pitches that still carries no percent."""
    thin = [row for row in mix.counts if row.best and row.best.sure == "thin" and row.best.k]
    return max(thin, key=lambda row: row.n, default=None)
