"""What stands on a sheet, cell by cell, and which cells changed since the sheet printed last time.

Cells are read off the written page, so that a card of any kind is compared as the reader sees it and no card has to say
what it holds twice.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from scoutgen.pages.built import in_words

# In front of a cell that changed: an asterisk, so that a printer without colour shows it.
CHANGED = "&#42;"

# Parts of a page that are not on paper, or say when it was made.
_NOT_A_CELL = ("screen", "card-foot", "built")
# A percent that moves beside the tally it rests on, or behind a runner's name, changes nothing that is done.
_PERCENT = re.compile(r" ?(?:under |over )?\d+\u00a0?%")
_ITEM = re.compile(r"(?:- )?\*\*(?P<label>[^*]+:)\*\*(?P<text>.*)")


@dataclass(frozen=True)
class Sheet:
    """A sheet as it was printed: by which build, and its cells by what they are about."""

    built: str
    cells: Mapping[str, str]

    @property
    def when(self) -> str:
        """When, in words."""
        return in_words(self.built)


@dataclass(frozen=True)
class Printed:
    """The sheet printed last time and the one before it, where that said something else."""

    last: Sheet
    before: Sheet | None = None

    def to_compare(self, cells: Mapping[str, str]) -> Sheet | None:
        """Which sheet these cells are compared with; None where there is none.

        The last one; where it says the same, the one before: a sheet printed once more has the marks it had.
        """
        same = {key: _told(text) for key, text in cells.items()} == {
            key: _told(text) for key, text in self.last.cells.items()
        }
        return self.before if same else self.last

    def then(self, sheet: Sheet) -> "Printed":
        """What is known once a sheet has been printed."""
        return Printed(sheet, self.to_compare(sheet.cells))


def cells_of(markdown: str) -> dict[str, str]:
    """The cells of a page of cards, marked or not; copies of one card have the same cells once."""
    return {key: text for _, _, key, text in _walk(markdown.replace(f"{CHANGED} ", "").split("\n"))}


def with_marks(markdown: str, before: Mapping[str, str]) -> str:
    """The page with a mark before every cell that is new or says something else than before, percents apart."""
    lines = markdown.split("\n")
    # From the end of a line to its beginning, so that places stay right.
    for line, place, key, text in reversed(list(_walk(lines))):
        if key not in before or _told(before[key]) != _told(text):
            lines[line] = f"{lines[line][:place]}{CHANGED} {lines[line][place:]}"
    return "\n".join(lines)


def _told(text: str) -> str:
    return _PERCENT.sub("", text)


def _walk(lines: list[str]) -> Iterator[tuple[int, int, str, str]]:
    """Every cell: its line, the place in it where a mark goes, what it is about, and its text."""
    columns: list[str] | None = None
    for number, about, line in _on_paper(lines):
        if not line.startswith("|"):
            columns = None
            if match := _ITEM.fullmatch(line):
                yield number, match.start("label"), f"{about}|{match['label']}", match["text"].strip()
        elif columns is None:
            columns = [cell.strip() for cell in line.strip("|").split("|")]
        elif not line.startswith("|---"):
            yield from _row(number, line, about, columns)


def _on_paper(lines: list[str]) -> Iterator[tuple[int, str, str]]:
    """Lines that are printed, each with its number and what it is about: the heading over it and the side."""
    heading, side = "", ""
    boxes: list[str] = []
    for number, line in enumerate(lines):
        if line.startswith("[box:"):
            boxes = boxes[:-1] if line == "[box:end]" else [*boxes, line[5:-1]]
        elif line.startswith("[side:"):
            side = "" if line == "[side:end]" else line[6:-1]
        elif line.startswith("## "):
            heading = line[3:]
        elif not any(box in _NOT_A_CELL for box in boxes):
            yield number, f"{heading}|{side}", line


def _row(number: int, line: str, about: str, columns: list[str]) -> Iterator[tuple[int, int, str, str]]:
    """The cells of a table's row; the first says what the row is about, and is marked where the row is new."""
    place, first = 1, ""
    for column, cell in zip(columns, line.strip("|").split("|"), strict=True):
        text = cell.strip()
        first = first or text
        yield number, place + 1, f"{about}|{first}|{column}", text
        place += len(cell) + 1
