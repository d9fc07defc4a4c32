"""Pooled rates against published shrinkage and against steals of 2019."""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from scipy import optimize, stats

from scoutgen.measures.pooling import pool, pooled_rates

HERE = Path(__file__).parent

# Efron and Morris, Stein's paradox in statistics, Scientific American 236(5) (1977); data of JASA 70 (1975), table 1
# (from memory; the factor below confirms it).
HITS = np.array([18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7])
AT_BATS = 45
REST_OF_SEASON = np.array(
    [
        0.346,
        0.298,
        0.276,
        0.222,
        0.273,
        0.270,
        0.263,
        0.210,
        0.269,
        0.230,
        0.264,
        0.256,
        0.303,
        0.264,
        0.226,
        0.285,
        0.316,
        0.200,
    ]
)


def james_stein() -> tuple[float, np.ndarray]:
    averages = HITS / AT_BATS
    grand = averages.mean()
    factor = 1 - (len(HITS) - 3) * grand * (1 - grand) / AT_BATS / ((averages - grand) ** 2).sum()
    return float(factor), grand + factor * (averages - grand)


def test_the_data_give_the_factor_published() -> None:
    factor, estimates = james_stein()
    assert factor == pytest.approx(0.212, abs=0.001)
    assert estimates[0] == pytest.approx(0.294, abs=0.001)
    assert estimates[-1] == pytest.approx(0.242, abs=0.001)


def test_pooling_agrees_with_the_published_estimates() -> None:
    _, estimates = james_stein()
    shares = pooled_rates(pd.DataFrame({"k": HITS, "n": AT_BATS}))["share"].to_numpy()
    # Theirs transforms and plugs in one factor, ours averages over strengths: the same to within ten points of average.
    np.testing.assert_allclose(shares, estimates, atol=0.010)


def test_pooling_foretells_the_rest_of_the_season_as_well_as_published() -> None:
    shares = pooled_rates(pd.DataFrame({"k": HITS, "n": AT_BATS}))["share"].to_numpy()
    raw = ((HITS / AT_BATS - REST_OF_SEASON) ** 2).sum()
    assert raw / ((shares - REST_OF_SEASON) ** 2).sum() > 3.0  # 3.5 for the estimator of 1977


def test_the_strength_does_not_run_away_with_few_units() -> None:
    # Maximising the marginal likelihood alone gives 793 here; James and Stein's factor means about 170.
    assert 60 < pool(HITS, np.full(len(HITS), AT_BATS)).strength < 250
    # Units that agree to the last digit would send a maximum to infinity.
    assert pool([5, 5, 5], [10, 10, 10]).strength < 200


# Retrosheet, 2019 (see README.md beside): strengths by maximum likelihood 47 for catchers, 20 for pitchers.
@pytest.mark.parametrize(("who", "strength"), [("catcher", 47), ("pitcher", 20)])
def test_steals_of_2019(who: str, strength: float) -> None:
    steals = pd.read_csv(HERE / f"sb_by_{who}_2019_anon.csv")
    k, n = steals["sb"].to_numpy(), steals["n"].to_numpy()

    def minus_log_likelihood(place: np.ndarray) -> float:
        mean, size = 1 / (1 + np.exp(-place[0])), np.exp(place[1])
        return -float(stats.betabinom.logpmf(k, n, mean * size, (1 - mean) * size).sum())

    best = optimize.minimize(minus_log_likelihood, [1.0, 3.0], method="Nelder-Mead").x
    assert np.exp(best[1]) == pytest.approx(strength, rel=0.1)
    found = pool(k, n)
    assert found.strength == pytest.approx(np.exp(best[1]), rel=0.2)
    assert found.mean == pytest.approx(1 / (1 + np.exp(-best[0])), abs=0.005)


def test_intervals_cover_units_drawn_from_a_known_pool() -> None:
    rng = np.random.default_rng(1977)
    covered = []
    for _ in range(60):
        truth = rng.beta(0.3 * 25, 0.7 * 25, size=40)
        n = rng.integers(1, 60, size=40)
        rates = pooled_rates(pd.DataFrame({"k": rng.binomial(n, truth), "n": n}))
        covered.append(((rates["low"] <= truth) & (truth <= rates["high"])).mean())
    assert 0.86 <= np.mean(covered) <= 0.94


def test_groups_do_not_lean_on_each_other_and_rows_keep_their_place() -> None:
    frame = pd.DataFrame(
        {"k": [9, 0, 8, 1, 0], "n": [10, 10, 10, 10, 0], "kind": list("abaab"), "who": list("vwxyz")},
        index=[7, 3, 5, 1, 0],
    )
    rates = pooled_rates(frame, within=["kind"])
    assert rates.index.tolist() == frame.index.tolist()
    assert rates["who"].tolist() == frame["who"].tolist()
    alone = pooled_rates(frame[frame["kind"] == "a"])
    pd.testing.assert_frame_equal(rates[rates["kind"] == "a"], alone)
    # A unit nobody looked at has its group's rate, and a wide interval.
    assert rates.loc[0, "share"] == pytest.approx(rates.loc[0, "pool_share"], abs=1e-6)
    assert rates.loc[0, "high"] > rates.loc[3, "high"]


def test_an_empty_frame_stays_empty() -> None:
    rates = pooled_rates(pd.DataFrame({"k": [], "n": []}))
    assert rates.columns.tolist() == ["k", "n", "share", "low", "high", "pool_share", "pool_strength"]
    assert not len(rates)


def test_more_seen_than_looked_is_refused() -> None:
    with pytest.raises(ValueError, match="between 0 and n"):
        pooled_rates(pd.DataFrame({"k": [3], "n": [2]}))
