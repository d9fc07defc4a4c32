"""The pages that explain the others: how to read them, the words, the cautions and, for the staff, the method."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from scoutgen.measures import (
    batted,
    directions,
    hitting,
    home_budget,
    infield_levels,
    intervals,
    mix_centre,
    outfield_levels,
    pooling,
    readings,
    spread,
    standing,
    steal_odds,
    steals,
    times_through,
)
from scoutgen.measures.counts import COUNT_GROUPS
from scoutgen.pages.book import Page, SearchEntry
from scoutgen.pages.finding import CAUTION_WORDS, METHOD_WORDS, READING_WORDS
from scoutgen.pages.findings import Findings
from scoutgen.pages.found_by_team import LARGE, TEACHERS
from scoutgen.pages.markdown import anchor, render
from scoutgen.pages.people import Person
from scoutgen.pages.times import QUICK_S, SLOW_S
from scoutgen.pages.worked_example import WorkedExample, worked_example
from scoutgen.records.editions import SHOWS
from scoutgen.records.program import Program, Thresholds
from scoutgen.records.season import Season

GUIDE = "Reading guide"
_TERM = re.compile(r"^### (.+)\n\n(.+)$", re.MULTILINE)
_MARKUP = re.compile(r"\*\*|\[([^\]]*)\]\([^)]*\)")
# A word's own entry must not come before the pages that use it.
_WORD_BOOST = 0.2


@dataclass(frozen=True)
class GuidePage:
    """What the explaining pages say of this project: its settings and the constants of the measures, never typed in.

    Attributes:
        address: of the page itself.
        edition: for whom; the staff's has the method.
        program: the program's settings.
        example: a line of a real page; None where nothing was charted enough.
        measures: the constants by the name of their measure.
        level: of every interval, unless said otherwise.
        worth_a_level: balls in a hundred that a level must gain over a lower one.
        large, teachers: pitches from which on what is usual is learned from a part of them, and how many that are.
        warnings, skipped: rows of the charts looked odd, or were left out.
    """

    address: str
    edition: str
    program: Program
    example: WorkedExample | None = None
    warnings: bool = False
    skipped: bool = False
    tag_s: float = steal_odds.TAG_S
    quick: float = QUICK_S
    slow: float = SLOW_S
    hard_ft: float = hitting.HARD_HIT_FT
    frames_error_s: float = readings.FRAMES_ERROR_S
    middle_deg: float = batted.MIDDLE_DEG
    level: float = intervals.LEVEL
    worth_a_level: float = 100 * standing.WORTH_A_LEVEL
    large: int = LARGE
    teachers: int = TEACHERS

    @property
    def limits(self) -> Thresholds:
        """How sure is sure."""
        return self.program.thresholds

    @property
    def banner(self) -> str:
        """The policy on devices in full."""
        return self.program.policy.sentence

    @property
    def watch_error_s(self) -> float:
        """What one reading of a hand-held watch scatters by."""
        return self.program.watch_error_s

    @property
    def method(self) -> bool:
        """This edition has the page of method."""
        return SHOWS[self.edition].method

    @property
    def game_plan(self) -> bool:
        """This edition has cards to print."""
        return SHOWS[self.edition].game_plan


# Modules of constants, by the name the page of method calls them.
MEASURES = {
    "directions": directions, "home": home_budget, "infield": infield_levels, "intervals": intervals,
    "mix": mix_centre, "outfield": outfield_levels, "pooling": pooling, "readings": readings, "spread": spread,
    "standing": standing, "steal_odds": steal_odds, "steals": steals, "times_through": times_through,
}  # fmt: skip


def guide_pages(people: Sequence[Person], findings: Findings, season: Season, *, edition: str) -> Iterator[Page]:
    """The explaining pages of an edition, in the order of the menu.

    Args:
        people: whose lines may serve as the example, who is met next first.
        findings: the season's measures.
        season: the validated season.
        edition: for whom, one that has the game plan.
    """
    example = worked_example(people, findings, season.program.thresholds)

    def page(address: str) -> GuidePage:
        return GuidePage(address, edition, season.program, example, bool(season.warnings), bool(season.skipped))

    yield cautions_page(season, edition=edition)
    yield Page("how-to-read", "How to read this", render("how-to-read.md.j2", page=page("how-to-read")),
               (SearchEntry("How to read this", READING_WORDS),), (GUIDE, "How to read this"))  # fmt: skip
    words = render("glossary.md.j2", page=page("glossary"), groups=COUNT_GROUPS)
    yield Page("glossary", "Glossary", words, tuple(glossary_entries(words)), (GUIDE, "Glossary"))
    if SHOWS[edition].method:
        text = render("method.md.j2", page=page("method"), **MEASURES)
        yield Page("method", "Method", text, (SearchEntry("Method", METHOD_WORDS),), (GUIDE, "Method"))


def cautions_page(season: Season, *, edition: str) -> Page:
    """The cautions, with the program's policy on devices; every edition has them."""
    text = render("cautions.md.j2", page=GuidePage("cautions", edition, season.program))
    return Page(
        "cautions",
        "Cautions",
        text,
        (SearchEntry("Cautions", CAUTION_WORDS, boost=2.0, keys="policy phones tablets devices dugout"),),
        ("Cautions",),
    )


def glossary_entries(markdown: str) -> Iterator[SearchEntry]:
    """The glossary as search finds it: the page, and every word at its place with the sentence that explains it."""
    found = _TERM.findall(markdown)
    yield SearchEntry("Glossary", "What the words and marks on these pages mean, from A to Z.")
    for term, sentence in found:
        said = _MARKUP.sub(lambda mark: mark[1] or "", sentence)
        yield SearchEntry(term, said, anchor(term), _WORD_BOOST)
