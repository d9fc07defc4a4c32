"""What nobody reads in content/ is said, so that no work goes missing without a word."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

from datetime import date
from pathlib import Path

import pytest
from yaml_projects import said, write

from scoutgen.records.content_folder import stray_content
from scoutgen.records.problems import ProblemsFoundError
from scoutgen.records.season import read_season
from scoutgen.records.skeletons import init_project


def test_a_project_in_order_has_none(tmp_path: Path) -> None:
    init_project(tmp_path)
    write(tmp_path, {"content/opponents/harbor/team.yml": "name: A\n", "content/opponents/harbor/players/.x.swp": ""})
    assert stray_content(tmp_path) == []
    assert stray_content(tmp_path / "nowhere") == []


def test_near_names_are_errors_and_others_warnings(tmp_path: Path) -> None:
    files = [
        "program.yaml", "habit.yml", "serie/a.yml", "oponents/x/team.yml", "budget.xlsx", ".DS_Store", "notes.yml~",
        "opponents/harbor/team.yaml", "opponents/harbor/player/a.yml", "opponents/harbor/photo.jpg",
    ]  # fmt: skip
    write(tmp_path, {f"content/{name}": "" for name in files})
    assert said(stray_content(tmp_path)) == [
        "content/budget.xlsx: warning: is not read; what is read here are program.yml, habits.yml, opponents, series and pages",
        "content/habit.yml: is not read; did you mean habits.yml?",
        "content/oponents: is not read; did you mean opponents?",
        "content/opponents/harbor/photo.jpg: warning: is not read; what is read here are team.yml and players",
        "content/opponents/harbor/player: is not read; did you mean players?",
        "content/opponents/harbor/team.yaml: is not read; did you mean team.yml?",
        "content/program.yaml: is not read; did you mean program.yml?",
        "content/serie: is not read; did you mean series?",
    ]


def test_the_season_refuses_on_them(tmp_path: Path) -> None:
    init_project(tmp_path)
    write(tmp_path, {"content/program.yaml": "key: a\n", "content/budget.xlsx": ""})
    with pytest.raises(ProblemsFoundError) as found:
        read_season(tmp_path, as_of=date(2026, 4, 9))
    assert [problem.file for problem in found.value.problems] == ["content/budget.xlsx", "content/program.yaml"]


def test_a_file_for_a_folder_and_a_link_to_nothing_are_errors(tmp_path: Path) -> None:
    write(tmp_path, {"content/series": "", "content/opponents/harbor/players": ""})
    (tmp_path / "content" / "habits.yml").symlink_to("nowhere.yml")
    assert said(stray_content(tmp_path)) == [
        "content/habits.yml: is a link to nothing; copy the file itself here",
        "content/opponents/harbor/players: is not a folder; one is meant here",
        "content/series: is not a folder; one is meant here",
    ]
