"""A batted ball: how, where to, how far, who has it, and whether he is out."""

import math
import random
from dataclasses import dataclass

from league.chance import pick, pick_at
from league.plate import Thrown
from league.truth import HitterTruth

#: Ground balls by fifths of the field from the left, right-handed hitters; left-handed mirrored.
#: Blengino, FanGraphs, January 2014 (right-handed row).
GROUND_FIFTHS = (0.412, 0.259, 0.127, 0.124, 0.078)
LINE_FIFTHS = (0.29, 0.23, 0.19, 0.16, 0.13)
FLY_FIFTHS = (0.21, 0.22, 0.21, 0.20, 0.16)
FIFTHS = ("left", "left_center", "center", "right_center", "right")


@dataclass(frozen=True)
class Batted:
    """A ball in play and what the official scorer makes of it."""

    contact: str
    direction_deg: float
    distance_ft: float
    fielder: int
    play: str


def fifths(hitter: HitterTruth, side: str, contact: str, *, strikes: int) -> tuple[float, ...]:
    """Chance of each fifth of the field, left to right, for a hitter standing on a side."""
    league = GROUND_FIFTHS if contact in {"ground", "bunt"} else LINE_FIFTHS if contact == "line" else FLY_FIFTHS
    tilt = hitter.pull + (hitter.two_strike_pull if strikes == 2 else 0.0)
    weights = [share * math.exp(tilt * (2 - place) / 2) for place, share in enumerate(league)]
    total = sum(weights)
    shares = tuple(weight / total for weight in weights)
    return shares if side == "R" else shares[::-1]


def _infielder(direction: float) -> int:
    for limit, position in ((-25.0, 5), (-4.0, 6), (4.0, 1), (25.0, 4)):
        if direction < limit:
            return position
    return 3


def _outfielder(direction: float) -> int:
    return 7 if direction < -15 else 8 if direction <= 15 else 9


def _land(rng: random.Random, contact: str, play: str, power: float) -> float:
    if contact == "bunt":
        return rng.uniform(15, 50)
    if contact == "ground":
        return rng.uniform(190, 250) if play in {"single", "double"} else rng.uniform(70, 145)
    if contact == "popup":
        return rng.uniform(60, 170)
    if play == "home_run":
        return rng.uniform(355, 400) + 15 * power
    if contact == "line":
        return {"out": rng.uniform(110, 290), "single": rng.uniform(170, 260)}.get(play, rng.uniform(270, 350))
    return {"single": rng.uniform(170, 240), "error": rng.uniform(200, 300)}.get(play, rng.uniform(240, 345))


def batted(rng: random.Random, ball: Thrown, hitter: HitterTruth, side: str, *, strikes: int) -> Batted:
    """Draw a ball in play: low pitches go on the ground, hitters pull as they do."""
    low = 2.5 - ball.z_ft
    contact = pick(
        rng,
        {
            "ground": 0.44 * math.exp(hitter.ground + 0.5 * low),
            "line": 0.22,
            "fly": 0.25 * math.exp(-0.3 * low),
            "popup": 0.07 * math.exp(-0.5 * low),
        },
    )
    place = pick_at(rng, fifths(hitter, side, contact, strikes=strikes))
    direction = -45 + 18 * (place + rng.random())
    power = hitter.power
    plays = {
        "ground": {"out": 0.68, "single": 0.26, "double": 0.022, "error": 0.038},
        "line": {"out": 0.27, "single": 0.50, "double": 0.185, "triple": 0.02, "home_run": 0.025 * power},
        "fly": {"out": 0.735, "single": 0.05, "double": 0.085, "triple": 0.015, "home_run": 0.115 * power**1.5},
        "popup": {"out": 0.98, "error": 0.02},
    }[contact]
    play = pick(rng, plays)
    distance = _land(rng, contact, play, power)
    near = distance < 150 and contact != "fly"
    return Batted(
        contact=contact,
        direction_deg=direction,
        distance_ft=distance,
        fielder=_infielder(direction) if near else _outfielder(direction),
        play=play,
    )


def bunted(rng: random.Random, side: str, *, sacrifice: bool, seconds: float) -> Batted:
    """Draw a bunt laid down in fair ground; `seconds` is the runner's time to first."""
    toward_third = rng.random() < (0.45 if side == "L" else 0.6)
    direction = rng.uniform(-42, -22) if toward_third else rng.uniform(18, 40)
    safe = 0.08 if sacrifice else min(0.7, max(0.1, 0.45 - 1.1 * (seconds - 4.05)))
    distance = rng.uniform(15, 50)
    position = (5 if toward_third else 3) if distance > 32 else (1 if distance > 20 else 2)
    play = "single" if rng.random() < safe else "sacrifice" if sacrifice else "out"
    return Batted("bunt", direction, distance, position, play)
