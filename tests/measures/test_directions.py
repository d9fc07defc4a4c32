"""Directions of batted balls: by hand, in the mirror, and on hitters whose truth is known."""

import numpy as np
import pandas as pd
import pytest
from measures.rows import frame, seasonal

from scoutgen.measures.directions import BINS, CENTRES, FIFTHS, SPRAY_COLUMNS, spray, spray_table


def balls(directions: list[float], *, bats: str = "R", contact: str = "ground", batter: str = "reyes") -> pd.DataFrame:
    rows = [{"direction_deg": d, "bats": bats, "contact": contact, "batter": batter, "strikes": 0} for d in directions]
    return frame("pitches", *rows, batter_team="harbor")


def whole(pitches: pd.DataFrame, player: str = "reyes", kind: str = "ground") -> tuple[pd.Series, np.ndarray]:
    found = spray(pitches)
    units = found.units
    at = units["player"].eq(player) & units["kind"].eq(kind) & units["split"].eq("all")
    (place,) = np.flatnonzero(at.to_numpy())
    return units.iloc[place], found.density[place]


def drawn(men: int, n: int, tilt: float, seed: int = 4) -> tuple[pd.DataFrame, np.ndarray]:
    """Right-handed hitters whose true shares of fifths differ, and those shares."""
    rng = np.random.default_rng(seed)
    league = np.array(FIFTHS["ground"])
    truth = league * np.exp(rng.normal(0, tilt, (men, 1)) * np.linspace(-1, 1, 5))
    truth /= truth.sum(axis=1, keepdims=True)
    fifth = np.array([rng.choice(5, n, p=share) for share in truth])
    direction = -45 + 18 * (fifth + rng.random((men, n)))
    names = np.repeat([f"b{man:03d}" for man in range(men)], n)
    same = {"game": "g1", "date": "2026-03-06", "batter_team": "t", "bats": "R", "contact": "ground", "strikes": 1}
    return seasonal("pitches", {"batter": names, "direction_deg": direction.ravel(), **same}), truth


def test_a_hitter_hardly_seen_is_taken_for_the_others_of_his_side() -> None:
    unit, density = whole(balls([-30.0]))
    assert unit["n"] == 1
    fifths = density.reshape(BINS, 1)[:, 0]
    # Published: 41 % to the third-base side's fifth, 8 % to first's.
    assert fifths[CENTRES < -25].sum() == pytest.approx(0.44, abs=0.04)
    assert fifths[CENTRES > 25].sum() == pytest.approx(0.09, abs=0.03)
    assert density.sum() == pytest.approx(1)


def test_left_handed_hitters_are_right_handed_ones_in_a_mirror() -> None:
    directions = [-40.0, -35.0, -12.0, 3.0, 22.0, -28.0]
    _, right = whole(balls(directions))
    _, left = whole(balls([-d for d in directions], bats="L"))
    np.testing.assert_allclose(left, right[::-1], atol=1e-12)


def test_estimates_are_nearer_the_truth_than_counts_and_than_the_league() -> None:
    pitches, truth = drawn(120, 25, 0.6)
    found = spray(pitches)
    at = found.units["split"].eq("all").to_numpy()
    # Balls left of ten degrees from second base: the first fifth and nearly all of the second.
    left = CENTRES < -10
    pull = truth[:, 0] + truth[:, 1] * 17 / 18
    ours = np.sqrt(((found.density[at] @ left - pull) ** 2).mean())
    raw = np.sqrt(((found.counts[at] @ left / 25 - pull) ** 2).mean())
    league = np.sqrt(((FIFTHS["ground"][0] + FIFTHS["ground"][1] * 17 / 18 - pull) ** 2).mean())
    assert ours < 0.92 * raw
    assert ours < 0.6 * league


# Tilts drawn in steps of fifths are not quite those of the model; with ten balls a man the ends hold.
@pytest.mark.parametrize(("balls", "spread"), [(10, 0.2), (10, 0.4), (10, 0.6), (25, 0.6), (25, 0.9)])
def test_what_is_left_open_holds_the_truth_about_as_often_as_it_says(balls: int, spread: float) -> None:
    pitches, truth = drawn(200, balls, spread)
    found = spray(pitches)
    at = found.units["split"].eq("all").to_numpy()
    shares = found.tilted["ground"] @ (CENTRES < -10)
    order = np.argsort(shares)
    reached = np.cumsum(found.weights[at][:, order], axis=1)
    low, high = (shares[order][np.minimum((reached < tail).sum(axis=1), len(shares) - 1)] for tail in (0.05, 0.95))
    pull = truth[:, 0] + truth[:, 1] * 17 / 18
    assert 0.78 <= ((low <= pull) & (pull <= high)).mean() <= 0.96


def test_more_pulled_balls_never_lower_the_pull_share() -> None:
    shares = []
    for pulled in range(0, 21, 4):
        table = spray_table(spray(balls([-35.0] * pulled + [20.0] * (20 - pulled))))
        shares.append(table[table["split"].eq("all")]["pull"].iloc[0])
    assert shares == sorted(shares)
    assert shares[-1] > shares[0] + 0.2


def test_splits_hold_what_they_name() -> None:
    rows = [
        {"direction_deg": -30.0, "contact": "ground", "strikes": 2},
        {"direction_deg": -20.0, "contact": "fly", "strikes": 0},
        {"direction_deg": 10.0, "contact": "line", "strikes": 2},
        {"direction_deg": 10.0, "contact": "bunt", "strikes": 0},
        {"direction_deg": None, "contact": "ground", "strikes": 0},
    ]
    pitches = frame("pitches", *rows, batter="reyes", batter_team="harbor", bats="R").assign(
        throws=["L", "R", "R", "L", "L"]
    )
    table = spray_table(spray(pitches))
    assert list(table.columns) == SPRAY_COLUMNS
    n = table.set_index(["kind", "split", "value"])["n"].to_dict()
    assert n == {
        ("ground", "all", "all"): 1, ("air", "all", "all"): 2, ("ground", "hand", "L"): 1, ("air", "hand", "R"): 2,
        ("ground", "strikes", "two"): 1, ("air", "strikes", "early"): 1, ("air", "strikes", "two"): 1,
    }  # fmt: skip
    np.testing.assert_allclose(table[["pull", "middle", "other"]].sum(axis=1), 1)
    assert table["held"].between(0, 1).all()


def test_nothing_hit_leaves_no_rows() -> None:
    found = spray(frame("pitches"))
    assert not len(found.units)
    assert found.density.shape == (0, BINS)
    assert list(spray_table(found).columns) == SPRAY_COLUMNS
