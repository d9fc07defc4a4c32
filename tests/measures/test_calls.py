"""The call that follows from the odds."""

import pandas as pd
import pytest

from scoutgen.measures.calls import CALL_COLUMNS, steal_calls
from scoutgen.measures.steals import STEAL_COLUMNS

NEED = {"2": 0.70, "3": 0.75}


def row(
    style: str, p_safe: float, low: float, *, base: str = "2", plate_n: int = 5, pop_n: int = 5, runner: str = "fast"
) -> dict:
    key = {"team": "harbor", "player": "reyes", "catcher": "cho", "runner": runner, "base": base, "style": style}
    chances = {"margin_s": p_safe - 0.5, "p_safe": p_safe, "low": low, "high": 1.0, "p_clock": p_safe, "picked": 0.05}
    times = {
        "run_s": 3.3,
        "run_n": 0,
        "plate_s": 1.4,
        "plate_n": plate_n,
        "pop_s": 2.0,
        "pop_n": pop_n,
        "known": pop_n > 0,
    }
    return {**key, **chances, **times}


def call(*rows: dict) -> pd.Series:
    found = steal_calls(pd.DataFrame(rows, columns=STEAL_COLUMNS), NEED)
    assert list(found.columns) == CALL_COLUMNS
    assert len(found) == 1
    return found.iloc[0]


@pytest.mark.parametrize(
    ("rows", "said", "because"),
    [
        ([row("stretch", 0.90, 0.80)], "go", "sure"),
        ([row("stretch", 0.80, 0.60)], "only_if", "close"),
        ([row("stretch", 0.60, 0.40)], "no", "late"),
        ([row("stretch", 0.90, 0.80, pop_n=0)], "unknown", "few"),
        ([row("stretch", 0.90, 0.80, pop_n=4)], "unknown", "few"),
        ([row("stretch", 0.90, 0.80, plate_n=4)], "unknown", "few"),
        ([row("stretch", 0.85, 0.75), row("slide_step", 0.2, 0.1), row("mixed", 0.65, 0.6)], "only_if", "stretch"),
        ([row("stretch", 0.85, 0.75), row("slide_step", 0.7, 0.6), row("mixed", 0.80, 0.72)], "go", "sure"),
        ([row("stretch", 0.60, 0.50), row("slide_step", 0.2, 0.1), row("mixed", 0.40, 0.3)], "no", "late"),
    ],
)
def test_the_call_follows_from_what_he_will_meet(rows: list[dict], said: str, because: str) -> None:
    found = call(*rows)
    assert (found["call"], found["because"]) == (said, because)


def test_each_base_has_its_own_need() -> None:
    rows = [row("stretch", 0.9, 0.72), row("stretch", 0.9, 0.72, base="3")]
    found = steal_calls(pd.DataFrame(rows, columns=STEAL_COLUMNS), NEED).set_index("base")
    assert found["call"].to_dict() == {"2": "go", "3": "only_if"}
    assert found["need"].to_dict() == NEED


def test_both_deliveries_stand_beside_the_mix() -> None:
    found = call(row("stretch", 0.85, 0.75), row("slide_step", 0.3, 0.1), row("mixed", 0.72, 0.6))
    assert (found["p_safe"], found["stretch_p_safe"], found["slide_p_safe"]) == (0.72, 0.85, 0.3)
    assert (found["stretch_plate_s"], found["slide_plate_n"]) == (1.4, 5)
    alone = call(row("stretch", 0.85, 0.75))
    assert pd.isna(alone["slide_p_safe"])
    assert pd.isna(alone["slide_plate_n"])


def test_nobody_asked_about_hears_nothing() -> None:
    found = steal_calls(pd.DataFrame(columns=STEAL_COLUMNS), NEED)
    assert list(found.columns) == CALL_COLUMNS
    assert not len(found)
