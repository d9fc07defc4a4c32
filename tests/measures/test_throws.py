"""Pop, exchange, accuracy and results, worked out by hand."""

import pandas as pd
import pytest
from measures.rows import frame

from scoutgen.measures.throws import throw_accuracy, throw_results, throw_times

MAN = {"team": "harbor", "catcher": "okafor", "method": "watch"}


def row(table: pd.DataFrame, **keys: object) -> pd.Series:
    for key, value in keys.items():
        table = table[table[key].eq(value)]
    assert len(table) == 1, f"{len(table)} rows for {keys}"
    return table.iloc[0]


def test_pops_by_base_method_and_warmup() -> None:
    throws = frame(
        "throws",
        {"to": "2", "pop_seconds": 1.95, "exchange_seconds": 0.70},
        {"to": "2", "pop_seconds": 2.05, "exchange_seconds": 0.80},
        {"to": "2", "pop_seconds": 1.85, "warmup": True},
        {"to": "2", "pop_seconds": 2.00, "method": "frames"},
        {"to": "3", "pop_seconds": 1.60, "exchange_seconds": 0.60},
        **MAN,
    )
    table = throw_times(throws)
    live = row(table, measure="pop", to="2", method="watch", warmup=False)
    assert (live["n"], live["median"], live["fastest"], live["slowest"]) == (2, pytest.approx(2.0), 1.95, 2.05)
    # Game pops of college catchers run 1.95-2.15 s (memory); two watch readings there cannot promise a 1.5 or a 2.5.
    assert 1.5 < live["low"] < 1.95
    assert 2.05 < live["high"] < 2.5
    assert row(table, measure="pop", to="2", method="watch", warmup=True)["n"] == 1
    assert row(table, measure="pop", to="2", method="frames")["median"] == 2.0
    # A throw to third is a shorter one: pops have no row over all bases, exchanges have.
    assert not (table["measure"].eq("pop") & table["to"].eq("all")).any()
    assert row(table, measure="exchange", to="all")["median"] == pytest.approx(0.70)
    assert row(table, measure="exchange", to="3")["n"] == 1


def test_accuracy_counts_live_and_warmup_apart() -> None:
    throws = frame(
        "throws",
        *[{"to": "2", "accuracy": a} for a in ("on_bag", "on_bag", "high")],
        {"to": "3", "accuracy": "short_hop"},
        {"to": "2", "accuracy": "on_bag", "warmup": True},
        {"to": "2"},
        **MAN,
    )
    table = throw_accuracy(throws)
    assert row(table, to="all", warmup=False, accuracy="on_bag")[["k", "n"]].tolist() == [2, 4]
    assert row(table, to="2", warmup=False, accuracy="dropped")[["k", "n"]].tolist() == [0, 3]
    assert row(table, to="2", warmup=True, accuracy="on_bag")[["k", "n"]].tolist() == [1, 1]
    assert table.groupby(["to", "warmup"])["k"].sum().eq(table.groupby(["to", "warmup"])["n"].first()).all()


def test_results_are_of_throws_that_had_a_play() -> None:
    throws = frame(
        "throws",
        *[{"to": "2", "result": r} for r in ("out", "safe", "safe", "no_play")],
        {"to": "3", "result": "out"},
        {"to": "2", "result": "out", "warmup": True},
        {"to": "1", "result": "no_play"},
        **MAN,
    )
    table = throw_results(throws)
    assert row(table, to="2")[["k", "n", "safe", "no_play"]].tolist() == [1, 3, 2, 1]
    assert row(table, to="all")[["k", "n", "safe", "no_play"]].tolist() == [2, 4, 2, 2]
    assert "1" not in set(table["to"])
