"""What a reader can write or type is written down: every column, every command, every option, every list of facts."""

import json
import os
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import click
import pytest
import yaml

from scoutgen.cli import main
from scoutgen.pages.facts import LISTS, TEAM_LISTS
from scoutgen.records import games, habits, holds, pitches, positions, throws, times
from scoutgen.records.habit_kinds import usual_habit_kinds
from scoutgen.records.problems import ProblemsFoundError
from scoutgen.records.season import read_season
from scoutgen.site.export import export_facts

ROOT = Path(__file__).parents[1]
FORMAT = (ROOT / "docs" / "charting-format.md").read_text(encoding="utf-8")
RECORDS = {
    "games": games.Game,
    "pitches": pitches.Pitch,
    "times": times.TimeReading,
    "holds": holds.Hold,
    "throws": throws.Throw,
    "habits": habits.HabitLook,
    "positions": positions.FielderPosition,
}


def section(table: str) -> str:
    return FORMAT.split(f"## data/{table}")[1].split("\n## ")[0]


@pytest.mark.parametrize("table", RECORDS)
def test_every_column_is_documented_with_whether_it_must_be_filled(table: str) -> None:
    assert RECORDS[table].model_fields
    rows = [line.split("|")[1] for line in section(table).splitlines() if line.startswith("| ")]
    written = {name.strip() for row in rows for name in row.split(",")} - {"column"}
    for name, field in RECORDS[table].model_fields.items():
        starred = f"{name}*"
        accepted_instead = (name in ("speed_kph", "field") and f"`{name}`" in section(table)) or name in written
        assert starred in written or accepted_instead, f"{table}: {name} is not documented"
        if field.is_required():
            assert starred in written, f"{table}: {name} must be filled, which the table does not say"
    assert {name.rstrip("*") for name in written} <= set(RECORDS[table].model_fields), "a column that nobody reads"


def test_every_usual_habit_is_documented() -> None:
    assert usual_habit_kinds()
    assert set(usual_habit_kinds()) <= set(re.findall(r"`([a-z-]+)`", FORMAT))


def test_every_list_of_facts_is_documented() -> None:
    table = FORMAT.split("## Facts")[1].split("`scoutgen export` has these lists")[0]
    named = {
        name.strip() for line in table.splitlines() if line.startswith("| ") for name in line.split("|")[1].split(",")
    }
    assert set(LISTS) <= named
    assert named - {"list"} <= set(LISTS)


def test_the_lists_of_an_export_are_documented_with_their_columns(tmp_path: Path) -> None:
    table = FORMAT.split("`scoutgen export` has these lists")[1].split("\n\nTwo intervals")[0]
    told = {
        name.strip(): row.split("|")[2]
        for row in table.splitlines() if row.startswith("| ") for name in row.split("|")[1].split(",")
    }  # fmt: skip
    assert set(told) - {"file"} == set(TEAM_LISTS)
    export_facts(ROOT, tmp_path / "out", as_of="2026-04-09")
    for name in TEAM_LISTS:
        header = (tmp_path / f"out/{name}.csv").read_text(encoding="utf-8").splitlines()[0].replace('"', "")
        columns = {column.strip() for column in re.sub(r"\([^)]*\)|:.*", "", told[name]).split(",")}
        written = set(header.split(",")) - {"team"}
        assert columns - {"", "..."} == (written & columns if "..." in columns else written), name


def commands(group: click.Group, path: tuple[str, ...] = ()) -> list[tuple[str, click.Command]]:
    found = []
    for name, command in group.commands.items():
        here = (*path, name)
        found += commands(command, here) if isinstance(command, click.Group) else [(" ".join(here), command)]
    return found


README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(("name", "command"), commands(main))
def test_every_command_stands_in_the_readme_and_explains_its_options(name: str, command: click.Command) -> None:
    assert f"scoutgen {name}" in README
    assert command.help
    options = [parameter for parameter in command.params if isinstance(parameter, click.Option)]
    assert options
    assert [option.opts[0] for option in options if not option.help] == []


def test_the_first_two_blocks_of_the_readme_are_the_two_commands() -> None:
    blocks = re.findall(r"^```\w*\n(.*?)^```", README, flags=re.MULTILINE | re.DOTALL)
    build, test = blocks[0].strip(), blocks[1].strip()
    assert "\n" not in build
    assert "\n" not in test
    assert build.endswith("scoutgen build")
    assert test.endswith("-m pytest")
    assert all(block.startswith("python3 -m venv .venv && ") for block in (build, test))


def test_ci_runs_the_readmes_test_command() -> None:
    """Step by step and in order: the environment, the install, the tests, in the README's own words."""
    readme = re.findall(r"^```sh\n(.*?)\n```", README, flags=re.MULTILINE | re.DOTALL)[1]
    steps = (
        readme.replace("python3 -m venv .venv", "PYTHON -m venv VENV").replace(".venv/bin/", "VENV/bin/").split(" && ")
    )
    assert len(steps) == 3
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    for shell, plain in (('"$python"', "PYTHON"), ('"$scratch/venv"', "VENV"), ('CI=true PATH="$bin:$PATH" ', "")):
        script = script.replace(shell, plain)
    lines = [re.sub(r'"\$bin/(\w+)"', r"VENV/bin/\1", line) for line in script.splitlines()]
    assert [line for line in lines if line in steps] == steps


def test_the_readmes_example_of_a_wrong_row_is_what_the_demo_says(tmp_path: Path) -> None:
    example = re.search(r'^(data/\S+\.csv):(\d+): (\w+): "(\w+)" is .*$', README, flags=re.MULTILINE)
    assert example
    name, line, column, cell = example.groups()
    for folder in ("data", "content"):
        shutil.copytree(ROOT / folder, tmp_path / folder)
    rows = (tmp_path / name).read_text(encoding="utf-8").splitlines(keepends=True)
    cells = rows[int(line) - 1].split(",")
    cells[rows[0].strip().split(",").index(column)] = cell
    rows[int(line) - 1] = ",".join(cells)
    (tmp_path / name).write_text("".join(rows), encoding="utf-8")
    with pytest.raises(ProblemsFoundError) as found:
        read_season(tmp_path, as_of=date(2026, 4, 9))
    assert [str(problem) for problem in found.value.problems if problem.severity == "error"] == [example.group()]


def test_the_matrix_job_lists_every_opponent_once_and_builds_and_joins_them_by_the_same_day(tmp_path: Path) -> None:
    """The job in README.md, as far as it can run here: its shell in a shell, its commands against the real ones."""
    (text,) = re.findall(r"^```yaml\n(on: workflow_dispatch.*?)^```", README, flags=re.MULTILINE | re.DOTALL)
    jobs = yaml.safe_load(text)["jobs"]
    (listing,) = [step["run"] for step in jobs["teams"]["steps"] if step.get("id") == "list"]
    teams = ["harbor", "saltmarsh", "slatefield", "x1", "x2"]
    for team in teams:
        (tmp_path / "content/opponents" / team).mkdir(parents=True)
    told = tmp_path / "told"
    # The PATH's own python3, as there.
    ran = subprocess.run(
        ["bash", "-e", "-c", listing], cwd=tmp_path, env={**os.environ, "GITHUB_OUTPUT": str(told)}, check=True
    )
    assert ran.returncode == 0
    outputs = dict(line.split("=", 1) for line in told.read_text().splitlines())
    groups = json.loads(outputs["groups"])
    assert len(groups) == 4
    assert sorted(word for group in groups for word in group.split() if word != "--only") == teams
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", outputs["day"])
    builds = [step["run"] for job in ("part", "site") for step in jobs[job]["steps"] if "scoutgen build" in str(step)]
    assert len(builds) == 2
    known = {option for one in main.commands["build"].params for option in one.opts}
    for command in builds:
        assert "--as-of ${{ needs.teams.outputs.day }}" in command
        assert set(re.findall(r"--[a-z-]+", command)) <= known
    assert jobs["site"]["needs"] == ["teams", "part"]
