"""Cards for the pocket, true to size: index cards for the base coaches, half-sheets for the hitters, and their index.

A card says what the running page and a pitcher's page say, and nothing that they do not.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import ClassVar, TypeAlias

from scoutgen.pages.card_sheet import CardSheet, letter_sheets
from scoutgen.pages.extra_base import ExtraBase
from scoutgen.pages.findings import Findings
from scoutgen.pages.heard import CALL_WORDS, Heard
from scoutgen.pages.level_card import LevelCard
from scoutgen.pages.people import Person
from scoutgen.pages.player import Pitching, PlayerPage, player_page
from scoutgen.pages.running import Battery, RunningPage
from scoutgen.pages.times_through import Turn
from scoutgen.pages.wallet_card import WalletCards, wallet_cards
from scoutgen.records.roster import OwnPlayer
from scoutgen.records.season import Season
from scoutgen.records.series import Series

# What a letter sheet holds: index cards two by two across, half-sheets one over the other.
INDEX_CARDS_A_SHEET, HALVES_A_SHEET = 4, 2
# Runners named with their chance; the others are their numbers.
_NAMED = 4
# Of what changes later, as much as surely fits: so many turns, and changes in each; the rest stands on his page.
_TURNS, _CHANGES = 3, 2
# Relievers whose lines surely fit on one card.
_RELIEVERS_A_CARD = 4


@dataclass(frozen=True)
class Answer:
    """One of the calls, and whom it concerns.

    Attributes:
        words: the call with its shape.
        named: runners with their chance to be safe, the surest first.
        others: the rest by number, or by name where a man has none.
    """

    words: str
    named: tuple[tuple[OwnPlayer, float], ...]
    others: tuple[str, ...]


@dataclass(frozen=True)
class BaseCard:
    """One game's battery for a base coach; the calls are for second base."""

    battery: Battery
    answers: tuple[Answer, ...]


@dataclass(frozen=True, kw_only=True)
class BaseCards(CardSheet):
    """The base coaches' index cards: one a probable starter, then those who may come in."""

    template: ClassVar[str] = "cards-base.md.j2"
    found_by: ClassVar[str] = (
        "Index cards for the base coaches, to print and cut: to the plate, slide step, throws over, looks, what a "
        "steal needs, who can go."
    )

    running_address: str
    extra: ExtraBase
    cards: tuple[BaseCard, ...]
    bullpen: tuple[tuple[Heard, ...], ...]

    @property
    def sheets(self) -> int:
        """Sheets of letter paper."""
        return letter_sheets(len(self.cards) + len(self.bullpen), INDEX_CARDS_A_SHEET)


@dataclass(frozen=True)
class HitterCard:
    """One probable starter for the hitters."""

    label: str
    day: date | None
    page: PlayerPage
    pitching: Pitching

    @property
    def turns(self) -> tuple[Turn, ...]:
        """The surest of what changes later."""
        turns = self.pitching.changes.turns[:_TURNS]
        return tuple(replace(turn, changes=turn.changes[:_CHANGES]) for turn in turns)

    @property
    def more_changes(self) -> int:
        """Changes that stand on his page alone."""
        every = self.pitching.changes.turns
        return sum(len(turn.changes) for turn in every) - sum(len(turn.changes) for turn in self.turns)


@dataclass(frozen=True, kw_only=True)
class HitterCards(CardSheet):
    """A half-sheet for each probable starter."""

    template: ClassVar[str] = "cards-hitters.md.j2"
    found_by: ClassVar[str] = (
        "Half-sheets for the hitters, to print and cut: each probable pitcher, what to look for and then, what "
        "strikeouts ended on, what changes later, his clock."
    )

    cards: tuple[HitterCard, ...]

    @property
    def sheets(self) -> int:
        """Sheets of letter paper."""
        return letter_sheets(len(self.cards), HALVES_A_SHEET)


@dataclass(frozen=True)
class CardsIndex:
    """What there is to print for a series; `ready` holds the pages that have a card."""

    template: ClassVar[str] = "cards.md.j2"
    found_by: ClassVar[str] = "Cards to print for the pocket: base coaches, hitters and fielders."

    address: str
    title: str
    series: Series
    series_address: str
    base: BaseCards | None
    hitters: HitterCards | None
    fielders: WalletCards | None
    menu: tuple[str, ...]
    built: str
    as_of: date

    @property
    def ready(self) -> tuple[BaseCards | HitterCards | WalletCards, ...]:
        """The pages of cards there are."""
        return tuple(page for page in (self.base, self.hitters, self.fielders) if page is not None)


CardsPage: TypeAlias = CardsIndex | BaseCards | HitterCards | WalletCards


def cards_folder(series: str) -> str:
    """Where a series' cards stand."""
    return f"cards/{series}"


def card_pages(
    run: RunningPage,
    men: Mapping[str, Person],
    findings: Findings,
    season: Season,
    *,
    stand: LevelCard | None,
    home: bool,
    edition: str,
    built: str,
) -> Iterator[CardsPage]:
    """The index of a series' cards and the pages it lists.

    Args:
        run: the series' running page.
        men: the opponent's men by key.
        findings: the season's measures.
        season: the validated season.
        stand: where to stand for their lineup; None where none is named.
        home: it is the coming series, whose cards stand in the menu.
        edition: for whom, as printed on each card.
        built: when, in words.
    """
    folder, title = cards_folder(run.series.name), run.series.title
    index = f"{folder}/index"
    base = None
    if run.batteries and run.runners:
        base = BaseCards(
            address=f"{folder}/base-coaches",
            title=f"Base coaches: {title}",
            index_address=index,
            running_address=run.address,
            extra=run.extra,
            cards=tuple(BaseCard(battery, _answers(battery, run.runners)) for battery in run.batteries),
            bullpen=tuple(
                run.relievers[first : first + _RELIEVERS_A_CARD]
                for first in range(0, len(run.relievers), _RELIEVERS_A_CARD)
            ),
            edition=edition,
            built=built,
            as_of=run.as_of,
        )
    halves = tuple(_halves(run.series, men, findings, season, built=built))
    hitters = None
    if halves:
        hitters = HitterCards(
            address=f"{folder}/hitters",
            title=f"Hitters: {title}",
            index_address=index,
            cards=halves,
            edition=edition,
            built=built,
            as_of=run.as_of,
        )
    menu = ("Cards",) if home else ()
    fielders = None if stand is None else wallet_cards(stand, findings, folder=folder, edition=edition)
    front = CardsIndex(
        index, f"Cards: {title}", run.series, run.series_address, base, hitters, fielders, menu, built, run.as_of
    )
    yield front
    yield from front.ready


def _answers(battery: Battery, runners: Sequence[OwnPlayer]) -> tuple[Answer, ...]:
    """Every call of the running page that somebody hears for second base, in its order."""
    heard = [(man, call) for man in runners if (call := battery.calls.get((man.key, "2"))) is not None]
    found = []
    for key, words in CALL_WORDS.items():
        mine = sorted((h for h in heard if h[1].call == key), key=lambda h: -h[1].p_safe)
        named = mine[:_NAMED] if key == "go" else []
        others = tuple(man.number or man.name.split()[-1] for man, _ in mine[len(named) :])
        if mine:
            found.append(Answer(words, tuple((man, call.p_safe) for man, call in named), others))
    return tuple(found)


def _halves(
    series: Series, men: Mapping[str, Person], findings: Findings, season: Season, *, built: str
) -> Iterator[HitterCard]:
    for probable in series.probables:
        person = men.get(probable.pitcher)
        if person is None:
            continue
        page = player_page(person, findings, season, built=built)
        if page.pitching is not None:
            yield HitterCard(probable.game, probable.date, page, page.pitching)
