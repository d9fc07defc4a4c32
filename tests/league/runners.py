"""Men on base: coming set, pickoffs, steals, throws, balls in the dirt, and what a watch could have timed."""

import random
from collections.abc import Mapping
from typing import TYPE_CHECKING

from league.chance import pick, pick_at
from league.contact import Batted
from league.diamond import Diamond
from league.log import Came, Clocked, GameLog, Moment, PitchMade, Threw
from league.truth import RETURN_SECONDS, HitterTruth, PitcherTruth

if TYPE_CHECKING:
    from league.game import Truths

#: Seconds the fielder needs to put the tag on, by common practice.
TAG_SECONDS = 0.10


def wants_sacrifice(
    rng: random.Random,
    diamond: Diamond,
    inning: int,
    runs: Mapping[str, int],
    bat: str,
    hold: str,
    hitter: HitterTruth,
) -> bool:
    """Late, close, nobody out, a man on first or second and no one on third: a light hitter may bunt him over."""
    close = abs(runs[bat] - runs[hold]) <= 2 and inning >= 6
    there = diamond.outs == 0 and diamond.bases in {"1", "2", "12"}
    return close and there and hitter.power < 1.05 and rng.random() < 0.3


def _style(rng: random.Random, pitcher: PitcherTruth, bases: str) -> str:
    if bases == "3" and pitcher.clocks.windup_with_third:
        return "windup"
    if "1" in bases and "2" not in bases and rng.random() < pitcher.clocks.slide_share:
        return "slide_step"
    return "stretch"


def come_set(
    rng: random.Random, log: GameLog, moment: Moment, pitcher: PitcherTruth, diamond: Diamond
) -> tuple[str, bool]:
    """The pitcher comes set until he pitches; returns his style and whether someone was picked off."""
    clocks = pitcher.clocks
    out = False
    for throws in range(4):
        bases = diamond.bases
        style = _style(rng, pitcher, bases)
        looks = pick_at(rng, clocks.looks if "2" in bases else (0.35, 0.5, 0.15))
        hold = max(0.4, rng.gauss(*clocks.hold) + 0.25 * (looks - 1))
        then = "pitch"
        if throws < 3:
            share = clocks.pickoff_share * (1.35 if moment.strikes == 0 else 1.0)
            if "1" in bases and "2" not in bases and rng.random() < share:
                then = "pickoff_1"
            elif "2" in bases and "3" not in bases and rng.random() < share * 0.25:
                then = "pickoff_2"
            elif rng.random() < 0.015:
                then = "step_off"
        now = Moment(**{**vars(moment), "bases": bases, "outs": diamond.outs})
        log.came.append(Came(now, style, looks, hold, then))
        if then == "pitch":
            return style, out
        if then.startswith("pickoff"):
            base = int(then[-1])
            seconds = max(0.6, rng.gauss(*clocks.pickoff))
            log.clocked.append(Clocked(now, now.pitcher_team, now.pitcher, then, "", seconds))
            if rng.random() < 0.03:
                diamond.put_out(base)
                out = True
                if diamond.outs == 3 or not diamond.runners:
                    return "windup", out
    return "stretch", out


def goes(
    rng: random.Random,
    hitters: Mapping[tuple[str, str], HitterTruth],
    team: str,
    diamond: Diamond,
    count: tuple[int, int],
) -> int:
    """The base a runner leaves with the pitch, 0 for none."""
    at = diamond.runners
    if count[0] == 3:
        return 0
    if 1 in at and 2 not in at and rng.random() < 2 * hitters[team, at[1]].go:
        return 1
    if 2 in at and 3 not in at and rng.random() < 0.3 * hitters[team, at[2]].go:
        return 2
    return 0


def deliver(rng: random.Random, log: GameLog, moment: Moment, pitcher: PitcherTruth, style: str) -> float:
    """The true time from his first move to the mitt."""
    clocks = pitcher.clocks
    mean, spread = {"windup": clocks.windup, "stretch": clocks.stretch}.get(style) or clocks.slide_step or clocks.stretch
    if style == "stretch" and "2" in moment.bases:
        mean += 0.06
    seconds = max(0.95, rng.gauss(mean, spread))
    log.clocked.append(Clocked(moment, moment.pitcher_team, moment.pitcher, "plate", style, seconds))
    return seconds


def to_first(rng: random.Random, moment: Moment, hitter: HitterTruth, ball: Batted) -> Clocked:
    """The batter's true time from contact to first; out of the box on the bunt he is quicker."""
    style = "bunt" if ball.contact == "bunt" else "full"
    quick = -0.25 if style == "bunt" else 0.0
    seconds = max(3.4, rng.gauss(hitter.home_first + quick, 0.06))
    return Clocked(moment, moment.batter_team, moment.batter, "home_first", style, seconds)


def take_bases(
    rng: random.Random,
    log: GameLog,
    moment: Moment,
    made: PitchMade,
    going: int,
    seconds: float,
    truths: "Truths",
    diamond: Diamond,
    *,
    terminal: bool,
) -> int:
    """Steals, back-picks, balls in the dirt and the return throw after a pitch the catcher has; returns runs."""
    catcher = truths.catchers[moment.pitcher_team]
    if going and going in diamond.runners and going + 1 not in diamond.runners:
        runner = diamond.runners[going]
        run_mean = truths.hitters[moment.batter_team, runner].first_second - (0.12 if going == 2 else 0.0)
        run = max(2.9, rng.gauss(run_mean, 0.08))
        pop = max(1.4, rng.gauss(*(catcher.pop_2 if going == 1 else catcher.pop_3)))
        accuracy = pick(rng, catcher.accuracy)
        ball = seconds + pop + TAG_SECONDS + (0.0 if accuracy in {"on_bag", "first_side"} else 0.3)
        jump = rng.gauss(0.06, 0.07)  # he leaves after the pitcher's first move, not with it
        caught = run + jump > ball
        log.clocked.append(
            Clocked(
                moment, moment.batter_team, runner, "first_second" if going == 1 else "second_third", "", run
            )  # fmt: skip
        )
        log.threw.append(
            Threw(moment, runner, going + 1, pop, rng.gauss(*catcher.exchange), accuracy, "out" if caught else "safe")
        )
        if caught:
            diamond.put_out(going)
            return 0
        return diamond.move(going)
    if diamond.runners and made.z_ft < 0.75 and made.result in {"ball", "swinging_strike"} and rng.random() < 0.10:
        return diamond.move_all()
    if "1" in moment.bases and 1 in diamond.runners and not terminal and rng.random() < catcher.back_pick:
        pop = max(1.3, rng.gauss(1.55, 0.06))
        log.threw.append(
            Threw(moment, diamond.runners[1], 1, pop, rng.gauss(*catcher.exchange), "on_bag", "no_play")
        )
        return 0
    if not terminal:
        style = pick(rng, catcher.returns)
        back = max(0.5, rng.gauss(*RETURN_SECONDS[style]))
        log.clocked.append(Clocked(moment, moment.pitcher_team, moment.catcher, "return_throw", style, back))
    return 0
