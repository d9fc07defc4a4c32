"""Roll-ups and the order of tables."""

import pandas as pd
from measures.rows import frame

from scoutgen.measures.levels import BASES, STATES, by_base_state, in_order, plain_text, roll_up, runner_on


def test_each_state_belongs_to_its_situations() -> None:
    table = by_base_state(frame("habits", *[{"bases": state} for state in STATES], {}))
    n = table.groupby("bases", observed=True).size().to_dict()
    assert n == {
        "all": 9,
        "empty": 1,
        "on": 7,
        "scoring": 6,
        "1": 1,
        "2": 1,
        "3": 1,
        "12": 1,
        "13": 1,
        "23": 1,
        "123": 1,
    }
    assert set(n) == set(BASES)


def test_a_runner_on_third_stands_there_in_four_states() -> None:
    bases = pd.Series([*STATES, None], dtype="category")
    assert [state for state, on in zip(STATES, runner_on(bases, "3"), strict=False) if on] == ["3", "13", "23", "123"]
    assert not runner_on(bases, "3").iloc[-1]


def test_a_blank_is_rolled_up_and_has_no_row_of_its_own() -> None:
    table = roll_up(frame("times", {"style": "lob"}, {"style": "firm"}, {}), "style")
    assert table["style"].value_counts().to_dict() == {"all": 3, "lob": 1, "firm": 1}


def test_order_is_the_trades_then_the_alphabets_then_the_missing() -> None:
    table = pd.DataFrame(
        {"team": ["b", "a", "a", "a", "a"], "bases": ["all", "12", "all", None, "empty"], "n": [5, 3, 1, 4, 2]}
    )
    assert in_order(table, ["team", "bases"])["n"].tolist() == [1, 2, 3, 4, 5]


def test_finished_tables_hold_text() -> None:
    table = plain_text(frame("times", {"style": "lob", "player": "a"}))
    assert not any(isinstance(dtype, pd.CategoricalDtype) for dtype in table.dtypes)
