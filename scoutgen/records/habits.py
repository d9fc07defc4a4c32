"""Which habits were looked for, of whom, and were they seen?"""

from pathlib import Path

from scoutgen.records.table import Rows, read_rows
from scoutgen.records.vocabulary import (
    Bases,
    FieldFt,
    Habit,
    Inning,
    Label,
    Names,
    Note,
    Outs,
    Position,
    Row,
    Side,
    YesNo,
)


class HabitLook(Row):
    """One look at a habit."""

    game: Label
    inning: Inning | None = None
    team: Label
    player: Label | None = None
    position: Position | None = None
    habit: Habit
    bases: Bases | None = None
    bats: Side | None = None
    outs: Outs | None = None
    seen: YesNo
    feet: FieldFt | None = None
    clip: Note | None = None
    note: Note | None = None


def read_habits(root: Path, *, habits: Names) -> Rows:
    """All looks in the files of data/habits; `habits` are the keys of content/habits.yml."""
    return read_rows(root, "habits", HabitLook, {"habits": habits})
