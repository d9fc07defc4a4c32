"""Wallet cards against the page of where to stand and against the charts: no level and no bunt of their own."""

import re
from dataclasses import replace

import pytest
from pages.demo import level_card_of, plain

from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.level_card import LevelCard, Seams
from scoutgen.pages.markdown import render
from scoutgen.pages.wallet_card import WALLET_CARDS_A_SHEET, WalletCards, wallet_cards
from scoutgen.records.season import Season

ADDRESS = "cards/gannet-harbor/fielders"


@pytest.fixture(scope="module")
def stand(demo_season: Season, demo_findings: Findings) -> LevelCard:
    return level_card_of(demo_season, demo_findings)


def made(stand: LevelCard, findings: Findings) -> WalletCards:
    cards = wallet_cards(stand, findings, folder="cards/gannet-harbor", edition="staff")
    assert cards is not None
    return cards


def rows(text: str) -> list[list[str]]:
    """Cells of every row that has a hitter, links taken off."""
    lines = [line for line in plain(text).splitlines() if re.match(r"\| \[?\d+ [A-Z]", line)]
    return [
        [re.sub(r"\[([^\]]+)\]\([^)]+\)", r"\1", cell).strip() for cell in line.strip("|").split("|")] for line in lines
    ]


def test_every_level_on_every_copy_is_the_one_of_the_page(demo_pages: dict[str, Page]) -> None:
    card, page = rows(demo_pages[ADDRESS].markdown), rows(demo_pages["levels"].markdown)
    assert len(page) == 9
    assert len(card) == 9 * WALLET_CARDS_A_SHEET
    told = [[f"{name}, {bats}", infield, outfield, two or "same"] for name, bats, infield, outfield, two, _ in card]
    assert told == page * WALLET_CARDS_A_SHEET


def test_a_level_to_the_other_side_and_one_not_known_are_marked(stand: LevelCard, demo_findings: Findings) -> None:
    first, *rest = stand.hitters
    level = next(hitter.infield["R"] for hitter in stand.hitters if hitter.infield["R"])
    other = replace(level, level=2, opposite=True)
    changed = replace(first, infield={"R": other, "L": None}, outfield={"R": None, "L": other}, two_strikes=other)
    cards = made(replace(stand, hitters=(changed, *rest), opposite_mark="away"), demo_findings)
    text = render(cards.template, page=cards)
    assert rows(text)[0][2:5] == ["2 away / –", "– / 2 away", "in 2 away"]
    assert "**away:** to the other side" in text


def test_straight_up_for_want_of_balls_is_told_from_straight_up_that_was_found(
    stand: LevelCard, demo_findings: Findings, demo_pages: dict[str, Page]
) -> None:
    first, *rest = stand.hitters
    found = next(level for hitter in stand.hitters if (level := hitter.infield["R"]) and level.because == "no gain")
    few = replace(found, because="few")
    mixed = replace(first, infield={"R": few, "L": found}, outfield={"R": found, "L": few}, two_strikes=None)
    cards = made(replace(stand, hitters=(mixed, *rest)), demo_findings)
    text = render(cards.template, page=cards)
    assert rows(text)[0][2:5] == ["1? / 1", "1 / 1?", ""]
    assert text.count("**1?:** too few balls to move for") == WALLET_CARDS_A_SHEET
    assert '"1?": too few balls to move for, so straight up' in plain(demo_pages["levels"].markdown)


def test_bunts_are_counted_off_the_charts(stand: LevelCard, demo_season: Season, demo_findings: Findings) -> None:
    pitches = demo_season.pitches
    marked = 0
    for line in made(stand, demo_findings).lines:
        man = line.hitter.person
        his = pitches[(pitches["batter"] == man.man.key) & (pitches["batter_team"] == man.team.key)]
        down = int((his["contact"].eq("bunt") & his["result"].eq("in_play")).sum())
        assert (line.bunts[0] if line.bunts else 0) == down
        assert line.bunts is None or 0 < line.bunts[0] < line.bunts[1] <= len(his)
        marked += line.bunts is not None
    assert 0 < marked < 9


def test_bunts_are_those_of_his_own_page(
    stand: LevelCard, demo_findings: Findings, demo_pages: dict[str, Page]
) -> None:
    for line in made(stand, demo_findings).lines:
        if line.bunts and line.hitter.person.man.bats != "S":
            page = plain(demo_pages[line.hitter.person.address].markdown)
            assert f"Bunts: {line.bunts[0]} in {line.bunts[1]} plate appearances" in page
    assert "B 5 of 71" in plain(demo_pages[ADDRESS].markdown)


def test_the_back_has_whose_ball_at_every_level_in_front(stand: LevelCard, demo_findings: Findings) -> None:
    cards = made(stand, demo_findings)
    named = {int(level.split()[0]) for order in cards.orders for level in order.levels}
    used = {
        level.level for hitter in stand.hitters for level in (*hitter.infield.values(), hitter.two_strikes) if level
    }
    assert len(used) > 1
    assert named >= used
    text = plain(render(cards.template, page=cards))
    assert text.count("Level 1, 4 (lefty): third base, shortstop, second base, first base.") == 4
    # Whoever is named before another takes the ball between them, as the page has it pair by pair.
    for seam in stand.seams:
        label = "1" if seam.level == 1 else f"{seam.level} ({'lefty' if seam.bats == 'L' else 'righty'})"
        (order,) = [order for order in cards.orders if label in order.levels]
        assert all(order.men.index(takes) + 1 == order.men.index(clears) for takes, clears in seam.pairs)


def test_orders_that_differ_stand_apart(stand: LevelCard, demo_findings: Findings) -> None:
    usual = stand.seams[0]
    crossed = Seams(4, True, "R", (("shortstop", "third base"), ("third base", "second base")))
    cards = made(replace(stand, seams=(usual, crossed)), demo_findings)
    assert [(order.levels, order.men) for order in cards.orders] == [
        (("1",), ("third base", "shortstop", "second base", "first base")),
        (("4 opp (righty)",), ("shortstop", "third base", "second base")),
    ]


def test_the_back_has_the_legend_the_caution_and_the_day(stand: LevelCard, demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages[ADDRESS].markdown)
    for words in (*stand.infield_legend, *stand.outfield_legend):
        assert text.count(words) >= WALLET_CARDS_A_SHEET
    assert text.count("Two under one ball: settle before the game who calls") == WALLET_CARDS_A_SHEET
    assert text.count("as of Thu 9 Apr 2026 · staff edition · confidential") == WALLET_CARDS_A_SHEET


def test_without_a_hitter_who_has_a_page_there_is_no_card(stand: LevelCard, demo_findings: Findings) -> None:
    assert wallet_cards(replace(stand, hitters=()), demo_findings, folder="cards/x", edition="staff") is None
