"""Which habits does the staff look for, what does each give us, and what does it feed?"""

from functools import cache
from importlib import resources
from pathlib import Path
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from scoutgen.records.fields import AS_WHOLE, FreeText, Key, Name, Record, between, in_one_line
from scoutgen.records.problems import Problem
from scoutgen.records.yamlrecord import read_record

HABITS_FILE = "content/habits.yml"
USUAL_HABITS = "usual_habits.yml"

Door: TypeAlias = Literal[
    "steal_second", "steal_third", "steal_home", "delayed_steal", "double_steal", "bigger_lead", "extra_base", "bunt",
    "hit_and_run", "dirt_ball",
]  # fmt: skip
HabitPage: TypeAlias = Literal["pitcher", "catcher", "infield", "outfield"]
Fielder = Annotated[int, between(1, 9), AS_WHOLE]


class HabitKind(Record):
    """One habit the staff charts: a question a look answers with yes or no, or with a distance.

    `positions` are scorekeeping numbers (1 pitcher, 2 catcher, ... 9 right fielder); in YAML the key is `position`.
    """

    key: Key = Field(description="How the habits table writes it, e.g. lobs-return.")
    positions: Annotated[tuple[Fielder, ...], in_one_line(Fielder, "[1-9]", fewest=1)] = Field(
        alias="position",
        description="Whose habit it is, 1 to 9; one position or several, e.g. 2 or [4, 6].",
    )
    question: FreeText = Field(description="The question one look answers, e.g. Does he lob it back to the mound?")
    statement: FreeText | None = Field(
        None, description="The same as a heading, e.g. Lobs it back to the mound; the question stands if left out."
    )
    gives: FreeText = Field(description="What it gives us when the answer is yes.")
    page: HabitPage = Field(description="The page it feeds: pitcher, catcher, infield or outfield.")
    decision: Name = Field(description="The decision it feeds, in a few words.")
    measured: Literal["yes_no", "feet"] = Field("yes_no", description="yes_no for a yes or no, feet for a distance.")
    opens: Door | None = Field(None, description="The door it opens for a runner or a hitter, if any, e.g. steal_home.")

    @property
    def said(self) -> str:
        """The habit as a heading says it: the statement, or the question where none is written."""
        return self.statement or self.question


class HabitsFile(Record):
    """What content/habits.yml holds: kinds that come on top of the usual ones or, with the same key, in their place."""

    habits: tuple[HabitKind, ...] = Field((), description="Habits of our own; a key of a usual one replaces it.")


def read_habit_kinds(root: Path) -> tuple[dict[str, HabitKind], list[Problem]]:
    """Which habits may the habits table name?

    Returns:
        The kinds by key: the usual ones in their order, then the staff's own; and the problems of content/habits.yml.
    """
    kinds = usual_habit_kinds()
    path = root / HABITS_FILE
    if not path.exists():
        return kinds, []
    record, source, problems = read_record(path, root, HabitsFile)
    first: dict[str, int] = {}
    for position, kind in enumerate(record.habits if record else ()):
        if kind.key in first:
            line = source.line(("habits", first[kind.key]))
            problems.append(
                source.problem(
                    ("habits", position, "key"), f"the habit '{kind.key}' stands twice (first in line {line}); keep one"
                )
            )
            continue
        first[kind.key] = position
        kinds[kind.key] = kind
    return kinds, problems


def usual_habit_kinds() -> dict[str, HabitKind]:
    """The trade's usual ones, which every project starts with."""
    return {kind.key: kind for kind in _usual()}


@cache
def _usual() -> tuple[HabitKind, ...]:
    with resources.as_file(resources.files("scoutgen.records") / USUAL_HABITS) as path:
        record, _, problems = read_record(path, path.parent, HabitsFile)
    if record is None:
        raise RuntimeError("\n".join(map(str, problems)))
    return record.habits
