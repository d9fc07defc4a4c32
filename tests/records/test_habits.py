"""Looks at habits: the habit must be one the staff charts."""

from collections.abc import Callable

from scoutgen.records.season import Season

Complaints = Callable[..., list[str]]
Read = Callable[..., Season]
OWN = {"content/habits.yml": "habits:\n  - key: tips-change\n    position: 1\n    question: Does he tip his change?\n"
       "    gives: We sit on it.\n    page: pitcher\n    decision: what to sit on\n"}  # fmt: skip


def looks(*rows: str) -> dict[str, str]:
    return {"data/habits.csv": "game,team,habit,seen,feet\n" + "".join(f"g1,harbor,{row}\n" for row in rows)}


def test_usual_habits_and_own_ones(season: Read) -> None:
    read = season({**OWN, **looks("lobs-return,yes,", "Lobs-Return,no,", "tips-change,yes,", "third-off-bag,yes,12.5")})
    assert read.habits["habit"].tolist() == ["lobs-return", "lobs-return", "tips-change", "third-off-bag"]
    assert read.habits["seen"].tolist() == [True, False, True, True]
    assert read.habits["feet"].tolist()[3] == 12.5


def test_an_unknown_habit_and_a_look_without_an_answer(complaints: Complaints) -> None:
    said = complaints(looks("lob-return,yes,", "lobs-return,,", "lobs-return,perhaps,"))
    assert said[0].startswith(
        'data/habits.csv:2: habit: "lob-return" is not a habit; did you mean "lobs-return"? Known are '
    )
    assert said[1:] == [
        "data/habits.csv:3: seen: is blank and must be filled in",
        'data/habits.csv:4: seen: "perhaps" is neither yes nor no; write yes or no',
    ]
