"""A whole project in one pass: every frame complete, every problem found, nothing raised but our own error."""

import os
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pandas as pd
import pytest

from scoutgen.records.problems import ProblemsFoundError
from scoutgen.records.season import TABLES, Season, read_season

Complaints = Callable[..., list[str]]
Read = Callable[..., Season]
Write = Callable[..., Path]
AS_OF = date(2026, 4, 1)

COLUMNS = {
    "games": "game date away home source charted_by clip note",
    "pitches": (
        "game date source inning half outs bases lead pitcher pitcher_team batter "
        "batter_team catcher bats balls strikes pitch "
        "speed_mph height side plate_x_ft plate_z_ft result play contact direction_deg distance_ft fielder clip note"
    ),
    "times": (
        "game date source inning player team measure style bases outs balls strikes bats "
        "seconds method warmup clip note"
    ),
    "holds": "game date source inning pitcher team bases balls strikes looks hold_seconds then style clip note",
    "throws": "game date source inning catcher team pitcher runner to pop_seconds exchange_seconds "
    "method accuracy result warmup "
    "clip note",
    "habits": "game date source inning team player position habit bases bats outs seen feet clip note",
    "positions": "game date source inning team position player bats bases outs strikes depth_ft off_bag_ft toward note",
}
WHOLE = {"inning", "outs", "lead", "balls", "strikes", "height", "side", "fielder", "looks", "position"}
MEASURED = {
    "speed_mph",
    "plate_x_ft",
    "plate_z_ft",
    "direction_deg",
    "distance_ft",
    "seconds",
    "hold_seconds",
    "pop_seconds",
    "exchange_seconds",
    "feet",
    "depth_ft",
    "off_bag_ft",
}
ROWS = {
    "pitches": "game,pitcher,balls,strikes,pitch\ng1,A,0,0,FB\n",
    "times": "game,player,measure,seconds,method\ng1,A,plate,1.3,watch\n",
    "holds": "game,pitcher,bases,then\ng1,A,1,pitch\n",
    "throws": "game,catcher,to\ng1,C,2\n",
    "habits": "game,team,habit,seen\ng1,harbor,lobs-return,yes\n",
    "positions": "game,team,position\ng1,harbor,6\n",
}


@pytest.mark.parametrize("rows", [{}, {f"data/{name}.csv": text for name, text in ROWS.items()}], ids=["none", "one"])
def test_every_frame_has_all_its_columns_and_types(season: Read, rows: dict[str, str]) -> None:
    read = season(rows)
    for table in TABLES:
        frame: pd.DataFrame = getattr(read, table)
        assert list(frame.columns) == [*COLUMNS[table].split(), "file", "line"]
        assert isinstance(frame.index, pd.RangeIndex)
        for name, kind in frame.dtypes.astype(str).items():
            if name == "date":
                assert kind == "datetime64[s]"
            elif name in WHOLE:
                assert kind == "Int16", (table, name)
            elif name in MEASURED:
                assert kind == "float64", (table, name)
            elif name in ("warmup", "seen"):
                assert kind == "boolean"
            else:
                assert kind == ("int32" if name == "line" else "category"), (table, name)


def test_an_empty_folder_is_an_empty_season(tmp_path: Path) -> None:
    read = read_season(tmp_path, as_of=AS_OF)
    assert all(getattr(read, table).empty for table in TABLES)
    assert not read.warnings


def test_rows_come_in_order_of_date_game_file_and_line(season: Read) -> None:
    header = "game,pitcher,balls,strikes,pitch,note\n"
    read = season(
        {
            "data/games.csv": "game,date,source\nb,2026-03-07,video\na,2026-03-07,video\nz,2026-03-01,own_game\n",
            "data/pitches.csv": header + "b,A,0,0,FB,4\na,A,0,0,FB,2\n",
            "data/pitches/1.csv": header + "z,A,0,0,FB,1\na,A,0,0,FB,3\nb,A,0,0,FB,5\n",
        }
    )
    assert read.games["game"].tolist() == ["z", "a", "b"]
    assert read.pitches["note"].tolist() == ["1", "2", "3", "4", "5"]
    assert read.pitches["date"].dt.day.tolist() == [1, 7, 7, 7, 7]
    assert read.pitches["source"].tolist() == ["own_game", "video", "video", "video", "video"]


# The shape in which charts of a single pitcher are passed around.
MINIMAL = "game,pitcher,bats,balls,strikes,pitch\nb,Ace,R,0,0,FB\nb,Ace,R,0,0,FB\na,Ace,L,0,1,SL\n"


def test_pitches_alone_build_without_complaint(season: Read) -> None:
    games = "game,date,away,home,source\na,2026-03-01,,team-a,video\nb,2026-03-08,,team-a,video\n"
    read = season({"data/games.csv": games, "data/pitches.csv": MINIMAL})
    assert not read.warnings
    assert read.pitches["game"].tolist() == ["a", "b", "b"]
    assert set(read.pitches["pitcher_team"]) == {"team-a"}
    assert [man.key for man in read.teams["team-a"].roster] == ["ace"]


@pytest.mark.parametrize(
    ("written", "name"),
    [("dunmere", "Dunmere"), ("st-johns", "St Johns"), ("East Harbor", "East Harbor"), ("HARBOR", "HARBOR")],
)
def test_a_team_without_a_file_has_a_name_with_capitals(season: Read, written: str, name: str) -> None:
    games = f"game,date,away,home,source\na,2026-03-01,,{written},video\nb,2026-03-08,,{written},video\n"
    read = season({"data/games.csv": games, "data/pitches.csv": MINIMAL})
    assert [team.name for team in read.teams.values() if not team.own] == [name]


def test_without_games_they_are_made_up_in_order_of_appearance(write: Write) -> None:
    read = read_season(write({"data/pitches.csv": MINIMAL}), as_of=AS_OF)
    assert read.games["game"].tolist() == ["b", "a"]
    assert read.games["date"].isna().all()
    assert read.pitches["game"].tolist() == ["b", "b", "a"]
    assert set(read.pitches["pitcher_team"]) == {"unlisted"}
    assert [str(warning) for warning in read.warnings] == [
        (
            "data/games.csv: warning: there is no such file; 2 games are taken from the other "
            "tables in order of appearance, "
            "without dates, teams or sources; add rows of game,date,away,home,source"
        )
    ]


BROKEN = {
    "data/games.csv": "game,date,source\ng1,2026-03-06,video\ng2,2026-13-06,video\ng3,2026-05-01,video\n",
    "data/pitches/a.csv": "game,pitcher,balls,strikes,pitch\ng1,A,0,0,FB\ng1,A,0,5,FB\ng2,A,0,0,FB\ng9,A,0,0,FB\n",
    "data/pitches/b.csv": b"game,pitcher,balls,strikes,pitch\ng1,A\xe9,0,0,FB\n",
    "data/times.csv": "game,player,measure,seconds\ng1,A,plate,9.9\n",
}
EXPECTED = [
    'data/games.csv:3: date: "2026-13-06" is not a day of the calendar',
    (
        "data/games.csv:4: date: 2026-05-01 is after the day of this build, 2026-04-01; correct the "
        "date, or build with --as-of "
        "2026-05-01 or later"
    ),
    'data/pitches/a.csv:3: strikes: "5" is too large; allowed are 0 to 2',
    'data/pitches/a.csv:4: game: 1 row is of "g2", whose row in data/games cannot be used',
    'data/pitches/a.csv:5: game: "g9" is not a game of data/games; add it there, or correct it here',
    (
        "data/pitches/b.csv:2: is not UTF-8 text: the byte 0xE9 in this line; in the spreadsheet "
        "choose Save As and then CSV UTF-8 "
        "(comma delimited)"
    ),
    'data/times.csv:1: the header lacks the column "method", which every row must fill',
    (
        'data/times.csv:2: seconds: 9.9 cannot be a time of "plate"; allowed are 0.8 to 2.6 '
        "seconds; correct it, or delete the row "
        "when the watch was stopped wrongly"
    ),
]


def test_all_problems_of_all_files_in_one_pass_in_order(complaints: Complaints) -> None:
    assert complaints(BROKEN) == EXPECTED


def test_bad_rows_can_be_left_out_and_are_listed(season: Read) -> None:
    read = season(BROKEN, skip_bad_rows=True)
    assert [str(problem) for problem in read.skipped] == EXPECTED
    assert read.games["game"].tolist() == ["g1"]
    assert read.pitches[["file", "line"]].to_numpy().tolist() == [["data/pitches/a.csv", 2]]
    assert read.times.empty
    # Two games; three pitches; one reading with two faults, its file's header and its own; the file that is no text.
    assert (read.rows_left_out, read.files_left_out) == (6, 1)


def test_rows_left_out_are_counted_as_rows_however_many_faults_they_have(season: Read) -> None:
    header = "game,pitcher,balls,strikes,pitch\n"
    bad = "g1,A,9,9,FBB\n" * 60
    torn = "g1,A,0,0\ng1,A,0,0,FB,x\n"
    read = season({"data/pitches/a.csv": header + "g1,A,0,0,FB\n" + bad + torn}, skip_bad_rows=True)
    assert (read.rows_left_out, read.files_left_out) == (62, 0)
    assert len(read.pitches) == 1
    twice = {"data/pitches/a.csv": header + "g1,A,0,0,FB\n", "data/pitches/b.csv": header + "g1,A,0,0,FB\n"}
    read = season(twice, skip_bad_rows=True)
    assert (read.rows_left_out, read.files_left_out, len(read.pitches)) == (0, 1, 1)


def test_errors_in_content_refuse_even_then(season: Read) -> None:
    with pytest.raises(ProblemsFoundError) as caught:
        season({**BROKEN, "content/program.yml": "nmae: Ridge\n"}, skip_bad_rows=True)
    files = [problem.file for problem in caught.value.problems]
    assert files == sorted(files)
    assert files[0] == "content/program.yml"
    assert len(files) == len(EXPECTED) + 1


def test_the_same_bad_value_is_shown_twenty_times_and_then_counted(complaints: Complaints) -> None:
    rows = "".join(f"g1,A,0,0,{'FBB' if i % 2 else 'SLL'}\n" for i in range(100))
    said = complaints({"data/pitches.csv": "game,pitcher,balls,strikes,pitch\n" + rows})
    assert len(said) == 2 * 21
    assert "and 30 more rows with the same problem" in said[-1]


def test_a_column_of_a_million_different_wrong_values_is_answered_in_bounded_words(complaints: Complaints) -> None:
    rows = "".join(f"g1,A,0,0,FB,{i}.5.5\n" for i in range(5_000))
    said = complaints({"data/pitches.csv": "game,pitcher,balls,strikes,pitch,speed_mph\n" + rows})
    assert len(said) == 1_001
    assert said[-1].endswith("and 4,000 more rows are wrong in this column in other ways, too many to list")


def test_files_outside_the_project_are_not_read(write: Write, tmp_path_factory: pytest.TempPathFactory) -> None:
    outside = tmp_path_factory.mktemp("outside")
    (outside / "secret.csv").write_text("game,date,source\ns,2026-03-06,video\n", encoding="utf-8")
    root = write({"data/pitches/a.csv": MINIMAL})
    (root / "data" / "games.csv").symlink_to(outside / "secret.csv")
    (root / "data" / "times").symlink_to(outside)
    os.mkfifo(root / "data" / "pitches" / "pipe.csv")
    with pytest.raises(ProblemsFoundError) as caught:
        read_season(root, as_of=AS_OF)
    said = [str(problem) for problem in caught.value.problems]
    assert "data/games.csv: points outside the project's folder, or nowhere; copy the file itself here" in said
    assert "data/pitches/pipe.csv: is not a plain file; copy the file itself here" in said
    assert "data/times: is not a folder of this project; put the files themselves here" in said
    assert not any("secret" in line for line in said)


def test_misnamed_tables_and_other_formats_are_noticed(complaints: Complaints) -> None:
    assert complaints(
        {"data/pitchs.csv": "a", "data/notes.csv": "b", "data/pitches/x.xlsx": b"PK", "data/README.md": "c"}
    ) == [
        (
            "data/notes.csv: warning: is not read: no table has this name; tables are games, "
            "pitches, times, holds, throws, habits and "
            "positions"
        ),
        (
            "data/pitches/x.xlsx: warning: is not read: only .csv files are; in the spreadsheet "
            "choose Save As and then CSV UTF-8 (comma "
            "delimited), or move it away"
        ),
        (
            'data/pitchs.csv: is not read: no table has this name; did you mean "pitches"? Tables '
            "are games, pitches, times, holds, throws, "
            "habits and positions"
        ),
    ]
