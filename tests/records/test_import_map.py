"""The map: what it says, and everything wrong with it at once, with its line."""

from pathlib import Path

from scoutgen.records.import_map import RECORDS, ColumnRule, ImportMap
from scoutgen.records.import_rules import read_map
from scoutgen.records.season import TABLES
from scoutgen.records.vocabulary import PITCHES

GOOD = """\
table: times
columns:
  game: {constant: g1}
  player: [First, Last]
  measure: {from: What, values: {"To plate": plate}, blank: n/a}
  seconds: {from: Time, unit: ms}
  method: {constant: watch}
"""


def told(tmp_path: Path, text: str) -> list[str]:
    path = tmp_path / "map.yml"
    path.write_text(text, encoding="utf-8")
    record, _, problems = read_map(path, {"pitches": PITCHES})
    assert (record is None) == bool(problems)
    return [str(problem) for problem in sorted(problems)]


def test_a_map_is_read(tmp_path: Path) -> None:
    path = tmp_path / "map.yml"
    path.write_text(GOOD, encoding="utf-8")
    record, _, problems = read_map(path, {})
    assert not problems
    assert record is not None
    assert record.columns["player"].headers == ("First", "Last")
    assert record.columns["measure"].values == {"To plate": "plate"}
    assert record.columns["measure"].blank == ("n/a",)


def test_every_table_can_be_asked_for() -> None:
    assert tuple(RECORDS) == TABLES


def test_everything_wrong_is_said_at_once_with_its_line(tmp_path: Path) -> None:
    text = """\
table: pitches
columns:
  game: {constant: g1, from: Game}
  pitcher: P
  balls: {from: Count, split: "-"}
  strikes: {from: Count, unit: kph}
  pitch: {from: Type, values: {X: slidr}}
  speed_mph: {from: Velo, unit: m}
  bases: {from: On, bases: columns}
  result: {from: Call, date: day.month.year}
  inning: {constant: "99"}
  x_mine: Mine
  plate_z: Z
"""
    found = told(tmp_path, text)
    for line, words in [
        (3, "columns.game: needs either from (their header) or constant"),
        (5, "columns.balls: split and part belong together"),
        (6, 'columns.strikes.unit: "kph" is no unit of strikes'),
        (7, 'columns.pitch.values.X: "slidr" is not a pitch; did you mean "slider"'),
        (8, 'columns.speed_mph.unit: "m" is no unit of speed_mph; write mph, kph or m/s'),
        (9, "columns.bases.from: must name three columns"),
        (10, "columns.result.date: result holds no dates"),
        (11, 'columns.inning.constant: "99" is too large'),
        (12, "columns.x_mine: is written by the import itself"),
        (13, 'columns.plate_z: is not a column of pitches; did you mean "plate_z_ft"'),
    ]:
        assert any(one.startswith(f"map.yml:{line}: {words}") for one in found), (line, words, found)


def test_keys_that_nothing_would_come_of_are_told(tmp_path: Path) -> None:
    text = """\
table: pitches
columns:
  game: {from: Game, team: harbor}
  pitcher: {from: P, team: harbor}
  balls: {from: B, team: harbor}
  strikes: {constant: "0", blank: "-"}
  pitch: {from: Type, join: "-"}
  bases: {from: [A, B, C], bases: columns, split: "-", part: 1, values: {T: x, F: "-", U: "?"}, blank: n/a}
"""
    assert told(tmp_path, text) == [
        (
            "map.yml:3: columns.game.team: helps only to find the game of a day; take it out, or say by date how "
            "days are written"
        ),
        "map.yml:5: columns.balls.team: belongs to game, pitcher, batter or catcher alone; take it out",
        "map.yml:6: columns.strikes.blank: works on their cells, and constant takes none; take it out",
        "map.yml:7: columns.pitch.join: stands between several columns, and from names one; take it out",
        "map.yml:8: columns.bases.split: does nothing beside bases: columns; take it out",
        'map.yml:8: columns.bases.values.U: "?" is no word for a base; write x or -',
    ]


def test_a_column_that_every_row_must_fill_is_missed(tmp_path: Path) -> None:
    (one,) = told(tmp_path, GOOD.replace("  method: {constant: watch}\n", ""))
    assert one == 'map.yml:2: columns: lack "method", which every row of times must fill'


def test_keys_and_words_that_no_map_has(tmp_path: Path) -> None:
    found = told(tmp_path, GOOD.replace("table: times", "table: time\nsheet: Pen"))
    assert found == [
        (
            'map.yml:1: table: "time" is not allowed; write games, pitches, times, holds, throws, habits or positions; '
            'did you mean "times"?'
        ),
        'map.yml:2: sheet: is not known here; did you mean "sheets"?',
    ]


def test_what_is_no_yaml_or_no_map_is_told(tmp_path: Path) -> None:
    assert len(told(tmp_path, "- a\n")) == 1
    assert len(told(tmp_path, "columns: [")) == 1
    assert told(tmp_path, "table: times\n") == ["map.yml:1: columns: is missing; it must be filled in"]


def test_every_key_of_a_map_is_documented() -> None:
    text = (Path(__file__).parents[2] / "docs/charting-format.md").read_text(encoding="utf-8")
    section = text.split("## Imported rows")[1].split("\n## ")[0]
    cells = [line.split("|")[1] for line in section.splitlines() if line.startswith("| ")]
    named = {name.strip().rstrip("*") for cell in cells for name in cell.split(",")}
    keys = {field.alias or name for model in (ImportMap, ColumnRule) for name, field in model.model_fields.items()}
    assert keys <= named
    assert named - keys == {"column", "key of the map", "key of a column", "x_source", "x_map", "x_row", "x_check"}


def test_the_readme_s_map_is_one(tmp_path: Path) -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert told(tmp_path, readme.split("```yaml\n")[1].split("```")[0]) == []
