"""Wallet cards for the fielders: where to stand for each hitter in front, what the levels mean on the back.

Every level is the one of the page that says what it rests on; a card adds only who bunts.
"""

from dataclasses import dataclass
from itertools import chain
from typing import ClassVar

from scoutgen.pages.card_sheet import CardSheet
from scoutgen.pages.findings import Findings
from scoutgen.pages.level_card import HitterLevels, LevelCard, Seams

# Front beside back, folded between: four pairs of a wallet's 3.5 by 2.5 inches fill a letter sheet.
WALLET_CARDS_A_SHEET = 4
_BATTER = {"R": "righty", "L": "lefty"}


@dataclass(frozen=True)
class WalletLine:
    """One hitter of the lineup.

    Attributes:
        bunts: plate appearances that ended on a bunt, and all charted; None where none did.
    """

    hitter: HitterLevels
    bunts: tuple[int, int] | None


@dataclass(frozen=True)
class Order:
    """Who goes first for a ball between two, from the left-field line on, and at which levels."""

    levels: tuple[str, ...]
    men: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class WalletCards(CardSheet):
    """A sheet of equal cards, each folded into a front and a back."""

    template: ClassVar[str] = "cards-fielders.md.j2"
    found_by: ClassVar[str] = (
        "Wallet cards for the fielders, to print, cut and fold: infield and outfield level for each hitter, two "
        "strikes, who bunts, whose ball."
    )
    sheets: ClassVar[int] = 1
    copies: ClassVar[int] = WALLET_CARDS_A_SHEET

    stand: LevelCard
    lines: tuple[WalletLine, ...]
    orders: tuple[Order, ...]


def wallet_cards(stand: LevelCard, findings: Findings, *, folder: str, edition: str) -> WalletCards | None:
    """Put the sheet together; None where no hitter of the lineup has a page.

    Args:
        stand: the page of where to stand.
        findings: the season's measures, for the bunts.
        folder: where the series' cards stand.
        edition: for whom, as printed on each card.
    """
    if not stand.hitters:
        return None
    return WalletCards(
        address=f"{folder}/fielders",
        title=f"Fielders: {stand.series_title}",
        index_address=f"{folder}/index",
        stand=stand,
        lines=tuple(WalletLine(hitter, _bunts(hitter, findings)) for hitter in stand.hitters),
        orders=_orders(stand.seams, stand.opposite_mark),
        edition=edition,
        built=stand.built,
        as_of=stand.as_of,
    )


def _bunts(hitter: HitterLevels, findings: Findings) -> tuple[int, int] | None:
    """Of both sides of the plate together; nothing where he never put one down."""
    rows = findings.of("bunts", hitter.person.team.key, hitter.person.man.key)
    return next(((int(row["k"]), int(row["n"])) for row in rows if row["bats"] == "all" and row["k"]), None)


def _orders(seams: tuple[Seams, ...], opposite_mark: str) -> tuple[Order, ...]:
    """Levels with the same men from left to right in one line; neighbours' pairs chain into that order."""
    found: dict[tuple[str, ...], list[str]] = {}
    for seam in seams:
        men = tuple(dict.fromkeys(chain.from_iterable(seam.pairs)))
        side = f" {opposite_mark}" if seam.opposite else ""
        found.setdefault(men, []).append(
            f"{seam.level}{side} ({_BATTER[seam.bats]})" if seam.level > 1 else str(seam.level)
        )
    return tuple(Order(tuple(levels), men) for men, levels in found.items())
