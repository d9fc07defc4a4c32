"""What holds of shares that lean on each other, whatever k of n they come from."""

import numpy as np
import pandas as pd
from hypothesis import given
from hypothesis import strategies as st
from properties import few

from scoutgen.measures.pooling import pooled_rates
from scoutgen.measures.tally import with_shares_of_one

UNIT = st.integers(0, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
UNITS = st.lists(UNIT, min_size=1, max_size=9)


def pooled(units: list[tuple[int, int]]) -> pd.DataFrame:
    return pooled_rates(pd.DataFrame(units, columns=["k", "n"]))


@few(40)
@given(UNITS)
def test_a_share_lies_between_what_was_charted_and_the_others_and_in_its_interval(units: list[tuple[int, int]]) -> None:
    table = pooled(units)
    assert ((table["low"] > 0) & (table["high"] < 1)).all()
    assert ((table["low"] <= table["share"]) & (table["share"] <= table["high"])).all()
    own = (table["k"] / table["n"].where(table["n"] > 0)).fillna(table["pool_share"])
    # The strength is not one number but weighed over: hence the small room beyond either end.
    low, high = np.minimum(own, table["pool_share"]), np.maximum(own, table["pool_share"])
    assert (table["share"] >= low - 0.02).all()
    assert (table["share"] <= high + 0.02).all()
    never_seen = table[table["n"] == 0]
    np.testing.assert_allclose(never_seen["share"], never_seen["pool_share"])


@few(30)
@given(UNITS, st.integers(0, 8), st.integers(2, 6))
def test_more_looks_at_the_same_rate_leave_less_open(units: list[tuple[int, int]], which: int, times: int) -> None:
    units = [(k + 1, n + 2) for k, n in units]
    place = which % len(units)
    k, n = units[place]
    more = [*units[:place], (k * times, n * times), *units[place + 1 :]]
    before, after = (pooled(table).iloc[place] for table in (units, more))
    assert after["high"] - after["low"] < before["high"] - before["low"]
    # Nor can what was charted count for less.
    assert abs(after["share"] - k / n) <= abs(before["share"] - k / n) + 0.02


@few(20)
@given(UNITS, st.randoms(use_true_random=False))
def test_who_stands_where_changes_nobody_s_share(units: list[tuple[int, int]], chance: object) -> None:
    order = np.random.default_rng(chance.randrange(10_000)).permutation(len(units))  # type: ignore[attr-defined]
    table, other = pooled(units), pooled([units[place] for place in order])
    pd.testing.assert_frame_equal(table.iloc[order].reset_index(drop=True), other, rtol=1e-9)


@few(20)
@given(UNITS)
def test_seen_and_not_seen_are_each_other_s_rest(units: list[tuple[int, int]]) -> None:
    table, other = pooled(units), pooled([(n - k, n) for k, n in units])
    np.testing.assert_allclose(table["share"], 1 - other["share"], atol=2e-3)
    np.testing.assert_allclose(table["low"], 1 - other["high"], atol=4e-3)


@few(20)
@given(st.lists(st.lists(st.integers(0, 60), min_size=3, max_size=3), min_size=1, max_size=6))
def test_words_of_which_each_look_has_one_share_it(groups: list[list[int]]) -> None:
    rows = [
        {"who": str(who), "word": word, "k": k, "n": sum(ks)}
        for who, ks in enumerate(groups)
        for word, k in zip("abc", ks, strict=True)
    ]
    table = with_shares_of_one(pd.DataFrame(rows), ["who"], ["word"])
    np.testing.assert_allclose(table.groupby("who")["share"].sum(), 1)
    assert ((table["low"] <= table["share"]) & (table["share"] <= table["high"])).all()
    # The words under each other's names have each other's shares.
    names = {"a": "b", "b": "c", "c": "a"}
    moved = with_shares_of_one(pd.DataFrame([{**row, "word": names[row["word"]]} for row in rows]), ["who"], ["word"])
    here = table.assign(word=table["word"].map(names)).set_index(["who", "word"])["share"].sort_index()
    np.testing.assert_allclose(moved.set_index(["who", "word"])["share"].sort_index(), here)
