"""The list of every man graded, over all opponents, and a page on each: a book of their own, or part of another."""

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from scoutgen.measures.hitting import HARD_HIT_FT
from scoutgen.measures.readings import FRAMES_ERROR_S
from scoutgen.pages.book import Book, Page, SearchEntry
from scoutgen.pages.changed import MENU as CHANGED_MENU
from scoutgen.pages.changed import Earlier, changed_page
from scoutgen.pages.evaluation import ALONE, EvaluationPage, Place, evaluation_facts, evaluation_page
from scoutgen.pages.findings import Findings
from scoutgen.pages.guide import cautions_page
from scoutgen.pages.markdown import render
from scoutgen.pages.measured import Measured, find_measured, measured
from scoutgen.pages.people import people
from scoutgen.pages.said import Said, Saying
from scoutgen.pages.sayings_of_grades import of_evaluation
from scoutgen.records.opponents import Entry
from scoutgen.records.program import Thresholds
from scoutgen.records.season import Season

# Tools named in the list beside the grade as a whole.
_BEST: Final = 2
GRADES_CHANGED_WORDS: Final = "What changed since the last build: new grades, grades that were changed, new notes."
READING_WORDS: Final = "What the grades mean: 20 to 80, now and later, intervals, readings, few, old, sources."
# Among pages about a game whoever types a name or a number wants those first; who adds "evaluation" wants the man's.
_BESIDE_BOOST: Final = 0.85
_LIST_BESIDE_BOOST: Final = 0.4
_READING_BESIDE_BOOST: Final = 0.2


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
    """The page that lists everybody."""

    address: str
    title: str
    place: Place
    level: str
    lines: tuple[ListLine, ...]
    teams: tuple[str, ...]
    built: str
    as_of: date


@dataclass(frozen=True)
class GradesReading:
    """How to read the evaluations."""

    address: str
    title: str
    place: Place
    level: str
    limits: Thresholds
    watch_error_s: float
    built: str
    as_of: date
    hard_ft: float = HARD_HIT_FT
    frames_error_s: float = FRAMES_ERROR_S


@dataclass(frozen=True)
class Evaluations:
    """All evaluations of an edition: the list, a page on each man, and how to read them."""

    front: EvaluationList
    men: tuple[EvaluationPage, ...]
    reading: GradesReading

    def pages(self) -> Iterator[Page]:
        """The pages, written; in the menu the list, and the reading where nothing else explains the edition."""
        front, reading = self.front, self.reading
        beside = front.place.beside_game
        names = ", ".join(front.teams)
        words = f"The list of everybody graded{f': {names}' if names else ''}."
        keys, boost = ("grades 20-80 recruiting list", _LIST_BESIDE_BOOST) if beside else ("", 2.0)
        entry = SearchEntry(front.title, words, boost=boost, keys=keys)
        text = render("evaluations.md.j2", page=front)
        yield Page(front.address, front.title, text, (entry,), (front.title,))
        for page in self.men:
            yield Page(page.address, page.title, render("evaluation.md.j2", page=page), (_entry(page),))
        text = render("evaluations-reading.md.j2", page=reading)
        entry = SearchEntry(reading.title, READING_WORDS, boost=_READING_BESIDE_BOOST if beside else 1.0)
        yield Page(reading.address, reading.title, text, (entry,), () if beside else (reading.title,))

    def sayings(self) -> dict[str, Saying]:
        """What they say, thing by thing, for the next build to be compared with."""
        return {key: saying for page in self.men for key, saying in of_evaluation(page)}


def evaluations(
    season: Season, found: Findings, *, place: Place, built: str, only: Collection[str] | None = None
) -> Evaluations:
    """Evaluate everybody with grades or notes.

    Args:
        season: as the evaluations may know it (`records.editions.evaluation_part`).
        found: what was measured of them, from `find_measured` or among all that `findings.find` found.
        place: where the edition has them.
        built: when, in words.
        only: teams of whom it is asked what was measured; None for all.
    """
    men = evaluation_pages(season, found, built=built, place=place, only=only)
    reading = GradesReading(
        address=place.reading,
        title="How to read the grades" if place.beside_game else "How to read this",
        place=place,
        level=season.program.graded_level,
        limits=season.program.thresholds,
        watch_error_s=season.program.watch_error_s,
        built=built,
        as_of=season.as_of,
    )
    return Evaluations(evaluation_list(men, season, built=built, place=place), men, reading)


def evaluation_book(
    season: Season,
    *,
    edition: str,
    built: str,
    compared_with: Callable[[Said], Earlier],
    progress: Callable[[int, int], None] | None = None,
) -> Book:
    """Write a book of evaluations alone.

    Args:
        season: as the edition may know it; men with grades or with notes marked for it have a page.
        edition: for whom.
        built: when, in words.
        compared_with: from what this build says to what an earlier one said, for the page of what changed.
        progress: called with the pages written so far and the pages to write.
    """
    made = evaluations(season, find_measured(season), place=ALONE, built=built)
    said = made.sayings()
    written: list[Page] = []

    def put(pages: Iterable[Page]) -> None:
        for page in pages:
            written.append(page)
            if progress:
                progress(len(written), len(made.men) + 4)

    put(made.pages())
    news = changed_page(
        compared_with(said), said, {page.address for page in written}, coming="", built=built, as_of=season.as_of,
        game_plan=False,
    )  # fmt: skip
    text = render("changed.md.j2", page=news)
    entry = SearchEntry(news.title, GRADES_CHANGED_WORDS, keys="new since last time")
    put([Page(news.address, news.title, text, (entry,), CHANGED_MENU), cautions_page(season, edition=edition)])
    numbers = {page.facts_address: evaluation_facts(page) for page in made.men}
    return Book(tuple(written), facts=numbers, said=said, policy=season.program.policy.short)


def evaluation_pages(
    season: Season, found: Findings, *, built: str, place: Place = ALONE, only: Collection[str] | None = None
) -> tuple[EvaluationPage, ...]:
    """A page for every man with grades or notes, team by team, each in the order of its roster."""
    limits = season.program.thresholds
    made = []
    for men in people(season).values():
        for person in men:
            entry = season.entries.get((person.team.key, person.man.key))
            if entry is None or not _evaluated(entry):
                continue
            mine: tuple[Measured, ...] = ()
            if only is None or person.team.key in only:
                mine = measured(found, person.team.key, person.man.key, few_readings=limits.few_readings)
            level = season.program.graded_level
            made.append(evaluation_page(person, entry, mine, level=level, as_of=season.as_of, built=built, place=place))
    return tuple(made)


def evaluation_list(
    pages: Iterable[EvaluationPage], season: Season, *, built: str, place: Place = ALONE
) -> EvaluationList:
    """The list, the best grade as a whole first, then by what he may become and by name."""
    lines = sorted((_line(page) for page in pages), key=_place)
    return EvaluationList(
        address=place.front,
        title="Evaluations",
        place=place,
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
    boost = _BESIDE_BOOST if page.place.beside_game else 1.0
    return SearchEntry(page.title, " ".join(f"{words}." for words in said if words), boost=boost)
