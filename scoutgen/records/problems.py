"""What is wrong with the input, as values: collected, sorted, shown once."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning"]


@dataclass(frozen=True, order=True)
class Problem:
    """One thing wrong at one place.

    Attributes:
        file: path relative to the project's folder, with forward slashes.
        line: as an editor counts it, from 1; 0 where the file as a whole is meant.
        column: the CSV column or the YAML key path; empty where the row or file is meant.
        text: what is wrong, what is allowed, what to do.
        severity: an error stops the build; a warning is shown and the row is used.
    """

    file: str
    line: int
    column: str
    text: str
    severity: Severity = "error"

    def __str__(self) -> str:
        place = self.file if self.line == 0 else f"{self.file}:{self.line}"
        what = f"{self.column}: {self.text}" if self.column else self.text
        words = f"{place}: {what}" if self.severity == "error" else f"{place}: warning: {what}"
        # A name that was allowed may still hold a character that no screen can show.
        return words if words.isprintable() else "".join(c if c.isprintable() else f"U+{ord(c):04X}" for c in words)


class ProblemsFoundError(Exception):
    """The input has errors; `problems` holds every one, warnings included, in the order of files and lines."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(set(problems)))
        super().__init__("\n".join(map(str, self.problems)))
