"""The tidy table of shares, and what the tables of pitches say of when a thing came up."""

import numpy as np
import pandas as pd

from scoutgen.measures.counts import BATS
from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_tables import MixTables, count_pitches
from scoutgen.measures.share_ends import ShareEnds
from scoutgen.measures.share_rows import share_rows

LABELS = ("early", "late")


def tables() -> MixTables:
    """Two men of one team; the first threw in two games, the second in one without a date."""
    thrown = [
        ("one", "2026-03-01", "abel", "fastball"),
        ("one", "2026-03-01", "abel", "slider"),
        ("two", "2026-03-08", "abel", "fastball"),
        ("three", None, "baker", "curve"),
    ]
    frame = pd.DataFrame(thrown, columns=["game", "date", "pitcher", "pitch"])
    frame["date"] = pd.to_datetime(frame["date"])
    return count_pitches(frame.assign(pitcher_team="harbor", bats="R", balls=0, strikes=0))


def numbered(*shape: int) -> Floats:
    return np.arange(np.prod(shape), dtype=np.float64).reshape(shape)


def test_each_number_stands_in_the_row_of_its_place() -> None:
    found = tables()
    words = found.vocabulary
    shape = (2, len(BATS) * len(LABELS), len(words))
    values = numbered(*shape)
    n = numbered(*shape[:2])
    came_up = np.ones((3, shape[1]), dtype=bool)
    ends = ShareEnds(values / 1e3, values / 1e2, values / 1e4, values / 1e1)
    rows = share_rows(found, "when", LABELS, k=values, n=n, share=values / 2, ends=ends, seen=found.seen(came_up))
    assert len(rows) == values.size
    place = {"player": ["abel", "baker"], "bats": list(BATS), "when": list(LABELS), "pitch": list(words)}
    for row in rows.sample(40, random_state=5).to_dict("records"):
        player, bats, when, pitch = (places.index(row[name]) for name, places in place.items())
        at = values[player, bats * len(LABELS) + when, pitch]
        assert row["k"] == at
        assert row["n"] == n[player, bats * len(LABELS) + when]
        np.testing.assert_allclose(
            [row[name] for name in ("share", "low", "high", "tonight_low", "tonight_high")],
            [at / 2, at / 1e3, at / 1e2, at / 1e4, at / 1e1],
        )
        assert row["games"] == (2, 1)[player]
    assert rows.columns.tolist()[:5] == ["team", "player", "bats", "when", "pitch"]


def test_a_thing_is_last_seen_in_the_last_game_it_came_up_in() -> None:
    found = tables().seen(np.array([[True, True, False], [False, True, False], [True, True, True]]))
    assert found.games.tolist() == [[1, 2, 0], [1, 1, 1]]
    first, second = pd.DatetimeIndex(found.last[0]), pd.DatetimeIndex(found.last[1])
    assert first[:2].strftime("%Y-%m-%d").tolist() == ["2026-03-01", "2026-03-08"]
    assert pd.isna(first[2])
    # A game without a date is a game, of no day.
    assert second.isna().all()
