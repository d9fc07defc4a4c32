"""What a project keeps from one build to the next: a small file an edition, in .scoutgen/<kind>/, written whole.

Whoever keeps something knows what a file of its kind holds; here is only where it lies and how it is read.
"""

import json
from pathlib import Path
from typing import Any


def place(project: Path, kind: str, edition: str, suffix: str = ".json") -> Path:
    """Where a project keeps something of a kind for an edition."""
    return project / ".scoutgen" / kind / f"{edition}{suffix}"


def read_json(file: Path) -> Any:  # noqa: ANN401 - as JSON has it
    """What a file says; None where there is none, or none that can be read and written again."""
    try:
        said = json.loads(file.read_text(encoding="utf-8"))
        # Half a character or a number that is none can be written as JSON, but stands in no page and no file.
        json.dumps(said, ensure_ascii=False, allow_nan=False).encode()
    except (OSError, ValueError, RecursionError):
        return None
    return said
