"""Looks, hold times and throws over, worked out by hand."""

import numpy as np
import pandas as pd
import pytest
from measures.rows import frame
from statsmodels.stats.proportion import proportion_confint

from scoutgen.measures.holds import LOOKS, hold_moves, hold_times, looks, slide_steps

MAN = {"team": "harbor", "pitcher": "reyes"}


def row(table: pd.DataFrame, **keys: object) -> pd.Series:
    for key, value in keys.items():
        table = table[table[key].eq(value)]
    assert len(table) == 1, f"{len(table)} rows for {keys}"
    return table.iloc[0]


def test_looks_by_hand() -> None:
    holds = frame(
        "holds", *[{"looks": n, "bases": "2"} for n in (2, 1, 2, 3)], {"looks": 0, "bases": "1"}, {"bases": "1"}, **MAN
    )
    table = looks(holds)
    second = row(table, bases="2")
    assert (second["n"], second["mode"], second["k_mode"], second["maximum"]) == (4, 2, 2, 3)
    assert second["mean"] == 2.0
    assert second[LOOKS].tolist() == [0, 1, 2, 1, 0, 0, 0, 0, 0, 0]
    whole = row(table, bases="all")
    assert whole["n"] == 5
    assert whole[LOOKS].sum() == 5


def test_of_two_numbers_as_common_the_smaller_is_named() -> None:
    holds = frame("holds", *[{"looks": n, "bases": "1"} for n in (3, 1, 3, 1)], **MAN)
    assert row(looks(holds), bases="1")["mode"] == 1


@pytest.mark.parametrize(
    ("numbers", "pattern"),
    [
        ({0: 15, 1: 7, 2: 13, 3: 13}, False),  # the commonest is under a third of the sets
        ({0: 1, 1: 3, 2: 25, 3: 1}, True),
        ({1: 26, 2: 22}, False),  # half and more, but five sets could turn it
        ({1: 27, 0: 10, 2: 12, 3: 11}, False),  # clear of the next, but wrong more often than right
        ({2: 2}, False),  # twice is no pattern
        ({2: 3}, True),
    ],
)
def test_a_mode_is_a_pattern_only_where_it_is_half_of_the_sets_and_clear_of_the_next(
    numbers: dict[int, int], pattern: bool
) -> None:
    sets = [{"looks": number} for number, times in numbers.items() for _ in range(times)]
    found = row(looks(frame("holds", *sets, bases="2", **MAN)), bases="2")
    assert found["pattern"] == pattern
    assert (found["minimum"], found["maximum"]) == (min(numbers), max(numbers))


def test_the_low_end_of_a_clear_mode_against_a_reference_library() -> None:
    # statsmodels' Wilson interval of 18 of 25 reaches down to .555, over the 7 of 25 of the next number.
    low, _ = proportion_confint(18, 25, alpha=0.10, method="wilson")
    assert low > 7 / 25
    sets = [{"looks": 2}] * 18 + [{"looks": 1}] * 7
    assert row(looks(frame("holds", *sets, bases="2", **MAN)), bases="2")["pattern"]
    low, _ = proportion_confint(14, 25, alpha=0.10, method="wilson")
    assert low < 11 / 25
    sets = [{"looks": 2}] * 14 + [{"looks": 1}] * 11
    assert not row(looks(frame("holds", *sets, bases="2", **MAN)), bases="2")["pattern"]


def test_hold_times_against_numpy() -> None:
    seconds = [0.8, 1.1, 1.2, 1.9, 2.4]
    holds = frame("holds", *[{"hold_seconds": s, "bases": "1"} for s in seconds], **MAN)
    found = row(hold_times(holds), bases="1")
    assert found["median"] == 1.2
    np.testing.assert_allclose(found[["p10", "p90"]].astype(float), np.quantile(seconds, [0.1, 0.9]))
    assert found["sd"] == pytest.approx(np.std(seconds, ddof=1))
    assert found["variation"] == pytest.approx(np.std(seconds, ddof=1) / np.mean(seconds))
    assert (found["shortest"], found["longest"]) == (0.8, 2.4)


def test_a_beat_is_regular_or_not_only_from_enough_holds() -> None:
    def regular(*seconds: float) -> bool | None:
        holds = frame("holds", *[{"hold_seconds": s, "bases": "1"} for s in seconds], **MAN)
        found = row(hold_times(holds), bases="1")["regular"]
        return None if pd.isna(found) else bool(found)

    assert regular(*[1.0, 1.1] * 4) is True
    assert regular(*[0.6, 1.6] * 4) is False
    assert regular(*[1.0, 1.1] * 3, 1.0) is None
    # Of a mean of nothing no part can be told.
    assert regular(*[0.0] * 8) is None


def test_throws_over_are_counted_of_the_times_a_runner_stood_there() -> None:
    holds = frame(
        "holds",
        {"bases": "1", "then": "pickoff_1", "looks": 0, "balls": 0, "strikes": 0},
        {"bases": "1", "then": "pitch", "looks": 1, "balls": 1, "strikes": 2},
        {"bases": "12", "then": "pickoff_2", "looks": 2, "balls": 0, "strikes": 2},
        {"bases": "2", "then": "step_off", "looks": 4},
        {"bases": "2", "then": "balk"},
        {"bases": "", "then": "pitch"},  # nobody on: not a hold
        **MAN,
    )
    table = hold_moves(holds)
    kn = {tuple(key): (k, n) for *key, k, n in table[["move", "split", "value", "k", "n"]].itertuples(index=False)}
    assert kn[("pickoff", "all", "all")] == (2, 5)
    assert kn[("pickoff_1", "all", "all")] == (1, 3)
    assert kn[("pickoff_2", "all", "all")] == (1, 3)
    assert ("pickoff_3", "all", "all") not in kn  # nobody ever stood on third
    assert kn[("step_off", "all", "all")] == (1, 5)
    assert kn[("balk", "all", "all")] == (1, 5)
    assert kn[("pickoff_1", "bases", "1")] == (1, 2)
    assert kn[("pickoff_1", "bases", "12")] == (0, 1)
    # 0-2 and 1-2: the pitcher is ahead, and there are two strikes.
    assert kn[("pickoff_1", "count", "ahead")] == (0, 2)
    assert kn[("pickoff_1", "count", "two strikes")] == (0, 2)
    assert kn[("pickoff_1", "count", "first pitch")] == (1, 1)
    assert kn[("pickoff", "looks", "0")] == (1, 1)
    assert kn[("step_off", "looks", "3+")] == (1, 1)
    # Four of the five had their looks counted.
    assert sum(n for (move, split, _), (_, n) in kn.items() if (move, split) == ("balk", "looks")) == 4


def test_each_split_keeps_its_own_order() -> None:
    holds = frame(
        "holds",
        *[{"bases": b, "looks": n, "then": "pitch"} for b, n in (("12", 3), ("3", 0), ("1", 2), ("2", 1))],
        **MAN,
    )
    table = hold_moves(holds)
    balks = table[table["move"].eq("balk")]
    assert balks.loc[balks["split"].eq("bases"), "value"].tolist() == ["1", "2", "3", "12"]
    assert balks.loc[balks["split"].eq("looks"), "value"].tolist() == ["0", "1", "2", "3+"]


def test_slide_step_share_is_of_pitches_whose_style_was_charted() -> None:
    holds = frame(
        "holds",
        {"bases": "1", "then": "pitch", "style": "slide_step"},
        {"bases": "1", "then": "pitch", "style": "stretch"},
        {"bases": "2", "then": "pitch", "style": "stretch"},
        {"bases": "1", "then": "pickoff_1", "style": "slide_step"},
        {"bases": "1", "then": "pitch"},
        **MAN,
    )
    table = slide_steps(holds)
    assert row(table, bases="all")[["k", "n"]].tolist() == [1, 3]
    assert row(table, bases="1")[["k", "n"]].tolist() == [1, 2]
    assert row(table, bases="2")[["k", "n"]].tolist() == [0, 1]
