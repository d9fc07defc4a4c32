"""How fast and how true does the catcher throw to the bases?"""

from pathlib import Path

from scoutgen.records.table import Rows, read_rows
from scoutgen.records.vocabulary import (
    Accuracy,
    ExchangeSeconds,
    Inning,
    Label,
    Method,
    Note,
    PopSeconds,
    Row,
    Target,
    ThrowResult,
    YesNo,
)


class Throw(Row):
    """One throw of a catcher to a base."""

    game: Label
    inning: Inning | None = None
    catcher: Label
    pitcher: Label | None = None
    runner: Label | None = None
    to: Target
    pop_seconds: PopSeconds | None = None
    exchange_seconds: ExchangeSeconds | None = None
    method: Method | None = None
    accuracy: Accuracy | None = None
    result: ThrowResult | None = None
    warmup: YesNo | None = None
    clip: Note | None = None
    note: Note | None = None


def read_throws(root: Path) -> Rows:
    """All throws in the files of data/throws; an exchange as long as the whole pop time is an error."""
    rows = read_rows(root, "throws", Throw)
    frame = rows.frame
    pop, exchange = frame["pop_seconds"].to_numpy(float), frame["exchange_seconds"].to_numpy(float)

    def too_long(row: int) -> str:
        return f"{exchange[row]:g} is not shorter than pop_seconds {pop[row]:g}, of which it is a part; correct one"

    rows.flag(exchange >= pop, "exchange_seconds", too_long)
    frame["warmup"] = frame["warmup"].fillna(value=False)
    return rows
