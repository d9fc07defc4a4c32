"""Levels of our cards as content/program.yml states them, and what a slip is answered."""

from pathlib import Path

import pytest
from yaml_projects import write

from scoutgen.records.positioning import FielderReach, Levels
from scoutgen.records.program import read_program

FULL = """\
key: ridge
levels:
  infield: 2
  infield_stands:
    - {steps: [0, 0, 0, 0]}
    - {steps: [1, 2, 20, -1], depth_ft: [110, 150, 155, 112]}
  outfield: 2
  outfield_steps: [0, 12]
  reach: {infield_fps: 24, release_s: 0.9}
"""


def levels(tmp_path: Path, text: str) -> tuple[Levels, list[str]]:
    read, problems = read_program(write(tmp_path, {"content/program.yml": text}))
    return read.levels, [str(problem) for problem in problems]


def test_levels_in_steps_and_feet(tmp_path: Path) -> None:
    read, problems = levels(tmp_path, FULL)
    assert not problems
    assert read.infield_stands[1].steps == (1, 2, 20, -1)
    assert read.infield_stands[1].depth_ft == (110, 150, 155, 112)
    assert read.infield_stands[0].depth_ft is None
    assert read.outfield_steps == (0, 12)
    assert (read.reach.infield_fps, read.reach.release_s) == (24, 0.9)
    assert read.reach.throw_fps == FielderReach().throw_fps


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("infield: 2", "infield: 3", "levels: infield_stands explains 2 levels, but infield has 3"),
        ("[0, 12]", "[0, 12, 20]", "levels: outfield_steps explains 3 levels, but outfield has 2"),
        ("[0, 12]", "[3, 12]", "levels: level 1 is straight up: its steps are all 0; move the others from there"),
        ("{steps: [0, 0, 0, 0]}", "{steps: [0, 1, 0, 0]}", "levels: level 1 is straight up"),
        ("[1, 2, 20, -1]", "[1, 2, 20]", "levels.infield_stands[2].steps"),
        ("[1, 2, 20, -1]", "[1, 2, 99, -1]", 'levels.infield_stands[2].steps[3]: "99" is too large'),
        ("[110, 150, 155, 112]", "[110, 150, 155, 12]", 'levels.infield_stands[2].depth_ft[4]: "12" is too small'),
        ("infield_fps: 24", "infield_fps: fast", 'levels.reach.infield_fps: "fast" is not a number'),
        ("infield_fps", "infield_speed", "levels.reach.infield_speed: is not known here"),
    ],
)
def test_a_slip_is_named_with_its_place(tmp_path: Path, before: str, after: str, said: str) -> None:
    _, problems = levels(tmp_path, FULL.replace(before, after, 1))
    assert len(problems) == 1
    assert said in problems[0]
