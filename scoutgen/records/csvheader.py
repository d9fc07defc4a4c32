"""Does a table's first row name columns we know, and all that must be there?"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from scoutgen.records.check import listed, nearest, quoted

OWN_PREFIX = "x_"


@dataclass
class Header:
    """What the first row says.

    Attributes:
        places: position of every known column.
        nameless: positions of columns without a name.
        problems: column and text.
        lacking: the columns that must be there and are not.
        doubled: some column stands twice, and nobody can say which is meant.
        hopeless: the first row is no header of this table; reading on would only make noise.
    """

    places: dict[str, int] = field(default_factory=dict)
    nameless: list[int] = field(default_factory=list)
    problems: list[tuple[str, str]] = field(default_factory=list)
    lacking: list[str] = field(default_factory=list)
    doubled: bool = False
    hopeless: bool = False

    @property
    def is_fine(self) -> bool:
        """Whether nothing is to be said of it, nor of cells below columns without a name."""
        return not (self.problems or self.nameless or self.lacking or self.doubled or self.hopeless)

    def say(self, column: str, text: str) -> None:
        """Note a problem."""
        self.problems.append((column, text))


def read_header(cells: Sequence[str], columns: Sequence[str], required: Sequence[str]) -> Header:
    """Read the first row.

    Args:
        cells: its cells, stripped.
        columns: the columns the table may have; any column beginning with `x_` is the staff's own and is not read.
        required: those that must be there.
    """
    header = Header()
    known = set(columns)
    if not known.intersection(cells) and (why := _no_header(cells, columns, required)):
        header.say("", why)
        header.hopeless = True
        return header
    unknown: list[str] = []
    for place, name in enumerate(cells):
        if not name:
            header.nameless.append(place)
        elif name.startswith(OWN_PREFIX):
            continue
        elif name not in known:
            unknown.append(name)
        elif name in header.places:
            header.doubled = True
            header.say(
                name, f"stands twice in the header (columns {header.places[name] + 1} and {place + 1}); keep one"
            )
        else:
            header.places[name] = place
    free = [name for name in columns if name not in header.places]
    header.problems += [("", _unknown(name, free, columns)) for name in dict.fromkeys(unknown)]
    header.lacking = [name for name in required if name not in header.places]
    if header.lacking:
        columns_ = "columns" if len(header.lacking) > 1 else "column"
        missing = listed(map(quoted, header.lacking), "and")
        header.say("", f"the header lacks the {columns_} {missing}, which every row must fill")
    return header


def _no_header(cells: Sequence[str], columns: Sequence[str], required: Sequence[str]) -> str:
    """Why a row without a single column we know is no header; empty where its names are only misspelt."""
    if any("\0" in cell for cell in cells):
        return "holds NUL characters, as files saved as UTF-16 do; save the file again as CSV UTF-8 (comma delimited)"
    if separator := _other_separator(cells):
        return (
            f"the cells are separated by {separator}, not by commas; save the file again as CSV UTF-8 "
            "(comma delimited), or replace the separators"
        )
    if any(name.startswith(OWN_PREFIX) or nearest(name, columns) for name in cells if name):
        return ""
    first = quoted(next(filter(None, cells)))
    return (
        f"the first row begins with {first} and names no column of this table; it must name them, e.g. "
        f"{','.join(required)}; take out any title above them"
    )


def _other_separator(cells: Sequence[str]) -> str:
    text = "".join(cells)
    found = {"semicolons": text.count(";"), "tabs": text.count("\t"), "vertical bars": text.count("|")}
    name, count = max(found.items(), key=lambda item: item[1])
    return name if count else ""


def _unknown(name: str, free: Sequence[str], columns: Sequence[str]) -> str:
    close = nearest(name, free) or nearest(name, columns)
    if close:
        return f"unknown column {quoted(name)}; did you mean {quoted(close[0])}? A column of your own begins with x_"
    return f"unknown column {quoted(name)}; known are {listed(columns, 'and')}; a column of your own begins with x_"
