"""Whatever a file holds, the readers answer with records and problems, never with an exception."""

import re
from datetime import date
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from yaml_projects import write

from scoutgen.records.habit_kinds import read_habit_kinds
from scoutgen.records.hand_pages import read_hand_pages
from scoutgen.records.opponents import read_opponents
from scoutgen.records.program import read_program
from scoutgen.records.roster import OwnPlayer
from scoutgen.records.schemas import MODELS, schema_text
from scoutgen.records.series import read_series
from scoutgen.records.yamlfile import Tree
from scoutgen.records.yamlrecord import column, read_record

AS_OF = date(2026, 4, 9)
WORDS = sorted({key for kind in MODELS for key in re.findall(r'"(\w+)": \{', schema_text(kind))})
VALUES = [
    "2026-03-06",
    "7",
    "-1",
    "0.2",
    "yes",
    "R",
    "P, OF",
    "staff",
    "video",
    "sure",
    "JD",
    "harbor",
    "a-b",
    "<b>",
    "",
    "é",
]
TREES: st.SearchStrategy[object] = st.recursive(
    st.sampled_from(VALUES) | st.none() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from(WORDS), inner, max_size=8),
    max_leaves=25,
)
TEXTS = TREES.map(lambda tree: yaml.safe_dump(tree, allow_unicode=True)) | st.text(max_size=100)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(TEXTS)
def test_any_file_gets_an_answer(tmp_path: Path, text: str) -> None:
    team = "opponents/harbor"
    places = ("program.yml", "habits.yml", f"{team}/team.yml", f"{team}/players/a-b.yml", "series/a.yml", "pages/a.md")
    for place in places:
        path = tmp_path / "content" / place
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", errors="replace", newline="")
    lines = text.count("\n") + text.count("\r") + 1
    program, problems = read_program(tmp_path)
    problems = problems + read_habit_kinds(tmp_path)[1] + read_hand_pages(tmp_path)[1]
    opponents, more = read_opponents(tmp_path, AS_OF, program.key)
    for problem in problems + more + read_series(tmp_path, opponents, AS_OF)[1]:
        assert problem.text.strip()
        assert 0 <= problem.line <= lines + 1
        assert str(problem).isprintable()


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(list(MODELS)), TREES)
def test_a_record_comes_without_problems_or_says_why_not(tmp_path: Path, kind: str, tree: Tree) -> None:
    path = tmp_path / "a.yml"
    path.write_text(yaml.safe_dump(tree, allow_unicode=True), encoding="utf-8")
    record, source, problems = read_record(path, tmp_path, MODELS[kind][0])
    assert record is not None or problems
    assert bool(source.left_out) <= bool(problems)


def test_a_key_path_counts_items_as_people_do() -> None:
    assert column(("roster", 2, "bats")) == "roster[3].bats"
    assert column(()) == ""
    assert column(("a\x1b[31m",)) == "a?[31m"
    assert len(column(("x" * 500,))) == 100


def test_internal_names_of_keys_are_not_read(tmp_path: Path) -> None:
    path = write(tmp_path, {"a.yml": "name: A\nclass_year: Jr\n"}) / "a.yml"
    _, _, problems = read_record(path, tmp_path, OwnPlayer)
    assert [str(problem) for problem in problems] == ['a.yml:2: class_year: is not known here; did you mean "class"?']


@pytest.mark.parametrize(
    ("text", "left_out"), [("name: A\nbats: X\ntimes: 3\n", {"bats", "times"}), ("name: A\n", set())]
)
def test_what_is_wrong_is_left_out_and_the_rest_is_there(tmp_path: Path, text: str, left_out: set[str]) -> None:
    path = write(tmp_path, {"a.yml": text}) / "a.yml"
    record, source, problems = read_record(path, tmp_path, OwnPlayer)
    assert record is not None
    assert (record.name, source.left_out, len(problems)) == ("A", left_out, len(left_out))


def test_a_record_without_what_it_must_have_is_none(tmp_path: Path) -> None:
    path = write(tmp_path, {"a.yml": "number: 7\n"}) / "a.yml"
    record, source, problems = read_record(path, tmp_path, OwnPlayer)
    assert record is None
    assert [str(problem) for problem in problems] == ["a.yml:1: name: is missing; it must be filled in"]
    assert source.line(("number",)) == 1
