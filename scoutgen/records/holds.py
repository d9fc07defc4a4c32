"""How long does the pitcher hold the ball with a runner on, how often does he look, and what does he do then?"""

from pathlib import Path

import numpy as np

from scoutgen.records.table import Rows, read_rows
from scoutgen.records.vocabulary import (
    Balls,
    HoldSeconds,
    HoldStyle,
    Inning,
    Label,
    Looks,
    Note,
    OccupiedBases,
    Row,
    Strikes,
    Then,
)


class Hold(Row):
    """One time the pitcher came set with a runner on."""

    game: Label
    inning: Inning | None = None
    pitcher: Label
    bases: OccupiedBases
    balls: Balls | None = None
    strikes: Strikes | None = None
    looks: Looks | None = None
    hold_seconds: HoldSeconds | None = None
    then: Then
    style: HoldStyle | None = None
    clip: Note | None = None
    note: Note | None = None


def read_holds(root: Path) -> Rows:
    """All holds in the files of data/holds; a pickoff at a base that nobody holds is an error."""
    rows = read_rows(root, "holds", Hold)
    bases, then = rows.frame["bases"].astype("object"), rows.frame["then"].astype("object")
    empty = np.zeros(len(rows.frame), bool)
    for base in "123":
        empty |= ((then == f"pickoff_{base}") & bases.notna() & ~bases.str.contains(base, na=False)).to_numpy(bool)

    def nobody_there(row: int) -> str:
        there = f"bases is {rows.cell(row, 'bases')}"
        return f"{rows.cell(row, 'then')} throws to a base that nobody holds ({there}); correct one of the two"

    rows.flag(empty, "then", nobody_there)
    return rows
