"""The schemas accept what the reader accepts and refuse what it refuses, for every kind of file.

Checked with jsonschema's reference validator for draft 2020-12, on YAML as editors load it (types already given).
"""
# ruff: noqa: E501 - files stand as a person writes them

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from yaml_projects import write

from scoutgen.records.import_rules import read_map
from scoutgen.records.schemas import MODELS, schema, schema_file, schema_text
from scoutgen.records.yamlrecord import read_record

ACCEPTED = {
    "program": """
        key: ridge
        name: 27
        run_environment: {runs_per_team_game: 5.3, rates: {walk: .12, single: "0.17", double: 0.05, triple: 0, home_run: 0.03}}
        policy: {devices_in_dugout: no, banner: Only the coaches.}
        pitches: [{name: gyro, aliases: [GY]}, {name: "66", aliases: SX}]
        zone: {bottom_ft: 1.6, top_ft: "3.4"}
        thresholds: {firm: 0.08, few_readings: 7}
        levels:
        watch_error_s: 0.08
        roster:
          - {number: 07, name: Iván Núñez, positions: "P, OF", bats: S, throws: L, class: 2027, from_date: 2026-03-01}
          - {number: "00", name: O'Brien, positions: [2B], times: {first_second: 3}, leads: {first_ft: 12}, role: ~}
    """,
    "habits": """
        habits:
          - {key: a, position: 1, question: Is it?, gives: Time, page: pitcher, decision: steal, measured: feet, opens: bunt}
          - {key: b, position: [4, 6], question: yes, gives: 12, page: infield, decision: 3, opens: }
          - {key: c, position: "4, 6", question: x, gives: x, page: outfield, decision: x}
    """.replace("Is it?", '"Is it?"'),
    "team": """
        name: A & M
        park: {name: x, fences: [{bearing_deg: -45, distance_ft: 330}], backstop_ft: 52, surface: turf, notes: [Wind, 12]}
        tendencies:
          - {about: bunt, text: 1.5, seen: 2026-03-06, source: video, by: JD, confidence: sure, for: staff, players}
          - {about: run, text: x, seen: "2026-03-06", source: video, by: É.L., confidence: hunch, for: [staff], expires: 2026-05-01}
        roster:
          - {key: a, number: 1, name: No}
    """.replace("for: staff, players", 'for: "staff, players"'),
    "player": """
        summary: yes
        observations:
        grades: {seen: 2026-03-06, by: NO, tools: {fastball: 55, curve: {now: 50, later: "60"}, run: "45"}, body: x}
    """,
    "series": """
        opponent: harbor
        start: 2026-04-10
        probables: [{game: 1, date: 2026-04-10, pitcher: 27}, {game: Saturday, pitcher: Iván Núñez}]
        catcher: 12
        lineup: [12, a-b]
        plan: [Sit on it., {text: x, about: y, for: [staff]}, 12]
        bullpen: [{player: 3, state: "no", as_of: 2026-04-08}]
    """.replace("12]\n        bullpen", '"12"]\n        bullpen'),
    "import-map": """
        table: pitches
        name: 12
        sheets: [Fri, 2]
        header: 4
        only: {Kind: Game, 1: [yes, 2]}
        without: [night.csv:12, 7]
        columns:
          game: {from: Date, date: month/day/year, team: harbor}
          inning:
            constant: 1
          pitcher: [First, Last]
          balls: {from: Count, split: "-", part: 1}
          strikes: {from: Count, split: "-", part: "2"}
          pitch: {from: Type, values: {Heater: fastball, 1: other}, blank: [no, n/a], unit: }
          bases: {from: [1, 2, 3], bases: columns}
          speed_mph: {from: Velo, constant: , unit: kph, decimal: comma}
    """,
}  # fmt: skip

OBSERVATION = "{about: a, text: x, seen: 2026-03-06, source: video, by: JD, confidence: sure}"
GAMES = "table: games\ncolumns: {game: Key, date: {from: Day}, source: Seen}"
REFUSED = [
    ("program", "colour: blue"),
    ("program", "key: Ridge Team"),
    ("program", "name: <b>"),
    ("program", "name: a | b"),
    ("program", "name: '{{ x }}'"),
    ("program", "name: '&lt;b'"),
    ("program", "name: [a]"),
    ("program", f"name: {'x' * 81}"),
    ("program", "policy: yes"),
    ("program", "policy: {devices_in_dugout: maybe}"),
    ("program", "policy: {devices: no}"),
    ("program", "watch_error_s: fast"),
    ("program", "watch_error_s: 3"),
    ("program", "zone: [1.5, 3.5]"),
    ("program", "thresholds: {few_readings: 2.5}"),
    ("program", "roster: {name: A}"),
    ("program", "roster: [{number: 7}]"),
    ("program", "roster: [{name: A, number: 123}]"),
    ("program", "roster: [{name: A, number: x}]"),
    ("program", "roster: [{name: A, bats: B}]"),
    ("program", "roster: [{name: A, throws: S}]"),
    ("program", "roster: [{name: A, positions: [X]}]"),
    ("program", "roster: [{name: A, positions: 'P, X'}]"),
    ("program", "roster: [{name: A, class_year: Jr}]"),
    ("program", "roster: [{name: A, times: {first_second: 9}}]"),
    ("program", "pitches: [{aliases: [A]}]"),
    ("habits", "habits: [{key: a}]"),
    ("habits", "habits: [{key: a, position: 10, question: x, gives: x, page: pitcher, decision: x}]"),
    ("habits", "habits: [{key: a, position: [], question: x, gives: x, page: pitcher, decision: x}]"),
    ("habits", "habits: [{key: a, position: 1, question: x, gives: x, page: bullpen, decision: x}]"),
    ("habits", "habits: [{key: a, position: 1, question: x, gives: x, page: pitcher, decision: x, measured: yards}]"),
    ("team", "park: {surface: grass}"),
    ("team", "name: A\npark: {surface: sand}"),
    ("team", "name: A\npark: {fences: [{bearing_deg: 60, distance_ft: 330}]}"),
    ("team", "name: A\ntendencies: [text]"),
    ("team", f"name: A\ntendencies: [{OBSERVATION.replace('video', 'tv')}]"),
    ("team", f"name: A\ntendencies: [{OBSERVATION.replace('sure', 'maybe')}]"),
    ("team", f"name: A\ntendencies: [{OBSERVATION.replace('2026-03-06', 'March')}]"),
    ("team", f"name: A\ntendencies: [{OBSERVATION.replace('JD', 'ABCDE')}]"),
    ("team", f"name: A\ntendencies: [{OBSERVATION.replace('text: x, ', '')}]"),
    ("team", f"name: A\ntendencies: [{OBSERVATION.replace('sure}', 'sure, for: everybody}')}]"),
    ("team", f"name: A\ntendencies: [{OBSERVATION.replace('sure}', 'sure, for: []}')}]"),
    ("player", "sumary: x"),
    ("player", "summary: {a: b}"),
    ("player", f"summary: {'x' * 2_001}"),
    ("player", 'summary: "a\\x07"'),
    ("player", "grades: {by: AB}"),
    ("player", "grades: {seen: 2026-03-06, by: AB, tools: {fastbal: 50}}"),
    ("player", "grades: {seen: 2026-03-06, by: AB, tools: {fastball: 57}}"),
    ("player", "grades: {seen: 2026-03-06, by: AB, tools: {fastball: 85}}"),
    ("player", "grades: {seen: 2026-03-06, by: AB, tools: {fastball: {later: 50}}}"),
    ("series", "opponent: harbor"),
    ("series", "opponent: harbor\nstart: April"),
    ("series", "opponent: harbor\nstart: 2026-04-10\nwhere: there"),
    ("series", "opponent: harbor\nstart: 2026-04-10\nlineup: [1,2,3,4,5,6,7,8,9,10,11]"),
    ("series", "opponent: harbor\nstart: 2026-04-10\nplan: [{about: x}]"),
    ("series", "opponent: harbor\nstart: 2026-04-10\nplan: [{text: x, for: recruiting}]"),
    ("series", "opponent: harbor\nstart: 2026-04-10\nbullpen: [{player: 3, state: tired, as_of: 2026-04-08}]"),
    ("import-map", "table: pitches"),
    ("import-map", "table: innings\ncolumns: {game: Date}"),
    ("import-map", f"{GAMES}\nsheet: Fri"),
    ("import-map", f"{GAMES}\nheader: 0"),
    ("import-map", f"{GAMES}\ndelimiter: comma,"),
    ("import-map", GAMES.replace("{from: Day}", "{from: Day, date: day-month-year}")),
    ("import-map", GAMES.replace("{from: Day}", "{from: Day, unit: knots}")),
    ("import-map", GAMES.replace("{from: Day}", "{from: Day, form: serial}")),
    ("import-map", GAMES.replace("{from: Day}", "{from: Day, part: 10, split: '-'}")),
    ("import-map", GAMES.replace("{from: Day}", "{from: {a: b}}")),
    ("import-map", GAMES.replace("{from: Day}", f"{{from: {'x' * 201}}}")),
]
# What the reader says of a map once it is read, by its table and by rules over several keys.
REFUSED_MAPS = [
    "table: games\ncolumns: {game: Key, source: S}",
    GAMES.replace("date:", "dat:"),
    GAMES.replace("{from: Day}", "{}"),
    GAMES.replace("{from: Day}", "{from: Day, constant: x}"),
    GAMES.replace("{from: Day}", "{from: Day, split: '-'}"),
    GAMES.replace("{from: Day}", "{from: Day, part: 1}"),
    GAMES.replace("games", "times"),
]


def as_editors_see_it(value: Any) -> Any:  # noqa: ANN401 - what YAML may hold
    """JSON has no dates: an editor hands them on as they were written."""
    if isinstance(value, dict):
        return {key: as_editors_see_it(part) for key, part in value.items()}
    if isinstance(value, list):
        return [as_editors_see_it(part) for part in value]
    return value.isoformat() if isinstance(value, date) else value


@pytest.fixture
def both(tmp_path: Path) -> Callable[[str, str], tuple[list[str], list[str]]]:
    """What the reader and the schema say of one file."""

    def check(kind: str, text: str) -> tuple[list[str], list[str]]:
        path = write(tmp_path, {f"{kind}.yml": text}) / f"{kind}.yml"
        _, _, problems = read_record(path, tmp_path, MODELS[kind][0])
        loaded = as_editors_see_it(yaml.safe_load(path.read_text(encoding="utf-8")))
        errors = Draft202012Validator(schema(kind)).iter_errors(loaded)
        return [str(problem) for problem in problems], [error.message for error in errors]

    return check


@pytest.mark.parametrize("kind", MODELS)
def test_every_schema_is_one_by_the_reference(kind: str) -> None:
    made = schema(kind)
    Draft202012Validator.check_schema(made)
    assert made["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert made["$id"] == f"urn:scoutgen:schema:{kind}:1"
    assert "http" not in schema_text(kind).replace(made["$schema"], "")


@pytest.mark.parametrize("kind", MODELS)
def test_every_key_is_explained_for_editors(kind: str) -> None:
    made = schema(kind)
    blocks = [made, *made.get("$defs", {}).values()]
    silent = [key for block in blocks for key, rules in block["properties"].items() if "description" not in rules]
    assert silent == []
    assert all(block["additionalProperties"] is False and "description" in block for block in blocks)


@pytest.mark.parametrize("kind", MODELS)
def test_every_key_of_a_record_is_in_its_schema(kind: str) -> None:
    names = [field.alias or name for name, field in MODELS[kind][0].model_fields.items()]
    assert list(schema(kind)["properties"]) == names


@pytest.mark.parametrize(("kind", "text"), ACCEPTED.items())
def test_what_the_reader_accepts_the_schema_accepts(
    both: Callable[[str, str], tuple[list[str], list[str]]], kind: str, text: str
) -> None:
    assert both(kind, text) == ([], [])


@pytest.mark.parametrize(("kind", "text"), REFUSED)
def test_what_the_reader_refuses_the_schema_refuses(
    both: Callable[[str, str], tuple[list[str], list[str]]], kind: str, text: str
) -> None:
    problems, errors = both(kind, text)
    assert problems
    assert errors


@pytest.mark.parametrize("text", REFUSED_MAPS)
def test_rules_over_several_keys_of_a_map_are_in_its_schema(tmp_path: Path, text: str) -> None:
    validator = Draft202012Validator(schema("import-map"))
    assert not list(validator.iter_errors(yaml.safe_load(GAMES)))
    assert list(validator.iter_errors(yaml.safe_load(text)))
    path = write(tmp_path, {"map.yml": text}) / "map.yml"
    assert read_map(path, {})[2]
    path.write_text(GAMES)
    assert not read_map(path, {})[2]


def test_the_demo_and_the_usual_habits_are_valid() -> None:
    root = Path(__file__).parents[2]
    kinds = {
        "program": ["content/program.yml"],
        "habits": ["content/habits.yml", "scoutgen/records/usual_habits.yml"],
        "team": [p.relative_to(root).as_posix() for p in root.glob("content/opponents/*/team.yml")],
        "player": [p.relative_to(root).as_posix() for p in root.glob("content/opponents/*/players/*.yml")],
        "series": [p.relative_to(root).as_posix() for p in root.glob("content/series/*.yml")],
    }
    for kind, files in kinds.items():
        assert files
        validator = Draft202012Validator(schema(kind))
        for file in files:
            loaded = as_editors_see_it(yaml.safe_load((root / file).read_text(encoding="utf-8")))
            assert [f"{file}: {error.message}" for error in validator.iter_errors(loaded)] == []


def test_their_text_is_the_same_each_time_and_is_the_schema() -> None:
    assert [schema_file(kind) for kind in MODELS] == [f"{kind}.schema.json" for kind in MODELS]
    texts = [schema_text(kind) for kind in MODELS]
    assert [schema_text(kind) for kind in MODELS] == texts
    assert [json.loads(text) for text in texts] == [schema(kind) for kind in MODELS]
