"""Speed bands against numpy, the drop against least squares of statsmodels."""

import numpy as np
import pandas as pd
import pytest
import statsmodels.formula.api as smf
from measures.rows import frame, seasonal

from scoutgen.measures.speeds import speed_bands, speed_by_inning, speed_drop

MAN = {"pitcher": "reyes", "pitcher_team": "harbor"}


def outings(games: int, seed: int, drop: float = 1.5) -> pd.DataFrame:
    rng = np.random.default_rng(seed)
    game = np.repeat(np.arange(games), 80)
    inning = np.tile(np.repeat(np.arange(1, 9), 10), games)
    speed = 90 + rng.normal(0, 2, games)[game] - drop * (inning >= 5) + rng.normal(0, 1.2, len(game))
    return seasonal("pitches", {
        "game": np.char.add("g", game.astype(str)), "date": "2026-03-06", "inning": inning, "pitch": "fastball",
        "speed_mph": speed, "pitcher": "reyes", "pitcher_team": "harbor",
    })  # fmt: skip


def test_bands_against_numpy() -> None:
    speeds = [88.1, 90.4, 91.0, 91.7, 92.3, 94.0]
    pitches = frame("pitches", *[{"speed_mph": v} for v in speeds], {}, pitch="sinker", **MAN)
    found = speed_bands(pitches).iloc[0]
    assert found["n"] == 6
    np.testing.assert_allclose(
        found[["p10_mph", "median_mph", "p90_mph"]].astype(float), np.quantile(speeds, [0.1, 0.5, 0.9])
    )


def test_innings_are_of_the_most_used_hard_pitch() -> None:
    pitches = frame(
        "pitches",
        *[{"pitch": "sinker", "speed_mph": v, "inning": i} for v, i in ((91.0, 1), (92.0, 1), (90.0, 5))],
        *[{"pitch": "fastball", "speed_mph": 94.0, "inning": 1} for _ in range(2)],
        *[{"pitch": "curve", "speed_mph": 78.0, "inning": 1} for _ in range(9)],
        **MAN,
    )
    table = speed_by_inning(pitches)
    assert table[["pitch", "inning", "n", "median_mph"]].to_numpy().tolist() == [
        ["sinker", 1, 2, 91.5],
        ["sinker", 5, 1, 90.0],
    ]


def test_of_two_hard_pitches_as_used_the_first_named_counts() -> None:
    pitches = frame(
        "pitches",
        *[{"pitch": p, "speed_mph": 90.0, "inning": 1} for p in ("cutter", "fastball", "cutter", "fastball")],
        **MAN,
    )
    assert speed_by_inning(pitches)["pitch"].tolist() == ["fastball"]
    assert speed_by_inning(pitches, hard=("cutter", "fastball"))["pitch"].tolist() == ["cutter"]


@pytest.mark.parametrize("games", [1, 2, 6])
def test_drop_is_the_least_squares_estimate(games: int) -> None:
    # Reference: statsmodels' ordinary least squares of speed on game and part of the game.
    pitches = outings(games, seed=games)
    found = speed_drop(pitches).iloc[0]
    data = pitches[(pitches["inning"] <= 2) | (pitches["inning"] >= 5)]
    data = pd.DataFrame(
        {"y": data["speed_mph"], "game": data["game"].astype(str), "early": (data["inning"] <= 2).astype(int)}
    )
    fit = smf.ols("y ~ early + C(game)" if games > 1 else "y ~ early", data).fit()
    assert found["drop_mph"] == pytest.approx(fit.params["early"])
    np.testing.assert_allclose(found[["low", "high"]].astype(float), fit.conf_int(alpha=0.10).loc["early"], rtol=1e-8)
    assert found[["n_early", "n_late", "known"]].tolist() == [20 * games, 40 * games, True]


def test_a_cold_night_is_not_a_tired_arm() -> None:
    # Two games at 92 seen early only, one at 88 seen early and late: only the last can say anything.
    early = [{"game": g, "speed_mph": 92.0, "inning": 1} for g in ("g1", "g2") for _ in range(20)]
    cold = [{"game": "g3", "speed_mph": 88.0 + i % 2, "inning": inning} for inning in (1, 6) for i in range(20)]
    found = speed_drop(frame("pitches", *early, *cold, pitch="fastball", **MAN)).iloc[0]
    assert found["drop_mph"] == 0
    assert (found["n_early"], found["n_late"], found["games"]) == (20, 20, 3)


def test_nothing_is_said_of_a_reliever_or_of_a_handful() -> None:
    late = frame("pitches", *[{"speed_mph": 93.0, "inning": 9}] * 30, pitch="fastball", **MAN)
    found = speed_drop(late).iloc[0]
    assert not found["known"]
    assert np.isnan(found["drop_mph"])
    assert found["n_late"] == 0  # no game has both parts
    few = frame("pitches", *[{"speed_mph": 93.0, "inning": i} for i in (1, 2, 6, 7)], pitch="fastball", **MAN)
    assert not speed_drop(few).iloc[0]["known"]


def test_intervals_of_the_drop_cover_the_truth() -> None:
    men = [outings(3, seed=1000 + man).assign(pitcher=f"p{man}") for man in range(300)]
    pitches = pd.concat(men, ignore_index=True).astype(men[0].dtypes.to_dict() | {"pitcher": "category"})
    table = speed_drop(pitches)
    assert len(table) == 300
    inside = (table["low"] <= 1.5) & (table["high"] >= 1.5)
    assert 0.86 <= inside.mean() <= 0.94
