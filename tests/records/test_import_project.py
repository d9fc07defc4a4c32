"""From a foreign file to rows of a project: the same numbers, once, beside and never over what was charted."""

import csv
import io
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pandas as pd
import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from scoutgen.records import import_file as files
from scoutgen.records.import_map import RECORDS, ColumnRule
from scoutgen.records.import_output import WriteError
from scoutgen.records.import_project import Report, import_file
from scoutgen.records.problems import ProblemsFoundError
from scoutgen.records.season import TABLES, read_season

MEND = "mend it, or name it under values: or blank: in the map"

ROOT = Path(__file__).parents[2]
DEMO_DAY = date(2026, 4, 9)
AS_OF = date(2026, 4, 1)
Write = Callable[..., Path]
GAMES = "game,date,away,home,source\ng1,2026-03-06,harbor,ridge,video\ng2,2026-03-07,harbor,ridge,video\n"
MAP = """\
table: times
columns:
  game: {from: Day, date: day.month.year}
  inning: Inn
  player: Who
  measure: {constant: plate}
  outs: O
  balls: {from: Count, split: "-", part: 1}
  strikes: {from: Count, split: "-", part: 2}
  seconds: Time
  method: {constant: watch}
  note: Note
"""
FILE = "Day;Inn;Who;O;Count;Time;Note\n06.03.2026;1;Ada;0;0-0;1,32;\n06.03.2026;1;Ada;0;1-0;0:01,41;=1+1\n"


def project(write: Write, file: str | bytes = FILE, map_: str = MAP, **more: str) -> Path:
    root = write({"data/games.csv": GAMES, "in/night.csv": file, "in/map.yml": map_, **more})
    (root / "content").mkdir(exist_ok=True)
    return root


def run(root: Path, *, skip_bad_rows: bool = False) -> Report:
    return import_file(root, root / "in/night.csv", root / "in/map.yml", as_of=AS_OF, skip_bad_rows=skip_bad_rows)


OUT = "data/times/night-import.csv"


def test_rows_come_in_with_where_they_come_from(write: Write) -> None:
    root = project(write)
    report = run(root)
    assert (report.out, report.changed, report.rows) == (OUT, True, 2)
    rows = list(csv.DictReader(io.StringIO((root / OUT).read_text(encoding="utf-8"), newline="")))
    assert [row["seconds"] for row in rows] == ["1.32", "1.41"]
    assert [row["x_source"] for row in rows] == ["night.csv:2", "night.csv:3"]
    assert rows[1]["note"] == "'=1+1"
    assert report.problems == ()
    assert len(read_season(root, as_of=AS_OF).times) == 2


def test_the_same_file_twice_is_nothing_new(write: Write) -> None:
    root = project(write)
    run(root)
    before = (root / OUT).read_bytes(), (root / OUT).stat().st_mtime_ns
    report = run(root)
    assert not report.changed
    assert ((root / OUT).read_bytes(), (root / OUT).stat().st_mtime_ns) == before


def test_a_file_that_grew_is_taken_anew(write: Write) -> None:
    root = project(write)
    run(root)
    (root / "in/night.csv").write_text(FILE + "07.03.2026;2;Ada;1;0-1;1,36;\n")
    report = run(root)
    assert (report.rows, report.new, report.gone) == (3, 1, ())


def test_what_is_gone_from_a_file_or_another_now_is_told(write: Write) -> None:
    root = project(write)
    assert run(root).new == 2
    (root / "in/night.csv").write_text(FILE.replace("0:01,41", "1,44"))
    report = run(root)
    assert (report.rows, report.new, report.gone) == (2, 1, ("night.csv:3",))
    (root / "in/night.csv").write_text("".join(FILE.splitlines(keepends=True)[:2]))
    report = run(root)
    assert (report.rows, report.new, report.gone) == (1, 0, ("night.csv:3",))
    again = run(root)
    assert (again.changed, again.rows, again.new, again.gone) == (False, 1, 0, ())


def test_a_row_that_a_map_leaves_out_is_shown_since_lines_move(write: Write) -> None:
    report = run(project(write, map_=MAP + "without: [3]\n"))
    assert (report.rows, report.passed_over) == (1, 1)
    assert report.without == ('night.csv:3 ("06.03.2026, 1, Ada, 0, 1-0, 0:01,41")',)


def test_another_row_is_named_by_its_place_in_their_file(write: Write) -> None:
    names = ("inning", "half", "pitcher", "batter", "balls", "strikes", "pitch", "result")
    columns = "".join(f"  {name}: {name}\n" for name in names)
    other, row = "1,top,Ada,Bo,0,0,FB,ball", "1,top,Ada,Bo,1,0,FB,ball"
    file = "\n".join([",".join(names), "Totals,,,,,,,", other, row, "", row, ""])
    with pytest.raises(ProblemsFoundError) as found:
        run(project(write, file, f"table: pitches\nwithout: [2]\ncolumns:\n  game: {{constant: g1}}\n{columns}"))
    [problem] = found.value.problems
    assert str(problem).startswith("night.csv:6: is the same pitch as line 4 (")


def test_a_row_mended_by_hand_is_never_written_over(write: Write) -> None:
    root = project(write)
    run(root)
    (root / OUT).write_text((root / OUT).read_text().replace("1.41", "1.40"))
    before = (root / OUT).read_bytes()
    (root / "in/night.csv").write_text(FILE + "07.03.2026;2;Ada;1;0-1;1,36;\n")
    with pytest.raises(WriteError, match="changed by hand"):
        run(root)
    assert (root / OUT).read_bytes() == before


def test_rows_deleted_by_hand_never_come_back_by_themselves(write: Write) -> None:
    root = project(write)
    run(root)
    lines = (root / OUT).read_text().splitlines(keepends=True)
    (root / OUT).write_text("".join([lines[0], lines[2]]))
    (root / "in/night.csv").write_text(FILE + "07.03.2026;2;Ada;1;0-1;1,36;\n")
    with pytest.raises(WriteError, match=r"has lost or doubled rows.*without: in the map"):
        run(root)
    assert (root / OUT).read_text() == lines[0] + lines[2]
    (root / "in/map.yml").write_text(MAP + "without: [night.csv:2]\n")
    (root / OUT).unlink()
    report = run(root)
    assert (report.rows, report.passed_over) == (2, 1)
    assert "1.32" not in (root / OUT).read_text()
    assert not run(root).changed


@pytest.mark.parametrize(
    ("without", "rows", "said"),
    [
        ("[3]", 1, ""),
        ('["\'night.csv:3", 2]', 0, ""),
        ("[night.csv:9]", 0, "night.csv:9"),
        ("[march.csv:2]", 0, "march.csv:2"),
    ],
)
def test_rows_that_a_map_leaves_out(write: Write, without: str, rows: int, said: str) -> None:
    root = project(write, map_=MAP + f"without: {without}\n")
    if not said:
        assert run(root).rows == rows
        return
    with pytest.raises(ProblemsFoundError) as found:
        run(root)
    words = f'no row read is "{said}"; write it as x_source has it, like night.csv:12, or take it out'
    assert [str(problem) for problem in found.value.problems] == [f"map.yml:13: without[1]: {words}"]


def test_an_only_that_matches_nothing_leaves_an_earlier_import_as_it_is(write: Write) -> None:
    root = project(write)
    run(root)
    before = (root / OUT).read_bytes()
    (root / "in/map.yml").write_text(MAP + "only: {Who: [Adda]}\n")
    with pytest.raises(ProblemsFoundError) as found:
        run(root, skip_bad_rows=True)
    assert [str(problem) for problem in found.value.problems] == [
        'map.yml:13: only.Who[1]: no row has "Adda" in "Who"; there are "Ada"; did you mean "Ada"?'
    ]
    assert (root / OUT).read_bytes() == before


def test_a_wrong_team_is_said_once_of_the_map(write: Write) -> None:
    root = project(write, map_=MAP.replace("player: Who", "player: {from: Who, team: harbr}"))
    with pytest.raises(ProblemsFoundError) as found:
        run(root)
    assert [str(problem) for problem in found.value.problems] == [
        (
            'map.yml:5: columns.player.team: "harbr" is no team in content or data/games; known are harbor and ridge; '
            'did you mean "harbor"?'
        )
    ]


def test_charted_rows_are_listed_where_they_differ_and_not_written_again(write: Write) -> None:
    charted = (
        "game,inning,player,measure,outs,balls,strikes,seconds,method\n"
        "g1,1,Ada,plate,0,0,0,1.32,watch\ng1,1,Ada,plate,0,1,0,1.45,watch\n"
    )
    root = project(write, FILE + "07.03.2026;2;Ada;1;0-1;1,36;\n", **{"data/times/mine.csv": charted})
    report = run(root)
    assert [str(one) for one in report.conflicts] == [
        (
            'night.csv:3: seconds (from Time): "1.41", but "1.45" is charted in data/times/mine.csv:3; not written; '
            'the cell says "0:01,41"'
        )
    ]
    assert (report.charted, report.rows) == (1, 1)
    assert (root / "data/times/mine.csv").read_text() == charted
    before = (root / OUT).read_bytes()
    assert not run(root).changed
    assert (root / OUT).read_bytes() == before


def test_bad_rows_refuse_all_or_are_left_out(write: Write) -> None:
    root = project(
        write, FILE + "06.03.2026;1;Ada;0;1-1;9,99;\n06.03.2026;1;Ada;0;1-1;soon;\n08.03.2026;1;Ada;0;1-1;1,3;\n"
    )
    with pytest.raises(ProblemsFoundError) as found:
        run(root)
    assert [str(p) for p in found.value.problems] == [
        (
            'night.csv:4: seconds (from Time): 9.99 cannot be a time of "plate"; allowed are 0.8 to 2.6 seconds; '
            'correct it, or delete the row when the watch was stopped wrongly; the cell says "9,99"'
        ),
        f'night.csv:5: seconds (from Time): "soon" is not a number; {MEND}',
        "night.csv:6: game (from Day): data/games has no game on 2026-03-08; add it there",
    ]
    assert not (root / OUT).exists()
    report = run(root, skip_bad_rows=True)
    assert (report.rows, report.bad_rows, len(report.bad)) == (2, 3, 3)


def test_all_wrong_cells_of_a_row_are_told_in_one_round(write: Write) -> None:
    with pytest.raises(ProblemsFoundError) as found:
        run(project(write, FILE + "06.03.2026;1;Ada;5;1-7;soon;\n"))
    assert sorted(str(p) for p in found.value.problems) == [
        'night.csv:4: outs (from O): "5" is too large; allowed are 0 to 2; leave the cell blank if it was not charted',
        f'night.csv:4: seconds (from Time): "soon" is not a number; {MEND}',
        (
            'night.csv:4: strikes (from Count): "7" is too large; allowed are 0 to 2; leave the cell blank if it was '
            'not charted; the cell says "1-7"'
        ),
    ]


HITTERS = """\
name: Gannet Harbor
roster:
  - {key: bo, name: Bo Left, number: 1, bats: L, positions: [CF]}
"""
SIDED = "table: pitches\ncolumns:\n  game: {constant: g1}\n" + "".join(
    f"  {name}: {name}\n" for name in ("inning", "half", "outs", "pitcher", "batter", "balls", "strikes", "pitch")
)


@pytest.mark.parametrize(
    ("charted", "theirs", "conflict"),
    [("R", None, ""), ("", "R", ""), ("", "L", ""), ("L", "R", 'bats: "R", but "L" is charted in')],
)
def test_a_side_that_a_roster_tells_is_no_chart_to_contradict(
    write: Write, charted: str, theirs: str | None, conflict: str
) -> None:
    head, row = "game,inning,half,outs,pitcher,batter,balls,strikes,pitch", "g1,1,top,0,Ada,bo,0,0,FB"
    file = f"{head},bats\n{row},{theirs}\n" if theirs is not None else f"{head}\n{row}\n"
    root = project(
        write, file, SIDED + ("  bats: bats\n" if theirs is not None else ""),
        **{"content/opponents/harbor/team.yml": HITTERS, "data/pitches.csv": f"{head},bats\n{row},{charted}\n"},
    )  # fmt: skip
    report = run(root)
    assert [str(one).split(": ", 1)[1].startswith(conflict) for one in report.conflicts] == [True] * bool(conflict)
    assert report.charted == (not conflict)


def test_a_short_habit_of_theirs_is_no_habit_of_ours(write: Write) -> None:
    map_ = "table: habits\ncolumns:\n  game: {constant: g1}\n  team: {constant: harbor}\n  habit: H\n  seen: S\n"
    with pytest.raises(ProblemsFoundError) as found:
        run(project(write, "H,S\nlr,yes\n", map_))
    assert [str(p).partition(";")[0] for p in found.value.problems] == [
        'night.csv:2: habit (from H): "lr" is not a habit'
    ]


def test_a_word_of_theirs_is_sent_to_the_map(write: Write) -> None:
    file = "P,B,S,Type\nAda,0,0,Change-up\n"
    map_ = "table: pitches\ncolumns:\n  game: {constant: g1}\n  pitcher: P\n  balls: B\n  strikes: S\n  pitch: Type\n"
    with pytest.raises(ProblemsFoundError) as found:
        run(project(write, file, map_))
    [problem] = found.value.problems
    assert str(problem).startswith('night.csv:2: pitch (from Type): "Change-up" is not a pitch; did you mean "change"?')
    assert str(problem).endswith("; a word of theirs is named under values: in the map")


def test_a_column_of_both_decimal_signs_keeps_its_numbers(write: Write) -> None:
    rows = '"130,5","3,5"', "30.5,1.5", "45.5,"
    file = "Game,Inn,Team,Pos,Depth,Off the bag\n" + "".join(f"g1,1,harbor,6,{row}\n" for row in rows)
    for said in ("", ", decimal: comma", ", decimal: point"):
        map_ = "table: positions\ncolumns:\n  game: Game\n  inning: Inn\n  team: Team\n  position: Pos\n"
        map_ += f"  depth_ft: {{from: Depth{said}}}\n  off_bag_ft: {{from: Off the bag{said}}}\n"
        root = project(write, file, map_)
        run(root, skip_bad_rows=True)
        found = read_season(root, as_of=AS_OF).positions
        assert found["depth_ft"].tolist() == [130.5, 30.5, 45.5]
        assert found["off_bag_ft"].tolist()[:2] == [3.5, 1.5]
        (root / "data/positions/night-import.csv").unlink()


def test_a_file_that_breaks_off_is_refused_even_where_bad_rows_are_not(write: Write) -> None:
    root = project(write, FILE + '06.03.2026;1;Ada;0;1-1;"1,3\n')
    with pytest.raises(ProblemsFoundError, match=r"night\.csv:4: the quotes.*nothing from here on was read"):
        run(root, skip_bad_rows=True)
    assert not (root / OUT).exists()


def test_another_map_needs_a_name_of_its_own(write: Write) -> None:
    root = project(write)
    run(root)
    other = root / "in/other.yml"
    other.write_text(MAP.replace("constant: plate", "constant: pickoff_1"))
    with pytest.raises(WriteError, match=r"came from another file or map.*name:"):
        import_file(root, root / "in/night.csv", other, as_of=AS_OF)
    other.write_text(MAP.replace("constant: plate", "constant: pickoff_1") + "name: pickoffs\n")
    assert import_file(root, root / "in/night.csv", other, as_of=AS_OF).out == "data/times/pickoffs-import.csv"


def test_a_file_of_somebody_s_own_is_never_written_over(write: Write) -> None:
    own = "game,player,measure,seconds,method\ng1,Ada,plate,1.3,watch\n"
    root = project(write, **{OUT: own})
    with pytest.raises(WriteError, match="not written by an import"):
        run(root)
    assert (root / OUT).read_text() == own


def test_sheets_of_a_workbook(write: Write) -> None:
    root = project(write, map_=MAP + "sheets: [Friday, Saturday]\n")
    book = Workbook()
    for title, day in (("Friday", "06.03.2026"), ("Saturday", date(2026, 3, 7))):
        sheet = book.create_sheet(title)
        for row in (["Day", "Inn", "Who", "O", "Count", "Time", "Note"], [day, 1, "Ada", 0, "0-0", 1.32, None]):
            sheet.append(row)
    book.save(root / "in/night.xlsx")
    report = import_file(root, root / "in/night.xlsx", root / "in/map.yml", as_of=AS_OF)
    assert report.out == "data/times/night-friday-saturday-import.csv"
    rows = list(csv.DictReader(io.StringIO((root / report.out).read_text(encoding="utf-8"), newline="")))
    assert [(row["game"], row["x_source"]) for row in rows] == [
        ("g1", "night.xlsx:Friday:2"),
        ("g2", "night.xlsx:Saturday:2"),
    ]
    with pytest.raises(ProblemsFoundError, match="is no workbook"):
        run(root)


def test_cells_merged_over_several_rows_are_refused(write: Write) -> None:
    root = project(write)
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Pen"
    for row in (
        ["Day", "Inn", "Who", "O", "Count", "Time", "Note"],
        *(["06.03.2026", 1, "Ada", 0, "0-0", 1.3, "x"],) * 4,
    ):
        sheet.append(row)
    sheet.merge_cells("F2:G2")
    book.save(root / "in/night.xlsx")
    assert import_file(root, root / "in/night.xlsx", root / "in/map.yml", as_of=AS_OF).rows == 4
    sheet.merge_cells("C2:C5")
    book.save(root / "in/night.xlsx")
    for skip in (False, True):
        with pytest.raises(ProblemsFoundError) as found:
            import_file(root, root / "in/night.xlsx", root / "in/map.yml", as_of=AS_OF, skip_bad_rows=skip)
        assert [str(problem) for problem in found.value.problems] == [
            (
                "night.xlsx:Pen:2: C2:C5: merged over several rows, of which only the first would have the text; "
                "unmerge them and fill the text down; nothing from here on was read"
            )
        ]


def test_games_can_be_imported(write: Write) -> None:
    map_ = "table: games\ncolumns:\n  game: Key\n  date: {from: Day, date: month/day/year}\n  away: A\n  home: H\n"
    root = project(
        write,
        "Key,Day,A,H\ng7,3/9/2026,harbor,ridge\ng1,3/6/2026,harbor,dunmere\n",
        map_ + "  source: {constant: video}\n",
    )
    report = run(root)
    assert report.rows == 1
    assert [str(one) for one in report.conflicts] == [
        'night.csv:3: home (from H): "dunmere", but "ridge" is charted in data/games.csv:2; not written'
    ]
    assert "g7" in set(read_season(root, as_of=AS_OF).games["game"])


def test_a_broken_project_is_told_and_nothing_written(write: Write) -> None:
    root = project(write, **{"content/program.yml": "key: Not A Key\n"})
    with pytest.raises(ProblemsFoundError, match=r"content/program\.yml"):
        run(root)
    assert not (root / "data/times").exists()


def test_a_folder_that_leads_outside_is_not_written_to(write: Write, tmp_path_factory: pytest.TempPathFactory) -> None:
    root = project(write)
    (root / "data/times").symlink_to(tmp_path_factory.mktemp("outside"), target_is_directory=True)
    with pytest.raises((WriteError, ProblemsFoundError)):
        run(root)


def test_the_demo_s_own_pitches_come_back_as_they_were(tmp_path: Path) -> None:
    """A game written as another staff might, with other headers, words, units and dates, reads as the charts do."""
    for folder in ("data", "content"):
        shutil.copytree(ROOT / folder, tmp_path / folder)
    before = read_season(tmp_path, as_of=DEMO_DAY).pitches
    charted = tmp_path / "data/pitches/0407-harbor.csv"
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, delimiter=";")
    writer.writerow([
        "Day", "Inn", "T/B", "Outs", "Runners", "Diff", "Arm", "Hitter", "C", "Stance", "Count", "Type", "Velo",
        "Up", "Across", "Call", "PA", "BB", "Angle", "Metres", "Pos", "Clip", "Remarks",
    ])  # fmt: skip
    for row in csv.DictReader(io.StringIO(charted.read_text(encoding="utf-8"), newline="")):
        kph = f"{float(row['speed_mph']) * 1.609344:.3f}".replace(".", ",") if row["speed_mph"] else "--"
        metres = f"{float(row['distance_ft']) * 0.3048:.3f}" if row["distance_ft"] else ""
        writer.writerow([
            "04/07/2026", row["inning"], row["half"][0].upper(), row["outs"],
            "".join(base if base in row["bases"] else "_" for base in "123"), row["lead"], row["pitcher"],
            row["batter"], row["catcher"], {"L": "left", "R": "right"}.get(row["bats"], ""),
            f"{row['balls']}-{row['strikes']}", row["pitch"].upper(), kph, row["height"], row["side"], row["result"],
            row["play"], row["contact"], row["direction_deg"], metres, row["fielder"], row["clip"], row["note"],
        ])  # fmt: skip
    charted.unlink()
    foreign = tmp_path / "Tuesday.csv"
    foreign.write_text(stream.getvalue(), encoding="utf-16", newline="")
    map_ = tmp_path / "tuesday.yml"
    map_.write_text("""\
table: pitches
columns:
  game: {from: Day, date: month/day/year, team: harbor}
  inning: Inn
  half: {from: T/B, values: {t: top, b: bottom}}
  outs: Outs
  bases: {from: Runners, bases: marks}
  lead: Diff
  pitcher: Arm
  batter: Hitter
  catcher: C
  bats: {from: Stance, values: {left: L, right: R}}
  balls: {from: Count, split: '-', part: 1}
  strikes: {from: Count, split: '-', part: 2}
  pitch: Type
  speed_mph: {from: Velo, unit: kph, decimal: comma, blank: --}
  height: Up
  side: Across
  result: Call
  play: PA
  contact: BB
  direction_deg: Angle
  distance_ft: {from: Metres, unit: m, decimal: point}
  fielder: Pos
  clip: Clip
  note: Remarks
""")
    report = import_file(tmp_path, foreign, map_, as_of=DEMO_DAY)
    assert report.problems == ()
    assert report.rows == 265
    after = read_season(tmp_path, as_of=DEMO_DAY).pitches
    # Only where the rows stand may differ, and with it their order among games of one day.
    here = [frame[frame["game"] == "g0407-harbor"].drop(columns=["file", "line"]) for frame in (before, after)]
    assert len(here[0]) == 265
    pd.testing.assert_frame_equal(
        *(frame.reset_index(drop=True) for frame in here), atol=0.0051, rtol=0, check_categorical=False
    )
    shutil.copy(ROOT / "data/pitches/0407-harbor.csv", charted)
    (tmp_path / report.out).unlink()
    again = import_file(tmp_path, foreign, map_, as_of=DEMO_DAY)
    assert (again.changed, again.charted, again.conflicts) == (False, 265, ())


# Whatever the map and the file hold: a report, or an error that lists what is wrong.
RULE_KEYS = [field.alias or name for name, field in ColumnRule.model_fields.items()]
WORDS = [
    "a",
    "b",
    "g1",
    "Ada",
    "plate",
    "1",
    "1-2",
    "1,3",
    "n/a",
    "=1+1",
    "",
    "-",
    "FB",
    "2026-03-06",
    "6.3.2026",
    "kph",
    "m",
]
WORDS += ["day.month.year", "serial", "comma", "marks", "columns", "harbor", "\u202e", "x" * 300, "#N/A", "99999999999"]
ANY_TEXT = st.sampled_from(WORDS) | st.text(max_size=5)
RULES = st.dictionaries(
    st.sampled_from(RULE_KEYS),
    ANY_TEXT | st.lists(ANY_TEXT, max_size=3) | st.dictionaries(ANY_TEXT, ANY_TEXT, max_size=2),
    max_size=4,
)
SENSIBLE = st.sampled_from(["a", "b", {"constant": "g1"}, {"constant": "1"}, {"from": "a", "split": "-", "part": "1"}])


@st.composite
def maps(draw: st.DrawFn) -> object:
    table = draw(st.sampled_from(TABLES))
    names = st.sampled_from([*RECORDS[table].model_fields, "x_a", "nothing"])
    columns = draw(st.dictionaries(names, SENSIBLE | RULES | ANY_TEXT, max_size=8))
    if draw(st.booleans()):
        needed = [name for name, field in RECORDS[table].model_fields.items() if field.is_required()]
        columns = {name: draw(SENSIBLE) for name in needed} | columns
    more = draw(
        st.dictionaries(
            st.sampled_from(["name", "sheets", "header", "delimiter", "encoding", "only"]), ANY_TEXT, max_size=1
        )
    )
    return {"table": table, "columns": columns, **more}


@given(
    maps(),
    st.lists(st.lists(ANY_TEXT, min_size=2, max_size=3), max_size=4),
    st.sampled_from(["utf-8", "utf-16", "latin-1"]),
    st.binary(max_size=6),
)
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_map_and_no_file_end_in_anything_but_a_report_or_a_list(
    tmp_path_factory: pytest.TempPathFactory, wanted: object, rows: list[list[str]], encoding: str, rubbish: bytes
) -> None:
    root = tmp_path_factory.mktemp("any")
    (root / "data").mkdir()
    (root / "data/games.csv").write_text(GAMES)
    stream = io.StringIO(newline="")
    csv.writer(stream).writerows([["a", "b"], *rows])
    file, map_ = root / "f.csv", root / "m.yml"
    file.write_bytes(stream.getvalue().encode(encoding, "replace") + rubbish)
    map_.write_text(yaml.safe_dump(wanted, allow_unicode=True), encoding="utf-8", errors="replace")
    try:
        report = import_file(root, file, map_, as_of=AS_OF, skip_bad_rows=True)
    except ProblemsFoundError as found:
        assert found.problems  # noqa: PT017 - a report is as good an answer
    else:
        assert (root / report.out).exists() == report.changed


def test_a_file_too_large_is_refused_unread(write: Write, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "MOST_BYTES", 10)
    with pytest.raises(ProblemsFoundError, match="is larger than 10 bytes"):
        run(project(write))
