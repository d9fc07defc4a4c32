"""Levels of the infield: known hitters, the mirror, and what more pull must do."""

import numpy as np
import pandas as pd
import pytest
from measures.rows import frame

from scoutgen.measures.directions import CENTRES, TILTS, spray
from scoutgen.measures.infield_levels import infield_levels, out_chances, reach_ft, seams
from scoutgen.measures.standing import FEW_BALLS, LEVEL_COLUMNS, Choice, choose, settings
from scoutgen.measures.stands import at_level, field_of
from scoutgen.records.positioning import FielderReach, Levels

FIELD = field_of(Levels())
LEVELS = len(FIELD.infield)


def pulled(share: float) -> np.ndarray:
    """A right-handed hitter's density with so much on the left third, spread within the thirds as the league's is."""
    league = np.interp(CENTRES, np.linspace(-36, 36, 5), [0.412, 0.259, 0.127, 0.124, 0.078])
    left = CENTRES < -15
    density = np.where(left, league / league[left].sum() * share, league / league[~left].sum() * (1 - share))
    return density / density.sum()


def chosen(density: np.ndarray, spread: float = 0.0) -> Choice:
    """The level for a hitter whose tilt is known to so much; spread 0: known for sure."""
    tilted = density * np.exp(-TILTS[:, None] * CENTRES / 45)
    tilted /= tilted.sum(axis=1, keepdims=True)
    weights = np.exp(-0.5 * (TILTS / max(spread, 1e-3)) ** 2)
    chances = {each: out_chances(at_level(FIELD.infield, *each), 4.3, FIELD.reach) for each in settings(LEVELS)}
    return choose(weights / weights.sum(), tilted, chances)


def outs(density: np.ndarray, level: int, side: str) -> float:
    return float(density @ out_chances(at_level(FIELD.infield, level, side), 4.3, FIELD.reach))


# About three ground balls in four are outs (common knowledge of the big leagues, from memory).
def test_a_usual_hitters_ground_balls_are_outs_three_times_in_four_straight_up() -> None:
    assert outs(pulled(0.62), 1, "") == pytest.approx(0.76, abs=0.03)


@pytest.mark.parametrize("share", [0.25, 0.62, 0.75, 0.85, 0.95])
def test_a_hitter_known_well_gets_the_level_that_is_best_for_him(share: float) -> None:
    density = pulled(share)
    made = chosen(density)
    best = max(outs(density, each, side) for each in range(1, LEVELS + 1) for side in ("pull", "other"))
    # Within a ball in a hundred the lower level is taken.
    assert made.outs > best - 0.0101
    assert made.outs == pytest.approx(outs(density, made.level, made.side))
    assert made.straight == pytest.approx(outs(density, 1, ""))


def test_more_pull_never_lowers_the_level() -> None:
    for spread in (0.0, 0.2, 0.4):
        made = [chosen(pulled(share), spread) for share in np.linspace(0.4, 0.97, 30)]
        levels = [each.level if each.side != "other" else -each.level for each in made]
        assert levels == sorted(levels)
        assert levels[0] == 1
        assert levels[-1] >= 3


def test_a_hitter_the_other_way_is_played_the_other_way() -> None:
    made = chosen(pulled(0.95)[::-1])
    assert made.side == "other"
    assert made.level >= 3


def test_a_quicker_man_covers_more_and_a_corner_no_more_than_at_his_bag() -> None:
    straight = FIELD.infield[0, :, 1]
    usual = reach_ft(straight, FielderReach())
    # Thirteen feet at third, twenty-three at shortstop: common practice, memory.
    assert usual == pytest.approx([13, 23, 23, 13], abs=0.7)
    assert (reach_ft(straight, FielderReach(infield_fps=25.0)) > usual).all()
    deep = reach_ft(straight + 30, FielderReach())
    assert deep[1] > usual[1] + 5
    assert deep[3] == pytest.approx(usual[3], abs=0.5)


def test_little_known_stays_straight_up_and_says_what_the_next_level_might_gain() -> None:
    made = chosen(pulled(0.6), 0.5)
    assert made.level == 1
    assert made.next_low < made.next_gain < made.next_high
    assert made.next_low < 0
    assert (made.gain_low, made.gain_high) == (0.0, 0.0)


def test_a_fast_runner_is_out_less_often() -> None:
    slow, fast = (float(pulled(0.62) @ out_chances(FIELD.infield[0], s, FIELD.reach)) for s in (4.6, 4.0))
    assert fast < slow


def hitter(name: str, bats: str, directions: np.ndarray) -> pd.DataFrame:
    rows = [{"direction_deg": d, "contact": "ground", "strikes": 0} for d in directions]
    return frame("pitches", *rows, batter=name, batter_team="harbor", bats=bats)


def test_left_and_right_handed_twins_get_the_same_level() -> None:
    directions = np.array([-38.0] * 28 + [-22.0] * 12 + [8.0] * 2)
    both = pd.concat([hitter("right", "R", directions), hitter("left", "L", -directions)], ignore_index=True)
    for column in ("batter", "bats", "contact", "batter_team"):
        both[column] = both[column].astype("category")
    found = infield_levels(spray(both), {("harbor", "right"): 4.3, ("harbor", "left"): 4.3}, FIELD)
    whole = found[found["split"].eq("all")].set_index("player")
    assert list(found.columns) == LEVEL_COLUMNS
    assert whole["level"]["right"] == whole["level"]["left"] >= 3
    assert whole["side"].tolist() == ["pull", "pull"]
    assert whole["outs"]["right"] == pytest.approx(whole["outs"]["left"])
    assert (whole["because"] == "gains").all()
    assert (whole["gain_low"] < whole["outs"] - whole["straight"]).all()
    assert (whole["outs"] - whole["straight"] < whole["gain_high"]).all()


def test_too_few_balls_are_straight_up_in_so_many_words() -> None:
    found = infield_levels(spray(hitter("new", "R", np.full(FEW_BALLS - 1, -40.0))), {}, FIELD)
    row = found[found["split"].eq("all")].iloc[0]
    assert (row["level"], row["because"]) == (1, "few")


def test_nobody_hit_nothing() -> None:
    found = infield_levels(spray(frame("pitches")), {}, FIELD)
    assert list(found.columns) == LEVEL_COLUMNS
    assert not len(found)


@pytest.mark.parametrize("bats", ["L", "R"])
def test_a_ball_between_two_is_for_the_man_nearer_third(bats: str) -> None:
    assert seams(FIELD.infield[0], bats) == ((5, 6), (6, 4), (4, 3))
    for level in range(1, LEVELS + 1):
        for side in ("pull", "other"):
            pairs = seams(at_level(FIELD.infield, level, side), bats)
            assert [pair[0] for pair in pairs[1:]] == [pair[1] for pair in pairs[:-1]]
            assert {man for pair in pairs for man in pair} == {3, 4, 5, 6}
