"""A large season is measured team by team, with the numbers each team has among all; one more game touches two."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

import pandas as pd
import pytest
from small_season import AS_OF, write_small_season

from scoutgen.measures.usual import Known
from scoutgen.pages import found_by_team, kept_findings
from scoutgen.pages.findings import TABLES, Asked, Findings, find, learn_usual
from scoutgen.pages.found_by_team import teachers, whole_weeks
from scoutgen.pages.kept_findings import kept_or_found, season_measured
from scoutgen.pages.opponent import coming
from scoutgen.pages.people import asked_about, people
from scoutgen.records.season import Season, read_season
from scoutgen.records.series import Series
from scoutgen.records.some_teams import some_teams


class Shelf(dict[str, bytes]):
    """A shelf in memory."""

    put = dict.__setitem__
    holds = dict.__contains__

    def share(self, names: Iterable[str]) -> None:
        self.shared = list(names)


def asked_of(season: Season) -> list[tuple[str, str | None, str]]:
    teams = [team for team in season.teams.values() if not team.own]
    return asked_about([man for men in people(season).values() for man in men], teams)


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Season:
    return read_season(write_small_season(tmp_path_factory.mktemp("small")), as_of=AS_OF)


@pytest.fixture
def measured(monkeypatch: pytest.MonkeyPatch) -> list[Sequence[str]]:
    """The teams that were measured, a list each time; every season is large."""
    monkeypatch.setattr(kept_findings, "LARGE", 0)
    asked: list[Sequence[str]] = []

    def noted(season: Season, people: Asked, series: Series | None, *, usual: Known, about: Sequence[str]) -> Findings:
        asked.append(list(about))
        return find(season, people, series, usual=usual, about=about)

    monkeypatch.setattr(found_by_team, "find", noted)
    return asked


def same(one: pd.DataFrame, other: pd.DataFrame, team: str) -> None:
    """The same rows about a team, to the last bit."""
    here, there = (table[table["team"].eq(team)].reset_index(drop=True) for table in (one, other))
    pd.testing.assert_frame_equal(here, there, check_exact=True, check_categorical=False, check_dtype=False)


@pytest.fixture(scope="module")
def learned(demo_season: Season) -> tuple[Findings, Findings, Known]:
    """The demo measured among all, then against what was learned of it, and that."""
    everybody = sorted(demo_season.teams)
    season = some_teams(season_measured(demo_season), everybody)
    asked, series = asked_of(season), coming(demo_season.series, demo_season.as_of)[0]
    usual = Known(learn_usual(season, everybody))
    return find(season, asked, series), find(season, asked, series, usual=usual), usual


def test_every_question_a_measure_asks_is_learned(learned: tuple[Findings, Findings, Known]) -> None:
    at_hand, given, _ = learned
    # One that nobody had taught would leave some to stand alone, and their shares would be others.
    for name, table in at_hand.frames.items():
        pd.testing.assert_frame_equal(table, given.frames[name], check_exact=True)


@pytest.mark.parametrize("team", ["harbor", "ridge"])
def test_a_team_measured_alone_has_the_numbers_it_has_among_all(
    demo_season: Season, learned: tuple[Findings, Findings, Known], team: str
) -> None:
    season = season_measured(demo_season)
    series = coming(demo_season.series, demo_season.as_of)[0]
    asked = [who for who in asked_of(season) if who[0] == team]
    near = series if series.opponent == team else None
    alone = find(some_teams(season, [team]), asked, near, usual=learned[2], about=[team])
    tables = learned[1].frames
    assert sum(len(table) for table in alone.frames.values()) > 1_000
    assert set(alone.frames) == set(tables)
    for name, table in alone.frames.items():
        assert set(table["team"]) <= {team}
        same(table, tables[name], team)


def test_a_large_season_is_learned_from_whole_weeks_and_some_teams(demo_season: Season) -> None:
    last = demo_season.games["date"].max()
    monday = whole_weeks(demo_season)
    assert monday is not None
    assert monday.weekday() == 0
    assert 0 <= (last.date() - monday).days < 7
    opponents = sorted(team.key for team in demo_season.teams.values() if not team.own)
    assert teachers(demo_season) == opponents
    many = pd.concat([demo_season.pitches] * 10)
    assert teachers(replace(demo_season, pitches=many)) == opponents[::3]


def test_nothing_is_left_out_where_most_of_it_was_charted_in_one_week(small: Season) -> None:
    games = small.games.assign(date=pd.Timestamp("2026-04-07"))
    assert (
        whole_weeks(replace(small, games=games, pitches=small.pitches.assign(date=pd.Timestamp("2026-04-07")))) is None
    )
    assert whole_weeks(replace(small, games=games.iloc[:0])) is None


def one_more(season: Season) -> Season:
    """The season with the last game of Stonebury charted a second time, the day after."""
    last = season.games[season.games["home"].eq("stonebury") | season.games["away"].eq("stonebury")].iloc[-1:]
    frames = {}
    for name in ("games", *TABLES):
        frame = getattr(season, name)
        again = frame[frame["game"].isin(last["game"])]
        again = again.assign(game="once-more", date=(again["date"] + pd.Timedelta(days=1)).astype(frame["date"].dtype))
        frames[name] = pd.concat([frame.astype({"game": object}), again], ignore_index=True).astype(
            {"game": "category"}
        )
    return replace(season, **frames)


@pytest.fixture
def kept(small: Season, measured: list[Sequence[str]]) -> Shelf:
    shelf = Shelf()
    kept_or_found(small, asked_of(small), None, shelf)
    assert measured == [list(small.teams)]
    measured.clear()
    return shelf


def test_after_one_more_game_the_other_teams_are_not_measured_and_everybody_is_as_measured_anew(
    small: Season, measured: list[Sequence[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(found_by_team, "whole_weeks", lambda _: date(2026, 4, 3))
    shelf = Shelf()
    kept_or_found(small, asked_of(small), None, shelf)
    measured.clear()
    more = one_more(small)
    quick = kept_or_found(more, asked_of(more), None, shelf)
    assert measured == [["stonebury"]]
    anew = kept_or_found(more, asked_of(more), None, None)
    for team in small.teams:
        for name, table in anew.tables.items():
            assert quick.tables[name].of_team(team) == table.of_team(team)
    assert quick.of("usage", "stonebury", "ada-stonebury") != kept_or_found(small, asked_of(small), None, shelf).of(
        "usage", "stonebury", "ada-stonebury"
    )


def test_what_is_kept_is_read_when_it_is_asked_for(small: Season, kept: Shelf, measured: list[Sequence[str]]) -> None:
    again = kept_or_found(small, asked_of(small), None, kept)
    anew = kept_or_found(small, asked_of(small), None, None)
    assert measured == [list(small.teams)]
    for name, table in anew.tables.items():
        assert again.tables[name].of_team("lowmarsh") == table.of_team("lowmarsh")
        assert again.of(name, "lowmarsh", "ada-lowmarsh") == anew.of(name, "lowmarsh", "ada-lowmarsh")
        mine = table.columns_of("lowmarsh", "ada-lowmarsh")
        assert again.tables[name].columns_of("lowmarsh", "ada-lowmarsh") == mine
        assert again.part("lowmarsh").of_team(name, "cedarholm") == []
    assert again.of_team("usage", "nobody") == []
    assert again.digest("lowmarsh") == anew.digest("lowmarsh") != anew.digest("cedarholm")


def test_what_is_damaged_is_measured_again(small: Season, kept: Shelf, measured: list[Sequence[str]]) -> None:
    whole = kept_or_found(small, asked_of(small), None, None).of_team("times", "cedarholm")
    measured.clear()

    class Damaged(Shelf):
        def get(self, name: str) -> bytes | None:  # type: ignore[override]  # a shelf, no mapping
            content = super().get(name)
            return None if content is not None and len(content) > 5_000 else content

    again = kept_or_found(small, asked_of(small), None, Damaged(kept))
    assert again.of_team("times", "cedarholm") == whole
    assert again.of_team("times", "stonebury")
    assert measured == [list(small.teams)], "all at once, not one after another"


def test_where_one_is_damaged_the_others_are_taken(small: Season, kept: Shelf, measured: list[Sequence[str]]) -> None:
    one = Shelf()
    kept_or_found(small, asked_of(small), None, one, only=["stonebury"])
    _, name = one.shared
    measured.clear()
    del kept[name]
    shelf = Shelf(kept)
    shelf.holds = lambda _: True  # type: ignore[method-assign]  # it was there a moment ago
    again = kept_or_found(small, asked_of(small), None, shelf)
    assert measured == []
    assert again.of_team("times", "lowmarsh")
    assert again.of_team("times", "stonebury")
    assert measured == [["stonebury"]]


def test_of_a_part_nobody_else_is_measured_before_somebody_asks(small: Season, measured: list[Sequence[str]]) -> None:
    shelf = Shelf()
    part = kept_or_found(small, asked_of(small), None, shelf, only=["cedarholm"], beside=["ridge"])
    assert part.of_team("usage", "cedarholm")
    assert measured == [["cedarholm", "ridge"]]
    # What is usual, and the team whose part it is.
    assert len(shelf) == 3
    assert len(shelf.shared) == 2
    assert part.of_team("usage", "stonebury")
    assert measured == [["cedarholm", "ridge"], ["stonebury"]]
    assert set(shelf.shared) < set(shelf)
    measured.clear()
    whole = kept_or_found(small, asked_of(small), None, shelf)
    assert measured == [["lowmarsh"]]
    anew = kept_or_found(small, asked_of(small), None, None)
    for name, table in anew.tables.items():
        assert [whole.of_team(name, team) for team in small.teams] == [table.of_team(team) for team in small.teams]


def test_a_roster_and_the_settings_are_reasons_to_measure_anew(
    small: Season, kept: Shelf, measured: list[Sequence[str]]
) -> None:
    team = small.teams["stonebury"]
    left = replace(team, roster=(team.roster[0].model_copy(update={"throws": "L"}), *team.roster[1:]))
    # Whom he throws with is asked of every hitter he faced; and who that is, is not looked at.
    kept_or_found(replace(small, teams={**small.teams, "stonebury": left}), asked_of(small), None, kept)
    named = replace(team, roster=(team.roster[0].model_copy(update={"name": "Ada"}), *team.roster[1:]))
    kept_or_found(replace(small, teams={**small.teams, "stonebury": named}), asked_of(small), None, kept)
    few = small.program.model_copy(update={"watch_error_s": 0.2})
    kept_or_found(replace(small, program=few), asked_of(small), None, kept)
    assert [sorted(teams) for teams in measured] == [sorted(small.teams), ["stonebury"], sorted(small.teams)]
