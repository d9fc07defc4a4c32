"""The book of evaluations: the list of every man graded, over all opponents, and a page on each."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from typing import Final

from scoutgen.measures.hitting import HARD_HIT_FT
from scoutgen.measures.readings import FRAMES_ERROR_S
from scoutgen.pages.book import Book, Page, SearchEntry
from scoutgen.pages.evaluation import EvaluationPage, evaluation_facts, evaluation_page
from scoutgen.pages.guide import cautions_page
from scoutgen.pages.markdown import render
from scoutgen.pages.measured import Measured, find_measured, measured
from scoutgen.pages.people import people
from scoutgen.records.opponents import Entry
from scoutgen.records.program import Thresholds
from scoutgen.records.season import Season

# Tools named in the list beside the grade as a whole.
_BEST: Final = 2
READING_WORDS: Final = "What the grades mean: 20 to 80, now and later, intervals, readings, few, old, sources."


@dataclass(frozen=True)
class ListLine:
    """One man of the list; None where nobody graded or timed it."""

    page: EvaluationPage
    best: tuple[tuple[str, int], ...]
    to_first: Measured | None
    pop: Measured | None
    speed: Measured | None

    @property
    def plays(self) -> str:
        """LHP, RHP, or where he plays; a pitcher who hits is both."""
        person = self.page.person
        first = (person.short_hand,) if person.pitches else ()
        return ", ".join((*first, *(p for p in person.man.positions if p != "P"))) or person.short_hand


@dataclass(frozen=True)
class EvaluationList:
    """The home page of the edition."""

    address: str
    title: str
    level: str
    lines: tuple[ListLine, ...]
    teams: tuple[str, ...]
    built: str
    as_of: date


@dataclass(frozen=True)
class GradesReading:
    """How to read the evaluations."""

    address: str
    level: str
    limits: Thresholds
    watch_error_s: float
    built: str
    as_of: date
    hard_ft: float = HARD_HIT_FT
    frames_error_s: float = FRAMES_ERROR_S


def evaluation_book(
    season: Season, *, edition: str, built: str, progress: Callable[[int, int], None] | None = None
) -> Book:
    """Write the evaluations.

    Args:
        season: as the edition may know it; men with grades or with notes marked for it have a page.
        edition: for whom.
        built: when, in words.
        progress: called with the pages written so far and the pages to write.
    """
    pages = evaluation_pages(season, built=built)
    front = evaluation_list(pages, season, built=built)
    level, limits = season.program.graded_level, season.program.thresholds
    reading = GradesReading("how-to-read", level, limits, season.program.watch_error_s, built, season.as_of)
    names = ", ".join(front.teams)
    written: list[Page] = []

    def put(page: Page) -> None:
        written.append(page)
        if progress:
            progress(len(written), len(pages) + 3)

    words = f"The list of everybody graded{f': {names}' if names else ''}."
    text = render("evaluations.md.j2", page=front)
    put(Page(front.address, front.title, text, (SearchEntry(front.title, words, boost=2.0),), ("Evaluations",)))
    for page in pages:
        put(Page(page.address, page.title, render("evaluation.md.j2", page=page), (_entry(page),)))
    title, text = "How to read this", render("evaluations-reading.md.j2", page=reading)
    put(Page(reading.address, title, text, (SearchEntry(title, READING_WORDS),), (title,)))
    put(cautions_page(season, edition=edition))
    numbers = {page.facts_address: evaluation_facts(page) for page in pages}
    return Book(tuple(written), facts=numbers, policy=season.program.policy.short)


def evaluation_pages(season: Season, *, built: str) -> tuple[EvaluationPage, ...]:
    """A page for every man with grades or notes, team by team, each in the order of its roster."""
    found, limits = find_measured(season), season.program.thresholds
    made = []
    for men in people(season).values():
        for person in men:
            entry = season.entries.get((person.team.key, person.man.key))
            if entry is None or not _evaluated(entry):
                continue
            mine = measured(found, person.team.key, person.man.key, few_readings=limits.few_readings)
            made.append(
                evaluation_page(person, entry, mine, level=season.program.graded_level, as_of=season.as_of, built=built)
            )
    return tuple(made)


def evaluation_list(pages: Iterable[EvaluationPage], season: Season, *, built: str) -> EvaluationList:
    """The list, the best grade as a whole first, then by what he may become and by name."""
    lines = sorted((_line(page) for page in pages), key=_place)
    return EvaluationList(
        address="index",
        title="Evaluations",
        level=season.program.graded_level,
        lines=tuple(lines),
        teams=tuple(dict.fromkeys(line.page.team_name for line in lines)),
        built=built,
        as_of=season.as_of,
    )


def _evaluated(entry: Entry) -> bool:
    return entry.grades is not None or bool(entry.observations)


def _line(page: EvaluationPage) -> ListLine:
    best = sorted(((line.tool, line.grade.now) for line in page.lines), key=lambda tool: -tool[1])
    hard = [m for m in (page.reading(f"speed {pitch}") for pitch in ("fastball", "sinker")) if m is not None]
    return ListLine(
        page=page,
        best=tuple(best[:_BEST]),
        to_first=page.reading("home_first full"),
        pop=page.reading("pop 2"),
        speed=max(hard, key=lambda m: m.n, default=None),
    )


def _place(line: ListLine) -> tuple[int, int, str]:
    overall = line.page.overall
    now = overall.now if overall else 0
    later = (overall.later or overall.now) if overall else 0
    return (-now, -later, line.page.person.man.name.casefold())


def _entry(page: EvaluationPage) -> SearchEntry:
    """Found by name, number, hand, team, role and graded tools."""
    said = [page.who[:1].upper() + page.who[1:], page.person.short_hand, page.team_name]
    if page.overall:
        later = f", {page.overall.later} later" if page.overall.later else ""
        said.append(f"Overall {page.overall.now}{later}")
    said += [f"{line.tool.capitalize()} {line.grade.now}" for line in page.lines]
    said.append(page.grades.role.rstrip(".") if page.grades and page.grades.role else "")
    return SearchEntry(page.title, " ".join(f"{words}." for words in said if words))
