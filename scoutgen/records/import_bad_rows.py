"""What else is wrong with rows of which one cell could not be taken over, and which the project's reader never sees?"""

from collections.abc import Iterator, Mapping
from typing import Any

from scoutgen.records.check import field_checks
from scoutgen.records.import_map import RECORDS, ImportMap
from scoutgen.records.import_rows import Imported, shown
from scoutgen.records.problems import Problem


def other_problems(wanted: ImportMap, found: Imported, context: Mapping[str, Any]) -> Iterator[Problem]:
    """Every other cell of theirs that its column does not allow, so that a file is mended in one round.

    What only shows beside other cells, rows and rosters is said once the row has come through whole.

    Args:
        wanted: the map.
        found: its rows; `halves` are looked at.
        context: vocabularies that the project adds to, by name.
    """
    for column, check in field_checks(RECORDS[wanted.table]).items():
        rows = [row for row in found.halves if column in row.cells]
        texts = list(dict.fromkeys(row.cells[column] for row in rows))
        _, wrong = check.values(texts, context)
        if check.filled:
            wrong |= {place: check.when_blank() for place, text in enumerate(texts) if not text}
        by_text = {texts[place]: text for place, text in wrong.items()}
        for row in rows:
            if said := by_text.get(row.cells[column]):
                yield Problem(row.file, row.line, shown(column, found.headers), f"{said}{row.said(column)}")
