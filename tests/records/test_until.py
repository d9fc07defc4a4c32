"""A season before a day, held against the demo's."""

from datetime import date
from pathlib import Path

import pandas as pd
import pytest

from scoutgen.records.season import Season, read_season
from scoutgen.records.until import before_day, last_charted, last_day

ROOT = Path(__file__).parents[2]
FRAMES = ("games", "pitches", "times", "holds", "throws", "habits", "positions")
DAY = date(2026, 4, 4)


@pytest.fixture(scope="module")
def season() -> Season:
    return read_season(ROOT, as_of=date(2026, 4, 9))


def test_the_last_charted_day(season: Season, tmp_path: Path) -> None:
    assert last_charted(season) == date(2026, 4, 7)
    assert last_charted(read_season(tmp_path, as_of=DAY)) is None


def test_the_last_day_of_a_table(season: Season) -> None:
    assert last_day(season.games) == last_charted(season)
    assert last_day(season.holds.iloc[:0]) is None
    assert last_day(season.holds.assign(date=pd.NaT)) is None


@pytest.mark.parametrize("name", FRAMES)
def test_rows_of_the_day_and_later_are_gone_and_no_others(season: Season, name: str) -> None:
    whole, cut = getattr(season, name), getattr(before_day(season, DAY), name)
    earlier = whole["date"] < pd.Timestamp(DAY)
    assert 0 < len(cut) < len(whole)
    assert len(cut) == earlier.sum()
    assert list(cut.columns) == list(whole.columns)
    assert list(cut.index) == list(range(len(cut)))
    assert cut["game"].astype(str).tolist() == whole.loc[earlier, "game"].astype(str).tolist()


def test_a_game_that_is_gone_is_no_category_any_more(season: Season) -> None:
    assert "g0407-harbor" in season.pitches["game"].cat.categories
    assert "g0407-harbor" not in before_day(season, DAY).pitches["game"].cat.categories


def test_what_was_seen_later_is_gone_what_has_no_date_stays(season: Season) -> None:
    cut = before_day(season, DAY)
    later = [o for entry in season.entries.values() for o in entry.observations if o.seen >= DAY]
    assert later
    left = [o for entry in cut.entries.values() for o in entry.observations]
    assert left
    assert all(o.seen < DAY for o in left)
    assert all(o.seen < DAY for team in cut.teams.values() for o in team.tendencies)
    assert [entry.summary for entry in cut.entries.values()] == [entry.summary for entry in season.entries.values()]
    assert cut.series == season.series
    assert {key: team.roster for key, team in cut.teams.items()} == {
        key: team.roster for key, team in season.teams.items()
    }


def test_before_everything_there_is_nothing_and_after_it_everything(season: Season) -> None:
    assert len(before_day(season, date(2026, 1, 1)).pitches) == 0
    assert len(before_day(season, date(2026, 4, 8)).pitches) == len(season.pitches)


def test_games_of_which_nobody_wrote_the_day_stay(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "pitches.csv").write_text(
        "game,pitcher,bats,balls,strikes,pitch\nfriday,Ivo Lind,R,0,0,fastball\n"
    )
    undated = read_season(tmp_path, as_of=DAY)
    assert undated.games["date"].isna().all()
    assert len(before_day(undated, DAY).pitches) == 1
