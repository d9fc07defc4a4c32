"""What builds keep of a season: opponents' shares of the book, and measures, each by what it comes from.

They lie in .scoutgen/books/<edition>/ and .scoutgen/tables/<edition>/. What another program put there is not found.
"""

import hashlib
from collections.abc import Iterable
from pathlib import Path

from scoutgen.site.program import program
from scoutgen.site.sealed import Sealed

_ROOMS = ("records", "measures", "pages")
# Whose new version may measure, write a page or state a chart otherwise.
_LIBRARIES = ("altair", "jinja2", "markupsafe", "numpy", "pandas", "pydantic", "scipy")


class BookShelf:
    """As `scoutgen.pages.team_text.Shelf`, on disk.

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


class TableShelf:
    """As `scoutgen.pages.table_bytes.TableShelf`, on disk; arguments as above."""

    def __init__(self, project: Path, edition: str) -> None:
        folder = project.resolve() / ".scoutgen" / "tables" / edition
        self.kept = Sealed(folder)
        #: What of it goes with a part of the site.
        self.shared = Sealed(folder)

    def get(self, name: str) -> bytes | None:
        """What is kept under a name."""
        return self.kept.get_bytes(_name(name))

    def put(self, name: str, content: bytes) -> None:
        """Keep something."""
        self.kept.put_bytes(_name(name), content)

    def holds(self, name: str) -> bool:
        """Whether something is kept under a name; it goes on being kept."""
        self.kept.use(_name(name))
        return self.kept.has(_name(name))

    def share(self, names: Iterable[str]) -> None:
        """Let what is kept under these names go with a part of the site."""
        for name in names:
            self.shared.use(_name(name))


def _name(name: str) -> str:
    return hashlib.sha256(f"{program(_ROOMS, _LIBRARIES)} {name}".encode()).hexdigest()
