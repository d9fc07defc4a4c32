"""content/habits.yml: the usual habits are there, a project's own come on top or in their place."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

from pathlib import Path

from yaml_projects import said, write

from scoutgen.records.habit_kinds import read_habit_kinds, usual_habit_kinds

OWN = """
    habits:
      - key: walks-behind-mound
        position: 1
        question: Does he walk off the back of the mound?
        gives: A head start.
        page: pitcher
        decision: delayed steal
        opens: delayed_steal
      - {key: lobs-return, position: "2", question: "Lob?", gives: Time., page: catcher, decision: steal of home}
"""


def test_the_usual_ones_name_what_the_charting_format_names(tmp_path: Path) -> None:
    # The list of the charting format, version 1, in its order.
    named = [
        ("lobs-return", (2,)), ("returns-without-look", (2,)), ("returns-from-knees", (2,)), ("drops-head", (2,)),
        ("back-picks", (2,)), ("soft-return-infield", (3, 4, 5, 6)), ("turns-back", (3, 4, 5, 6)), ("third-off-bag", (5,)),
        ("first-behind-runner", (3,)), ("middle-late-to-bag", (4, 6)), ("one-hops-cutoff", (7, 8, 9)),
    ]  # fmt: skip
    kinds, problems = read_habit_kinds(tmp_path)
    assert problems == []
    assert [(key, kinds[key].positions) for key, _ in named] == named
    assert all(kind.question.endswith("?") and kind.gives and kind.decision for kind in kinds.values())
    assert all(kind.statement and not kind.statement.endswith("?") for kind in kinds.values())
    assert [key for key, kind in kinds.items() if kind.measured == "feet"] == ["third-off-bag"]


def test_a_projects_own_add_and_replace(tmp_path: Path) -> None:
    kinds, problems = read_habit_kinds(write(tmp_path, {"content/habits.yml": OWN}))
    assert problems == []
    assert list(kinds) == [*usual_habit_kinds(), "walks-behind-mound"]
    assert kinds["lobs-return"].question == kinds["lobs-return"].said == "Lob?"
    assert kinds["lobs-return"].opens is None
    assert (kinds["walks-behind-mound"].positions, kinds["walks-behind-mound"].measured) == ((1,), "yes_no")
    # One project's habits do not leak into the next.
    assert usual_habit_kinds()["lobs-return"].question == "Does he lob it back to the mound?"


def test_every_slip_at_once(tmp_path: Path) -> None:
    text = """
        habits:
          - {key: a, position: 10, question: x, gives: x, page: bullpen, decision: x}
          - {key: a, position: 4-6, question: x, gives: x, page: infield, decision: x, measured: yards, opens: steal_hom}
          - {key: b}
    """
    _, problems = read_habit_kinds(write(tmp_path, {"content/habits.yml": text}))
    place = "content/habits.yml"
    assert said(problems) == [
        f'{place}:2: habits[1].page: "bullpen" is not allowed; write pitcher, catcher, infield or outfield',
        f'{place}:2: habits[1].position: "10" is too large; the most is 9',
        f'{place}:3: habits[2].measured: "yards" is not allowed; write yes_no or feet',
        f'{place}:3: habits[2].opens: "steal_hom" is not allowed; write steal_second, steal_third, steal_home, delayed_steal, double_steal, bigger_lead, extra_base, bunt, hit_and_run or dirt_ball; did you mean "steal_home"?',
        f'{place}:3: habits[2].position: "4-6" is not a whole number',
        f"{place}:4: habits[3].decision: is missing; it must be filled in",
        f"{place}:4: habits[3].gives: is missing; it must be filled in",
        f"{place}:4: habits[3].page: is missing; it must be filled in",
        f"{place}:4: habits[3].position: is missing; it must be filled in",
        f"{place}:4: habits[3].question: is missing; it must be filled in",
    ]


def test_a_habit_stands_once(tmp_path: Path) -> None:
    line = "  - {key: a, position: 1, question: x, gives: x, page: pitcher, decision: x}\n"
    kinds, problems = read_habit_kinds(
        write(tmp_path, {"content/habits.yml": f"habits:\n{line}{line.replace('question: x', 'question: y')}"})
    )
    assert said(problems) == [
        "content/habits.yml:3: habits[2].key: the habit 'a' stands twice (first in line 2); keep one"
    ]
    assert kinds["a"].question == "x"
