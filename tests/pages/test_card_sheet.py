"""What every page of cards carries."""

from datetime import date

import pytest

from scoutgen.pages.card_sheet import CardSheet, letter_sheets
from scoutgen.pages.cards import BaseCards, HitterCards
from scoutgen.pages.wallet_card import WalletCards


@pytest.mark.parametrize(("cards", "sheets"), [(0, 0), (1, 1), (4, 1), (5, 2), (8, 2), (9, 3)])
def test_a_sheet_begun_is_a_sheet(cards: int, sheets: int) -> None:
    assert letter_sheets(cards, 4) == sheets


@pytest.mark.parametrize("page", [BaseCards, HitterCards, WalletCards])
def test_cards_stand_in_no_menu_and_say_for_whom_and_as_of_when(page: type[CardSheet]) -> None:
    assert page.menu == ()
    sheet = CardSheet(
        address="cards/x/y", title="Y", index_address="cards/x/index", edition="staff", built="", as_of=date(2026, 4, 9)
    )
    assert {"edition", "as_of"} <= set(vars(sheet)) <= set(page.__dataclass_fields__)
