from math import sqrt

import numpy as np
import pytest
from scipy import stats

from scoutgen.measures.moved import better_known, moved


def test_a_number_moves_only_out_of_what_was_printed_and_with_more_charted() -> None:
    assert moved(0.41, 0.68, 0.70, old_n=29, n=50)
    assert moved(0.41, 0.68, 0.40, old_n=29, n=50)
    assert not moved(0.41, 0.68, 0.68, old_n=29, n=50), "its end belongs to it"
    assert not moved(0.41, 0.68, 0.70, old_n=29, n=29), "a row mended is no news of the man"
    assert not moved(0.41, 0.68, 0.70, old_n=29, n=20)


@pytest.mark.parametrize("missing", [{"low": None}, {"high": None}, {"estimate": None}])
def test_from_nothing_nothing_moves(missing: dict[str, None]) -> None:
    given = {"low": 0.4, "high": 0.6, "estimate": 0.9, **missing}
    assert not moved(**given, old_n=5, n=50)


# The docstring's figures by the normal distribution (any table): the old looks are among the new ones, so the two
# estimates differ with the variance of 1 / old_n - 1 / n.
def test_the_rule_cries_wolf_as_seldom_as_its_reason_says() -> None:
    z = stats.norm.ppf(0.95)

    def new_out_of_old(times: float) -> float:
        return float(2 * stats.norm.sf(z / sqrt(1 - 1 / times)))

    def old_out_of_new(times: float) -> float:
        return float(2 * stats.norm.sf(z / sqrt(times - 1)))

    assert new_out_of_old(2) == pytest.approx(0.02, abs=0.001)
    assert old_out_of_new(2) == pytest.approx(0.10, abs=0.001)
    assert old_out_of_new(4) == pytest.approx(0.34, abs=0.005)
    assert new_out_of_old(6 / 5) < 0.001
    assert new_out_of_old(1000) < 0.10


def test_of_men_who_do_the_same_as_before_few_numbers_move() -> None:
    chance = np.random.default_rng(20260409)
    old_n, n, share = 80, 160, 0.5
    old = chance.binomial(old_n, share, 4000)
    new = (old + chance.binomial(n - old_n, share, 4000)) / n
    half = stats.norm.ppf(0.95) * np.sqrt(share * (1 - share) / old_n)
    out = [moved(k / old_n - half, k / old_n + half, p, old_n=old_n, n=n) for k, p in zip(old, new, strict=True)]
    assert 0.005 < np.mean(out) < 0.04
    # One who throws it a third more often is told of in most cases.
    other = (old + chance.binomial(n - old_n, 0.85, 4000)) / n
    told = [moved(k / old_n - half, k / old_n + half, p, old_n=old_n, n=n) for k, p in zip(old, other, strict=True)]
    assert np.mean(told) > 0.9


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("thin", "lean", True), ("", "firm", True), ("thin", "thin", False), ("lean", "firm", False),
        ("firm", "thin", False), ("thin", "", False),
    ],
)  # fmt: skip
def test_better_known_is_what_was_too_thin_for_a_number(old: str, new: str, told: bool) -> None:
    assert better_known(old, new) is told
