"""What every page of cards to print carries, whoever it is for."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar


@dataclass(frozen=True, kw_only=True)
class CardSheet:
    """A page of cards: where it stands, for whom it was printed and how old its figures are.

    Attributes:
        edition: for whom, as printed on each card.
        built: when, in words.
        since: when the sheet was printed that marked cells are compared with; empty where there is none.
    """

    # Cards are reached from their index, which has its own place in the menu.
    menu: ClassVar[tuple[str, ...]] = ()
    changed_mark: ClassVar[str] = "*"

    address: str
    title: str
    index_address: str
    edition: str
    built: str
    as_of: date
    since: str = ""


def letter_sheets(cards: int, a_sheet: int) -> int:
    """Sheets of letter paper for so many cards."""
    return -(-cards // a_sheet)
