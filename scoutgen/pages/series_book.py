"""A series as pages: its front, who can go with the cards for the pocket, where to stand, what a steal is worth."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from scoutgen.pages.book import Page, SearchEntry
from scoutgen.pages.cards import CardsIndex, CardsPage, card_pages
from scoutgen.pages.finding import LEVEL_WORDS, RISK_WORDS, running_entry, series_entry
from scoutgen.pages.findings import Findings
from scoutgen.pages.level_card import level_card
from scoutgen.pages.markdown import render
from scoutgen.pages.people import Person
from scoutgen.pages.printed import Printed, cells_of, with_marks
from scoutgen.pages.risk import risk_page
from scoutgen.pages.run_values import win_values
from scoutgen.pages.running import running_page
from scoutgen.pages.sayings import Shown
from scoutgen.pages.series import SeriesPage
from scoutgen.records.season import Season


def series_book(
    front: SeriesPage,
    everybody: Mapping[str, Sequence[Person]],
    findings: Findings,
    season: Season,
    shown: Shown,
    *,
    printed: Mapping[str, Printed],
    edition: str,
    built: str,
) -> Iterator[Page]:
    """A series' page and those that hang on it, in the order of the menu.

    Args:
        front: what the series' own page says.
        everybody: the men of every team by its key.
        findings: the season's measures.
        season: as the edition may know it.
        shown: takes in what the pages say, for what is compared with the next build.
        printed: cards printed before, by the address of their page.
        edition: for whom, as printed on each card.
        built: when, in words.
    """
    menu: tuple[str, ...] = ("Tonight",) if front.home else ("Series", front.title)
    text = render("series.md.j2", page=front, news=None)
    yield Page(front.address, front.title, text, (series_entry(front),), menu)
    series = front.series
    if series is None:
        return
    men, values = everybody.get(series.opponent, ()), win_values(season.program.run_environment)
    stand = level_card(front, series, men, findings, season, built=built) if front.levels_address else None
    if front.running_address:
        run = running_page(series, front, men, findings, season, values=values, built=built)
        shown.running.append(run)
        menu = ("Who can go",) if front.home else ()
        yield Page(run.address, run.title, render("running.md.j2", page=run), (running_entry(run),), menu)
        theirs = {person.man.key: person for person in men}
        for card in card_pages(
            run, theirs, findings, season, stand=stand, home=front.home, edition=edition, built=built
        ):
            text = compared(card, printed.get(card.address))
            yield Page(card.address, card.title, text, (SearchEntry(card.title, card.found_by),), card.menu)
    if stand is not None:
        shown.levels.append(stand)
        menu = ("Where to stand",) if front.home else ()
        text = render("levels.md.j2", page=stand)
        yield Page(stand.address, stand.title, text, (SearchEntry(stand.title, LEVEL_WORDS),), menu)
    if front.risk_address:
        risk = risk_page(front, values, season, built=built)
        text = render("risk.md.j2", page=risk)
        yield Page(risk.address, risk.title, text, (SearchEntry(risk.title, RISK_WORDS),))


def compared(card: CardsPage, printed: Printed | None) -> str:
    """A page of cards, with marks where it says something else than the sheet printed last."""
    text = render(card.template, page=card)
    sheet = printed.to_compare(cells_of(text)) if printed else None
    if sheet is None or isinstance(card, CardsIndex):
        return text
    return with_marks(render(card.template, page=replace(card, since=sheet.when)), sheet.cells)
