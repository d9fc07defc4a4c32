import html
import re
from datetime import date
from pathlib import Path

import pytest
from pages.demo import Written

from scoutgen.pages.book import Book, Page
from scoutgen.pages.markdown import anchor
from scoutgen.pages.write import write_book
from scoutgen.records.program import Thresholds
from scoutgen.records.season import Season, read_season

BUILT = "Thu 9 Apr 2026, 21:40"

THIN_PERCENT = re.compile(r"(\d+)\s%(?:</?\w+>|\*\*|\s|<br>|\()*(\d+)\sof\s(\d+)")


def test_the_same_season_gives_the_same_book_watched_or_not(written: Written, demo_book: Book) -> None:
    assert written("staff")[0] == demo_book


@pytest.mark.parametrize("edition", ["staff", "players", "recruiting"])
def test_progress_counts_up_to_all_pages(written: Written, edition: str) -> None:
    book, steps = written(edition)
    assert {every for _, every in steps} == {len(book.pages)}
    done = [done for done, _ in steps]
    # Opponents that another processor writes are told at once.
    assert done == sorted(set(done))
    assert done[-1] == len(book.pages)


def test_addresses_are_unique(demo_book: Book) -> None:
    addresses = [page.address for page in demo_book.pages]
    assert len(addresses) == len(set(addresses))


def test_every_percent_with_its_n_has_enough_of_it(demo_book: Book) -> None:
    found = [int(n) for page in demo_book.pages for _, _, n in THIN_PERCENT.findall(page.markdown)]
    assert len(found) > 500
    assert min(found) >= Thresholds().few_pitches == 20


def test_every_page_of_a_man_or_team_says_when_it_was_built_and_last_seen(demo_book: Book) -> None:
    pages = [page for page in demo_book.pages if page.address.startswith("teams/")]
    assert len(pages) > 80
    for page in pages:
        assert f"Built {BUILT}".replace(":", "&#58;") in page.markdown or f"Built {BUILT}" in page.markdown, (
            page.address
        )
        assert "Last seen" in page.markdown or "Never charted yet" in page.markdown, page.address


def test_every_chart_that_stands_on_a_page_is_in_the_book_and_the_other_way_round(demo_book: Book) -> None:
    placed = {key for page in demo_book.pages for key in re.findall(r"\[chart:(\w+)\]", page.markdown)}
    assert placed == set(demo_book.charts)
    assert all(chart.title and chart.description for chart in demo_book.charts.values())


def test_links_lead_to_pages_of_the_book(demo_book: Book) -> None:
    from posixpath import dirname, join, normpath

    there = {page.address for page in demo_book.pages}
    followed = 0
    for page in demo_book.pages:
        for target in re.findall(r"\]\(([^)]+?)\)", page.markdown):
            if target.startswith("#"):
                headings = {anchor(h) for h in re.findall(r"^##+ (.+)$", page.markdown, re.MULTILINE)}
                folds = {f"at-{anchor(words)}" for words in re.findall(r"^\[fold:(.+)\]$", page.markdown, re.MULTILINE)}
                assert target[1:] in headings | folds, target
                continue
            followed += 1
            full = normpath(join(dirname(page.address), target.partition("#")[0]))
            assert full.removesuffix(".md") in there or full in demo_book.facts, f"{page.address}: {target}"
    assert followed > len(demo_book.pages)


def test_what_is_marked_for_the_staff_is_in_no_other_edition(
    demo_season: Season, demo_book: Book, written: Written
) -> None:
    secrets = [
        observation.text
        for entry in demo_season.entries.values()
        for observation in entry.observations
        if observation.editions == ("staff",)
    ]
    assert secrets

    def words(book: Book) -> str:
        return html.unescape("\n".join(page.markdown for page in book.pages))

    for secret in secrets:
        assert secret in words(demo_book)
        assert secret not in words(written("players")[0])


def test_a_project_of_pitches_alone_is_written_without_complaint(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "games.csv").write_text("game,date,away,home,source\ng1,2026-03-06,,harbor,video\n")
    (tmp_path / "data" / "pitches.csv").write_text(
        "game,pitcher,bats,balls,strikes,pitch\ng1,Ivo Lindqvist,R,0,0,fastball\ng1,Ivo Lindqvist,R,0,1,slider\n"
    )
    season = read_season(tmp_path, as_of=date(2026, 4, 9))
    assert season.warnings == ()
    book = write_book(season, edition="staff", built="now")
    assert "facts/harbor/ivo-lindqvist.json" in book.facts
    page = next(p for p in book.pages if p.address == "teams/harbor/players/ivo-lindqvist")
    assert "1\N{NO-BREAK SPACE}of\N{NO-BREAK SPACE}1" in page.markdown
    # Two pitches say nothing in percent.
    assert not re.search(r"\d\s*%", page.markdown.split("## At a glance")[1].split("## Counts")[0])


def test_an_empty_project_has_a_home_page(tmp_path: Path) -> None:
    book = write_book(read_season(tmp_path, as_of=date(2026, 4, 9)), edition="staff", built="now")
    home = next(p for p in book.pages if p.address == "index")
    assert "No series written yet" in home.markdown


@pytest.mark.parametrize(
    ("as_of", "first"),
    [(date(2026, 4, 9), "gannet-harbor"), (date(2026, 4, 12), "gannet-harbor"), (date(2026, 11, 25), "gannet-harbor")],
)
def test_home_is_the_nearest_series(demo_season: Season, as_of: date, first: str) -> None:
    from scoutgen.pages.opponent import coming

    assert coming(demo_season.series, as_of)[0].name == first


def test_a_series_in_the_past_gives_way_to_the_next_one(demo_season: Season) -> None:
    from scoutgen.pages.opponent import coming

    names = [series.name for series in coming(demo_season.series, date(2026, 3, 14))]
    assert names == ["slatefield-march", "gannet-harbor"]


def test_observations_that_disagree_stand_side_by_side(demo_pages: dict[str, Page]) -> None:
    text = demo_pages["teams/harbor/players/iker-nunez"].markdown
    views = text.split("we see it two ways")[1].split("\n\n")[1].strip().splitlines()
    assert len(views) == 2
    assert all(line.startswith("- ") and " 2026" in line for line in views)


def test_an_observation_past_its_date_is_called_old(demo_pages: dict[str, Page]) -> None:
    text = demo_pages["teams/harbor/players/iker-nunez"].markdown
    assert "*Old:*" in text
