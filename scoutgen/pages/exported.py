"""The numbers behind the pages as tables for a spreadsheet: one file a list of facts, everybody's rows in it."""

import csv
import io
import json
import re
from collections.abc import Mapping
from typing import Any

from scoutgen.records.import_output import safe_text

# What stands before every row, so that the tables of several lists can be put side by side.
WHO = ("team", "player", "name", "number")
_HEAD = frozenset({"format", "as_of", "built", *WHO})

Cell = str | int | float | None


def exported(facts: Mapping[str, str]) -> dict[str, str]:
    """Facts as CSV.

    Args:
        facts: JSON text by address, as a book has them: what an edition leaves out is in none of them.

    Returns:
        CSV text by name of file, e.g. `usage.csv`; columns as the facts have them, one a part where a fact has parts
        (`break_even_0`). Texts are in quotes, and one that a spreadsheet would take for a formula, a day or a number
        has an apostrophe before it; numbers are bare; what is missing is blank. Lists without any row have no file.
    """
    rows: dict[str, list[dict[str, Cell]]] = {}
    for _, text in sorted(facts.items()):
        man = json.loads(text)
        # A row of a team's list names its own man, if it is about one.
        who = {name: man[name] for name in (WHO if "player" in man else WHO[:1])}
        for name, value in man.items():
            if name in _HEAD or value is None:
                continue
            for row in value if isinstance(value, list) else [value]:
                # The man himself first: of a row with a column of the same name, the row's says more.
                rows.setdefault(name, []).append({**who, **_flat(row)})
    return {f"{name}.csv": _csv(some) for name, some in sorted(rows.items())}


def _flat(value: Mapping[str, Any], before: str = "") -> dict[str, Cell]:
    """One level: a fact in parts becomes a column a part, a list one text."""
    flat: dict[str, Cell] = {}
    for name, part in value.items():
        key = f"{before}{name}"
        if isinstance(part, dict):
            flat |= _flat(part, f"{key}_")
        elif isinstance(part, list):
            flat[key] = "; ".join(map(str, part))
        elif isinstance(part, bool):
            flat[key] = "yes" if part else "no"
        else:
            flat[key] = part
    return flat


def _csv(rows: list[dict[str, Cell]]) -> str:
    columns = list(dict.fromkeys(name for row in rows for name in row))
    stream = io.StringIO(newline="")
    # Texts in quotes: a semicolon inside parts no cell where spreadsheets part at semicolons.
    writer = csv.writer(stream, lineterminator="\n", quoting=csv.QUOTE_NONNUMERIC)
    writer.writerow(columns)
    for row in rows:
        cells = [row.get(name) for name in columns]
        writer.writerow([_text(cell) if isinstance(cell, str) else "" if cell is None else cell for cell in cells])
    return stream.getvalue()


def _text(text: str) -> str:
    """A text that a spreadsheet shows as it is: the count 1-2 would become a day and the number 07 a seven."""
    return f"'{text}" if re.fullmatch(r"\d+[-/.]\d+|0\d+", text, re.ASCII) else safe_text(text)
