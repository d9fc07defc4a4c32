"""Can the man on third come home on the return throw, or on the windup: a budget of seconds."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy import special

from scoutgen.measures.intervals import LEVEL
from scoutgen.measures.steal_odds import Chance, Seconds

BASE_PATH_FT: Final = 90.0

#: How soon a runner is at speed, as the time constant of his approach to it. Common practice, from memory.
TO_SPEED_S: Final = 0.8

#: What the defence needs after the return throw is on its way: the pitcher sees it, catches and turns, throws home, and
#: the catcher is back for the tag. Assumed by common practice, from memory; the least known part of the budget.
TURN: Final = Seconds(0.90, 0.10, 0.10)
THROW_HOME: Final = Seconds(0.60, 0.03, 0.05)
TAG_AT_HOME: Final = Seconds(0.20, 0.03, 0.05)

#: How far a runner's start on the ball's release is from what he means it to be. Common practice, from memory.
START: Final = Seconds(0.0, 0.03, 0.08)

#: Flight of a return throw by style where it was never timed: 57 ft at 35, 45 and 55 mph out of the hand, caught as
#: high as it was thrown, with drag (coefficient .35); integrated in the test of this module.
USUAL_RETURN: Final = {
    "lob": Seconds(1.29, 0.12, 0.12),
    "knees": Seconds(0.94, 0.08, 0.08),
    "firm": Seconds(0.75, 0.06, 0.06),
}


@dataclass(frozen=True)
class Budget:
    """Seconds on either side, and what they promise.

    Attributes:
        start_ft: how far off third he starts.
        run: from there to the plate.
        ball: what the defence needs, part by part, in order.
        margin_s: what he has to spare.
        p_safe: chance that he is safe; low, high: its 90 % interval, by what is not known of the means.
        there: chance that the habits it takes show up together; 1 where none are needed.
        unsure, scatter: spread of what is not known of the means, and of one attempt, in seconds.
    """

    start_ft: float
    run: Seconds
    ball: tuple[tuple[str, Seconds], ...]
    margin_s: float
    p_safe: float
    low: float
    high: float
    there: float
    unsure: float
    scatter: float

    def enough(self, need: float) -> float:
        """How likely is it that his true chance is at least `need`?"""
        return float(special.ndtr((self.margin_s - self.scatter * special.ndtri(need)) / self.unsure))


def top_speed(seconds: float, feet: float) -> float:
    """Top speed in feet a second of a man who needs so long for so many feet from a standing start."""
    return feet / _at_speed(seconds)


def seconds_to_run(feet: float, top_fps: float) -> float:
    """Seconds from a standing start for so many feet: speed rises as 1 - exp(-t / TO_SPEED_S) to the top."""
    if feet <= 0:
        return 0.0
    from scipy import optimize  # noqa: PLC0415 - a fifth of a second to read; most rebuilds ask for none

    return float(optimize.brentq(lambda t: top_fps * _at_speed(t) - feet, 1e-6, 60.0, xtol=1e-9))


def return_budget(top_fps: float, start_ft: float, lob: Seconds, *, no_look: Chance, lobs: Chance) -> Budget:
    """Home on a slow return throw: he leaves as the catcher lets go.

    Args:
        top_fps: the runner's top speed.
        start_ft: the lead that the third baseman's feet off the bag allow him.
        lob: flight of the slow return throw.
        no_look: share of returns before which the catcher does not look at third.
        lobs: share of returns that are lobbed.

    The two habits are taken as independent, since they are charted apart.
    """
    ball = (("return throw", lob), ("pitcher's turn", TURN), ("throw home", THROW_HOME), ("tag", TAG_AT_HOME))
    return _budget(top_fps, start_ft, ball, no_look.share * lobs.share)


def windup_budget(top_fps: float, start_ft: float, windup: Seconds) -> Budget:
    """Home straight, on the windup: he leaves with the pitcher's first move and the pitch is the throw."""
    return _budget(top_fps, start_ft, (("pitch from the windup", windup), ("tag", TAG_AT_HOME)), 1.0)


def _budget(top_fps: float, start_ft: float, ball: tuple[tuple[str, Seconds], ...], there: float) -> Budget:
    run = seconds_to_run(BASE_PATH_FT - start_ft, top_fps)
    ours = Seconds(run, START.mean_sd, START.own_sd)
    parts = [part for _, part in ball]
    margin = sum(part.mean for part in parts) - run
    unsure = float(np.sqrt(sum(part.mean_sd**2 for part in (*parts, ours))))
    scatter = float(np.sqrt(sum(part.own_sd**2 for part in (*parts, ours))))
    z = float(special.ndtri(0.5 + LEVEL / 2))
    low, high = (float(special.ndtr((margin + side * z * unsure) / scatter)) for side in (-1, 1))
    p_safe = float(special.ndtr(margin / np.hypot(scatter, unsure)))
    return Budget(start_ft, ours, ball, margin, p_safe, low, high, there, unsure, scatter)


def _at_speed(seconds: float) -> float:
    """Seconds at top speed that cover the same ground."""
    return float(seconds - TO_SPEED_S * (1 - np.exp(-seconds / TO_SPEED_S)))
