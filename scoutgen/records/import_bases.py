"""Which bases does a cell, or a cell for each base, of somebody else's file say are occupied?

What is no clear sign of a runner or of nobody is never taken for either.
"""

import re
from collections.abc import Sequence

from scoutgen.records.check import quoted
from scoutgen.records.import_cells import CellError

_NOBODY = frozenset({"", "0", "0.0", "o", "n", "no", "none", "no one", "nobody", "empty", "open", "vacant", "false"})
_DASHES = re.compile(r"[-–—−_.·\s]+")
_RUNNER = frozenset({"x", "×", "y", "yes", "true", "on", "r", "*", "+", "✓", "✔", "✗", "✘", "●", "■", "1.0"})
# Letters that are nobody's name.
_UNSAID = frozenset({"na", "n.a.", "nan", "null", "nil", "unk", "unknown", "tbd", "out", "not charted", "missing"})


def is_runner(text: str) -> bool:
    """Whether a cell says that a runner is on its base: by a sign such as x, his name or his number.

    Raises:
        CellError: it says neither that one is there nor that nobody is.
    """
    word = text.strip().casefold()
    if word in _NOBODY or _DASHES.fullmatch(word):
        return False
    if word in _RUNNER or _is_man(word):
        return True
    raise CellError(
        f"{quoted(text)} does not say whether a runner is there; x, a name or a number means one, - or nothing means "
        "none; say which under values: in the map, or name it under blank:"
    )


def is_sign(text: str) -> bool:
    """Whether a cell says that a runner is on its base, or that nobody is."""
    try:
        is_runner(text)
    except CellError:
        return False
    return True


def _is_man(word: str) -> bool:
    number = re.fullmatch(r"#?\s*(\d{1,2})", word, re.ASCII)
    if number:
        return int(number[1]) > 0
    name = re.sub(r"^#?\s*\d{1,2}\s+", "", word, flags=re.ASCII)
    return name not in _UNSAID and bool(re.fullmatch(r"[^\W\d_](?:[^\W\d_]|[\s.,'’-])*", name) and len(name) > 1)


def occupied(cells: Sequence[str]) -> str:
    """Occupied bases of a cell for each, first base first.

    Raises:
        CellError: a cell says neither that a runner is there nor that nobody is.
    """
    return "".join(str(base) for base, cell in enumerate(cells, 1) if is_runner(cell)) or "-"


def marked_bases(text: str) -> str:
    """Occupied bases of a sign for each: 101, x-x, 1_3, first base first.

    Raises:
        CellError: not three signs, or one that says neither that a runner is there nor that nobody is.
    """
    if len(text) != 3:
        raise CellError(f"{quoted(text)} is not three signs, one for each base")
    found = ""
    for base, sign in enumerate(text, 1):
        # A number is that of the base, or 1 for yes; no man's.
        if sign.isdigit() and sign not in ("0", "1", str(base)):
            raise CellError(
                f"{quoted(text)} has {quoted(sign)} in the place of base {base}; write {base}, 1 or x there"
            )
        try:
            found += str(base) if is_runner(sign) else ""
        except CellError:
            raise CellError(
                f"{quoted(text)} does not say by {quoted(sign)} whether a runner is on base {base}; x or 1 means one, "
                "- or 0 none; say under values: in the map what the whole of it means"
            ) from None
    return found or "-"
