"""The charting list of the demo's opponents, against what the pages it feeds say."""

import re
from dataclasses import replace

import pytest
from pages.demo import plain

from scoutgen.measures.unknowns import WANTS
from scoutgen.pages.book import Book, Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.markdown import render
from scoutgen.pages.not_known import _ON, NotKnownPage, Steal, not_known_page
from scoutgen.pages.opponent import opponents_in_order
from scoutgen.pages.people import people
from scoutgen.records.season import Season
from scoutgen.records.series import Series


@pytest.fixture(scope="module")
def harbor(demo_pages: dict[str, Page]) -> str:
    return plain(demo_pages["not-known-yet/harbor"].markdown)


def made(season: Season, findings: Findings, series: Series | None) -> NotKnownPage:
    teams = opponents_in_order(season)
    return not_known_page(teams[0], people(season)["harbor"], findings, season, series=series, teams=teams, built="now")


def test_what_we_do_not_know_yet_about_tonights_starter(harbor: str, demo_pages: dict[str, Page]) -> None:
    first = harbor.split("\n## ")[1]
    assert first.startswith("[27 Iker Núñez](../teams/harbor/players/iker-nunez.md), Friday\n")
    opened = re.search(r"- Steal of second: open for (\d+) of our (\d+) runners\. 10 more readings", first)
    assert opened
    # Every "only if" of his column on the page of who can go is one that is open.
    running = plain(demo_pages["running"].markdown)
    table = running.split("[table:go")[1].split("\n\n")[0]
    column = [row.split("|")[2] for row in table.splitlines() if row.startswith("| [")]
    assert len(column) == int(opened[2])
    assert sum("only if" in cell for cell in column) <= int(opened[1]) <= len(column)
    assert (
        "- Steal of third: open for 4 of our 4 runners. 10 more readings would settle: pop to third (1 so far)" in first
    )


def test_it_is_in_the_order_of_what_tonight_hangs_on(harbor: str) -> None:
    headings = re.findall(r"^## \[?([^\]\n(]+)", harbor, flags=re.MULTILINE)
    assert headings == [
        "27 Iker Núñez", "12 Ruben Castellane", "19 Bexley Tran", "44 Solomon Adeyemi-Frost", "Their lineup",
        "Who may come in", "21 Mats Lindqvist", "52 Paulo Kealohanui", "9 Cormac O'Tierney", "31 Dov Arsenault",
        "35 Haru Winterbourne",
    ]  # fmt: skip
    assert harbor.index("[fold:Everybody else: 5 men]") < harbor.index("## [21 Mats Lindqvist")


def test_every_item_says_how_much_for_what_and_on_which_sheet(harbor: str) -> None:
    items = [line for line in harbor.split("Who charts it", maxsplit=1)[0].splitlines() if line.startswith("- ")]
    assert len(items) > 20
    told = [line for line in items if "settle none" not in line]
    assert all(
        re.search(r"\[(Pitches|Times|Looks)\]\(\.\./charting/(pitches|times|looks)\.md\)$", line) for line in told
    )
    assert "- Pop times to third: 1 of 5; stealing third. [Times](../charting/times.md)" in items


def test_hitters_of_the_lineup_share_a_line_who_is_furthest_from_it_in_front(harbor: str) -> None:
    (line,) = [text for text in harbor.splitlines() if text.startswith("- Ground balls with a direction")]
    assert line.startswith("- Ground balls with a direction, 20 each; where the infield plays: ")
    have = [int(n) for n in re.findall(r"\) (\d+)[,.]", line)]
    assert len(have) > 2
    assert have == sorted(have)
    assert max(have) < 20


def test_two_pitches_not_told_apart_are_those_the_starters_page_says(harbor: str, demo_pages: dict[str, Page]) -> None:
    tran = harbor.split("19 Bexley Tran]")[1].split("\n## ", maxsplit=1)[0]
    assert re.search(r"Two pitches not told apart yet, [^\n]*: first pitch, lefties curve or fastball 51 → \d+;", tran)
    home = plain(demo_pages["index"].markdown).split("19 Bexley Tran](")[1].split("###")[0]
    assert re.search(r"First pitch \| curve \d+ % \d+ of 51 or fastball", home)


def test_every_table_that_wants_are_counted_in_has_a_sheet() -> None:
    assert {want.table for want in WANTS} <= set(_ON)


def test_the_coming_opponents_list_is_in_the_menu_and_the_others_are_linked(demo_book: Book) -> None:
    lists = [page for page in demo_book.pages if page.address.startswith("not-known-yet/")]
    assert len(lists) == 7
    assert [page.address for page in lists if page.menu] == ["not-known-yet/harbor"]
    (first,) = [page for page in lists if page.menu]
    assert first.menu == ("Not known yet",)
    assert first.markdown.count("](") > 20
    for page in lists:
        if page is not first:
            assert f"]({page.address.removeprefix('not-known-yet/')}.md)" in first.markdown


def test_without_a_coming_series_everybody_is_listed_and_nothing_folded(
    demo_season: Season, demo_findings: Findings
) -> None:
    page = made(demo_season, demo_findings, None)
    assert page.series is None
    assert [gaps.title for gaps in page.first] == ["Infield"]
    assert page.first[0].nothing
    assert len(page.rest) > 3
    text = render("not-known.md.j2", page=page)
    assert "[fold:" not in text
    assert "The charting list asks for nothing more here" in text


def test_a_series_in_which_nobody_is_named_is_no_fault(demo_season: Season, demo_findings: Findings) -> None:
    series = replace(demo_season.series[-1], probables=(), catcher=None, lineup=(), bullpen=())
    page = made(demo_season, demo_findings, series)
    assert page.lineup == page.bullpen == ()
    assert render("not-known.md.j2", page=page)


def test_what_is_worth_timing_stands_in_front_and_what_settles_nobody_is_left_out() -> None:
    parts = (("plate", 9, 0.6), ("pop", 7, 0.2), ("slide", 5, 2.4), ("third", 0, None))
    steal = Steal("second", 8, 14, parts)
    assert [what for what, _, _ in steal.worth] == ["third", "slide", "plate"]
