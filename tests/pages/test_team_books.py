"""Opponents' shares of the book are kept by all that they come from: taken where nothing changed, else written."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from scoutgen.pages import kept_findings
from scoutgen.pages.book import Book
from scoutgen.pages.findings import TABLES, find
from scoutgen.pages.people import asked_about, people
from scoutgen.pages.team_books import TeamBooks
from scoutgen.pages.write import _Game, write_book, write_said
from scoutgen.records import side_by_side
from scoutgen.records.season import Season

THEN, NOW = "2026-04-09 21:40", "2026-04-10 08:00"
KEYS = ["cedarholm", "lowmarsh", "stonebury"]


class Kept(dict[str, str]):
    """A shelf in memory that counts what is put on it."""

    def __init__(self, *texts: object) -> None:
        super().__init__(*texts)
        self.puts: list[str] = []
        self.used: list[str] = []

    def put(self, name: str, text: str) -> None:
        self[name] = text
        self.puts.append(name)

    def use(self, name: str) -> None:
        self.used.append(name)


@pytest.fixture(scope="module", autouse=True)
def one_process() -> Iterator[None]:
    """What a copy puts on a shelf in memory would be lost with it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(side_by_side, "processors", lambda: 1)
        yield


@pytest.fixture(scope="module")
def found(small_game: _Game) -> Iterator[None]:
    """Books of the season as it is, without measuring it anew for each of them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(kept_findings, "find", lambda *_: small_game.findings)
        yield


@pytest.fixture(scope="module")
def full(small_game: _Game) -> Kept:
    """A shelf with the books of all teams; to be copied by whoever puts on it."""
    shelf = Kept()
    small_game.books(shelf).of(small_game.teams)
    return shelf


@pytest.fixture(scope="module")
def book(small_season: Season, found: None) -> Book:
    del found
    return write_book(small_season, edition="staff", built=THEN)


def names(books: TeamBooks) -> dict[str, str]:
    return {team.key: books._name(team) for team in books.season.teams.values() if team.key in KEYS}


def test_a_second_time_every_team_is_taken_and_is_the_same(small_game: _Game, full: Kept) -> None:
    assert [team.key for team in small_game.teams] == KEYS
    assert len(full.puts) == len(full) == 3
    again = Kept(full)
    assert small_game.books(again).of(small_game.teams) == small_game.books().of(small_game.teams)
    assert again.puts == []


def test_taken_later_a_book_is_that_which_would_be_written_then(small_game: _Game, full: Kept) -> None:
    later = replace(small_game.books(Kept(full)), built=NOW)
    taken = later.of(small_game.teams)
    assert later.shelf.puts == []  # type: ignore[union-attr]
    assert taken == replace(small_game.books(), built=NOW).of(small_game.teams)
    assert THEN not in repr(taken)


def test_the_whole_book_is_the_same_from_the_shelf(
    small_season: Season, small_game: _Game, full: Kept, book: Book
) -> None:
    again = Kept(full)
    steps: list[tuple[int, int]] = []
    made = write_book(small_season, edition="staff", built=THEN, shelf=again, progress=lambda *step: steps.append(step))
    assert made == book
    assert again.puts == []
    assert steps[-1] == (len(book.pages), len(book.pages))
    assert set(again) == set(names(small_game.books()).values())


def test_what_copies_have_put_there_is_held_by_the_first_process(small_game: _Game) -> None:
    shelf = Kept()
    small_game.books(shelf).of(small_game.teams)
    assert sorted(shelf.used) == sorted(shelf.puts)


def with_note(season: Season, who: tuple[str, str], text: str) -> Season:
    entry = season.entries[who]
    first, *others = entry.observations
    changed = replace(entry, observations=(first.model_copy(update={"text": text}), *others))
    return replace(season, entries={**season.entries, who: changed})


def test_another_note_of_one_man_writes_his_team_alone(small_game: _Game, full: Kept) -> None:
    changed = with_note(small_game.season, ("lowmarsh", "ada-lowmarsh"), "Holds his glove low.")
    shelf = Kept(full)
    books = replace(small_game.books(shelf), season=changed)
    made = books.of(small_game.teams)
    assert len(shelf.puts) == 1
    assert made == replace(small_game.books(), season=changed).of(small_game.teams)
    told = [any("glove low" in page.markdown for page in one.pages) for one in made]
    assert told == [False, True, False]


def test_another_reading_is_another_name(small_game: _Game) -> None:
    times = small_game.season.times.copy()
    row = times.index[times["player"] == "bo-stonebury"][0]
    times.loc[row, "seconds"] += 0.01
    season = replace(small_game.season, times=times)
    everybody = people(season)
    men = [man for some in everybody.values() for man in some]
    found = find(season, asked_about(men, small_game.teams), small_game.nearest[0])
    before = names(small_game.books())
    after = names(replace(small_game.books(), findings=found, season=season))
    assert [key for key in KEYS if before[key] != after[key]] == ["stonebury"]


def changes(small_game: _Game) -> dict[str, TeamBooks]:
    """What else a book of Cedarholm comes from, each changed alone."""
    books, season = small_game.books(), small_game.season
    series, team = small_game.nearest[0], season.teams["cedarholm"]
    first, *others = team.roster
    moved = replace(team, roster=(first.model_copy(update={"number": "77"}), *others))
    return {
        "day": replace(books, season=replace(season, as_of=season.as_of.replace(day=10))),
        "series": replace(books, nearest=[replace(series, catcher=None)]),
        "no series": replace(books, nearest=[]),
        "roster": replace(
            books, season=replace(small_game.season, teams={**small_game.season.teams, "cedarholm": moved})
        ),
        "order": replace(books, fronts=[]),
        "running": replace(books, running="elsewhere"),
        "grades": replace(books, graded={}),
        "men": replace(books, everybody={**books.everybody, "cedarholm": books.everybody["cedarholm"][1:]}),
        "settings": replace(
            books,
            season=replace(
                small_game.season, program=small_game.season.program.model_copy(update={"watch_error_s": 0.2})
            ),
        ),
    }


def test_whatever_else_a_book_comes_from_is_in_its_name(small_game: _Game) -> None:
    before = small_game.books()._name(small_game.teams[0])
    after = {what: books._name(small_game.teams[0]) for what, books in changes(small_game).items()}
    assert [what for what, name in after.items() if name == before] == []
    assert len(set(after.values())) == len(after)


@pytest.mark.parametrize("table", [*TABLES, "games"])
def test_charts_are_in_a_name_by_what_was_found_in_them_alone(small_game: _Game, table: str) -> None:
    without = replace(small_game.season, **{table: getattr(small_game.season, table).iloc[:0]})
    assert names(replace(small_game.books(), season=without)) == names(small_game.books())


def test_where_the_project_lies_is_not_in_a_name(small_game: _Game) -> None:
    moved = replace(small_game.books(), season=replace(small_game.season, root=Path("/elsewhere")), built=NOW)
    assert names(moved) == names(small_game.books())


def test_what_cannot_be_kept_is_written_each_time(small_game: _Game) -> None:
    shelf = Kept()
    # Every address in the list of what is said holds this.
    books = replace(small_game.books(shelf), built="teams/")
    assert len(books.of(small_game.teams)) == 3
    assert shelf == {}


def test_pages_not_asked_for_are_there_with_nothing_on_them(small_season: Season, book: Book) -> None:
    steps: list[tuple[int, int]] = []
    made = write_book(
        small_season, edition="staff", built=THEN, only=["lowmarsh"], progress=lambda *step: steps.append(step)
    )
    assert [(page.address, page.menu) for page in made.pages] == [(page.address, page.menu) for page in book.pages]
    whole = {page.address: page for page in book.pages}
    own = {address for address in whole if address.startswith("teams/lowmarsh/")} | {"not-known-yet/lowmarsh"}
    assert len(own) == 10
    assert made.asked == own
    assert book.asked is None
    for page in made.pages:
        if page.address in own:
            assert page == whole[page.address]
        elif page.address.startswith(("teams/", "not-known-yet/")) and page.address != "teams/index":
            assert page.markdown == ""
    assert set(made.charts) == {
        key for key in book.charts if any(f"[chart:{key}]" in whole[page].markdown for page in own)
    }
    assert made.charts
    assert steps[-1] == (len(book.pages), len(book.pages))


def test_asked_for_nobody_there_are_outlines_alone(small_game: _Game) -> None:
    books = small_game.books(only=[])
    made = books.of(small_game.teams)
    assert {page.markdown for one in made for page in one.pages} == {""}
    assert books.asked(made) == frozenset()


@pytest.mark.parametrize("edition", ["staff", "recruiting"])
def test_what_a_book_would_say_is_what_it_says(small_season: Season, book: Book, edition: str) -> None:
    made = book if edition == "staff" else write_book(small_season, edition=edition, built=THEN)
    said = write_said(small_season, edition=edition, built=NOW)
    assert list(said.items()) == list(made.said.items())
    assert len(said) >= 3


def test_progress_counts_every_page_once(small_game: _Game, full: Kept) -> None:
    told: dict[str, list[int]] = {"written": [], "taken": [], "some": []}
    count: Callable[[str], Callable[[int], None]] = lambda what: told[what].append  # noqa: E731
    small_game.books().of(small_game.teams, count("written"))
    small_game.books(Kept(full)).of(small_game.teams, count("taken"))
    small_game.books(only=["stonebury"]).of(small_game.teams, count("some"))
    assert {what: sum(steps) for what, steps in told.items()} == dict.fromkeys(told, 30)
    assert told["written"] == [1] * 30
    # Nobody is told twice of the same number.
    assert all(0 not in steps for steps in told.values())
