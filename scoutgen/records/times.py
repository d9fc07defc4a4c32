"""What did the watch say: one row a reading, kept apart by how it was taken."""

from pathlib import Path

import numpy as np

from scoutgen.records.check import listed, quoted
from scoutgen.records.table import Rows, read_rows
from scoutgen.records.vocabulary import (
    Balls,
    Bases,
    Inning,
    Label,
    Measure,
    Method,
    Note,
    Outs,
    Row,
    Side,
    Strikes,
    TimeStyle,
    WatchSeconds,
    YesNo,
)

# Seconds a reading can plausibly have: wide enough for the slowest runner, narrow enough for a slip of the thumb.
LIMITS_SECONDS = {
    "plate": (0.8, 2.6),
    "pickoff_1": (0.5, 2.5),
    "pickoff_2": (0.5, 2.5),
    "pickoff_3": (0.5, 2.5),
    "return_throw": (0.4, 2.5),
    "home_first": (3.0, 6.0),
    "first_second": (2.6, 5.0),
    "second_third": (2.6, 5.0),
    "third_home": (1.5, 5.0),
}
STYLES: dict[str, tuple[str, ...]] = {
    "plate": ("windup", "stretch", "slide_step"),
    "return_throw": ("firm", "lob", "knees"),
    "home_first": ("full", "bunt", "out_of_box"),
}


class TimeReading(Row):
    """One reading."""

    game: Label
    inning: Inning | None = None
    player: Label
    measure: Measure
    style: TimeStyle | None = None
    bases: Bases | None = None
    outs: Outs | None = None
    balls: Balls | None = None
    strikes: Strikes | None = None
    bats: Side | None = None
    seconds: WatchSeconds
    method: Method
    warmup: YesNo | None = None
    clip: Note | None = None
    note: Note | None = None


def read_times(root: Path) -> Rows:
    """All readings in the files of data/times; outside a measure's limits, or in a style it has not, is an error."""
    rows = read_rows(root, "times", TimeReading)
    frame = rows.frame
    measure = frame["measure"].astype("object")
    seconds = frame["seconds"].to_numpy(float)
    low = measure.map({name: span[0] for name, span in LIMITS_SECONDS.items()}).to_numpy(float)
    high = measure.map({name: span[1] for name, span in LIMITS_SECONDS.items()}).to_numpy(float)

    def implausible(row: int) -> str:
        what = f"{seconds[row]:g} cannot be a time of {quoted(rows.cell(row, 'measure'))}"
        span = f"{low[row]:g} to {high[row]:g} seconds"
        return f"{what}; allowed are {span}; correct it, or delete the row when the watch was stopped wrongly"

    rows.flag((seconds < low) | (seconds > high), "seconds", implausible)
    style = frame["style"].astype("object")
    other = np.zeros(len(frame), bool)
    for name in LIMITS_SECONDS:
        other |= ((measure == name) & style.notna() & ~style.isin(STYLES.get(name, ()))).to_numpy(bool)

    def wrong_style(row: int) -> str:
        name = rows.cell(row, "measure")
        hint = f"write {listed(STYLES[name])}, or leave it blank" if name in STYLES else "leave it blank"
        return f"{quoted(rows.cell(row, 'style'))} is not a style of {name}; {hint}"

    rows.flag(other, "style", wrong_style)
    # A blank means a live reading.
    frame["warmup"] = frame["warmup"].fillna(value=False)
    return rows
