"""Which imported rows are new, which were charted already, and which say something else than what was charted?"""

from collections import defaultdict
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pandas as pd

from scoutgen.records.check import quoted
from scoutgen.records.import_map import NOTES

# What a row is about, as far as a chart can say it; where one of these is blank nobody can tell two rows apart.
# Looks at habits and at fielders have no such key: the same man does the same thing pitch after pitch.
KEYS: Mapping[str, tuple[str, ...]] = {
    "games": ("game",),
    "pitches": ("game", "inning", "half", "batter", "outs", "balls", "strikes"),
    "times": ("game", "inning", "player", "measure", "outs", "balls", "strikes"),
    "holds": ("game", "inning", "pitcher", "bases", "balls", "strikes"),
    "throws": ("game", "inning", "catcher", "to", "runner"),
}
# Said by whoever charted, each in his own way, or worked out from other columns.
NOT_COMPARED = NOTES | {"file", "line", "date_", "source_"}
# Half of the last decimal that a conversion leaves.
WITHIN = 0.0051

Values = dict[str, Any]


@dataclass(frozen=True)
class Conflict:
    """An imported row that contradicts a charted one.

    Attributes:
        row: its position among the imported rows.
        file, line: where the charted row stands.
        column: the first column that differs.
        text: both values.
    """

    row: int
    file: str
    line: int
    column: str
    text: str


@dataclass
class Sorted:
    """Imported rows by what is to be done with them; positions among the imported rows."""

    new: list[int] = field(default_factory=list)
    charted: list[int] = field(default_factory=list)
    conflicts: list[Conflict] = field(default_factory=list)


def sort_out(table: str, imported: pd.DataFrame, charted: pd.DataFrame) -> Sorted:
    """Compare imported rows with what stands in the project's other files.

    A row equal to a charted one in all that both fill is charted already, one for one; of rows that are about the same
    thing, as far as their key says, and differ, the imported one is a conflict.

    Args:
        table: which.
        imported: the table's frame of imported rows, resolved.
        charted: that of the project, without rows of this import.
    """
    key = KEYS.get(table, ())
    # Rows of games that nobody has charted are new without a look; a dictionary for each would fill the memory.
    asked = imported["game"].astype("object").isin(set(charted["game"].astype("object"))).to_numpy(bool)
    found = Sorted(new=[int(place) for place in np.flatnonzero(~asked)])
    charted = charted[charted["game"].astype("object").isin(set(imported["game"].astype("object"))).to_numpy(bool)]
    there: dict[Hashable, list[Values]] = defaultdict(list)
    for row in _values(charted):
        there[_group(row, key)].append(row)
    left: dict[Hashable, list[tuple[int, Values]]] = defaultdict(list)
    for place, row in zip(np.flatnonzero(asked).tolist(), _values(imported[asked]), strict=True):
        group = _group(row, key)
        twin = next((one for one in there.get(group, ()) if not _difference(row, one)), None)
        if twin is not None:
            there[group].remove(twin)
            found.charted.append(place)
        else:
            left[group].append((place, row))
    for group, rows in left.items():
        others = there.get(group, []) if _is_full(group) else []
        if not others:
            found.new += [place for place, _ in rows]
        for place, row in rows if others else ():
            column = _difference(row, others[0])
            text = f"{quoted(_said(row[column]))}, but {quoted(_said(others[0][column]))} is charted in"
            found.conflicts.append(Conflict(place, str(others[0]["file"]), int(others[0]["line"]), column, text))
    found.new.sort()
    found.conflicts.sort(key=lambda one: one.row)
    return found


def _values(frame: pd.DataFrame) -> list[Values]:
    """Rows as dictionaries, None for what is missing."""
    plain = frame.astype("object").where(frame.notna(), None)
    return [{str(name): value for name, value in row.items()} for row in plain.to_dict("records")]


def _group(row: Values, key: tuple[str, ...]) -> Hashable:
    """What a row is about; of a row that leaves part of it blank, its game alone."""
    parts = tuple(row.get(name) for name in key)
    return parts if parts and None not in parts else ("", row["game"])


def _is_full(group: Hashable) -> bool:
    return not (isinstance(group, tuple) and group[0] == "")


def _difference(a: Values, b: Values) -> str:
    """The first column that both fill, each with something else; empty where there is none."""
    for column, value in a.items():
        other = b.get(column)
        if value is None or other is None or column in NOT_COMPARED:
            continue
        if isinstance(value, float) and isinstance(other, float):
            if abs(value - other) > WITHIN:
                return column
        elif value != other:
            return column
    return ""


def _said(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, pd.Timestamp):
        return f"{value:%Y-%m-%d}"
    return f"{value:g}" if isinstance(value, float) else str(value) or "-"
