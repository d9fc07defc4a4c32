"""Opponents' shares of the book, kept in .scoutgen/books/<edition>/ by what they come from."""

import hashlib
from pathlib import Path

from scoutgen.site.program import program
from scoutgen.site.sealed import Sealed

_ROOMS = ("records", "measures", "pages")
# Whose new version may write a page or a chart otherwise.
_LIBRARIES = ("altair", "jinja2", "markupsafe", "numpy", "pandas", "pydantic", "scipy")


class BookShelf:
    """As `scoutgen.pages.team_text.Shelf`, on disk; what another program put there is not found.

    Args:
        project: the project's folder.
        edition: for whom.
    """

    def __init__(self, project: Path, edition: str) -> None:
        self.kept = Sealed(project.resolve() / ".scoutgen" / "books" / edition)

    def get(self, name: str) -> str | None:
        """What is kept under a name."""
        return self.kept.get(_name(name))

    def put(self, name: str, text: str) -> None:
        """Keep something."""
        self.kept.put(_name(name), text)

    def use(self, name: str) -> None:
        """Hold what a copy of this process has put there."""
        self.kept.use(_name(name))


def _name(name: str) -> str:
    return hashlib.sha256(f"{program(_ROOMS, _LIBRARIES)} {name}".encode()).hexdigest()
