"""Where did each fielder stand?"""

from pathlib import Path

import numpy as np

from scoutgen.records.import_cells import METRES_PER_FOOT
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


# Feet from home plate between which a fielder stands, in for a bunt or back against doubles: common practice, memory.
# What is outside is most often in metres.
USUAL_DEPTHS_FT = {3: (45, 150), 4: (70, 200), 5: (45, 150), 6: (70, 200), 7: (150, 400), 8: (150, 430), 9: (150, 400)}


def read_positions(root: Path) -> Rows:
    """All looks in the files of data/positions; where nobody stands is a warning."""
    rows = read_rows(root, "positions", FielderPosition)
    position, depth = rows.frame["position"], rows.frame["depth_ft"].to_numpy(float)
    low, high = (
        position.map({place: span[end] for place, span in USUAL_DEPTHS_FT.items()}).to_numpy(float, na_value=np.nan)
        for end in (0, 1)
    )

    def text(row: int) -> str:
        where = "nearer" if depth[row] < low[row] else "farther"
        usual = f"than position {position.iloc[row]} stands, {low[row]:g} to {high[row]:g}"
        said = f"{depth[row]:g} ft from home plate is {where} {usual}"
        metres = depth[row] / METRES_PER_FOOT
        if low[row] <= metres <= high[row]:
            return f"{said}; if these are metres, write {metres:.0f}, or unit: m in the map of an import"
        return f"{said}; see that it is right"

    rows.flag((depth < low) | (depth > high), "depth_ft", text, "warning")
    return rows
