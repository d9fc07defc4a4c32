"""What one man's evaluation says, thing by thing."""

from collections.abc import Iterator

from scoutgen.pages.evaluation import EvaluationPage
from scoutgen.pages.said import Saying
from scoutgen.records.grades import Grade


def of_evaluation(page: EvaluationPage) -> Iterator[tuple[str, Saying]]:
    """Every grade, the one as a whole first, and every note marked for evaluations, by a key that stays the same."""
    person = page.person
    who, about = f"{person.team.key}|{person.man.key}", person.brief
    given = [("overall", page.overall), *((line.tool, line.grade) for line in page.lines)]
    by = ", ".join(words for words in (page.grades.by, page.source) if words) if page.grades else ""
    for tool, grade in given:
        if grade is not None:
            yield (
                f"grade|{who}|{tool}",
                Saying("grade", page.team_name, about, tool, _said(grade), page.address, detail=by),
            )
    for what, note, _ in (*page.first, *page.more):
        yield (
            f"note|evaluation|{who}|{what}|{note.seen}|{note.by}|{note.text}",
            Saying(
                "note", page.team_name, about, what, note.text, page.address,
                detail=f"{note.by}, {note.source}, {note.confidence}",
            ),
        )  # fmt: skip


def _said(grade: Grade) -> str:
    return f"{grade.now}, {grade.later} later" if grade.later else str(grade.now)
