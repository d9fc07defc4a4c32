"""What holds of k and n whatever was charted: parts make the whole, and a game taken out takes exactly itself."""

from collections.abc import Callable, Iterator, Mapping

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from measures.rows import frame
from properties import few

from scoutgen.measures import tally
from scoutgen.measures.batted import contact
from scoutgen.measures.counts import COUNT_GROUPS, COUNTS
from scoutgen.measures.habits import HABIT_KEYS, habit_rates
from scoutgen.measures.hitting import hitting
from scoutgen.measures.holds import hold_moves
from scoutgen.measures.positions import STOOD_KEYS, shades
from scoutgen.measures.results import RESULT_KEYS, results
from scoutgen.measures.throws import throw_accuracy, throw_results
from scoutgen.measures.times import returns
from scoutgen.measures.usage import usage

Frames = Mapping[str, pd.DataFrame]
# Measures that count, and what names a row of theirs.
COUNTED: dict[str, tuple[Callable[[Frames], pd.DataFrame], list[str]]] = {
    "results": (lambda f: results(f["pitches"]), RESULT_KEYS),
    "contact": (lambda f: contact(f["pitches"]), ["team", "player", "bats", "split", "value", "contact"]),
    "hitting": (lambda f: hitting(f["pitches"]), ["team", "player", "bats", "split", "value", "measure"]),
    "habit_rates": (lambda f: habit_rates(f["habits"]), HABIT_KEYS),
    "hold_moves": (lambda f: hold_moves(f["holds"]), ["team", "player", "move", "split", "value"]),
    "shades": (lambda f: shades(f["positions"]), [*STOOD_KEYS, "toward"]),
    "throw_accuracy": (lambda f: throw_accuracy(f["throws"]), ["team", "player", "to", "warmup", "accuracy"]),
    "throw_results": (lambda f: throw_results(f["throws"]), ["team", "player", "to"]),
    "returns": (lambda f: returns(f["times"]), ["team", "player", "style", "bases"]),
}
GAMES = (("g1", "2026-03-06"), ("g2", "2026-03-13"), ("g3", "2026-03-20"))


def drawn(seed: int) -> dict[str, pd.DataFrame]:
    """Three games of two pitchers and three hitters, and a few looks at everything else, some of it not charted."""
    chance = np.random.default_rng(seed)

    def one(*words: object) -> object:
        return words[int(chance.integers(len(words)))]

    def some(table: str, most: int, make: Callable[[], dict[str, object]]) -> pd.DataFrame:
        found = []
        for game, day in GAMES:
            found += [{"game": game, "date": day, **make()} for _ in range(int(chance.integers(most)))]
        return frame(table, *found)

    men = ("reyes", "vance")
    return {
        "pitches": some("pitches", 40, lambda: {
            "pitcher_team": "harbor", "batter_team": "ridge", "pitcher": one(*men), "batter": one("bo", "cy", None),
            "bats": one("L", "R", None), "balls": one(0, 1, 2, 3, None), "strikes": one(0, 1, 2, None),
            "pitch": one("fastball", "slider", "curve", None),
            "result": one("ball", "foul", "in_play", "in_play", None),
            "contact": one("ground", "fly", "bunt", None), "play": one("out", "single", None, None),
            "direction_deg": one(-30.0, 0.0, 25.0, None), "height": one(1, 3, None), "side": one(2, 4, None),
        }),
        "habits": some("habits", 9, lambda: {
            "team": "harbor", "player": one(*men, None), "position": one(2, 5, None), "seen": one(True, False, None),
            "habit": one("lobs-return", "third-off-bag"), "bases": one("", "3", None),
        }),
        "holds": some("holds", 9, lambda: {
            "team": "harbor", "pitcher": one(*men), "bases": one("1", "2"), "looks": one(0, 1, 2, None),
            "then": one("pitch", "pickoff_1", "step_off"), "balls": one(0, 3, None), "strikes": one(0, 2, None),
        }),
        "positions": some("positions", 9, lambda: {
            "team": "harbor", "position": one(5, 6), "player": one("di", None), "bats": one("L", "R", None),
            "toward": one("line", "middle", None), "bases": one("", "1"), "depth_ft": 120.0,
        }),
        "throws": some("throws", 9, lambda: {
            "team": "harbor", "catcher": one("cy", "bo"), "to": one("2", "3"), "warmup": one(True, None),
            "accuracy": one("on_bag", "high", None), "result": one("out", "safe", "no_play", None),
        }),
        "times": some("times", 9, lambda: {
            "team": "harbor", "player": one("cy", "bo"), "measure": "return_throw", "style": one("lob", "firm", None),
            "bases": one("", "1", None), "seconds": 1.0, "method": "watch",
        }),
    }  # fmt: skip


def part(season: Frames, *games: str) -> dict[str, pd.DataFrame]:
    return {name: rows[rows["game"].isin(games)].reset_index(drop=True) for name, rows in season.items()}


def counts(table: pd.DataFrame, keys: list[str]) -> pd.DataFrame:
    """k and n by what names a row, as texts."""
    named = table[[*keys, "k", "n"]].copy()
    named[keys] = named[keys].astype("object").fillna("").astype("str")
    return named.set_index(keys)[["k", "n"]].astype("int64")


@pytest.fixture(autouse=True, scope="module")
def no_shares() -> Iterator[None]:
    """Counts alone are looked at here; leaning takes nearly all of the time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(tally, "_in_common", lambda *_: np.zeros(0))
        patch.setattr(tally, "_leaning", lambda k, *_: np.full((len(k), 3), 0.5))
        yield


@pytest.mark.parametrize("name", COUNTED)
@few(2)
@given(seed=st.integers(0, 9_999), out=st.sampled_from([game for game, _ in GAMES]))
def test_a_game_dropped_takes_exactly_its_own_k_and_n(name: str, seed: int, out: str) -> None:
    measure, keys = COUNTED[name]
    season = drawn(seed)
    rest = [game for game, _ in GAMES if game != out]
    whole, kept, own = (counts(measure(part(season, *games)), keys) for games in ([out, *rest], rest, [out]))
    assert whole.index.is_unique
    added = kept.add(own, fill_value=0)
    pd.testing.assert_frame_equal(added.reindex(whole.index).astype("int64"), whole)
    assert not set(added.index) - set(whole.index)


@few(2)
@given(seed=st.integers(0, 9_999))
def test_parts_make_the_whole(seed: int) -> None:
    pitches = drawn(seed)["pitches"]
    used = usage(pitches)
    if not len(used):
        return
    cells = used.groupby(["team", "player", "bats", "count"], observed=True)
    np.testing.assert_array_equal(cells["k"].sum(), cells["n"].first())
    np.testing.assert_allclose(cells["share"].sum(), 1, atol=1e-9)
    one_pitch = used.drop_duplicates(["team", "player", "bats", "count"])
    n = one_pitch.pivot_table(values="n", index=["player", "bats"], columns="count", observed=True)
    for group, members in COUNT_GROUPS.items():
        np.testing.assert_array_equal(n[group], n[list(members)].sum(axis=1))
    # Pitches whose count or side was not charted are in "all" alone.
    assert (n["all"] >= n[list(COUNTS)].sum(axis=1)).all()
    by_side = {side: n["all"].xs(side, level="bats") for side in ("all", "L", "R")}
    assert (by_side["all"] >= by_side["L"] + by_side["R"]).all()
    charted = pitches[pitches["pitch"].notna()]
    assert by_side["all"].sum() == len(charted)
    sides_known = charted[charted["bats"].notna() & charted["balls"].notna() & charted["strikes"].notna()]
    assert int(n.loc[n.index.get_level_values("bats") != "all", list(COUNTS)].to_numpy().sum()) == len(sides_known)


@few(1)
@given(seed=st.integers(0, 9_999))
def test_pitches_under_other_names_have_each_other_s_shares(seed: int) -> None:
    pitches = drawn(seed)["pitches"]
    # Names that the trade's usual pitches do not have, so that nothing else is known of either.
    names = {"forkball": "screwball", "screwball": "forkball"}
    pitches = pitches.assign(
        pitch=pitches["pitch"].cat.rename_categories({"fastball": "forkball", "slider": "screwball"})
    )
    swapped = pitches.assign(pitch=pitches["pitch"].cat.rename_categories(names))
    keys = ["team", "player", "bats", "count", "pitch"]
    here, there = (usage(rows).set_index(keys)[["k", "n", "share"]] for rows in (pitches, swapped))
    there.index = pd.MultiIndex.from_tuples(
        [(*key[:-1], names.get(key[-1], key[-1])) for key in there.index], names=keys
    )
    here.index = pd.MultiIndex.from_tuples(list(here.index), names=keys)
    # Their order among the columns of the fit moves a share by some thousandths.
    pd.testing.assert_frame_equal(there.reindex(here.index), here, atol=0.02, rtol=0)
