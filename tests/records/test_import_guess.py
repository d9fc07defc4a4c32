"""A first map of files whose headers nobody agreed on."""

from datetime import date
from pathlib import Path

import pytest
import yaml
from openpyxl import Workbook

from scoutgen.records.import_guess import write_guess
from scoutgen.records.import_output import WriteError
from scoutgen.records.import_project import vocabularies
from scoutgen.records.import_rules import read_map
from scoutgen.records.problems import ProblemsFoundError
from scoutgen.records.skeletons import init_project

AS_OF = date(2026, 4, 9)
FORMAL = (
    "Game Date,Inning,Top/Bottom,Outs,Pitcher Name,Batter Name,Batter Hand,Balls,Strikes,Pitch Type,Velocity (mph),"
    "Pitch Result,At Bat Result,Weather\n"
    '03/16/2026,1,Top,0,"Nunez, Iker",Bo,Right,0,0,Four-Seam,91,Called Strike,,Fair\n'
    '03/16/2026,1,Top,0,"Nunez, Iker",Bo,Left,0,1,Changeup,83,In Play,Home Run,Fair\n'
)
METRIC = (
    "Tag;Inn;T/B;P;Hitter;Count;Type;Velo km/h;Call;Dist (m);Zone\n"
    "16.03.2026;1;T;Nunez;Bo;0-0;FB;146,5;b;;11\n16.03.2026;1;B;Nunez;Bo;1-0;XY;131,2;ip;112,4;12\n"
)
JOINED = "arm\tgameDate\ttheCount\tpitchThrown\tpitchSpeed\toutcome\n"
JOINED += "Ada\t46097\t1-2\tCB\t78\twhiff\nAda\t46098\t0-0\tSL\t80\tfoul\n"


def guessed(tmp_path: Path, text: str) -> tuple[dict[str, object], str]:
    file = tmp_path / "night.csv"
    file.write_text(text, encoding="utf-8")
    made = write_guess(file, tmp_path, as_of=AS_OF)
    assert made.path == tmp_path / "night-map.yml"
    words = made.path.read_text(encoding="utf-8")
    tree = yaml.safe_load(words)
    assert tree["table"] == "pitches"
    return tree["columns"], words


def test_a_formal_header(tmp_path: Path) -> None:
    columns, words = guessed(tmp_path, FORMAL)
    assert columns == {
        "game": {"from": "Game Date", "date": "month/day/year"},
        "inning": "Inning",
        "half": "Top/Bottom",
        "outs": "Outs",
        "pitcher": "Pitcher Name",
        "batter": "Batter Name",
        "bats": {"from": "Batter Hand", "values": {"Right": "R", "Left": "L"}},
        "balls": "Balls",
        "strikes": "Strikes",
        "pitch": {"from": "Pitch Type", "values": {"Four-Seam": "fastball", "Changeup": "change"}},
        "speed_mph": "Velocity (mph)",
        "result": {"from": "Pitch Result", "values": {"Called Strike": "called_strike", "In Play": "in_play"}},
        "play": {"from": "At Bat Result", "values": {"Home Run": "home_run"}},
    }
    assert "#   Weather: e.g. Fair" in words
    record, _, problems = read_map(tmp_path / "night-map.yml", vocabularies(tmp_path))
    assert problems == []
    assert record is not None


def test_short_headers_in_metric_units(tmp_path: Path) -> None:
    columns, words = guessed(tmp_path, METRIC)
    assert columns["speed_mph"] == {"from": "Velo km/h", "unit": "kph"}
    assert columns["distance_ft"] == {"from": "Dist (m)", "unit": "m"}
    assert columns["balls"] == {"from": "Count", "split": "-", "part": 1}
    assert columns["half"] == {"from": "T/B", "values": {"T": "top", "B": "bottom"}}
    # By its cells, in whatever language.
    assert columns["game"] == {"from": "Tag", "date": "day.month.year"}
    assert "#   XY:" in words
    assert '#   Zone: e.g. "11", "12"' in words


def test_words_run_together(tmp_path: Path) -> None:
    columns, words = guessed(tmp_path, JOINED)
    assert columns["game"] == {"from": "gameDate", "date": "serial"}
    assert columns["pitch"] == "pitchThrown"
    assert columns["speed_mph"] == "pitchSpeed"
    assert columns["result"] == {"from": "outcome", "values": {"whiff": "swinging_strike"}}
    # By its cells, whatever it is called.
    assert columns["balls"] == {"from": "theCount", "split": "-", "part": 1}
    assert "not recognised" not in words


def test_words_of_a_table_tell_which_it_is(tmp_path: Path) -> None:
    for name, text in {
        "times": "Player,What,Seconds\nAda,plate,1.3\n",
        "throws": "Catcher,Pop Time,Exchange,Base\nCy,2.01,0.7,second\n",
        "games": "Date,Visitor,Home\n2026-03-06,harbor,ridge\n",
        "positions": "Team,Position,Depth\nharbor,6,140\n",
    }.items():
        (tmp_path / f"{name}.csv").write_text(text)
        tree = yaml.safe_load(write_guess(tmp_path / f"{name}.csv", tmp_path, as_of=AS_OF).path.read_text())
        assert tree["table"] == name


def test_dates_that_can_be_read_in_two_ways_are_left_to_a_person(tmp_path: Path) -> None:
    (tmp_path / "g.csv").write_text("Date,Visitor,Home\n3/6/2026,harbor,ridge\n")
    words = write_guess(tmp_path / "g.csv", tmp_path, as_of=AS_OF).path.read_text()
    assert "date" not in yaml.safe_load(words)["columns"]
    assert "# write one of the two: date: {from: Date, date: day/month/year}  # or month/day/year" in words


def test_games_of_the_project_tell_which_of_two_it_is(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data/games.csv").write_text("game,date,away,home,source\ng1,2026-03-06,harbor,ridge,video\n")
    columns, _ = guessed(tmp_path, "Date,P,Count,Type\n03/06/26,Ada,0-0,FB\n")
    assert columns["game"] == {"from": "Date", "date": "month/day/year"}
    (tmp_path / "night-map.yml").unlink()
    columns, words = guessed(tmp_path, "Date,P,Count,Type\n03/07/26,Ada,0-0,FB\n")
    assert "game" not in columns
    assert "write one of the two: game:" in words


def test_a_column_is_known_by_its_cells_alone(tmp_path: Path) -> None:
    text = "P,Count,Type,Zzz\nAda,0-0,FB,ground\nAda,0-1,FB,popup\n"
    columns, words = guessed(tmp_path, text)
    assert columns["contact"] == "Zzz"
    assert "# by its cells" in words


def test_a_count_that_a_spreadsheet_made_a_day_of_is_still_one(tmp_path: Path) -> None:
    columns, _ = guessed(tmp_path, "P,Count,Type\nAda,0-1,FB\nAda,2026-02-01,FB\n")
    assert columns["balls"] == {"from": "Count", "split": "-", "part": 1}


def test_odd_cells_are_said_with_their_rows_and_lose_no_column(tmp_path: Path) -> None:
    rows = ["3/16/26,Ada,0-0,FB"] * 8 + ["3/17/26,Ada,1-5,FB", "3/17/26,Ada,2026-01-02,FB", "Total,,,"]
    (tmp_path / "x.csv").write_text("\n".join(["Match,P,Count (B-S),Type", *rows]))
    made = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    words = made.path.read_text()
    columns = yaml.safe_load(words)["columns"]
    assert columns["game"] == {"from": "Match", "date": "month/day/year"}
    assert columns["balls"] == {"from": "Count (B-S)", "split": "-", "part": 1}
    assert columns["strikes"] == {"from": "Count (B-S)", "split": "-", "part": 2}
    assert made.words == [("Total",), ("1-5", "2026-01-02")]
    assert (
        "  # not a date as month/day/year: Total\n"
        "  #   mend the file, or leave their rows out, all in one list above columns: "
        'without: ["x.csv:12"]\n'
    ) in words
    assert '  # not a count, or one that a spreadsheet made a day of: "1-5", "2026-01-02"\n' in words
    assert 'without: ["x.csv:10", "x.csv:11"]' in words


def test_what_the_comments_say_of_odd_cells_can_be_put_into_the_map(tmp_path: Path) -> None:
    (tmp_path / "x.csv").write_text("Date,P,Count,Type\n" + "3/16/26,Ada,0-0,FB\n" * 4 + "Total,,,\n")
    words = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF).path.read_text()
    said = next(line.partition("above columns: ")[2] for line in words.splitlines() if "without:" in line)
    (tmp_path / "x-map.yml").write_text(f"{said}\n{words}")
    record, _, problems = read_map(tmp_path / "x-map.yml", vocabularies(tmp_path))
    assert problems == []
    assert record is not None
    assert record.without == ("x.csv:6",)


def test_a_header_that_comes_once_more_is_left_out_and_said(tmp_path: Path) -> None:
    head = "Date,P,Count,Type,Call"
    row = "2026-03-16,Ada,0-0,FB,ball"
    (tmp_path / "x.csv").write_text("\n".join([head, row] * 3))
    made = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    tree = yaml.safe_load(words := made.path.read_text())
    assert (tree["without"], made.words) == (["x.csv:3", "x.csv:5"], [])
    assert "# they name the columns once more" in words
    assert tree["columns"]["game"] == {"from": "Date", "date": "year-month-day"}
    assert tree["columns"]["result"] == "Call"
    made.path.unlink()
    (tmp_path / "x.csv").write_text("\n".join([head, row] * 120))
    made = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    assert len(yaml.safe_load(words := made.path.read_text())["without"]) == 100
    assert "; 19 more do: take them out" in words


def test_all_sheets_of_the_same_columns_tell(tmp_path: Path) -> None:
    book = Workbook()
    for title, days in (("Fri", ["3/6/26"] * 5), ("Sat", ["3/13/26"] * 5 + ["Total"])):
        sheet = book.create_sheet(title)
        for row in (["Date", "P", "Count", "Type"], *([day, "Ada", "0-0", "FB"] for day in days)):
            sheet.append(row)
    book.save(tmp_path / "b.xlsx")
    words = write_guess(tmp_path / "b.xlsx", tmp_path, as_of=AS_OF).path.read_text()
    assert "guessed from its headers and 11 rows" in words
    assert yaml.safe_load(words)["columns"]["game"] == {"from": "Date", "date": "month/day/year"}
    assert 'without: ["b.xlsx:Sat:7"]' in words


def test_words_with_an_odd_one_are_known_by_their_cells(tmp_path: Path) -> None:
    rows = ["Ada,0-0,FB,ground", "Ada,0-1,FB,popup"] * 2 + ["Ada,0-1,FB,xx"]
    (tmp_path / "x.csv").write_text("\n".join(["P,Count,Type,Zzz", *rows]))
    made = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    assert yaml.safe_load(made.path.read_text())["columns"]["contact"] == {"from": "Zzz"}
    assert made.words == [("xx",)]


def test_a_stopwatch_file_is_one_of_times(tmp_path: Path) -> None:
    text = "Date;Pitcher;To plate;Delivery;Count\n6.3.2026;Ada;1,32;Stretch;0-0\n6.3.2026;Ada;1.18;slide;1-0\n"
    (tmp_path / "x.csv").write_text(text)
    made = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    tree = yaml.safe_load(words := made.path.read_text())
    assert tree["table"] == "times"
    assert tree["columns"] == {
        "game": {"from": "Date", "date": "day.month.year"},
        "player": "Pitcher",
        "measure": {"constant": "plate"},
        "style": {"from": "Delivery", "values": {"slide": "slide_step"}},
        "balls": {"from": "Count", "split": "-", "part": 1},
        "strikes": {"from": "Count", "split": "-", "part": 2},
        "seconds": "To plate",
    }
    assert made.blank == ["method"]
    assert "write method: HEADER, or method: {constant: WORD}, WORD as watch, frames" in words


def test_a_chart_of_pitches_with_times_beside_speeds_is_one_of_pitches(tmp_path: Path) -> None:
    columns, words = guessed(tmp_path, "P,Count,Type,Velo,Time to plate\nAda,0-0,FB,91,1.32\nAda,0-1,SL,82,1.41\n")
    assert columns["speed_mph"] == "Velo"
    assert '#   Time to plate: e.g. "1.32", "1.41"' in words


def test_positions_as_people_write_them(tmp_path: Path) -> None:
    (tmp_path / "x.csv").write_text("Game,Team,Pos,Depth\ng1,harbor,SS,140\ng1,harbor,3B,90\ng1,harbor,P,60\n")
    made = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    tree = yaml.safe_load(words := made.path.read_text())
    assert tree["table"] == "positions"
    assert tree["columns"]["position"] == {"from": "Pos", "values": {"SS": 6, "3B": 5}}
    # A pitcher stands where he stands.
    assert made.words == [("P",)]
    assert "each as a whole number from 3 to 9" in words


def test_a_title_above_the_header_is_passed_over(tmp_path: Path) -> None:
    columns, words = guessed(tmp_path, "Tuesday night\n\n" + FORMAL)
    assert yaml.safe_load(words)["header"] == 3
    assert columns["inning"] == "Inning"


def test_a_map_that_stands_there_is_never_written_over(tmp_path: Path) -> None:
    guessed(tmp_path, FORMAL)
    before = (tmp_path / "night-map.yml").read_bytes()
    with pytest.raises(WriteError, match="never written over"):
        write_guess(tmp_path / "night.csv", tmp_path, as_of=AS_OF)
    assert (tmp_path / "night-map.yml").read_bytes() == before


def test_sheets_with_the_same_columns_are_read_and_the_others_named(tmp_path: Path) -> None:
    book = Workbook()
    book.active.title = "Legend"
    book.active.append(["FB", "fastball"])
    for title in ("Fri", "Sat"):
        sheet = book.create_sheet(title)
        for row in (["Pen sessions"], [], ["Pitcher", "Count", "Pitch"], ["Ada", "0-0", "FB"]):
            sheet.append(row)
    book.create_sheet("Other").append(["Pitcher", "Pitch"])
    book.save(tmp_path / "b.xlsx")
    words = write_guess(tmp_path / "b.xlsx", tmp_path, as_of=AS_OF).path.read_text()
    tree = yaml.safe_load(words)
    assert (tree["sheets"], tree["header"]) == (["Fri", "Sat"], 3)
    assert "# not read: Legend, Other" in words


def test_a_workbook_without_a_cell_is_told(tmp_path: Path) -> None:
    Workbook().save(tmp_path / "b.xlsx")
    with pytest.raises(ProblemsFoundError, match="has no sheet with cells"):
        write_guess(tmp_path / "b.xlsx", tmp_path, as_of=AS_OF)


def test_what_only_columns_side_by_side_tell(tmp_path: Path) -> None:
    text = "P,1st,2nd,3rd,B,S,Type,Score diff\nAda,x,,,3,2,FB,-1\nAda,,,X,0,0,SL,0\n"
    columns, words = guessed(tmp_path, text)
    assert columns["bases"] == {"from": ["1st", "2nd", "3rd"], "bases": "columns"}
    assert (columns["balls"], columns["strikes"]) == ("B", "S")
    assert columns["lead"] == "Score diff"
    assert "lead: Score diff  # runs of the pitching side minus the others; see whose theirs is" in words


def test_letters_that_are_no_counts_stay_open(tmp_path: Path) -> None:
    columns, words = guessed(tmp_path, "P,B,S,Type,Pitch count\nAda,Bo,1,FB,9\n")
    assert "balls" not in columns
    assert '#   "B": e.g. Bo' in words


def test_words_as_people_write_ours_and_a_dash_for_what_was_not_read(tmp_path: Path) -> None:
    columns, _ = guessed(tmp_path, "P,Count,Type,Velo,Outcome\nAda,0-0,FB,-,Called Strike\nAda,0-1,FB,91,Clock Ball\n")
    assert columns["speed_mph"] == {"from": "Velo", "blank": ["-"]}
    assert columns["result"] == {
        "from": "Outcome",
        "values": {"Called Strike": "called_strike", "Clock Ball": "clock_ball"},
    }


def test_a_header_that_says_two_things_is_told_by_its_cells(tmp_path: Path) -> None:
    columns, _ = guessed(tmp_path, "P,Count,Type,Side,Result\nAda,0-0,FB,L,Single\nAda,0-1,FB,R,Strikeout\n")
    assert columns["bats"] == "Side"
    assert columns["play"] == "Result"
    assert "side" not in columns
    (tmp_path / "night-map.yml").unlink()
    columns, _ = guessed(tmp_path, "P,Count,Type,Side,Result\nAda,0-0,FB,1,ball\nAda,0-1,FB,5,foul\n")
    assert (columns["side"], columns["result"]) == ("Side", "Result")
    (tmp_path / "night-map.yml").unlink()
    # Where another header says it plainly, this one means what it is called.
    columns, _ = guessed(tmp_path, "P,Count,Type,Side,Bats\nAda,0-0,FB,L,R\n")
    assert columns["bats"] == "Bats"


def test_words_that_need_somebody_are_counted_and_named(tmp_path: Path) -> None:
    (tmp_path / "x.csv").write_text("P,Count,Type,Call\nA,0-0,Hook,L\nA,0-0,FB,S\nA,0-0,FB,X\nA,0-0,FB,b\n")
    made = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    assert made.words == [("Hook",), ("L", "S", "X")]
    words = made.path.read_text()
    assert "# write these under values:, each as one of fastball, " in words
    assert "a word of the project" not in words


def test_columns_that_every_row_must_fill_and_nobody_found(tmp_path: Path) -> None:
    (tmp_path / "x.csv").write_text("P,Type,Number\nAda,FB,46087\n")
    made = write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    assert made.blank == ["game", "balls", "strikes"]
    words = made.path.read_text()
    assert "# game: not recognised, and every row must fill it; write game: {constant: KEY}" in words
    assert "or game: {from: HEADER, date: FORM}, FORM as year-month-day, day.month.year, " in words
    for part, name in enumerate(("balls", "strikes"), 1):
        assert (
            f'write {name}: HEADER, or for counts like 1-2 {name}: {{from: HEADER, split: "-", part: {part}}}' in words
        )


def test_an_editor_finds_the_schema_where_the_project_has_it(tmp_path: Path) -> None:
    init_project(tmp_path)
    (tmp_path / "in").mkdir()
    (tmp_path / "in/x.csv").write_text("P,Type\nAda,FB\n")
    words = write_guess(tmp_path / "in/x.csv", tmp_path, as_of=AS_OF).path.read_text()
    schema = words.splitlines()[0].partition("$schema=")[2]
    assert (tmp_path / "in" / schema).resolve() == (tmp_path / "schemas/import-map.schema.json").resolve()
    assert (tmp_path / "in" / schema).is_file()


@pytest.mark.parametrize("header", ['a"b\\c', "yes", "# x", "a: b", "\u202eabc", "{x}", "- y", "*z", "1:30", "a\tb"])
def test_any_header_is_quoted_so_that_it_is_read_back(tmp_path: Path, header: str) -> None:
    text = f'P,Count,Type,Note\nAda,0-0,"{header.replace(chr(34), chr(34) * 2)}",x\n'
    _, words = guessed(tmp_path, text)
    record, _, problems = read_map(tmp_path / "night-map.yml", vocabularies(tmp_path))
    assert not [p for p in problems if "YAML" in p.text], (words, problems)
    assert record is not None or problems


def test_an_unreadable_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "x.csv").write_bytes(b"\0\0\0")
    with pytest.raises(ProblemsFoundError, match="NUL"):
        write_guess(tmp_path / "x.csv", tmp_path, as_of=AS_OF)
    assert not (tmp_path / "x-map.yml").exists()
