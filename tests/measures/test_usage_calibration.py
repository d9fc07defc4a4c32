"""Do the intervals of usage hold what they promise, where the truth is known?"""

import pandas as pd
import pytest
from league.mixes import COUNTS, KINDS, PITCHES, draw_league, throw
from league.scoring import nats_per_pitch

from scoutgen.measures.mix import learn_mix
from scoutgen.measures.usage import usage


def with_truth(games: int, concentration: float | None, *, pitchers: int = 60, seed: int = 7) -> pd.DataFrame:
    """Cells of side and count, with the true share and whether the interval holds it; pitches he throws only."""
    league = draw_league(pitchers, seed=seed)
    pitches = throw(league, games, concentration=concentration, seed=seed + 50)
    used = usage(pitches, mix=learn_mix(pitches))
    cells = used[used["bats"].isin(["L", "R"]) & used["count"].isin(COUNTS) & used["pitch"].isin(PITCHES)]
    player = cells["player"].cat.codes.to_numpy()
    cell = (cells["bats"] == "R").to_numpy() * 12 + cells["count"].astype(str).map(COUNTS.index).to_numpy(dtype=int)
    truth = league.truth[player, cell, cells["pitch"].astype(str).map(PITCHES.index).to_numpy(dtype=int)]
    out = cells.assign(
        truth=truth, covered=(cells["low"] <= truth) & (truth <= cells["high"]), kind=league.kinds[player]
    )
    return out[out["truth"] > 0]


@pytest.mark.parametrize("concentration", [None, 14.0])
@pytest.mark.parametrize("games", [4, 12])
def test_ninety_percent_intervals_cover_the_truth(games: int, concentration: float | None) -> None:
    cells = with_truth(games, concentration)
    assert 0.86 <= cells["covered"].mean() <= 0.94
    thin, thick = cells[cells["n"] <= 6], cells[cells["n"] >= 20]
    assert len(thin) > 250
    assert len(thick) > 250
    assert 0.84 <= thin["covered"].mean() <= 0.96
    assert 0.84 <= thick["covered"].mean() <= 0.96


def test_no_kind_of_pitcher_is_left_out_of_the_promise() -> None:
    cells = with_truth(8, 14.0)
    by_kind = cells.groupby("kind")["covered"].mean()
    assert set(by_kind.index) == set(KINDS)
    assert by_kind.between(0.82, 0.97).all()


def test_more_games_make_narrower_intervals() -> None:
    few, many = (with_truth(games, 14.0, pitchers=20) for games in (3, 20))
    assert (many["high"] - many["low"]).mean() < 0.7 * (few["high"] - few["low"]).mean()


@pytest.mark.parametrize("kind", KINDS)
def test_no_kind_of_pitcher_is_foretold_much_worse_than_by_counting(kind: str) -> None:
    league = draw_league(5, kinds=[kind], seed=9)
    pitches = throw(league, 16, concentration=14.0, seed=3)
    columns = ("overall", "side", "count", "side and count", "usage")
    scores = []
    for player in pitches["pitcher"].cat.categories:
        own = pitches[pitches["pitcher"] == player].reset_index(drop=True)
        scores.append({column: nats_per_pitch(own, 3, column) for column in columns})
    mean = pd.DataFrame(scores).mean()
    # Counting in the cells that happen to suit him best needs to know which those are.
    assert mean["usage"] < mean.drop("usage").min() + 0.03
    assert mean["usage"] < mean.drop("usage").mean()


def test_the_simulated_games_stray_as_a_dirichlet_of_that_concentration() -> None:
    league = draw_league(1, kinds=["reliever"], seed=3)
    # One count of one cell, many games: the share's variance is p (1 - p) / (concentration + 1).
    pitches = throw(league, 3000, batters=27, concentration=14.0)
    first = pitches[(pitches["balls"] == 0) & (pitches["strikes"] == 0) & (pitches["bats"] == "R")]
    games = first.groupby("game", observed=True)["pitch"].agg([lambda x: (x == "fastball").sum(), "size"])
    k, n = games.iloc[:, 0].to_numpy(), games.iloc[:, 1].to_numpy()
    p = league.truth[0, 12, 0]
    assert (k / n).mean() == pytest.approx(p, abs=0.01)
    pairs = (k * (k - 1)).sum() / (n * (n - 1)).sum()
    assert (pairs - p**2) / (p * (1 - p)) == pytest.approx(1 / 15, abs=0.012)
