"""Whom of their outfield to take the extra base on: what runners did on hits to each, and how they throw."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scoutgen.measures.extra_bases import OUTFIELD, PLAYS
from scoutgen.measures.risk import sending_by_outs
from scoutgen.measures.run_chain import Advancement
from scoutgen.measures.win_chance import WinTable
from scoutgen.pages.claims import Claim, claim
from scoutgen.pages.findings import Findings
from scoutgen.pages.habits import Habit, habits
from scoutgen.pages.people import Person
from scoutgen.pages.words import EXTRA_WORDS, POSITION_WORDS
from scoutgen.records.season import Season
from scoutgen.records.series import Series

_SHORT = {7: "LF", 8: "CF", 9: "RF"}


@dataclass(frozen=True)
class Taken:
    """Runners who took one extra base, of those who could; `out` of them were put out at it."""

    claim: Claim
    out: int


@dataclass(frozen=True)
class ToField:
    """Hits to one outfield position.

    Attributes:
        where: the position in words; `short` on a card.
        man: who of the likely lineup plays there; None where the lineup names nobody.
        taken: by play; None where nobody could.
    """

    where: str
    short: str
    man: Person | None
    taken: Mapping[str, Taken | None]


@dataclass(frozen=True)
class Sending:
    """One extra base: its name in two lines, what is usual with fewer than two out and with two, the need by outs."""

    words: tuple[str, str]
    usual: tuple[float, float]
    need: tuple[float, ...]


@dataclass(frozen=True)
class ExtraBase:
    """What the coaches ask of an outfield.

    Attributes:
        fields: left, center and right field; empty where no chance was charted.
        sendings: by play, in the order of the columns.
        arms: habits of their outfielders that were seen, by how often.
    """

    fields: tuple[ToField, ...]
    sendings: Mapping[str, Sending]
    arms: tuple[Habit, ...]

    @property
    def put_out(self) -> int:
        """Runners put out at an extra base, over all fields and plays."""
        return sum(taken.out for field in self.fields for taken in field.taken.values() if taken)


def extra_base(
    series: Series, people: Mapping[str, Person], findings: Findings, season: Season, *, values: WinTable, half: str
) -> ExtraBase:
    """What is known of the opponent's outfield.

    Args:
        series: the series, for the lineup.
        people: the opponent's men by key.
        findings: the season's measures.
        season: for thresholds and the kinds of habits.
        values: chances to win.
        half: the half in which we bat, "top" or "bottom".
    """
    limits = season.program.thresholds
    rows = findings.of_team("extra_bases", series.opponent)
    found = {
        (row["position"], row["play"]): Taken(claim(row, " ".join(EXTRA_WORDS[row["play"]]), limits), row["out"])
        for row in rows
    }
    lineup = [people[key] for key in series.lineup if key in people]
    team = season.teams[series.opponent]
    every = habits(
        findings.of_team("habits", team.key), findings.of_team("feet", team.key), season.habit_kinds, team, limits
    )
    arms = [h for h in every if h.kind.page == "outfield" and h.claim.n >= limits.few_looks and h.claim.k]
    usual = Advancement()
    return ExtraBase(
        fields=tuple(
            ToField(
                POSITION_WORDS[at], _SHORT[at], _plays_at(at, lineup), {play: found.get((at, play)) for play in PLAYS}
            )
            for at in OUTFIELD
        )
        if found
        else (),
        sendings={
            play: Sending(EXTRA_WORDS[play], chances, sending_by_outs(values, half, play))
            for play, chances in zip(
                PLAYS, (usual.first_to_third, usual.second_scores, usual.first_scores), strict=True
            )
        },
        arms=tuple(sorted(arms, key=lambda h: (-(h.claim.k / h.claim.n), h.name, h.kind.key))),
    )


def _plays_at(position: int, lineup: Sequence[Person]) -> Person | None:
    """The man of the lineup whose first position it is, else one who plays there at all."""
    first = [p for p in lineup if p.man.positions[:1] == (_SHORT[position],)]
    any_of = [p for p in lineup if _SHORT[position] in p.man.positions]
    return next(iter(first or any_of), None)
