"""The looks that a decision rests on."""

from datetime import date

import pytest

from scoutgen.pages.claims import Claim
from scoutgen.pages.habits import Habit
from scoutgen.records.habit_kinds import HabitKind


def looked(opens: str | None, looks: dict[str, tuple[int, int]]) -> Habit:
    """A habit seen k of n times with each of some runners on."""
    claims = {
        state: Claim(what=state, k=k, n=n, share=None, low=None, high=None, sure="thin")
        for state, (k, n) in looks.items()
    }
    k, n = (sum(look[part] for look in looks.values()) for part in (0, 1))
    kind = HabitKind.model_validate(
        {
            "key": "plays-behind", "position": (3,), "question": "Does he play behind?", "gives": "A longer lead.",
            "page": "infield", "decision": "lead off first", "opens": opens,
        }
    )  # fmt: skip
    return Habit(
        kind=kind, player="p", name="P", position=3,
        claim=Claim(what="plays-behind", k=k, n=n, share=None, low=None, high=None, sure="thin"),
        states=tuple(claims), situations=tuple(claims.items()), days=(date(2026, 4, 4),) * len(claims),
        last_yes=date(2026, 4, 5), feet=None, few_looks=3,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("opens", "k", "n"), [("bigger_lead", 23, 44), ("steal_home", 15, 21), ("steal_second", 50, 85), (None, 50, 85)]
)
def test_looks_with_other_runners_on_say_nothing_of_the_decision(opens: str | None, k: int, n: int) -> None:
    habit = looked(opens, {"1": (19, 37), "12": (16, 27), "123": (11, 14), "13": (4, 7)})
    assert (habit.deciding.k, habit.deciding.n) == (k, n)
    assert (habit.deciding.last_yes == date(2026, 4, 5)) == (n == habit.claim.n)


def test_too_few_deciding_looks_fall_back_on_all() -> None:
    habit = looked("bigger_lead", {"1": (1, 2), "12": (9, 12)})
    assert (habit.deciding.k, habit.deciding.n, habit.deciding.runners) == (10, 14, "any runners")


def test_advice_goes_by_the_deciding_looks() -> None:
    assert looked("bigger_lead", {"1": (4, 10), "12": (30, 30)}).recurs is False
    assert looked("bigger_lead", {"1": (5, 10), "12": (0, 30)}).recurs is True
