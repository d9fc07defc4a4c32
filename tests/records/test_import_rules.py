"""Everything that is wrong with a map, in one round, the project's teams included."""

from pathlib import Path

from scoutgen.records.import_rules import MOST_TEAMS_NAMED, read_map
from scoutgen.records.vocabulary import PITCHES

TEAMS = ("harbor", "ridge")


def told(tmp_path: Path, text: str, *teams: str) -> list[str]:
    path = tmp_path / "map.yml"
    path.write_text(text, encoding="utf-8")
    record, _, problems = read_map(path, {"pitches": PITCHES}, lambda: teams)
    assert (record is None) == bool(problems)
    return [str(problem) for problem in sorted(problems)]


def test_a_wrong_form_hides_nothing_else(tmp_path: Path) -> None:
    text = """\
table: pitches
header: none
columns:
  game: {from: Day, date: day.month}
  pitcher: {from: P, team: harbr}
  balls: {from: Count, split: "-"}
  pitch: {from: Type, unit: kph, date: soon, values: {X: slidr}}
  result: {from: Call, form: x, values: {L: calld}}
  speed_mph: {from: Velo, unit: m, part: one}
  outs: [[]]
  plate_z: Z
"""
    found = told(tmp_path, text, *TEAMS)
    for line, words in [
        (2, "header: "),
        (4, 'columns.game.date: "day.month" is not allowed'),
        (
            5,
            (
                'columns.pitcher.team: "harbr" is no team in content or data/games; known are harbor and ridge; did '
                'you mean "harbor"?'
            ),
        ),
        (6, "columns.balls: split and part belong together"),
        (7, 'columns.pitch.date: "soon" is not allowed'),
        (7, 'columns.pitch.unit: "kph" is no unit of pitch; take it out'),
        (8, 'columns.result.form: is not known here; did you mean "from"?'),
        (8, 'columns.result.values.L: "calld" is not allowed'),
        (9, "columns.speed_mph.part: "),
        (9, 'columns.speed_mph.unit: "m" is no unit of speed_mph'),
        (10, "columns.outs"),
        (11, 'columns.plate_z: is not a column of pitches; did you mean "plate_z_ft"?'),
        (3, 'columns: lack "strikes"'),
    ]:
        assert any(one.startswith(f"map.yml:{line}: {words}") for one in found), (line, words, found)
    assert len(found) == 13, found


def test_a_wrong_table_hides_no_rule_that_contradicts_itself(tmp_path: Path) -> None:
    found = told(tmp_path, 'table: pitch\ncolumns:\n  game: {from: G, constant: g1}\n  x: {from: C, split: "-"}\n')
    assert [one.split(":")[1] for one in found] == ["1", "3", "4"]


def test_a_team_is_one_of_the_project(tmp_path: Path) -> None:
    text = """\
table: habits
columns:
  game: {from: Day, date: day.month.year, team: ridge}
  player: {from: P, team: zzz}
  team: Club
  habit: Tell
  seen: S
"""
    assert told(tmp_path, text, *TEAMS) == [
        'map.yml:4: columns.player.team: "zzz" is no team in content or data/games; known are harbor and ridge'
    ]
    many = [f"team-{n}" for n in range(MOST_TEAMS_NAMED)]
    assert told(tmp_path, text, "ridge", *many) == [
        'map.yml:4: columns.player.team: "zzz" is no team in content or data/games'
    ]
    # Of a project that cannot be read nobody knows the teams.
    assert told(tmp_path, text) == []


def test_a_project_is_read_for_a_map_that_names_a_team_alone(tmp_path: Path) -> None:
    def teams() -> list[str]:
        raise AssertionError

    path = tmp_path / "map.yml"
    path.write_text("table: games\ncolumns: {game: G, date: D, away: A, home: H, source: {constant: video}}\n")
    assert read_map(path, {}, teams)[2] == []


def test_our_words_stand_in_full_in_a_map(tmp_path: Path) -> None:
    text = "table: pitches\ncolumns:\n  game: {constant: g1}\n  pitcher: P\n  balls: B\n  strikes: S\n  pitch: T\n"
    found = told(tmp_path, f"{text}  half: {{constant: t}}\n  result: {{from: C, values: {{L: cas, B: ball}}}}\n")
    assert [line.partition("; ")[0] for line in found] == [
        'map.yml:8: columns.half.constant: "t" is not allowed',
        'map.yml:9: columns.result.values.L: "cas" is not allowed',
    ]
