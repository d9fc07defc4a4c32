"""Slow pitches by count, by hand and by arithmetic."""

import pandas as pd
import pytest
from league.mixes import draw_league, throw

from scoutgen.measures.slow_counts import SLOW_COLUMNS, flight_seconds, slow_counts
from scoutgen.measures.speeds import HARD


@pytest.fixture(scope="module")
def pitches() -> pd.DataFrame:
    thrown = throw(draw_league(4), 5, concentration=14)
    slow = ~thrown["pitch"].isin(HARD)
    return thrown.assign(speed_mph=slow.map({True: 78.0, False: 91.0}))


# A pitch of 90 mph is in the air for about four tenths of a second (widely published; from memory).
def test_a_fastball_takes_four_tenths() -> None:
    assert flight_seconds(90) == pytest.approx(0.44, abs=0.03)
    assert flight_seconds(75) - flight_seconds(90) == pytest.approx(0.09, abs=0.02)


def test_what_is_not_hard_is_slow(pitches: pd.DataFrame) -> None:
    found = slow_counts(pitches)
    assert list(found.columns) == SLOW_COLUMNS
    own = pitches[pitches["pitcher"] == pitches["pitcher"].cat.categories[2]]
    rows = found[found["player"] == pitches["pitcher"].cat.categories[2]].set_index("count")
    assert len(rows) > 12
    slow = ~own["pitch"].isin(HARD)
    assert (rows["k"]["all"], rows["n"]["all"]) == (slow.sum(), len(own))
    two = own["balls"].eq(0) & own["strikes"].eq(2)
    assert (rows["k"]["0-2"], rows["n"]["0-2"]) == ((slow & two).sum(), two.sum())
    assert (found["low"] <= found["share"]).all()
    assert (found["share"] <= found["high"]).all()
    assert found["later_s"].to_numpy() == pytest.approx(flight_seconds(78) - flight_seconds(91))


def test_never_timed_is_not_known_and_nothing_charted_leaves_no_rows(pitches: pd.DataFrame) -> None:
    assert slow_counts(pitches.assign(speed_mph=float("nan")))["later_s"].isna().all()
    assert not len(slow_counts(pitches.iloc[:0]))
