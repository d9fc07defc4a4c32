"""What do columns of somebody else's file tell only side by side, or two of ours at once?"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeAlias

from scoutgen.records.check import FieldCheck, field_checks
from scoutgen.records.import_columns import Column, folded, meant_by
from scoutgen.records.import_entries import Entry, Known, counted, entry, in_yaml, of_bases
from scoutgen.records.import_map import RECORDS
from scoutgen.records.import_notations import count_split, nearly_all, no_numbers, says_count
from scoutgen.records.import_table import timed
from scoutgen.records.import_words import BASES, TIMED_MAN
from scoutgen.records.times import LIMITS_SECONDS

# By column of ours its entry, and their headers that are used for it.
Found: TypeAlias = tuple[dict[str, Entry], set[str]]
_BALLS_STRIKES = frozenset({"balls", "strikes"})


def several_for_one(columns: Sequence[Column], checks: Mapping[str, FieldCheck], known: Known) -> Found:
    """The entries of bases, of balls and strikes, and of what a header says was timed.

    Args:
        columns: theirs.
        checks: ours, of one table.
        known: what the project can tell of them.

    Returns:
        By column of ours its entry, and their headers that are used for it.
    """
    found: dict[str, Entry] = {}
    used: set[str] = set()
    letters = _letters(columns, known)
    for entries, headers in (_bases(columns), letters if letters[0] else _count(columns), _timed(columns, known)):
        ours = {name: one for name, one in entries.items() if name in checks}
        # A table without the measure has another use for the time and the man.
        if ours and ("measure" in checks or "measure" not in entries):
            found |= ours
            used |= headers
    return found, used


def _bases(columns: Sequence[Column]) -> Found:
    """A column for each base."""
    by_words = {folded(column.header): column for column in columns}
    for words in BASES:
        three = [by_words[word] for word in words if word in by_words]
        # A base gained, in the words of a result, is no runner on it.
        if len(three) == 3 and all(len(column.cells) <= 3 for column in three):
            return {"bases": of_bases(three)}, {column.header for column in three}
    return {}, set()


def _letters(columns: Sequence[Column], known: Known) -> Found:
    """B and S for balls and strikes, where the cells of both can be."""
    checks = field_checks(RECORDS["pitches"])
    found: dict[str, Entry] = {}
    used: set[str] = set()
    for name, letter in (("balls", "b"), ("strikes", "s")):
        one = next((column for column in columns if folded(column.header) == letter), None)
        if one is None or not nearly_all(one, no_numbers(name, one, checks[name].low, checks[name].high)):
            return {}, set()
        found[name] = entry(name, one, checks[name], known)
        used.add(one.header)
    return found, used


def _count(columns: Sequence[Column]) -> Found:
    """The column of counts: the one called so, else the one with least to mend."""
    apart = {name for column in columns for name in meant_by(column)} >= _BALLS_STRIKES
    fitting: list[tuple[bool, int, Found]] = []
    for column in columns:
        # Whatever else a header means, such as seconds with one decimal, goes before cells like 1.2.
        if not says_count(column) and (apart or set(meant_by(column)) - _BALLS_STRIKES):
            continue
        if split := count_split(column):
            entries = counted(column, *split)
            fitting.append((not says_count(column), column.rows(split[1]), (entries, {column.header})))
    return min(fitting, key=lambda one: one[:2])[2] if fitting else ({}, set())


def _timed(columns: Sequence[Column], known: Known) -> Found:
    """The readings under a header that says what was timed, and the man of whom."""
    told = {name for column in columns for name in meant_by(column)}
    one = next((column for column in columns if timed(column)), None)
    if one is None or told & {"measure", "seconds"}:
        return {}, set()
    measure, header = timed(one), in_yaml(one.header)
    low, high = LIMITS_SECONDS[measure]
    checks = field_checks(RECORDS["times"])
    found = {
        "measure": Entry((f"  measure: {{constant: {measure}}}  # as the header {header} says",)),
        "seconds": entry("seconds", one, replace(checks["seconds"], low=low, high=high), known),
    }
    men = [column for name in TIMED_MAN[measure] for column in columns if name in meant_by(column)]
    if not men or "player" in told:
        return found, {one.header}
    return found | {"player": entry("player", men[0], checks["player"], known)}, {one.header, men[0].header}
