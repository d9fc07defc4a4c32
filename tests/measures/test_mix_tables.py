"""Pitches counted into tables."""

import numpy as np
import pandas as pd
from league.mixes import draw_league, throw

from scoutgen.measures.mix_tables import count_pitches


def frame() -> pd.DataFrame:
    return throw(draw_league(4), 3, batters=6)


def test_the_table_counts_what_a_groupby_counts() -> None:
    pitches = frame()
    tables = count_pitches(pitches)
    assert tables.counted.sum() == len(pitches)
    by = ["pitcher_team", "pitcher", "bats", "balls", "strikes", "pitch"]
    thrown = tables.thrown()
    for (team, player, bats, balls, strikes, pitch), size in pitches.groupby(by, observed=True).size().items():
        row = tables.players.index[(tables.players["team"] == team) & (tables.players["player"] == player)]
        at = (row[0], "LR".index(bats), balls * 3 + strikes, tables.vocabulary.index(pitch))
        assert thrown[at] == size


def test_outings_are_in_order_of_the_games_and_know_how_many_came_after() -> None:
    pitches = frame()
    tables = count_pitches(pitches)
    dates = pd.DataFrame({"player": tables.outing_player, "age": tables.outing_age, "date": tables.outing_date})
    for _, own in dates.groupby("player"):
        assert own["date"].is_monotonic_increasing
        assert own["age"].tolist() == [2, 1, 0]
    np.testing.assert_array_equal(tables.players["games"], 3)
    assert (tables.players["last_seen"] == pitches["date"].max()).all()


def test_a_pitch_without_side_or_count_is_dealt_out_and_none_is_lost() -> None:
    pitches = frame()
    pitches.loc[::3, "bats"] = None
    pitches.loc[1::4, "balls"] = pd.NA
    tables = count_pitches(pitches)
    np.testing.assert_allclose(tables.cells().sum(), len(pitches))
    assert tables.counted[:, 2].sum() == pitches["bats"].isna().sum()
    assert tables.counted[:, :, 12].sum() == pitches["balls"].isna().sum()
    np.testing.assert_allclose(tables.visits().sum(axis=1), 1)


def test_rows_without_a_pitch_are_left_out_with_the_players_who_have_no_other() -> None:
    pitches = frame()
    silent = pitches["pitcher"].cat.categories[0]
    pitches.loc[pitches["pitcher"] == silent, "pitch"] = None
    tables = count_pitches(pitches)
    assert silent not in set(tables.players["player"])
    assert (tables.row_outing >= 0).sum() == pitches["pitch"].notna().sum()


def test_one_key_on_two_teams_is_two_players() -> None:
    pitches = frame()
    pitches["pitcher"] = pd.Categorical(["ace"] * len(pitches))
    pitches["pitcher_team"] = pd.Categorical(np.where(np.arange(len(pitches)) % 2, "north", None))
    tables = count_pitches(pitches)
    assert tables.players["player"].tolist() == ["ace", "ace"]
    assert tables.players["team"].tolist()[0] == "north"
    assert pd.isna(tables.players["team"].tolist()[1])


def test_the_vocabulary_is_the_usual_ones_and_what_was_seen_or_named() -> None:
    pitches = frame().assign(pitch=pd.Categorical(["looper"] * len(frame())))
    tables = count_pitches(pitches, vocabulary=["drop"])
    assert tables.vocabulary[0] == "fastball"
    assert tables.vocabulary[-2:] == ("drop", "looper")
