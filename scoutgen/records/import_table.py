"""Which of our tables are the rows of somebody else's file, by its headers and what was timed?"""

from collections.abc import Sequence

from scoutgen.records.check import field_checks
from scoutgen.records.import_columns import Column, meant_by
from scoutgen.records.import_map import RECORDS
from scoutgen.records.import_notations import nearly_all, no_numbers
from scoutgen.records.import_words import COUNT, TELLING, TIMED
from scoutgen.records.times import LIMITS_SECONDS

# What a chart of pitches says beside the count and the batter, which stand on a sheet of times too.
_PITCHED = frozenset({"pitch", "result", "speed_mph"})
_ON_EITHER = frozenset({"count", "batter"})
_SECONDS = (min(low for low, _ in LIMITS_SECONDS.values()), max(high for _, high in LIMITS_SECONDS.values()))


def likely_table(columns: Sequence[Column]) -> str:
    """The table that most of the telling columns point to; pitches where nothing tells."""
    there = {name for column in columns for name in meant_by(column)} | {"count" for c in columns if c.words in COUNT}
    # A chart of pitches may time some of them too.
    if not there & _PITCHED and (times := _times(columns)):
        there = there - _ON_EITHER | times
    known = {table: set(field_checks(record)) for table, record in RECORDS.items()}
    return max(
        sorted(RECORDS, key=lambda name: name != "pitches"),
        key=lambda table: 3 * len(there & set(TELLING[table])) + len(there & known[table]),
    )


def timed(column: Column) -> str:
    """The measure that its header names, where nearly all of its cells can be a time of it; else empty."""
    for measure, words in TIMED.items():
        if column.words in words and _are_seconds(column, "seconds", LIMITS_SECONDS[measure]):
            return measure
    return ""


def _times(columns: Sequence[Column]) -> set[str]:
    """Our columns of times that their headers and cells together say."""
    pop = field_checks(RECORDS["throws"])["pop_seconds"]
    found: set[str] = set()
    for column in columns:
        if timed(column):
            found |= {"measure", "seconds"}
        for name, span in (("seconds", _SECONDS), ("pop_seconds", (pop.low, pop.high))):
            if name in meant_by(column) and _are_seconds(column, name, span):
                found.add(name)
    return found


def _are_seconds(column: Column, name: str, span: tuple[float | None, float | None]) -> bool:
    return nearly_all(column, no_numbers(name, column, *span))
