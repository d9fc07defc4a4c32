"""Which program this is: what was kept by another one is not trusted."""

import hashlib
from functools import cache
from importlib.metadata import version
from pathlib import Path

_PACKAGE = Path(__file__).parents[1]


@cache
def program(rooms: tuple[str, ...], libraries: tuple[str, ...]) -> str:
    """Digest of everything in some rooms of this program, and the versions of what they stand on."""
    digest = hashlib.sha256("\n".join(f"{name} {version(name)}" for name in libraries).encode())
    for room in rooms:
        for place in sorted((_PACKAGE / room).rglob("*")):
            # What Python and Jinja compile of the program in running it is no part of it.
            if place.is_file() and "__pycache__" not in place.parts:
                digest.update(place.relative_to(_PACKAGE).as_posix().encode() + b"\n" + place.read_bytes())
    return digest.hexdigest()
