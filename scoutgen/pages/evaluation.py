"""One man's evaluation: his grades now and later, what was seen and when, what was measured beside them."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from scoutgen.pages.measured import Measured
from scoutgen.pages.notes import Note, noted
from scoutgen.pages.people import Person
from scoutgen.pages.words import SOURCE_WORDS
from scoutgen.records.grades import Grade, Grades
from scoutgen.records.opponents import Entry

# Notes that surely fit on the one sheet beside grades and measures; the others open on a tap.
NOTES_ON_THE_SHEET: Final = 5
FORMAT: Final = 1


@dataclass(frozen=True)
class Place:
    """Where an edition has its evaluations.

    Attributes:
        front: the list.
        reading: how to read them.
        beside_game: the edition has pages about a game too, each man's scouting page among them.
    """

    front: str
    reading: str
    beside_game: bool


#: Evaluations alone, and evaluations among the pages about a game.
ALONE: Final = Place("index", "how-to-read", beside_game=False)
BESIDE: Final = Place("evaluations/index", "evaluations/how-to-read", beside_game=True)


@dataclass(frozen=True)
class GradeLine:
    """One tool: its grade, what was seen of it, and what was measured of it."""

    tool: str
    grade: Grade
    measured: tuple[Measured, ...]


@dataclass(frozen=True)
class EvaluationPage:
    """All that one man's evaluation says.

    Attributes:
        who: class, role or positions, and sides in words.
        overall: his grade as a whole; None where nobody gave one.
        seen: day, source and initials of the grades, in words, outside of `lines`.
        lines: the other tools in the order they were written.
        others: measured, but not graded.
        level: the level whose average is 50.
        old: past the day set for it.
        first, more: notes, newest first, on the sheet and behind a tap.
    """

    person: Person
    address: str
    title: str
    team_name: str
    who: str
    grades: Grades | None
    source: str
    overall: Grade | None
    lines: tuple[GradeLine, ...]
    others: tuple[Measured, ...]
    measured: tuple[Measured, ...]
    first: tuple[tuple[str, Note, bool], ...]
    more: tuple[tuple[str, Note, bool], ...]
    facts_address: str
    level: str
    place: Place
    built: str
    as_of: date

    def reading(self, key: str) -> Measured | None:
        """One thing measured, by its key."""
        return next((m for m in self.measured if m.key == key), None)


def evaluation_address(team: str, player: str) -> str:
    """Where a man's evaluation stands."""
    return f"evaluations/{team}/{player}"


def evaluation_page(
    person: Person,
    entry: Entry,
    found: Sequence[Measured],
    *,
    level: str,
    as_of: date,
    built: str,
    place: Place = ALONE,
) -> EvaluationPage:
    """Put one man's evaluation together.

    Args:
        person: who.
        entry: what was written on him, as the edition may know it.
        found: what was measured of him.
        level: the level whose average is a grade of 50.
        as_of: the day the site is made for.
        built: when, in words.
        place: where the edition has its evaluations.
    """
    team, man, grades = person.team, person.man, entry.grades
    tools = dict(grades.tools) if grades else {}
    overall = tools.pop("overall", None)
    seen = noted(entry.observations, as_of=as_of)
    return EvaluationPage(
        person=person,
        address=evaluation_address(team.key, man.key),
        # Beside his scouting page, which has his name for its title.
        title=f"{person.title}: evaluation" if place.beside_game else person.title,
        team_name=team.name,
        who=_who(person),
        grades=grades,
        source=SOURCE_WORDS[grades.source] if grades and grades.source else "",
        overall=overall,
        lines=tuple(GradeLine(tool, grade, tuple(m for m in found if m.tool == tool)) for tool, grade in tools.items()),
        others=tuple(m for m in found if m.tool not in tools),
        measured=tuple(found),
        first=seen[:NOTES_ON_THE_SHEET],
        more=seen[NOTES_ON_THE_SHEET:],
        facts_address=f"facts/{team.key}/{man.key}.json",
        level=level,
        place=place,
        built=built,
        as_of=as_of,
    )


def evaluation_facts(page: EvaluationPage) -> str:
    """One man's evaluation as JSON text: head, and what `grades_and_measures` gives."""
    man = page.person.man
    head = {
        "format": FORMAT, "team": page.person.team.key, "player": man.key, "name": man.name, "number": man.number,
        "as_of": page.as_of.isoformat(), "built": page.built,
    }  # fmt: skip
    return json.dumps({**head, **grades_and_measures(page)}, ensure_ascii=False, separators=(",", ":")) + "\n"


def grades_and_measures(page: EvaluationPage) -> dict[str, Any]:
    """`grades` (None where nobody graded him) and `measured`, a row a thing.

    Times are seconds, speeds miles an hour, k of n counts; missing values are None.
    """
    grades = page.grades
    written = None
    if grades is not None:
        tools = {
            tool: {"now": grade.now, "later": grade.later, "saw": grade.saw} for tool, grade in grades.tools.items()
        }
        written = {
            "seen": grades.seen.isoformat(), "source": grades.source, "by": grades.by, "level": page.level,
            "body": grades.body, "role": grades.role, "tools": tools,
        }  # fmt: skip
    rows = [
        {
            "tool": m.tool, "measure": m.key, "unit": m.unit, "k": m.k, "n": m.n, "median": m.median, "low": m.low,
            "high": m.high, "few": m.few, "last_seen": m.last_seen.isoformat() if m.last_seen else None,
        }
        for m in page.measured
    ]  # fmt: skip
    return {"grades": written, "measured": rows}


def _who(person: Person) -> str:
    man = person.man
    plays = person.hand.replace("-handed pitcher", f"-handed {man.role}") if man.role else person.hand
    return " · ".join(words for words in (plays, man.class_year or "") if words)
