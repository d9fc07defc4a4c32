"""Situations: counts, bases, times through."""

import numpy as np
import pandas as pd

from scoutgen.measures import counts


def test_the_twelve_counts_follow_the_official_rules() -> None:
    # Official Baseball Rules, 5.05(b)(1) and 5.09(a)(1): four balls walk, three strikes are out.
    assert len(counts.COUNTS) == 12
    assert counts.COUNTS[0] == "0-0"
    assert counts.COUNTS[-1] == "3-2"
    assert len(set(counts.COUNTS)) == 12


def test_groups_are_the_pitchers_view() -> None:
    ahead, behind = counts.COUNT_GROUPS["ahead"], counts.COUNT_GROUPS["behind"]
    assert ahead == ("0-1", "0-2", "1-2")
    assert behind == ("1-0", "2-0", "2-1", "3-0", "3-1")
    # Every count but 0-0 and 3-2 is ahead, even or behind, in just one of them.
    parts = [*ahead, *counts.COUNT_GROUPS["even"], *behind, "0-0", "3-2"]
    assert sorted(parts) == sorted(counts.COUNTS)
    members = pd.DataFrame(counts.count_members(), index=list(counts.COUNT_LABELS), columns=list(counts.COUNTS))
    assert list(members.columns[members.loc["two strikes"]]) == ["0-2", "1-2", "2-2", "3-2"]
    assert members.loc["all"].all()
    assert members.loc[list(counts.COUNTS)].to_numpy().sum() == 12


def test_count_of_a_pitch_and_of_one_not_charted() -> None:
    pitches = pd.DataFrame(
        {"balls": pd.array([0, 3, pd.NA, 1], dtype="Int16"), "strikes": pd.array([0, 2, 1, pd.NA], dtype="Int16")}
    )
    assert counts.count_of(pitches).astype("object").where(lambda s: s.notna(), None).tolist() == [
        "0-0",
        "3-2",
        None,
        None,
    ]
    assert counts.count_index(pitches).tolist() == [0, 11, -1, -1]


def test_bases_empty_is_not_bases_unknown() -> None:
    pitches = pd.DataFrame({"bases": pd.Categorical(["", "1", "13", "2", None, "123"])})
    assert counts.bases_index(pitches).tolist() == [0, 1, 2, 2, -1, 2]
    all_missing = pd.DataFrame({"bases": pd.Categorical([None, None])})
    assert counts.bases_index(all_missing).tolist() == [-1, -1]


def outing(rows: list[tuple[str, str, str | None, str | None]]) -> pd.DataFrame:
    return pd.DataFrame(rows, columns=["game", "pitcher", "batter", "play"]).astype("category")


def test_times_through_counts_a_batters_appearances_against_this_pitcher_in_this_game() -> None:
    pitches = outing(
        [
            ("g1", "p", "a", None),
            ("g1", "p", "a", "out"),
            ("g1", "q", "a", "out"),  # the other side's pitcher, the same key by chance
            ("g1", "p", "b", "single"),
            ("g1", "p", None, None),
            ("g1", "p", "a", None),
            ("g1", "p", "b", "out"),
            ("g1", "p", "a", "walk"),
            ("g1", "p", "a", "out"),  # nobody else charted between: the play before ended the appearance
            ("g2", "p", "a", None),
        ]
    )
    assert counts.appearance_number(pitches).tolist() == [1, 1, 1, 1, 0, 2, 2, 3, 4, 1]
    assert counts.times_through_index(pitches).tolist() == [0, 0, 0, 0, -1, 1, 1, 2, 2, 0]


def test_no_pitches_have_no_appearances() -> None:
    assert counts.appearance_number(outing([])).tolist() == []


def test_games_interleaved_by_half_innings_give_the_same_numbers() -> None:
    both = outing([("g", f"p{i % 2}", f"b{i % 2}{(i // 4) % 9}", None) for i in range(160)])
    apart = pd.concat([both[both["pitcher"] == "p0"], both[both["pitcher"] == "p1"]])
    together = pd.Series(counts.appearance_number(both), index=both.index)
    np.testing.assert_array_equal(together[apart.index], counts.appearance_number(apart))
    assert together.max() == 5  # 40 batters each: four times round nine and four more
