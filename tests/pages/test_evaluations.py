"""The list over all opponents, and a book that holds evaluations and nothing else."""

import html
import re
from dataclasses import replace

import pytest

from scoutgen.pages.book import Book, Page
from scoutgen.pages.changed import Earlier
from scoutgen.pages.evaluation import BESIDE, EvaluationPage
from scoutgen.pages.evaluations import evaluation_book, evaluation_list, evaluation_pages, evaluations
from scoutgen.pages.measured import find_measured
from scoutgen.records.editions import evaluation_part, for_edition
from scoutgen.records.season import Season


@pytest.fixture(scope="module")
def scouts(demo_season: Season) -> Season:
    return for_edition(demo_season, "recruiting")


@pytest.fixture(scope="module")
def made(scouts: Season) -> tuple[EvaluationPage, ...]:
    return evaluation_pages(scouts, find_measured(scouts), built="now")


@pytest.fixture(scope="module")
def book(scouts_book: Book) -> Book:
    return scouts_book


def rows(page: Page) -> list[list[str]]:
    lines = [line for line in html.unescape(page.markdown).splitlines() if line.startswith("| ")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def test_everybody_graded_or_noted_is_on_the_list_once_and_has_a_page(scouts: Season, book: Book) -> None:
    wanted = {who for who, entry in scouts.entries.items() if entry.grades or entry.observations}
    home = book.pages[0]
    assert (home.address, home.menu) == ("index", ("Evaluations",))
    linked = re.findall(r"\(evaluations/([a-z]+)/([a-z-]+)\.md\)", home.markdown)
    assert sorted(linked) == sorted(wanted)
    assert {f"evaluations/{team}/{man}" for team, man in wanted} <= {page.address for page in book.pages}
    assert len({team for team, _ in wanted}) == 3


def test_the_best_grade_comes_first_and_who_has_none_last(made: tuple[EvaluationPage, ...], scouts: Season) -> None:
    front = evaluation_list(made, scouts, built="now")
    now = [line.page.overall.now if line.page.overall else 0 for line in front.lines]
    assert now == sorted(now, reverse=True)
    assert now[-1] == 0
    assert front.lines[0].page.title == "30 Tuck Hallworth"


def test_a_row_says_who_he_is_what_he_is_worth_and_how_it_was_read(book: Book) -> None:
    header, *lines = rows(book.pages[0])
    assert header == [
        "Who", "Overall", "Later", "Plays", "Class", "Bats", "Throws", "Home to first, s", "Pop to second, s",
        "Fastball, mph", "Best tools", "Team", "Seen",
    ]  # fmt: skip
    told = {line[0]: line[1:] for line in lines}
    kofi = next(cells for who, cells in told.items() if who.startswith("[1 Kofi Brathwaite]"))
    assert kofi[:6] == ["**50**", "–", "CF", "Jr", "L", "L"]
    assert re.fullmatch(r"3\.97<br>6", kofi[6])
    assert kofi[9:11] == ["run 65, field 55", "Gannet Harbor"]
    # A pitcher who bats is both, and a time read seldom says so.
    both = next(cells for who, cells in told.items() if "Adeyemi-Frost" in who)
    assert both[2] == "RHP, DH"
    assert both[6].endswith("few")


def test_the_book_has_evaluations_and_nothing_about_a_game(book: Book) -> None:
    others = [page.address for page in book.pages if not page.address.startswith("evaluations/")]
    assert others == ["index", "how-to-read", "changed", "cautions"]
    assert book.charts == {}
    assert len(book.facts) == len(book.pages) - 4
    words = " ".join(page.markdown for page in book.pages).lower()
    for never in ("tonight", "who can go", "break-even", "lineup", "bullpen", "probable"):
        assert never not in words
    titles = [entry.title for page in book.pages for entry in page.search]
    assert len(titles) == len(book.pages)


def test_in_a_book_about_games_they_stand_at_addresses_of_their_own(demo_season: Season) -> None:
    staff = for_edition(demo_season, "staff")
    part = evaluation_part(staff)
    made = evaluations(part, find_measured(part), place=BESIDE, built="now")
    pages = list(made.pages())
    assert [page.address for page in pages][:: len(pages) - 1] == ["evaluations/index", "evaluations/how-to-read"]
    assert all(page.address.startswith("evaluations/") for page in pages)
    assert [page.menu for page in pages if page.menu] == [("Evaluations",)]
    man = next(page for page in pages if page.address == "evaluations/harbor/iker-nunez")
    assert man.title == "27 Iker Núñez: evaluation"
    # Back to what he does in a game, and found after it.
    assert "[his scouting page](../../teams/harbor/players/iker-nunez.md)" in man.markdown
    assert "](../index.md)" in man.markdown
    assert "](../how-to-read.md)" in man.markdown
    assert man.search[0].boost < 1


def test_a_grade_that_is_new_or_another_is_what_changed(scouts: Season) -> None:
    book = evaluation_book(
        scouts,
        edition="recruiting",
        built="now",
        compared_with=lambda said: Earlier(
            {key: replace(one, said="20") if key.endswith("tran|overall") else one for key, one in said.items()},
            when="the build of yesterday",
        ),
    )
    told = html.unescape(next(page.markdown for page in book.pages if page.address == "changed"))
    assert "**1 grade**" in told
    assert "[19 Tran](evaluations/harbor/bexley-tran.md), overall: **20 → " in told


def test_a_project_without_grades_says_how_to_begin(scouts: Season) -> None:
    assert evaluation_list((), scouts, built="now").lines == ()
