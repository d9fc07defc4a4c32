"""A part of a season holds all that is asked about some teams, and nothing that hangs on the others."""

from dataclasses import replace

import pandas as pd
import pytest
from small_season import AS_OF, write_small_season

from scoutgen.records.season import Season, read_season
from scoutgen.records.some_teams import rows_about, some_teams


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Season:
    return read_season(write_small_season(tmp_path_factory.mktemp("small")), as_of=AS_OF)


def test_games_stay_whole(small: Season) -> None:
    part = some_teams(small, ["lowmarsh"])
    theirs = small.pitches[small.pitches["pitcher_team"].eq("lowmarsh") | small.pitches["batter_team"].eq("lowmarsh")]
    games = set(theirs["game"])
    assert games
    assert games < set(small.pitches["game"])
    assert len(part.pitches) == small.pitches["game"].isin(games).sum()
    assert set(part.games["game"]) == games | set(part.times["game"])
    assert set(part.times["team"]) == {"lowmarsh"}


def test_our_runners_times_to_the_next_base_are_in_every_part_and_our_other_times_in_none(small: Season) -> None:
    times = small.times.astype({"team": object, "measure": object})
    times.loc[:1, "team"], times.loc[:1, "measure"] = small.program.key, ["first_second", "plate"]
    season = replace(small, times=times)
    kept = rows_about(season, ["stonebury"])["times"]
    assert kept[:2].tolist() == [True, False]


def test_a_part_is_the_same_whatever_else_was_charted(small: Season) -> None:
    part = some_teams(small, ["cedarholm"])
    without = replace(small, **{
        name: getattr(small, name)[rows].reset_index(drop=True)
        for name, rows in rows_about(small, ["cedarholm"]).items()
    })  # fmt: skip
    again = some_teams(without, ["cedarholm"])
    for name in ("games", "pitches", "times", "holds", "throws", "habits", "positions"):
        pd.testing.assert_frame_equal(getattr(part, name), getattr(again, name), check_exact=True)
    words = part.pitches["pitcher"].cat.categories
    assert list(words) == sorted(set(part.pitches["pitcher"].dropna()))


def test_all_teams_together_are_the_whole(small: Season) -> None:
    rows = rows_about(small, list(small.teams))
    assert all(kept.all() for kept in rows.values())
