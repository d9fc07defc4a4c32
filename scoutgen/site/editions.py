"""Which editions there are, for whom, and what the frame around their pages says.

What an edition leaves out is the business of records/editions.py; the names here and there are the same (a test).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True)
class Frame:
    """What stands around the pages of an edition.

    Attributes:
        home: the way back to its first page, in a word; `home_link` in a sentence.
        readers: for whom it is, in the foot of every page.
        list_page: the page with the list that sorts and narrows; empty for none.
        list_scripts: assets that this page needs, and no edition without it.
        cards: it has cards to print.
    """

    home: str
    home_link: str
    readers: str
    list_page: str = ""
    list_scripts: tuple[str, ...] = ()
    cards: bool = True


_LIST_SCRIPTS: Final = ("evaluations.js",)
EDITIONS: Final[Mapping[str, Frame]] = {
    "staff": Frame("Tonight", "Go to tonight's page", "for this staff only", "evaluations/index.md", _LIST_SCRIPTS),
    "players": Frame("Tonight", "Go to tonight's page", "for this team only"),
    "recruiting": Frame("List", "Go to the list", "for this staff only", "index.md", _LIST_SCRIPTS, cards=False),
}
KNOWN: Final = tuple(EDITIONS)
#: The edition where none is named; what is made of it lies in folders that name none either.
DEFAULT: Final = KNOWN[0]


class EditionError(ValueError):
    """The edition asked for cannot be built; the text says why and what can."""


def require_edition(name: str) -> str:
    """The name itself, if there is such an edition.

    Raises:
        EditionError: there is none.
    """
    if name not in EDITIONS:
        raise EditionError(f"there is no edition {name!r}; editions are {', '.join(KNOWN)}")
    return name


def require_cards(name: str) -> str:
    """The name itself, if that edition has cards.

    Raises:
        EditionError: no such edition, or one without a game plan.
    """
    if not EDITIONS[require_edition(name)].cards:
        with_cards = [other for other, frame in EDITIONS.items() if frame.cards]
        raise EditionError(f"the {name} edition holds no game plan and has no cards; {' and '.join(with_cards)} have")
    return name


def scripts_of_others(name: str) -> frozenset[str]:
    """Assets that only other editions need."""
    mine = EDITIONS[name].list_scripts
    return frozenset(script for frame in EDITIONS.values() for script in frame.list_scripts if script not in mine)
