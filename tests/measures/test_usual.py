"""What is usual is learned once, noted by its question, and given back; where nobody taught it, each stands alone."""

import numpy as np
import pandas as pd

from scoutgen.measures.pooling import pooled_rates
from scoutgen.measures.tally import MANY, with_pooled_shares
from scoutgen.measures.usual import AT_HAND, Known, Learning


def table(units: int, what: str = "slider", seed: int = 4) -> pd.DataFrame:
    chance = np.random.default_rng(seed)
    n = chance.integers(5, 200, units)
    return pd.DataFrame(
        {"player": [f"p{at}" for at in range(units)], "pitch": what, "k": chance.binomial(n, 0.3), "n": n}
    )


def test_what_was_learned_is_noted_by_question_and_given_back() -> None:
    learning = Learning()
    assert learning.about("mix").of("spread", lambda: np.ones(2)) is learning.learned["mix: spread"]
    known = Known(learning.learned)
    given = known.about("mix").of("spread", lambda: np.zeros(2))
    assert given is learning.learned["mix: spread"]
    assert known.of("spread", lambda: np.zeros(2)) is None


def test_a_question_is_learned_once() -> None:
    learning = Learning()
    learning.of("spread", lambda: np.ones(1))
    assert learning.of("spread", lambda: np.zeros(1)) == np.ones(1)
    assert AT_HAND.of("spread", lambda: np.zeros(1)) == np.zeros(1)


def test_shares_that_lean_on_what_was_learned_of_them_are_those_they_have_at_hand() -> None:
    for units in (7, MANY + 20):
        whole = table(units)
        learning = Learning()
        with_pooled_shares(whole, ["pitch"], learning)
        at_hand = with_pooled_shares(whole, ["pitch"])
        known = Known(learning.learned)
        pd.testing.assert_frame_equal(with_pooled_shares(whole, ["pitch"], known), at_hand, check_exact=True)
        some = whole.iloc[[3, 5]].reset_index(drop=True)
        alone = with_pooled_shares(some, ["pitch"], known)
        pd.testing.assert_frame_equal(alone, at_hand.iloc[[3, 5]].reset_index(drop=True), check_exact=True)
        # Which is not what the two say to each other.
        assert (with_pooled_shares(some, ["pitch"])["share"] - alone["share"]).abs().min() > 0.001


def test_where_nobody_taught_it_each_stands_alone() -> None:
    some = table(3)
    found = with_pooled_shares(some, ["pitch"], Known({}))
    for at in range(3):
        alone = pooled_rates(some.iloc[[at]])
        assert found.loc[at, ["share", "low", "high"]].tolist() == alone[["share", "low", "high"]].iloc[0].tolist()


def test_groups_of_another_name_are_taught_nothing() -> None:
    learning = Learning()
    with_pooled_shares(table(60), ["pitch"], learning.about("results"))
    assert [*learning.learned] == ["results: slider"]
    curve = table(2, "curve")
    found = with_pooled_shares(curve, ["pitch"], Known(learning.learned).about("results"))
    pd.testing.assert_frame_equal(found, with_pooled_shares(curve, ["pitch"], Known({})))
