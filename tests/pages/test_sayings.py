"""What the demo's pages say, thing by thing, against the pages themselves."""

import re

import pytest
from pages.demo import plain

from scoutgen.pages.book import Book, Page
from scoutgen.pages.said import Saying
from scoutgen.records.season import Season


@pytest.fixture(scope="module")
def said(demo_book: Book) -> list[Saying]:
    return list(demo_book.said.values())


def of(said: list[Saying], kind: str, **given: object) -> list[Saying]:
    return [s for s in said if s.kind == kind and all(getattr(s, name) == value for name, value in given.items())]


def test_every_saying_stands_on_a_page_of_the_book(said: list[Saying], demo_pages: dict[str, Page]) -> None:
    assert len(said) > 1000
    for one in said:
        address, _, anchor = one.address.partition("#")
        assert address in demo_pages
        if anchor:
            assert f"\n## {anchor.capitalize()}\n" in demo_pages[address].markdown


def test_who_plays_is_what_the_series_says(said: list[Saying]) -> None:
    assert [s.said for s in of(said, "probable")] == ["27 Iker Núñez", "19 Bexley Tran", "44 Solomon Adeyemi-Frost"]
    assert [s.said for s in of(said, "catcher")] == ["12 Ruben Castellane"]
    lineup = of(said, "lineup")
    assert [s.said for s in lineup][:4] == ["bats 1st", "bats 2nd", "bats 3rd", "bats 4th"]
    assert len(lineup) == 9
    assert {s.said for s in of(said, "bullpen")} == {"not available", "limited", "available"}


def test_a_series_that_is_over_says_nothing_of_who_plays(demo_book: Book) -> None:
    assert not [key for key in demo_book.said if "slatefield-march" in key]


def test_every_call_is_the_one_on_the_running_page(said: list[Saying], demo_pages: dict[str, Page]) -> None:
    table = plain(demo_pages["running"].markdown).split("[table:go")[1].split("\n\n")[0]
    shown = re.findall(r"(▲ go|◆ only if|✕ no)", table)
    words = [s.said for s in of(said, "call", what="steal of second")]
    assert sorted(shown) == sorted(words)
    assert len(of(said, "call", what="home on the return throw")) > 5


def test_every_level_is_the_one_on_the_page_of_levels(said: list[Saying], demo_pages: dict[str, Page]) -> None:
    rows = [line for line in plain(demo_pages["levels"].markdown).splitlines() if line.startswith("| [")]
    assert len(rows) == 9
    for row in rows:
        who, infield, outfield, two = (cell.strip() for cell in row.strip("|").split("|"))
        name = re.sub(r"\[([^\]]+)\].*", r"\1", who).split(",")[0]
        mine = {(s.what, s.who): s.said for s in of(said, "level", about=name)}
        for what, cell in (("infield", infield), ("outfield", outfield)):
            there = [mine.get((what, f"our {hand}"), "–") for hand in ("right-hander", "left-hander")]
            assert [part.replace("\\", "").replace("&#63;", "?") for part in cell.split(" / ")] == there, name
        assert mine["infield, two strikes", ""] == {"same": "the same"}.get(two, two)


def test_whom_we_meet_first_stands_first(demo_book: Book) -> None:
    men = dict.fromkeys(key.split("|")[2] for key in demo_book.said if key.startswith("number|harbor|"))
    assert list(men)[:4] == ["iker-nunez", "bexley-tran", "solomon-adeyemi-frost", "ruben-castellane"]
    groups = list(dict.fromkeys(s.group for s in demo_book.said.values()))
    assert groups[0] == "Gannet Harbor"
    assert groups[-1] == ""


def test_every_game_is_counted_with_what_was_charted(said: list[Saying], demo_season: Season) -> None:
    games = {s.about: s for s in of(said, "game")}
    assert len(games) == len(demo_season.games)
    last = games["Tue 7 Apr: Cottersby at Gannet Harbor"]
    rows = {name: int((getattr(demo_season, name)["game"] == "g0407-harbor").sum()) for name in ("pitches", "times")}
    assert last.said.startswith(f"{rows['pitches']} pitches, {rows['times']} times")
    assert sum(s.n for s in games.values()) == sum(
        len(getattr(demo_season, name)) for name in ("pitches", "times", "holds", "throws", "habits", "positions")
    )


def test_notes_of_the_edition_are_all_there(said: list[Saying], demo_season: Season) -> None:
    texts = {s.said for s in of(said, "note")}
    written = [o for entry in demo_season.entries.values() for o in entry.observations if "staff" in o.editions]
    assert {o.text for o in written} <= texts
    assert {o.text for team in demo_season.teams.values() for o in team.tendencies} <= texts
    assert len(of(said, "plan")) == 7
