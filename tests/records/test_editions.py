"""What each edition may know of the demo's season; the bytes of its sites are tests/site/test_edition_secrets.py's."""

from dataclasses import fields, replace
from datetime import date
from pathlib import Path

import pytest

from scoutgen.records.editions import (
    PRIVATE_COLUMNS,
    SHOWS,
    evaluation_part,
    for_edition,
    game_part,
    pages_for,
)
from scoutgen.records.opponents import Observation
from scoutgen.records.problems import Problem
from scoutgen.records.season import TABLES, Season, read_season

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def season() -> Season:
    return read_season(ROOT, as_of=date(2026, 4, 9))


def notes(season: Season) -> list[Observation]:
    written = [one for entry in season.entries.values() for one in entry.observations]
    return [*written, *(one for team in season.teams.values() for one in team.tendencies)]


@pytest.mark.parametrize(
    ("marks", "shown"),
    [
        (("staff",), ["staff"]),
        (("players",), ["staff", "players"]),
        (("staff", "players"), ["staff", "players"]),
        (("recruiting",), ["staff", "recruiting"]),
        (("staff", "recruiting"), ["staff", "recruiting"]),
    ],
)
def test_a_mark_decides_who_reads_a_note_and_the_staff_reads_what_players_do(
    season: Season, marks: tuple[str, ...], shown: list[str]
) -> None:
    who, entry = next(iter(season.entries.items()))
    note = entry.observations[0].model_copy(update={"text": "only this", "editions": marks})
    made = replace(season, entries={**season.entries, who: replace(entry, observations=(note,))})
    assert [e for e in SHOWS if any(n.text == "only this" for n in notes(for_edition(made, e)))] == shown


def test_players_alone_have_no_grades(season: Season) -> None:
    graded = {
        edition: sum(entry.grades is not None for entry in for_edition(season, edition).entries.values())
        for edition in SHOWS
    }
    assert graded == {"staff": graded["staff"], "players": 0, "recruiting": graded["staff"]}
    assert graded["staff"] >= 20


def test_the_staffs_pages_about_a_game_and_its_evaluations_each_have_their_own(season: Season) -> None:
    staff = for_edition(season, "staff")
    game, evaluated = game_part(staff), evaluation_part(staff)
    assert not any(entry.grades for entry in game.entries.values())
    marks = [note.editions for one in (game, evaluated) for note in notes(one)]
    assert ("recruiting",) not in [note.editions for note in notes(game)]
    assert {note.editions for note in notes(evaluated)} == {mark for mark in marks if "recruiting" in mark}
    assert len(notes(game)) + len(notes(evaluated)) >= len(notes(staff))
    scouts = for_edition(season, "recruiting")
    assert evaluated.entries == scouts.entries
    assert (evaluated.series, evaluated.program.roster) == ((), ())


def test_players_have_the_plan_without_the_staffs_lines_and_nobodys_initials_on_charts(season: Season) -> None:
    odd = Problem("data/x.csv", 2, "pitch", "is odd", "warning")
    made = replace(season, warnings=(odd,), skipped=(odd,), rows_left_out=1, files_left_out=1)
    players = for_edition(made, "players")
    assert any(line.editions == ("staff",) for one in season.series for line in one.plan)
    assert not any(line.editions == ("staff",) for one in players.series for line in one.plan)
    assert (players.warnings, players.skipped, players.rows_left_out, players.files_left_out) == ((), (), 0, 0)
    for name in TABLES:
        frame = getattr(players, name)
        assert list(frame) == list(getattr(season, name))
        for column in {*PRIVATE_COLUMNS} & {*frame}:
            assert frame[column].isna().all()
            assert len(frame[column].cat.categories) == 0
    staff = for_edition(made, "staff")
    assert (staff.warnings, staff.rows_left_out) == ((odd,), 1)
    assert staff.games["charted_by"].equals(season.games["charted_by"])


def test_the_recruiting_edition_has_no_plan_no_habits_no_parks_and_nobody_of_ours(season: Season) -> None:
    scouts = for_edition(season, "recruiting")
    assert scouts.series == ()
    assert scouts.habit_kinds == {}
    assert scouts.program.roster == ()
    assert not any(team.own or team.tendencies or team.park.name for team in scouts.teams.values())
    assert not any(entry.summary for entry in scouts.entries.values())
    assert {name for name in TABLES if not len(getattr(scouts, name))} == {"holds", "habits", "positions"}
    assert all(len(getattr(season, name)) for name in TABLES)


def test_pages_by_hand_are_those_marked_for_it(season: Season) -> None:
    pages = {edition: {page.address for page in for_edition(season, edition).pages} for edition in SHOWS}
    assert pages == {edition: {page.address for page in pages_for(season.pages, edition)} for edition in SHOWS}
    assert pages == {
        "staff": {"how-we-chart", "how-we-grade", "meeting-notes", "travel-plan"},
        "players": {"meeting-notes", "travel-plan"},
        "recruiting": {"how-we-grade"},
    }


def test_the_season_itself_is_left_as_it_was_and_doing_it_twice_changes_nothing(season: Season) -> None:
    before = [entry.grades for entry in season.entries.values()]
    for edition in SHOWS:
        once = for_edition(season, edition)
        twice = for_edition(once, edition)
        for field in fields(Season):
            a, b = getattr(once, field.name), getattr(twice, field.name)
            assert a.equals(b) if field.name in TABLES else a == b
    assert [entry.grades for entry in season.entries.values()] == before
