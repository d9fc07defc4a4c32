"""Where did each fielder stand?"""

from pathlib import Path

from scoutgen.records.table import Rows, read_rows
from scoutgen.records.vocabulary import (
    Bases,
    Fielder,
    FieldFt,
    Inning,
    Label,
    Note,
    Outs,
    Row,
    Side,
    Strikes,
    Toward,
)


class FielderPosition(Row):
    """One look at where a fielder stood."""

    game: Label
    inning: Inning | None = None
    team: Label
    position: Fielder
    player: Label | None = None
    bats: Side | None = None
    bases: Bases | None = None
    outs: Outs | None = None
    strikes: Strikes | None = None
    depth_ft: FieldFt | None = None
    off_bag_ft: FieldFt | None = None
    toward: Toward | None = None
    note: Note | None = None


def read_positions(root: Path) -> Rows:
    """All looks in the files of data/positions."""
    return read_rows(root, "positions", FielderPosition)
