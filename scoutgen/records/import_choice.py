"""Which rows does a map take and which does it leave out, and what of that is about no row at all?"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice

from scoutgen.records.check import did_you_mean, quoted
from scoutgen.records.import_file import UNSAVED
from scoutgen.records.import_map import ImportMap
from scoutgen.records.problems import Problem
from scoutgen.records.yamlrecord import YamlSource

MOST_CELLS_NAMED = 8
MOST_CELLS_COMPARED = 2_000
MOST_CELLS_TOLD = 6
_TOTALS = re.compile(r"(?:grand |sub-?)?totals?:?", re.IGNORECASE)


@dataclass
class Met:
    """What of a map some row answered to, over all sheets.

    Attributes:
        without: its words for rows to leave out.
        cells: by header of `only`, its different cells, folded, with how each is written.
        taken: whether any row has all that `only` asks for.
    """

    without: set[str] = field(default_factory=set)
    cells: dict[str, dict[str, str]] = field(default_factory=dict)
    taken: bool = False


def lines_without(texts: Sequence[str], file: str) -> dict[int, str]:
    """The lines of a sheet that the map leaves out, each with the words of the map for it.

    Args:
        texts: as `without` has them.
        file: what problems and x_source call the sheet.
    """
    found: dict[int, str] = {}
    for text in texts:
        # An apostrophe, where x_source has one before a name that a spreadsheet would run.
        where, _, line = text.removeprefix("'").rpartition(":")
        if re.fullmatch(r"\d{1,9}", line, re.ASCII) and (not where or file == where or file.endswith(f":{where}")):
            found[int(line)] = text
    return found


def left_out(cells: Sequence[str], place: str) -> str:
    """A row that `without` leaves out, as x_source has it and with what stands in it.

    A line moves when the file grows, and another row stands there than was meant.
    """
    told = ["a formula" if cell == UNSAVED else cell for cell in cells if cell]
    return f"{place} ({quoted(', '.join(told[:MOST_CELLS_TOLD]))})"


def of_totals(cells: Sequence[str], place: str) -> str:
    """What to say of a row that looks like one of totals, which is no row to mend; empty for any other.

    Args:
        cells: of the row.
        place: as x_source has it.
    """
    if not any(_TOTALS.fullmatch(cell) for cell in cells):
        return ""
    return f"looks like a row of totals; if it is, leave it out with without: [{quoted(place)}] in the map"


def never_met(wanted: ImportMap, source: YamlSource, met: Met) -> Iterator[Problem]:
    """What the map says of rows and no row answers to, once all of them were read."""
    yield from _never_without(wanted, source, met)
    yield from _never_only(wanted, source, met)


def _never_without(wanted: ImportMap, source: YamlSource, met: Met) -> Iterator[Problem]:
    for place, text in enumerate(wanted.without):
        if text not in met.without:
            words = f"no row read is {quoted(text)}; write it as x_source has it, like night.csv:12, or take it out"
            yield source.problem(("without", place), words)


def _never_only(wanted: ImportMap, source: YamlSource, met: Met) -> Iterator[Problem]:
    """Texts of `only` that no row has, where one looks mistyped, or where no row is left at all.

    Another one may be in next week's file.
    """
    unmet = False
    for header, texts in wanted.only.items():
        there = met.cells.get(header, {})
        others = [cell for folded, cell in there.items() if folded not in {text.casefold() for text in texts}]
        for place, text in enumerate(texts):
            close = did_you_mean(text, others[:MOST_CELLS_COMPARED])
            if text.casefold() not in there and (close or not met.taken):
                unmet = True
                known = [quoted(cell) for cell in islice(there.values(), MOST_CELLS_NAMED)]
                rest = ", ..." if len(there) > MOST_CELLS_NAMED else ""
                has = f"; there are {', '.join(known)}{rest}" if known else ""
                words = f"no row has {quoted(text)} in {quoted(header)}{has}{close}"
                yield source.problem(("only", header, place), words)
    if wanted.only and not unmet and not met.taken:
        yield source.problem(
            ("only",), "no row has all of this together; say what the wanted rows have, or take it out"
        )
