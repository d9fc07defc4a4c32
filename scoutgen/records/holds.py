"""How long does the pitcher hold the ball with a runner on, how often does he look, and what does he do then?"""

from pathlib import Path

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
    for base in "123":
        empty = ((then == f"pickoff_{base}") & bases.notna() & ~bases.str.contains(base, na=False)).to_numpy(bool)
        rows.flag(
            empty,
            "then",
            lambda row, base=base: f"pickoff_{base} throws to a base that nobody holds (bases is {bases.iat[row]}); correct one of the two",  # type: ignore[misc]
        )
    return rows
