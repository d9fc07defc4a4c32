"""k of n, and what leaning on the others does to it."""

import numpy as np
import pandas as pd
from measures.rows import frame

from scoutgen.measures.pooling import pooled_rates
from scoutgen.measures.tally import MANY, tally, tally_hits, with_pooled_shares, with_shares_of_one


def test_a_word_never_seen_has_a_row_of_its_own() -> None:
    throws = frame(
        "throws", {"accuracy": "on_bag"}, {"accuracy": "high"}, {"accuracy": "on_bag"}, {}, team="t", catcher="c"
    )
    table = tally(throws, ["team", "catcher"], "accuracy", ("on_bag", "high", "dropped"))
    assert table[["accuracy", "k", "n"]].to_numpy().tolist() == [["on_bag", 2, 3], ["high", 1, 3], ["dropped", 0, 3]]


def test_a_missing_player_is_a_group_and_a_missing_answer_is_no_look() -> None:
    habits = frame(
        "habits",
        {"player": "a", "seen": True},
        {"player": "a", "seen": None},
        {"seen": False},
        {"seen": True},
        team="t",
    )
    table = tally_hits(habits, ["team", "player"], "seen")
    assert table["k"].tolist() == [1, 1]
    assert table["n"].tolist() == [1, 2]
    assert table["player"].isna().tolist() == [False, True]


def league(units: int) -> pd.DataFrame:
    rng = np.random.default_rng(8)
    n = rng.integers(5, 300, units)
    return pd.DataFrame(
        {"player": [f"p{u}" for u in range(units)], "k": rng.binomial(n, rng.beta(12, 28, units)), "n": n}
    )


def test_few_units_lean_exactly_as_pooling_says() -> None:
    table = league(MANY)
    expected = pooled_rates(table)
    found = with_pooled_shares(table.assign(same=1), ["same"])
    np.testing.assert_allclose(found[["share", "low", "high"]], expected[["share", "low", "high"]])


def test_many_units_lean_nearly_so() -> None:
    table = league(400)
    expected = pooled_rates(table)
    found = with_pooled_shares(table.assign(same=1), ["same"])
    for column in ("share", "low", "high"):
        off = found[column] - expected[column]
        assert (off**2).mean() ** 0.5 < 0.01, column
        assert off.abs().max() < 0.04, column


def test_many_units_intervals_cover_their_truth() -> None:
    rng = np.random.default_rng(21)
    truth = rng.beta(8, 12, 3000)
    n = rng.integers(1, 60, 3000)
    table = with_pooled_shares(pd.DataFrame({"same": 1, "k": rng.binomial(n, truth), "n": n}), ["same"])
    inside = (table["low"] <= truth) & (truth <= table["high"])
    assert 0.86 <= inside.mean() <= 0.94


def test_shares_of_one_sum_to_one_within_their_intervals() -> None:
    table = pd.DataFrame(
        {"who": list("aaabbb"), "word": list("xyzxyz"), "k": [3, 1, 0, 0, 9, 1], "n": [4, 4, 4, 10, 10, 10]}
    )
    found = with_shares_of_one(table, ["who"], ["word"])
    np.testing.assert_allclose(found.groupby("who")["share"].sum(), 1.0)
    assert ((found["low"] <= found["share"]) & (found["share"] <= found["high"])).all()
