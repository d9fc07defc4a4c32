"""The bases and what a play does to them."""

import random
from dataclasses import dataclass, field, replace

from league.contact import Batted


@dataclass
class Diamond:
    """Outs of the half inning and who stands on which base."""

    outs: int = 0
    runners: dict[int, str] = field(default_factory=dict)

    @property
    def bases(self) -> str:
        return "".join(str(base) for base in sorted(self.runners))

    def put_out(self, base: int) -> None:
        """Retire the runner on a base."""
        del self.runners[base]
        self.outs += 1

    def move(self, base: int, by: int = 1) -> int:
        """The runner on a base, if there is one, takes the next bases; returns the runs that score."""
        runner = self.runners.pop(base, None)
        if runner is None:
            return 0
        if base + by > 3:
            return 1
        self.runners[base + by] = runner
        return 0

    def move_all(self, by: int = 1) -> int:
        """Every runner takes as many bases."""
        return sum(self.move(base, by) for base in sorted(self.runners, reverse=True))

    def force(self, batter: str) -> int:
        """The batter is given first base; only those he forces move."""
        free = next((base for base in (1, 2, 3) if base not in self.runners), 4)
        runs = sum(self.move(base) for base in range(free - 1, 0, -1))
        self.runners[1] = batter
        return runs


def _single(rng: random.Random, at: Diamond, batter: str) -> int:
    """Third scores; second scores and first reaches third as often as in checked play-by-play."""
    home = 0.74 if at.outs == 2 else 0.49
    runs = at.move(3) + at.move(2, 2 if rng.random() < home else 1)
    at.move(1, 2 if 3 not in at.runners and rng.random() < 0.30 else 1)
    at.runners[1] = batter
    return runs


def _double(rng: random.Random, at: Diamond, batter: str) -> int:
    home = 0.49 if at.outs == 2 else 0.34
    runs = at.move(3) + at.move(2, 2) + at.move(1, 3 if rng.random() < home else 2)
    at.runners[2] = batter
    return runs


def _far(at: Diamond, batter: str, *, homer: bool) -> int:
    runs = at.move_all(3)
    if homer:
        return runs + 1
    at.runners[3] = batter
    return runs


def _ground_out(rng: random.Random, at: Diamond, batter: str) -> tuple[str, int]:
    """What a ground ball fielded cleanly becomes with men on: double play, force, or the batter out at first."""
    if 1 in at.runners and at.outs < 2:
        mark = rng.random()
        if mark < 0.42:
            at.put_out(1)
            at.outs += 1
            return "double_play", 0 if at.outs == 3 else at.move_all()
        if mark < 0.70:
            at.put_out(1)
            runs = at.move_all()
            at.runners[1] = batter
            return "fielders_choice", runs
    at.outs += 1
    if at.outs == 3:
        return "out", 0
    runs = at.move(3) if 1 in at.runners or rng.random() < 0.64 else 0
    for base, chance in ((2, 0.47), (1, 1.0)):
        if base + 1 not in at.runners and rng.random() < chance:
            at.move(base)
    return "out", runs


def _air_out(rng: random.Random, at: Diamond, ball: Batted) -> tuple[str, int]:
    at.outs += 1
    deep = ball.contact == "fly" and ball.distance_ft > 250
    if at.outs < 3 and deep and 3 in at.runners and rng.random() < 0.75:
        return "sacrifice", at.move(3)
    return "out", 0


def _bunt(at: Diamond, ball: Batted) -> tuple[str, int]:
    """Nobody scores on a bunt out; men on first and second move up."""
    at.outs += 1
    if at.outs == 3:
        return "out", 0
    moved = at.runners and 3 not in at.runners
    if moved:
        at.move_all()
    return (ball.play if moved else "out"), 0


def settle(rng: random.Random, at: Diamond, ball: Batted, batter: str) -> tuple[Batted, int]:
    """Carry out a ball in play: the play as it is scored, and the runs it brings."""
    play = ball.play
    if play == "error" or (play == "single" and ball.contact == "bunt"):
        runs = at.move_all()
        at.runners[1] = batter
    elif play == "single":
        runs = _single(rng, at, batter)
    elif play == "double":
        runs = _double(rng, at, batter)
    elif play in {"triple", "home_run"}:
        runs = _far(at, batter, homer=play == "home_run")
    elif ball.contact == "bunt":
        play, runs = _bunt(at, ball)
    elif ball.contact == "ground":
        play, runs = _ground_out(rng, at, batter)
    else:
        play, runs = _air_out(rng, at, ball)
    return replace(ball, play=play), runs
