"""Last seen, how much of it, from where and by whom."""

import pandas as pd
from measures.rows import frame

from scoutgen.measures.freshness import FRESH_COLUMNS, TEAM_FRESH_COLUMNS, player_freshness, team_freshness

GAMES = frame(
    "games",
    {"game": "g1", "date": "2026-03-06", "source": "video", "charted_by": "MK"},
    {"game": "g2", "date": "2026-03-13", "source": "own_game", "charted_by": "AB, MK"},
    {"game": "g3", "date": "2026-03-20", "source": "video"},
)
FRAMES = {
    "pitches": frame(
        "pitches", *[{"game": g} for g in ("g1", "g1", "g2")], pitcher="reyes", pitcher_team="harbor", catcher="okafor"
    ),
    "times": frame("times", {"game": "g1", "player": "reyes"}, {"game": "g3", "player": "okafor"}, team="harbor"),
    "habits": frame("habits", {"game": "g3"}, team="harbor", habit="turns-back"),
}


def test_players() -> None:
    table = player_freshness(GAMES, FRAMES).set_index("player")
    assert table.index.tolist() == ["okafor", "reyes"]
    reyes = table.loc["reyes"]
    assert (reyes["first_seen"], reyes["last_seen"]) == (pd.Timestamp("2026-03-06"), pd.Timestamp("2026-03-13"))
    assert reyes[["games", "pitches", "caught", "times", "readings"]].tolist() == [2, 3, 0, 1, 1]
    assert reyes[["video", "own_game", "second_hand"]].tolist() == [1, 1, 0]
    assert reyes["charted_by"] == "AB, MK"
    okafor = table.loc["okafor"]
    assert okafor["last_seen"] == pd.Timestamp("2026-03-20")
    assert okafor[["games", "pitches", "caught", "times"]].tolist() == [3, 0, 3, 1]
    assert okafor["video"] == 2


def test_a_team_has_what_names_no_player_too() -> None:
    table = team_freshness(GAMES, FRAMES)
    assert list(table.columns) == TEAM_FRESH_COLUMNS
    assert table[["team", "games", "pitches", "habits", "readings"]].to_numpy().tolist() == [["harbor", 3, 3, 1, 3]]


def test_nobody_named_is_missing_and_a_catcher_not_charted_caught_nothing() -> None:
    pitches = frame("pitches", {"game": "g3"}, pitcher="reyes", pitcher_team="harbor")
    for table in (player_freshness(GAMES, {"pitches": pitches}), team_freshness(GAMES, {"pitches": pitches})):
        assert table["charted_by"].isna().all()
        assert table[["pitches", "caught"]].to_numpy().tolist() == [[1, 0]]


def test_nothing_charted() -> None:
    table = player_freshness(frame("games"), {})
    assert table.empty
    assert list(table.columns) == FRESH_COLUMNS
