"""One pitch: what is thrown where, and what comes of it."""

import math
import random
from collections.abc import Mapping
from dataclasses import dataclass

from league.chance import dirichlet, pick
from league.truth import (
    BREAKING,
    COUNT_LEAN,
    GAME_CONCENTRATION,
    HARD,
    HitterTruth,
    PitcherTruth,
    PitchTruth,
)

#: Half the plate and half a ball, in feet; the strike zone's bottom and top.
HALF_ZONE_FT = 0.83
ZONE_BOTTOM_FT, ZONE_TOP_FT = 1.6, 3.4


@dataclass(frozen=True)
class Thrown:
    """A pitch on its way: its kind, speed, and where it crosses the plate."""

    truth: PitchTruth
    mph: float
    x_ft: float
    z_ft: float

    @property
    def strike(self) -> bool:
        return abs(self.x_ft) <= HALF_ZONE_FT and ZONE_BOTTOM_FT <= self.z_ft <= ZONE_TOP_FT

    @property
    def miss_ft(self) -> float:
        """Feet from the zone's edge; 0 inside."""
        across = max(0.0, abs(self.x_ft) - HALF_ZONE_FT)
        along = max(0.0, ZONE_BOTTOM_FT - self.z_ft, self.z_ft - ZONE_TOP_FT)
        return math.hypot(across, along)


def mix(
    truth: PitcherTruth, side: str, count: str, base: Mapping[str, float], *, time: int = 1, last: str = ""
) -> dict[str, float]:
    """Shares of each pitch in a situation, from the shares `base` of the day.

    Args:
        truth: the pitcher.
        side: the side the batter stands on.
        count: balls-strikes.
        base: shares against that side before the count is looked at.
        time: 1 for the first time through the order, 2, 3.
        last: result of the pitch before in this plate appearance, empty for the first.
    """
    hard, breaking, soft = (truth.lean * lean for lean in COUNT_LEAN[count])
    weights = {}
    for pitch, share in base.items():
        log = hard if pitch in HARD else breaking if pitch in BREAKING else soft
        log += truth.special.get((side, count), {}).get(pitch, 0.0)
        log += (time - 1) * truth.later.get(pitch, 0.0)
        log += truth.after.get(last, {}).get(pitch, 0.0)
        weights[pitch] = share * math.exp(log)
    total = sum(weights.values())
    return {pitch: weight / total for pitch, weight in weights.items()}


def base_shares(truth: PitcherTruth, side: str) -> dict[str, float]:
    """Season shares against a side before the count is looked at."""
    same = side == truth.throws
    shares = {pitch.pitch: pitch.same if same else pitch.opposite for pitch in truth.arsenal}
    total = sum(shares.values())
    return {pitch: share / total for pitch, share in shares.items()}


def season_mix(truth: PitcherTruth, side: str, count: str) -> dict[str, float]:
    """What he throws in a count over a season, first time through: what estimates of his usage should come to."""
    return mix(truth, side, count, base_shares(truth, side))


def day_shares(rng: random.Random, truth: PitcherTruth) -> dict[str, dict[str, float]]:
    """The day's shares by side: the mix moves from game to game."""
    return {side: dirichlet(rng, base_shares(truth, side), GAME_CONCENTRATION) for side in "LR"}


def throw(rng: random.Random, truth: PitcherTruth, shares: Mapping[str, float], *, count: str, innings: int) -> Thrown:
    """Draw a pitch: ahead in the count he misses the zone on purpose, behind he comes to the middle."""
    chosen = pick(rng, shares)
    pitch = next(one for one in truth.arsenal if one.pitch == chosen)
    balls, strikes = int(count[0]), int(count[2])
    wide = 1.25 if strikes == 2 and balls < 3 else 0.55 if balls == 3 else 0.75 if balls > strikes else 1.0
    arm = -1.0 if truth.throws == "R" else 1.0  # a right-hander's arm side is the catcher's left
    low = (pitch.height_ft - 2.5) * wide
    return Thrown(
        truth=pitch,
        mph=pitch.mph - truth.drop_mph * max(0, innings - 3) + rng.gauss(0, 1.1),
        x_ft=arm * pitch.arm_side_ft * wide + rng.gauss(0, truth.command_ft),
        z_ft=2.5 + low + rng.gauss(0, truth.command_ft * 1.05),
    )


def _swings(rng: random.Random, ball: Thrown, hitter: HitterTruth, count: str) -> bool:
    balls, strikes = int(count[0]), int(count[2])
    chance = 0.69 if ball.strike else 0.44 * hitter.chase * math.exp(-1.5 * ball.miss_ft)
    if ball.truth.pitch not in HARD:
        chance *= 0.94
    if count == "0-0":
        chance *= hitter.first_swing / 0.46
    elif balls == 3 and strikes == 0:
        chance *= 0.12
    elif strikes == 2:
        chance = min(0.97, chance * 1.28)
    elif balls > strikes:
        chance *= 0.92
    return rng.random() < chance


def outcome(rng: random.Random, ball: Thrown, hitter: HitterTruth, pitcher: PitcherTruth, count: str) -> str:
    """What comes of a pitch, in the words of the charting format; a bunt is the game's affair."""
    arm_in = (ball.x_ft < -1.5 and hitter.bats != "L") or (ball.x_ft > 1.5 and hitter.bats == "L")
    if arm_in and rng.random() < 0.22:
        return "hit_by_pitch"
    if not _swings(rng, ball, hitter, count):
        called = rng.random() < (0.93 if ball.strike else 0.10 * math.exp(-4 * ball.miss_ft))
        return "called_strike" if called else "ball"
    miss = 0.12 if ball.strike else 0.33
    miss *= ball.truth.whiff * pitcher.strikeout * (0.85 if ball.truth.pitch in HARD else 1.25)
    if rng.random() < min(0.8, miss / hitter.contact**3):
        return "foul_tip" if rng.random() < 0.03 else "swinging_strike"
    return "foul" if rng.random() < 0.49 else "in_play"
