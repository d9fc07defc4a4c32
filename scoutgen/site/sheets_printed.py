"""Which sheets were printed last, kept in the project: .scoutgen/printed/<edition>.json.

Only `scoutgen cards` knows that it prints; what a browser prints leaves no trace here.
"""

import json
import os
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any, Final

from scoutgen.pages.printed import Printed, Sheet

FORMAT: Final = 1


def recall(project: Path, edition: str) -> dict[str, Printed]:
    """Sheets by the address of their page; a file that is missing, damaged or of another version counts as none."""
    try:
        kept = json.loads(_place(project, edition).read_text(encoding="utf-8"))
        if kept["format"] != FORMAT:
            return {}
        return {
            str(address): Printed(_sheet(both["last"]), _sheet(both["before"]) if both["before"] else None)
            for address, both in kept["sheets"].items()
        }
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}


def remember(project: Path, edition: str, now: Mapping[str, Mapping[str, str]], built: str) -> None:
    """Keep what has just been printed beside what was printed before, whole or not at all.

    Args:
        project: the project's folder.
        edition: for whom.
        now: cells by the address of their page.
        built: when, as every page says it.

    Raises:
        OSError: the disk is full or cannot be written; what was kept stands.
    """
    known, when = recall(project, edition), in_words(built)
    for address, cells in now.items():
        sheet = Sheet(when, dict(cells))
        known[address] = known[address].then(sheet) if address in known else Printed(sheet)
    sheets = {
        address: {"last": vars(both.last), "before": vars(both.before) if both.before else None}
        for address, both in known.items()
    }
    place = _place(project, edition)
    place.parent.mkdir(parents=True, exist_ok=True)
    growing = place.with_name(f"{place.name}.{os.getpid()}")
    try:
        growing.write_text(
            json.dumps({"format": FORMAT, "sheets": sheets}, ensure_ascii=False) + "\n", encoding="utf-8", newline="\n"
        )
        growing.replace(place)
    finally:
        growing.unlink(missing_ok=True)


def in_words(built: str) -> str:
    """A time as short as a card has room for: 8 Apr, 21:40."""
    at = datetime.strptime(built, "%Y-%m-%d %H:%M")  # noqa: DTZ007 - the machine's own time, as every page says it
    return f"{at.day} {at:%b}, {at:%H:%M}"


def _place(project: Path, edition: str) -> Path:
    return project / ".scoutgen" / "printed" / f"{edition}.json"


def _sheet(kept: Any) -> Sheet:  # noqa: ANN401 - as JSON has it
    return Sheet(str(kept["when"]), {str(key): str(text) for key, text in kept["cells"].items()})
