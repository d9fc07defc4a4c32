"""An opponent's pages: what they come from, their addresses, and who stands beside whom."""

import re
from dataclasses import replace
from datetime import date

import pytest
import small_season

from scoutgen.pages.book import TeamBook
from scoutgen.pages.finding import ANYBODY, IN_SERIES, PROBABLE
from scoutgen.pages.findings import TABLES
from scoutgen.pages.team_pages import Graded, TeamSources, season_about, team_book, team_outline, team_said
from scoutgen.pages.write import _Game
from scoutgen.records.season import Season

BUILT = "2026-04-09 21:40"


def sources(small_game: _Game, key: str) -> TeamSources:
    return small_game.books()._sources(small_game.season.teams[key])


def written(small_game: _Game, made: TeamSources) -> TeamBook:
    return team_book(made, small_game.findings.part(made.team.key), built=BUILT)


def markdown(book: TeamBook, address: str) -> str:
    return next(page.markdown for page in book.pages if page.address == address)


def test_a_season_about_a_team_has_of_others_their_names_alone(small_game: _Game) -> None:
    whole: Season = small_game.season
    about = season_about(whole, whole.teams["lowmarsh"])
    assert about.teams["lowmarsh"] is whole.teams["lowmarsh"]
    assert list(about.teams) == list(whole.teams)
    assert [team.name for team in about.teams.values()] == [team.name for team in whole.teams.values()]
    assert {key for key, team in about.teams.items() if team.roster} == {"lowmarsh"}
    assert [team.own for team in about.teams.values()] == [team.own for team in whole.teams.values()]
    assert [who for who, _ in about.entries] == ["lowmarsh"]
    assert [len(getattr(about, name)) for name in (*TABLES, "games")] == [0] * (len(TABLES) + 1)
    assert list(about.pitches.columns) == list(whole.pitches.columns)
    assert (about.as_of, about.program, about.series) == (whole.as_of, whole.program, whole.series)


@pytest.mark.parametrize("key", list(small_season.TEAMS))
def test_an_outline_has_the_addresses_and_ways_of_the_pages_and_nothing_on_them(small_game: _Game, key: str) -> None:
    made = sources(small_game, key)
    book, outline = written(small_game, made), team_outline(made)
    assert [(page.address, page.menu) for page in outline.pages] == [(page.address, page.menu) for page in book.pages]
    assert len(book.pages) == 10
    assert {page.markdown for page in outline.pages} == {""}
    assert all(page.markdown for page in book.pages)
    assert (outline.charts, outline.facts, outline.said) == ({}, {}, {})
    # Only of whom we play next the list of what is not known stands in the menu.
    assert sum(bool(page.menu) for page in book.pages) == (2 if key == "cedarholm" else 1)


def test_a_book_has_the_charts_on_its_pages_and_facts_on_every_man(small_game: _Game) -> None:
    book = written(small_game, sources(small_game, "cedarholm"))
    placed = [key for page in book.pages for key in re.findall(r"\[chart:(\w+)\]", page.markdown)]
    assert set(placed) == set(book.charts)
    assert placed
    assert sorted(book.facts) == sorted(
        f"facts/cedarholm/{man.man.key}.json" for man in sources(small_game, "cedarholm").men
    )


def test_what_would_be_said_is_what_is_said(small_game: _Game) -> None:
    made = sources(small_game, "cedarholm")
    said = team_said(made, small_game.findings.part("cedarholm"), built="later")
    assert said == written(small_game, made).said
    assert len(said) > 10


def test_progress_is_told_page_by_page(small_game: _Game) -> None:
    steps: list[int] = []
    team_book(sources(small_game, "lowmarsh"), small_game.findings.part("lowmarsh"), built=BUILT, written=steps.append)
    assert steps == [1] * 10


@pytest.mark.parametrize(
    ("key", "day", "met", "ahead"),
    [
        ("cedarholm", 9, True, True),
        ("cedarholm", 11, True, True),
        ("cedarholm", 12, True, False),
        ("lowmarsh", 9, False, False),
    ],
)
def test_a_series_is_ahead_until_its_last_day(small_game: _Game, key: str, day: int, *, met: bool, ahead: bool) -> None:
    made = sources(small_game, key)
    made = replace(made, season=replace(made.season, as_of=date(2026, 4, day)))
    assert (made.met_next is not None, made.ahead is not None) == (met, ahead)


def test_men_we_meet_are_found_before_others(small_game: _Game) -> None:
    books = {key: written(small_game, sources(small_game, key)) for key in ("cedarholm", "lowmarsh")}
    near = {
        key: {page.address.rpartition("/")[2]: entry.boost for page in book.pages for entry in page.search[:1]}
        for key, book in books.items()
    }
    # The probable starter, another man of theirs, and men of another team.
    assert near["cedarholm"]["bo-cedarholm"] / near["lowmarsh"]["bo-lowmarsh"] == pytest.approx(PROBABLE / ANYBODY)
    assert near["cedarholm"]["ada-cedarholm"] / near["lowmarsh"]["ada-lowmarsh"] == pytest.approx(IN_SERIES / ANYBODY)


def test_a_man_with_an_evaluation_leads_there(small_game: _Game) -> None:
    made = sources(small_game, "cedarholm")
    address = "teams/cedarholm/players/ada-cedarholm"
    assert list(made.graded) == [address]
    with_it, without = written(small_game, made), written(small_game, replace(made, graded={}))
    link = made.graded[address].address.rpartition("/")[2]
    assert f"{link}.md" in markdown(with_it, address)
    assert "evaluation" in markdown(with_it, address).lower()
    assert with_it.facts["facts/cedarholm/ada-cedarholm.json"] != without.facts["facts/cedarholm/ada-cedarholm.json"]
    changed = [a.address for a, b in zip(with_it.pages, without.pages, strict=True) if a != b]
    assert changed == [address]
    beside = written(small_game, replace(made, graded={address: Graded("elsewhere", {"scale": "by eye"})}))
    assert '"by eye"' in beside.facts["facts/cedarholm/ada-cedarholm.json"]
