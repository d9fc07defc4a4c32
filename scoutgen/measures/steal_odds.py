"""Is the runner safe: his time against delivery, pop and tag, with what is not known of each."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from scipy import special

from scoutgen.measures.intervals import LEVEL, Floats

#: Seconds from the catch at the bag to the tag. Common practice, from memory: .10 to .15.
TAG_S: Final = 0.10
TAG_SPREAD_S: Final = 0.03

#: What a throw off the bag on the field side, high or in the dirt costs the fielder. Common practice, from memory.
OFF_BAG_S: Final = 0.20

#: How often a runner who goes on first move is out where the pitcher throws over instead: 5 in 100 attempts of 2019
#: ended so (.773 of throws down were beaten, .733 of all attempts), and 8 in 100 pitches with first occupied were
#: throws over (Retrosheet): .05 / .08.
PICKED_WHEN_THROWN_OVER: Final = 0.6

#: Cases of what is not known that are weighed against each other.
_CASES: Final = 1024

#: What is not known: the margin's mean, and three shares of throws.
_WAYS: Final = 4


@dataclass(frozen=True)
class Seconds:
    """What is known of one man's time at one thing.

    Attributes:
        mean: his mean.
        mean_sd: how far his true mean may be from it, as a standard deviation.
        own_sd: what his times scatter by about his mean, the watch's error taken out.
        n: readings behind it; 0 for a usual value.
        method: "watch" or "frames"; empty where it was not timed.
    """

    mean: float
    mean_sd: float
    own_sd: float
    n: int = 0
    method: str = ""


@dataclass(frozen=True)
class Chance:
    """A share that is not known for sure: estimate and standard deviation, 0-1."""

    share: float = 0.0
    sd: float = 0.0


NEVER: Final = Chance()


@dataclass(frozen=True)
class StealInputs:
    """All that one attempt hangs on.

    Attributes:
        run: first move to the bag.
        plate: first move to the catch at the plate.
        pop: catch to the glove at the bag.
        off_bag: of the throws that are caught, those that cost time at the bag.
        lost: of all throws, those dropped or not to be caught.
        thrown_over: times set that end in a throw to the runner's base.
    """

    run: Seconds
    plate: Seconds
    pop: Seconds
    off_bag: Chance = NEVER
    lost: Chance = NEVER
    thrown_over: Chance = NEVER

    def throws(self) -> tuple[Chance, Chance, Chance]:
        """What is known of the throws: off the bag, lost, over."""
        return self.off_bag, self.lost, self.thrown_over


@dataclass(frozen=True)
class StealOdds:
    """What an attempt promises.

    Attributes:
        margin_s: seconds he has to spare with a throw on the bag; negative when he is late.
        p_safe: chance that he is safe.
        low, high: 90 % interval of that chance, by what is not known of the men.
        p_clock: the same chance if nobody threw over and every throw was on the bag: the stopwatch's answer.
        picked: chance that he leaves on a throw over and is out on it.
    """

    margin_s: float
    p_safe: float
    low: float
    high: float
    p_clock: float
    picked: float


def steal_odds(given: StealInputs, *, level: float = LEVEL) -> StealOdds:
    """How likely is he safe, if he goes on this pitch on first move? See `odds_of_runners`."""
    return odds_of_runners([given.run], given, level=level)[0]


def odds_of_runners(runs: Sequence[Seconds], given: StealInputs, *, level: float = LEVEL) -> list[StealOdds]:
    """How likely is each of these runners safe against one battery and delivery, if he goes on first move?

    Every man's time is normal about his mean; the means and the shares of throws are themselves known only so well.
    The chance is worked out in many cases that are spread evenly over what is not known: their mean is `p_safe`,
    their quantiles the interval.

    Args:
        runs: the runners' times; the one in `given` is not looked at.
        given: the battery.
        level: coverage of the interval.

    Source:
        Even spreading by Weyl's sequence: Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods
        (SIAM, 1992), ch. 3. Worked cases in shared practice: plate 1.30, pop 2.00 and tag .10 against a 3.40 s runner
        is an even bet for any spread.
    """
    if not runs:
        return []
    mean, mean_sd, own_sd = (np.array([getattr(run, name) for run in runs]) for name in ("mean", "mean_sd", "own_sd"))
    margin = given.plate.mean + given.pop.mean + TAG_S - mean
    unsure = np.sqrt(mean_sd**2 + given.plate.mean_sd**2 + given.pop.mean_sd**2)[:, None]
    scatter = np.sqrt(own_sd**2 + given.plate.own_sd**2 + given.pop.own_sd**2 + TAG_SPREAD_S**2)[:, None]
    margins = margin[:, None] + unsure * _deviates()
    wide, lost, over = (_share(chance, way) for way, chance in enumerate(given.throws(), start=1))
    picked = PICKED_WHEN_THROWN_OVER * over
    on_bag, late = special.ndtr(margins / scatter), special.ndtr((margins + OFF_BAG_S) / scatter)
    safe = (1 - picked) * (lost + (1 - lost) * ((1 - wide) * on_bag + wide * late))
    tail = (1 - level) / 2
    low, high = np.quantile(safe, [tail, 1 - tail], axis=1)
    p_safe, p_clock, out = safe.mean(axis=1), on_bag.mean(axis=1), float(picked.mean())
    columns = zip(margin, p_safe, low, high, p_clock, np.full(len(runs), out), strict=True)
    return [StealOdds(*map(float, row)) for row in columns]


def mixed_odds(stretch: StealOdds, slide_step: StealOdds, share: Chance) -> StealOdds:
    """What he faces who does not know which delivery comes; `share`: of slide steps."""
    each = (1 - share.share, share.share)

    def weighed(a: float, b: float) -> float:
        return each[0] * a + each[1] * b

    between = abs(stretch.p_safe - slide_step.p_safe) * share.sd
    middle = weighed(stretch.p_safe, slide_step.p_safe)
    # What is not known of the men moves both deliveries alike; what is not known of the share comes on top.
    down = np.hypot(middle - weighed(stretch.low, slide_step.low), special.ndtri(0.5 + LEVEL / 2) * between)
    up = np.hypot(weighed(stretch.high, slide_step.high) - middle, special.ndtri(0.5 + LEVEL / 2) * between)
    return StealOdds(
        margin_s=weighed(stretch.margin_s, slide_step.margin_s),
        p_safe=middle,
        low=max(0.0, middle - float(down)),
        high=min(1.0, middle + float(up)),
        p_clock=weighed(stretch.p_clock, slide_step.p_clock),
        picked=weighed(stretch.picked, slide_step.picked),
    )


@lru_cache(maxsize=1)
def _deviates() -> Floats:
    """The margin's place in each case, as a normal deviate."""
    return np.asarray(special.ndtri(_even_cases(_WAYS)[0]), dtype=np.float64)


@lru_cache(maxsize=8)
def _even_cases(ways: int) -> Floats:
    """Numbers in 0-1 spread evenly over that many dimensions: ways x cases."""
    roots = np.sqrt(np.array([2.0, 3.0, 5.0, 7.0])[:ways])
    return np.asarray(np.modf(np.outer(roots, np.arange(_CASES) + 0.5))[0], dtype=np.float64)


# A battery's shares come up again for every runner.
@lru_cache(maxsize=1024)
def _share(chance: Chance, way: int) -> Floats:
    """A share in each case, as quantiles of a beta distribution with its mean and spread."""
    at = _even_cases(_WAYS)[way]
    inside = chance.share * (1 - chance.share)
    if chance.sd <= 0 or inside <= 0:
        return np.full(at.shape, chance.share)
    strength = max(inside / chance.sd**2 - 1, 1e-3)
    return np.asarray(special.betaincinv(chance.share * strength, (1 - chance.share) * strength, at), dtype=np.float64)
