"""Men on base: coming set, pickoffs, steals, throws, balls in the dirt, and what a watch could have timed."""

import random
from dataclasses import dataclass, replace

from league.chance import pick, pick_at
from league.contact import Batted
from league.diamond import Diamond
from league.log import Came, Clocked, GameLog, Moment, PitchMade, Threw
from league.truth import RETURN_SECONDS, CatcherTruth, HitterTruth, PitcherTruth, Truths

#: Seconds the fielder needs to put the tag on, by common practice.
TAG_SECONDS = 0.10


@dataclass(frozen=True)
class Scene:
    """One pitch about to be thrown: the situation, the bases behind it, and where it is written down."""

    rng: random.Random
    log: GameLog
    truths: Truths
    diamond: Diamond
    moment: Moment

    @property
    def pitcher(self) -> PitcherTruth:
        return self.truths.pitchers[self.moment.pitcher_team, self.moment.pitcher]

    @property
    def hitter(self) -> HitterTruth:
        return self.truths.hitters[self.moment.batter_team, self.moment.batter]

    @property
    def catcher(self) -> CatcherTruth:
        return self.truths.catchers[self.moment.pitcher_team]

    def runner(self, base: int) -> HitterTruth:
        """The truth of the man on a base."""
        return self.truths.hitters[self.moment.batter_team, self.diamond.runners[base]]

    def now(self) -> "Scene":
        """The scene with outs and bases as they have become."""
        return replace(self, moment=replace(self.moment, outs=self.diamond.outs, bases=self.diamond.bases))


def wants_sacrifice(scene: Scene) -> bool:
    """Late, close, nobody out, a man on first or second and no one on third: a light hitter may bunt him over."""
    close = abs(scene.moment.lead) <= 2 and scene.moment.inning >= 6
    there = scene.diamond.outs == 0 and scene.diamond.bases in {"1", "2", "12"}
    return close and there and scene.hitter.power < 1.05 and scene.rng.random() < 0.3


def _style(scene: Scene) -> str:
    clocks, bases = scene.pitcher.clocks, scene.diamond.bases
    if bases == "3" and clocks.windup_with_third:
        return "windup"
    if "1" in bases and "2" not in bases and scene.rng.random() < clocks.slide_share:
        return "slide_step"
    return "stretch"


def _then(scene: Scene) -> str:
    """What he does from the set position other than pitch; most of the time he pitches."""
    bases = scene.diamond.bases
    share = scene.pitcher.clocks.pickoff_share * (1.35 if scene.moment.strikes == 0 else 1.0)
    if "1" in bases and "2" not in bases and scene.rng.random() < share:
        return "pickoff_1"
    if "2" in bases and "3" not in bases and scene.rng.random() < share * 0.25:
        return "pickoff_2"
    return "step_off" if scene.rng.random() < 0.015 else "pitch"


def come_set(scene: Scene) -> str:
    """The pitcher comes set until he pitches; returns the style.

    A pickoff may leave the bases empty or end the inning.
    """
    rng, clocks, diamond = scene.rng, scene.pitcher.clocks, scene.diamond
    for again in range(4):
        now = scene.now().moment
        style = _style(scene)
        looks = pick_at(rng, clocks.looks if "2" in now.bases else (0.35, 0.5, 0.15))
        hold = max(0.4, rng.gauss(*clocks.hold) + 0.25 * (looks - 1))
        then = "pitch" if again == 3 else _then(scene)
        scene.log.came.append(Came(now, style, looks, hold, then))
        if then == "pitch":
            return style
        if then.startswith("pickoff"):
            seconds = max(0.6, rng.gauss(*clocks.pickoff))
            scene.log.clocked.append(Clocked(now, now.pitcher_team, now.pitcher, then, "", seconds))
            if rng.random() < 0.03:
                diamond.put_out(int(then[-1]))
                if diamond.outs == 3 or not diamond.runners:
                    break
    return "windup"


def goes(scene: Scene) -> int:
    """The base a runner leaves with the pitch, 0 for none."""
    at = scene.diamond.runners
    if scene.moment.balls == 3:
        return 0
    if 1 in at and 2 not in at and scene.rng.random() < 3 * scene.runner(1).go:
        return 1
    if 2 in at and 3 not in at and scene.rng.random() < 0.3 * scene.runner(2).go:
        return 2
    return 0


def deliver(scene: Scene, style: str) -> float:
    """The true time from his first move to the mitt."""
    clocks, at = scene.pitcher.clocks, scene.moment
    styles = {"windup": clocks.windup, "stretch": clocks.stretch}
    mean, spread = styles.get(style) or clocks.slide_step or clocks.stretch
    if style == "stretch" and "2" in at.bases:
        mean += 0.06
    seconds = max(0.95, scene.rng.gauss(mean, spread))
    scene.log.clocked.append(Clocked(at, at.pitcher_team, at.pitcher, "plate", style, seconds))
    return seconds


def run_to_first(scene: Scene, ball: Batted) -> None:
    """The batter's true time from contact to first; on a bunt he is on his way already."""
    style = "bunt" if ball.contact == "bunt" else "full"
    seconds = max(3.4, scene.rng.gauss(scene.hitter.home_first - (0.25 if style == "bunt" else 0.0), 0.06))
    scene.log.clocked.append(
        Clocked(scene.moment, scene.moment.batter_team, scene.moment.batter, "home_first", style, seconds)
    )


def after_pitch(scene: Scene, made: PitchMade, going: int, seconds: float) -> tuple[int, str]:
    """Steals, balls in the dirt, back-picks and the return throw once the catcher has the ball.

    Args:
        scene: the pitch.
        made: what came of it.
        going: the base a runner left, 0 for none.
        seconds: the pitcher's time to the plate.

    Returns:
        The runs it brings, and what a charter may note.
    """
    rng, diamond, catcher = scene.rng, scene.diamond, scene.catcher
    if going in diamond.runners and going + 1 not in diamond.runners:
        return _steal(scene, going, seconds)
    low = made.z_ft < 0.75 and made.result in {"ball", "swinging_strike"}
    if diamond.runners and low and rng.random() < 0.10:
        return diamond.move_all(), "ball in the dirt, runners up"
    if made.play:
        return 0, ""
    at = scene.moment
    if 1 in diamond.runners and rng.random() < catcher.back_pick:
        pop = max(1.3, rng.gauss(1.55, 0.06))
        exchange = rng.gauss(*catcher.exchange)
        scene.log.threw.append(Threw(at, diamond.runners[1], 1, pop, exchange, "on_bag", "no_play"))
        return 0, "throws behind the runner"
    style = pick(rng, catcher.returns)
    back = max(0.5, rng.gauss(*RETURN_SECONDS[style]))
    scene.log.clocked.append(Clocked(at, at.pitcher_team, at.catcher, "return_throw", style, back))
    return 0, ""


def _steal(scene: Scene, base: int, seconds: float) -> tuple[int, str]:
    rng, at, catcher, his = scene.rng, scene.moment, scene.catcher, scene.runner(base)
    runner = scene.diamond.runners[base]
    measure = {1: "first_second", 2: "second_third"}[base]
    run = max(2.9, rng.gauss(his.first_second - (0.12 if base == 2 else 0.0), 0.08))
    pop = max(1.4, rng.gauss(*(catcher.pop_2 if base == 1 else catcher.pop_3)))
    accuracy = pick(rng, catcher.accuracy)
    ball = seconds + pop + TAG_SECONDS + (0.0 if accuracy in {"on_bag", "first_side"} else 0.3)
    jump = rng.gauss(0.06, 0.07)  # he leaves after the pitcher's first move, not with it
    caught = run + jump > ball
    result = "out" if caught else "safe"
    scene.log.clocked.append(Clocked(at, at.batter_team, runner, measure, "", run))
    scene.log.threw.append(Threw(at, runner, base + 1, pop, rng.gauss(*catcher.exchange), accuracy, result))
    if caught:
        scene.diamond.put_out(base)
        return 0, "caught stealing"
    return scene.diamond.move(base), "stolen base"
