"""Which sheets were printed last, kept in the project: .scoutgen/printed/<edition>.json.

Only `scoutgen cards` knows that it prints; what a browser prints leaves no trace here.
"""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from scoutgen.pages.built import time_of
from scoutgen.pages.printed import Printed, Sheet
from scoutgen.records.writing import write_whole
from scoutgen.site import kept
from scoutgen.site.output import held

FORMAT: Final = 2


def place(project: Path, edition: str) -> Path:
    """Where an edition's sheets are kept."""
    return kept.place(project, "printed", edition)


def recall(project: Path, edition: str) -> dict[str, Printed] | None:
    """Sheets by the address of their page; None where the file is damaged or of another version."""
    file = place(project, edition)
    if (found := kept.read_json(file)) is None:
        return None if file.exists() else {}
    try:
        if found["format"] != FORMAT:
            return None
        return {
            str(address): Printed(_sheet(both["last"]), _sheet(both["before"]) if both["before"] else None)
            for address, both in found["sheets"].items()
        }
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def remember(project: Path, edition: str, now: Mapping[str, Mapping[str, str]], built: str) -> None:
    """Keep what has just been printed beside what was printed before, whole or not at all.

    Args:
        project: the project's folder.
        edition: for whom.
        now: cells by the address of their page.
        built: when, as it is written down.

    Raises:
        OSError: the disk is full or cannot be written; what was kept stands.
        OutputError: somebody else keeps sheets of this edition just now.
    """
    file = place(project, edition)
    with held(file.with_suffix(".lock"), f"that keeps sheets of the {edition} edition"):
        known = recall(project, edition) or {}
        for address, cells in now.items():
            sheet = Sheet(built, dict(cells))
            known[address] = known[address].then(sheet) if address in known else Printed(sheet)
        sheets = {
            address: {"last": vars(both.last), "before": vars(both.before) if both.before else None}
            for address, both in known.items()
        }
        text = json.dumps({"format": FORMAT, "sheets": sheets}, ensure_ascii=False)
        write_whole(file, f"{text}\n".encode())


def _sheet(found: Any) -> Sheet:  # noqa: ANN401 - as JSON has it
    time_of(found["built"])
    return Sheet(found["built"], {str(key): str(text) for key, text in found["cells"].items()})
