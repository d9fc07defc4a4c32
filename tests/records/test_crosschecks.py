"""What rows say that other rows, files or the calendar contradict."""

from collections.abc import Callable

import pytest

Complaints = Callable[..., list[str]]
HEADER = "game,inning,half,outs,pitcher,batter,balls,strikes,pitch,result\n"
ROW = "g1,1,top,0,Ada,Bo,0,0,FB,ball\n"


def pitches(*rows: str) -> dict[str, str]:
    return {"data/pitches.csv": HEADER + "".join(rows)}


def test_an_unknown_game_gets_the_nearest_names(complaints: Complaints) -> None:
    games = "game,date,source\n0306-harbor,2026-03-06,video\n0307-harbor,2026-03-07,video\n"
    assert complaints({"data/games.csv": games, **pitches(ROW.replace("g1", "0306-habor"))}) == [
        (
            'data/pitches.csv:2: game: "0306-habor" is not a game of data/games; did you mean '
            '"0306-harbor" or "0307-harbor"? '
            "Add it there, or correct it here"
        )
    ]


def test_rows_of_a_game_that_is_wrong_itself_are_said_once(complaints: Complaints) -> None:
    games = "game,date,source\ng1,2026-03-06,vidoe\n"
    said = complaints({"data/games.csv": games, **pitches(ROW, ROW.replace("0,0,FB", "1,0,FB"))})
    assert said[0].startswith("data/games.csv:2: source: ")
    assert said[1:] == ['data/pitches.csv:2: game: 2 rows are of "g1", whose row in data/games cannot be used']


def test_nor_where_the_games_cannot_be_read(complaints: Complaints) -> None:
    said = complaints({"data/games.csv": "game;date;source\n", **pitches(ROW)})
    assert said[0].startswith("data/games.csv:1: the cells are separated by semicolons")
    assert said[1:] == ['data/pitches.csv:2: game: 1 row is of "g1", whose row in data/games cannot be used']


def test_a_game_twice(complaints: Complaints) -> None:
    games = "game,date,source\ng1,2026-03-06,video\ng1,2026-03-07,video\n"
    assert complaints({"data/games.csv": games}) == [
        'data/games.csv:3: game: "g1" is already the key of the game in line 2; give each game its own'
    ]


def test_a_team_against_itself(complaints: Complaints) -> None:
    games = "game,date,away,home,source\ng1,2026-03-06,harbor,harbor,video\ng2,2026-03-06,,,video\n"
    assert complaints({"data/games.csv": games}) == ["data/games.csv:2: home: is the same team as away; a game has two"]


def test_the_same_pitch_twice_is_an_error(complaints: Complaints) -> None:
    assert complaints(pitches(ROW, ROW.replace("0,0,FB", "1,0,FB"), ROW)) == [
        (
            "data/pitches.csv:4: is the same pitch as line 2 (game, inning, half, batter, count and all else); "
            "delete one of the two"
        )
    ]


def test_the_other_file_is_named(complaints: Complaints) -> None:
    files = {"data/pitches/a.csv": HEADER + ROW, "data/pitches/b.csv": HEADER + ROW + ROW.replace("0,0,FB", "1,0,SL")}
    assert complaints(files) == [
        (
            "data/pitches/b.csv:2: is the same pitch as data/pitches/a.csv:2 (game, inning, half, "
            "batter, count and all else); "
            "delete one of the two"
        )
    ]


@pytest.mark.parametrize(
    "rows",
    [
        ["g1,1,top,0,Ada,Bo,1,2,FB,foul\n"] * 2,  # with two strikes a foul leaves the count as it was
        ["g1,1,top,0,Ada,Bo,0,0,FB,\n"] * 2,  # no result
        ["g1,1,top,0,Ada,,0,0,FB,ball\n"] * 2,  # no batter
        ["g1,,top,0,Ada,Bo,0,0,FB,ball\n"] * 2,
    ],
)
def test_rows_that_may_be_two_pitches_are_left_alone(complaints: Complaints, rows: list[str]) -> None:
    assert not [line for line in complaints(pitches(*rows)) if "same pitch" in line]


def test_the_same_file_twice(complaints: Complaints) -> None:
    assert complaints({"data/pitches/a.csv": HEADER + ROW, "data/pitches/b.csv": HEADER + ROW}) == [
        (
            "data/pitches/b.csv: holds exactly the same bytes as data/pitches/a.csv; delete one of "
            "the two, or its rows would "
            "count twice"
        )
    ]


def test_a_foul_may_repeat_in_one_file_and_is_a_copy_in_another(complaints: Complaints) -> None:
    header = "game,inning,half,pitcher,batter,balls,strikes,pitch,result\n"
    foul = "g1,1,top,Ada,Bo,0,2,FB,foul\n"
    files = {"data/pitches/a.csv": header + 2 * foul, "data/pitches/b.csv": header + 2 * foul + "\n"}
    said = complaints(files)
    assert [line.split(": ")[0] for line in said] == ["data/pitches/b.csv:2", "data/pitches/b.csv:3"]
    assert all("is the same pitch as data/pitches/a.csv:2" in line for line in said)


def test_two_equal_readings_of_a_watch_are_worth_a_look_and_no_more(complaints: Complaints) -> None:
    header = "game,inning,player,measure,outs,balls,strikes,seconds,method\n"
    full, thin = "g1,1,Ada,plate,0,1,1,1.3,watch\n", "g1,1,Ada,plate,,,,1.3,watch\n"
    after_a_foul = "g1,1,Ada,plate,0,1,2,1.3,watch\n"
    assert complaints({"data/times.csv": header + full + thin + thin + full + 2 * after_a_foul}) == [
        "data/times.csv:5: warning: says exactly the same as line 2; delete one if it was typed twice"
    ]


def test_what_was_heard_of_is_no_measurement(complaints: Complaints) -> None:
    files = {
        "data/games.csv": "game,date,source\ng1,2026-03-06,second_hand\n",
        "data/times.csv": "game,player,measure,seconds,method\ng1,Ada,plate,1.3,watch\n",
        "data/holds.csv": "game,pitcher,bases,hold_seconds,then\ng1,Ada,1,2.5,pitch\ng1,Ada,1,,pitch\n",
        "data/throws.csv": "game,catcher,to,pop_seconds,exchange_seconds\ng1,Cy,2,2.0,0.7\n",
        "data/pitches.csv": "game,pitcher,balls,strikes,pitch,speed_mph\ng1,Ada,0,0,FB,91\ng1,Ada,0,1,FB,\n",
        "data/habits.csv": "game,team,habit,seen,feet\ng1,harbor,third-off-bag,yes,12\n",
        "data/positions.csv": "game,team,position,depth_ft\ng1,harbor,6,140\n",
    }
    said = complaints(files)
    assert [line.split(": ")[0:2] for line in said] == [
        ["data/habits.csv:2", "feet"],
        ["data/holds.csv:2", "hold_seconds"],
        ["data/pitches.csv:2", "speed_mph"],
        ["data/positions.csv:2", "depth_ft"],
        ["data/throws.csv:2", "exchange_seconds"],
        ["data/throws.csv:2", "pop_seconds"],
        ["data/times.csv:2", "seconds"],
    ]
    assert all("put it in an observation" in line for line in said)


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        (["g1,2,top,,Ada,Bo,0,0,FB,\n", "g1,1,top,,Ada,Cy,0,0,FB,\n"], "inning: goes back from 2 to 1 after line 2"),
        (
            ["g1,2,bottom,,Ada,Bo,0,0,FB,\n", "g1,2,top,,Ada,Cy,0,0,FB,\n"],
            "half: goes back to the top of inning 2 after line 2",
        ),
        (
            ["g1,2,top,2,Ada,Bo,0,0,FB,\n", "g1,2,top,1,Ada,Cy,0,0,FB,\n"],
            "outs: go back from 2 to 1 after line 2 in the same half inning",
        ),
    ],
)
def test_innings_halves_and_outs_do_not_go_back(complaints: Complaints, rows: list[str], words: str) -> None:
    assert complaints(pitches(*rows)) == [
        f"data/pitches.csv:3: warning: {words}; is it a slip, or are rows out of order?"
    ]


@pytest.mark.parametrize(
    "rows",
    [
        ["g1,1,top,2,Ada,Bo,0,0,FB,\n", "g1,1,bottom,0,Cy,Di,0,0,FB,\n", "g1,2,top,0,Ada,Ed,0,0,FB,\n"],
        ["g1,9,top,2,Ada,Bo,0,0,FB,\n", "g2,1,top,0,Ada,Bo,0,0,FB,\n"],
        ["g1,1,top,2,Ada,Bo,0,0,FB,\n", "g1,,,0,Ada,Cy,0,0,FB,\n"],
    ],
)
def test_a_game_that_goes_forward(complaints: Complaints, rows: list[str]) -> None:
    games = "game,date,source\ng1,2026-03-06,video\ng2,2026-03-07,video\n"
    assert complaints({"data/games.csv": games, **pitches(*rows)}) == []
