"""Usage on a real pitcher: from his last starts to the next, better than counting and than a logit."""

import numpy as np
import pandas as pd
import pytest
from league.scoring import COLUMNS, PUBLISHED, STARTS, nats_per_pitch, real_folder, real_pitches, trials

from scoutgen.measures.counts import COUNT_GROUPS, COUNTS
from scoutgen.measures.mix_tables import count_pitches
from scoutgen.measures.usage import _in_labels, usage

pytestmark = pytest.mark.skipif(
    real_folder() is None, reason="no real pitches here: set SCOUTGEN_REALDATA to the folder that has them"
)


@pytest.fixture(scope="module")
def pitches() -> pd.DataFrame:
    folder = real_folder()
    assert folder is not None
    return real_pitches(folder)


@pytest.mark.parametrize("starts", STARTS)
@pytest.mark.parametrize("column", ["overall", "count", "side and count"])
def test_the_classical_scores_are_those_published(pitches: pd.DataFrame, starts: int, column: str) -> None:
    assert nats_per_pitch(pitches, starts, column) == pytest.approx(PUBLISHED.loc[starts, column], abs=0.0011)


@pytest.mark.parametrize("starts", STARTS)
def test_usage_beats_every_column_published_and_worked_out_here(pitches: pd.DataFrame, starts: int) -> None:
    ours = nats_per_pitch(pitches, starts, "usage")
    assert ours < PUBLISHED.loc[starts].min()
    assert ours < min(nats_per_pitch(pitches, starts, column) for column in COLUMNS[:-1])


@pytest.mark.parametrize("half", ["first", "last"])
def test_either_half_of_his_starts_says_so_too(pitches: pd.DataFrame, half: str) -> None:
    # Every start is tried here, two thirds of which the table above leaves out.
    games = pitches["game"].drop_duplicates()
    own = pitches[pitches["game"].isin(games[:50] if half == "first" else games[50:])].reset_index(drop=True)
    for starts in (2, 5):
        ours = nats_per_pitch(own, starts, "usage", every=1)
        counted = [nats_per_pitch(own, starts, column, every=1) for column in COLUMNS[:4]]
        assert ours < min(counted)


@pytest.mark.parametrize("starts", [3, 5, 8])
def test_ninety_percent_intervals_for_the_next_game_cover_it(pitches: pd.DataFrame, starts: int) -> None:
    parts = []
    for trial in trials(pitches, starts, every=2):
        used = usage(trial.before)
        k = _in_labels(count_pitches(trial.after).thrown())
        n = np.broadcast_to(k.sum(axis=2, keepdims=True), k.shape)
        seen = used.groupby("pitch", observed=True)["k"].transform("max") > 0
        parts.append(used.assign(next_k=k.ravel(), next_n=n.ravel())[seen & (n.ravel() > 0)])
    rows = pd.concat(parts)
    share = rows["next_k"] / rows["next_n"]
    covered = (rows["tonight_low"] <= share) & (share <= rows["tonight_high"])
    sides, whole = rows["bats"] != "all", rows["count"] == "all"
    groups, cells = rows["count"].isin(list(COUNT_GROUPS)), rows["count"].isin(COUNTS)
    looked_at = {
        "all": whole & ~sides,
        "by side": whole & sides & (rows["next_n"] >= 5),
        "by group": groups & ~sides & (rows["next_n"] >= 5),
        "five or more": rows["next_n"] >= 5,
        "ten or more": rows["next_n"] >= 10,
        "cells of five or more": cells & sides & (rows["next_n"] >= 5),
    }
    coverage = {name: covered[which].mean() for name, which in looked_at.items()}
    assert all(0.85 <= share <= 0.95 for share in coverage.values()), coverage
