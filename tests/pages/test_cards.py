"""Cards against the pages they are taken from: nobody lost, no number of their own, the day and edition on each."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import pytest
from pages.demo import level_card_of, plain, running_page_of

from scoutgen.pages import kept_findings
from scoutgen.pages.book import Page
from scoutgen.pages.cards import BaseCards, CardsIndex, CardsPage, HitterCards, card_pages
from scoutgen.pages.findings import Findings
from scoutgen.pages.level_card import LevelCard
from scoutgen.pages.markdown import render
from scoutgen.pages.people import people
from scoutgen.pages.running import RunningPage
from scoutgen.pages.times_through import Changes
from scoutgen.pages.wallet_card import WalletCards
from scoutgen.pages.write import write_book
from scoutgen.records.season import Season

FOLDER = "cards/gannet-harbor"
NUMBERS = re.compile(r"\d+ of \d+|\d+ %|\d\.\d+ s|\d+ readings")


def cards_of(
    run: RunningPage, season: Season, findings: Findings, *, stand: LevelCard | None = None
) -> list[CardsPage]:
    men = {person.man.key: person for person in people(season)[run.series.opponent]}
    return list(card_pages(run, men, findings, season, stand=stand, home=True, edition="staff", built="now"))


@pytest.fixture(scope="module")
def run(demo_season: Season, demo_findings: Findings) -> RunningPage:
    return running_page_of(demo_season, demo_findings)


@pytest.fixture(scope="module")
def made(run: RunningPage, demo_season: Season, demo_findings: Findings) -> list[CardsPage]:
    return cards_of(run, demo_season, demo_findings, stand=level_card_of(demo_season, demo_findings))


def boxes(page: Page, kind: str) -> Iterator[str]:
    """What stands on each card."""
    yield from plain(page.markdown).split(f"[box:{kind}]")[1:]


def test_the_index_lists_the_pages_there_are_and_they_are_in_the_book(
    made: list[CardsPage], demo_pages: dict[str, Page]
) -> None:
    index, base, hitters, fielders = made
    assert isinstance(index, CardsIndex)
    assert isinstance(base, BaseCards)
    assert isinstance(hitters, HitterCards)
    assert isinstance(fielders, WalletCards)
    assert index.ready == (base, hitters, fielders)
    listed = re.findall(r"\*\*\[[^\]]+\]\(([^)]+)\.md\)", demo_pages[f"{FOLDER}/index"].markdown)
    assert [f"{FOLDER}/{name}" for name in listed] == [base.address, hitters.address, fielders.address]
    assert {a for a in demo_pages if a.startswith("cards/")} == {page.address for page in made}
    assert demo_pages[index.address].menu == ("Cards",)
    assert f"({FOLDER}/index.md)" in demo_pages["index"].markdown


def test_every_runner_stands_once_on_every_base_coachs_card(made: list[CardsPage], run: RunningPage) -> None:
    base = made[1]
    assert isinstance(base, BaseCards)
    assert len(base.cards) == len(run.batteries) == 3
    for card in base.cards:
        on_it = [man.number for answer in card.answers for man, _ in answer.named]
        on_it += [number for answer in card.answers for number in answer.others]
        assert sorted(on_it, key=str) == sorted((man.number for man in run.runners), key=str)
        for answer in card.answers:
            keys = [man.key for man, _ in answer.named]
            assert {card.battery.calls[key, "2"].words for key in keys} <= {answer.words}
            chances = [chance for _, chance in answer.named]
            assert chances == sorted(chances, reverse=True)


def test_a_base_coachs_card_has_no_number_that_the_running_page_lacks(demo_pages: dict[str, Page]) -> None:
    there = set(NUMBERS.findall(plain(demo_pages["running"].markdown)))
    found = [
        number for box in boxes(demo_pages[f"{FOLDER}/base-coaches"], "index-card") for number in NUMBERS.findall(box)
    ]
    assert len(found) > 40
    assert set(found) <= there


@pytest.mark.parametrize(
    ("heading", "man"),
    [
        ("27 Iker Núñez, RHP", "iker-nunez"),
        ("19 Bexley Tran, LHP", "bexley-tran"),
        ("44 Solomon Adeyemi-Frost, RHP", "solomon-adeyemi-frost"),
    ],
)
def test_a_half_sheet_says_what_his_page_says(demo_pages: dict[str, Page], heading: str, man: str) -> None:
    (half,) = [box for box in boxes(demo_pages[f"{FOLDER}/hitters"], "half") if heading in box]
    page = plain(demo_pages[f"teams/harbor/players/{man}"].markdown)
    found = NUMBERS.findall(half)
    assert len(found) > 30
    assert set(found) <= set(NUMBERS.findall(page))
    # Row by row, both sides: when, what to look for, and then.
    rows = [line for line in half.splitlines() if re.match(r"\| (First pitch|He is|Two strikes)", line)]
    assert len(rows) == 8
    assert all(row in page for row in rows)
    assert half.count("Strikeouts ended on:") == 2


def test_more_changes_than_fit_are_counted(made: list[CardsPage]) -> None:
    hitters = made[2]
    assert isinstance(hitters, HitterCards)
    card = next(card for card in hitters.cards if len(card.pitching.changes.turns) == 2)
    assert card.turns == card.pitching.changes.turns
    assert card.more_changes == 0
    turn = card.turns[0]
    many = replace(turn, changes=turn.changes[:1] * 5)
    crowded = replace(card, pitching=replace(card.pitching, changes=Changes(90, (many,) * 4)))
    assert [len(turn.changes) for turn in crowded.turns] == [2, 2, 2]
    assert crowded.more_changes == 14
    text = render(hitters.template, page=replace(hitters, cards=(crowded,)))
    assert text.count("14 more on his page.") == 1


def test_every_card_says_its_day_its_edition_and_that_it_is_confidential(demo_pages: dict[str, Page]) -> None:
    for name, kind, number in (("base-coaches", "index-card", 4), ("hitters", "half", 3), ("fielders", "wallet", 4)):
        cards = list(boxes(demo_pages[f"{FOLDER}/{name}"], kind))
        assert len(cards) == number
        for card in cards:
            assert "as of Thu 9 Apr 2026 · staff edition · confidential" in card


def test_the_bullpen_has_a_card_of_its_own_with_every_reliever(
    made: list[CardsPage], run: RunningPage, demo_season: Season, demo_findings: Findings
) -> None:
    base = made[1]
    assert isinstance(base, BaseCards)
    assert [line for card in base.bullpen for line in card] == list(run.relievers)
    assert max(map(len, base.bullpen)) <= 4
    many = cards_of(replace(run, relievers=run.relievers * 3), demo_season, demo_findings)[1]
    assert isinstance(many, BaseCards)
    assert [len(card) for card in many.bullpen] == [4, 4, 4]
    assert (base.sheets, many.sheets) == (1, 2)


def test_without_a_probable_pitcher_there_is_no_card_and_the_index_says_so(
    run: RunningPage, demo_season: Season, demo_findings: Findings
) -> None:
    nobody = replace(run, series=replace(run.series, probables=()), batteries=())
    (index,) = cards_of(nobody, demo_season, demo_findings)
    assert "No card yet: no probable pitcher" in render(index.template, page=index)
    assert "5 by 3 inches" not in render(index.template, page=index)


def test_a_series_that_is_over_has_no_cards(
    demo_season: Season, demo_findings: Findings, monkeypatch: pytest.MonkeyPatch
) -> None:
    # What was measured while it was coming: none of that may be on a card either.
    monkeypatch.setattr(kept_findings, "find", lambda *_: demo_findings)
    late = write_book(replace(demo_season, as_of=date(2026, 5, 1)), edition="staff", built="now", only=())
    assert [page.address for page in late.pages if page.address.startswith("cards/")] == []
    assert "cards/" not in next(page for page in late.pages if page.address == "index").markdown
