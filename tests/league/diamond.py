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

    def move(self, base: int) -> int:
        """The runner on a base takes the next one; returns the runs that score."""
        runner = self.runners.pop(base)
        if base == 3:
            return 1
        self.runners[base + 1] = runner
        return 0

    def move_all(self) -> int:
        """Every runner takes one base."""
        return sum(self.move(base) for base in sorted(self.runners, reverse=True))

    def force(self, batter: str) -> int:
        """The batter is given first base; only those he forces move."""
        runs = 0
        if 1 in self.runners:
            if 2 in self.runners:
                if 3 in self.runners:
                    runs = self.move(3)
                self.move(2)
            self.move(1)
        self.runners[1] = batter
        return runs


def _hit(rng: random.Random, field_: Diamond, play: str, batter: str) -> int:
    two_out = field_.outs == 2
    runs = 0
    if play in {"home_run", "triple"}:
        runs = len(field_.runners)
        field_.runners.clear()
        if play == "triple":
            field_.runners[3] = batter
            return runs
        return runs + 1
    if play == "double":
        for base in (3, 2):
            if field_.runners.pop(base, None):
                runs += 1
        if 1 in field_.runners:
            runner = field_.runners.pop(1)
            if rng.random() < (0.49 if two_out else 0.34):
                runs += 1
            else:
                field_.runners[3] = runner
        field_.runners[2] = batter
        return runs
    if 3 in field_.runners:
        runs += field_.move(3)
    if 2 in field_.runners:
        field_.move(2)
        if rng.random() < (0.74 if two_out else 0.49):
            runs += field_.move(3)
    if 1 in field_.runners:
        field_.move(1)
        if 3 not in field_.runners and rng.random() < 0.30:
            field_.move(2)
    field_.runners[1] = batter
    return runs


def _ground_out(rng: random.Random, field_: Diamond, ball: Batted, batter: str) -> tuple[str, int]:
    if 1 in field_.runners and field_.outs < 2:
        mark = rng.random()
        ends = field_.outs == 1
        if mark < 0.42:
            field_.put_out(1)
            field_.outs += 1
            return "double_play", 0 if ends else field_.move_all()
        if mark < 0.70:
            field_.put_out(1)
            runs = field_.move_all()
            field_.runners[1] = batter
            return "fielders_choice", runs
    field_.outs += 1
    runs = 0
    if field_.outs < 3:
        if 3 in field_.runners and (1 in field_.runners or rng.random() < 0.64):
            runs = field_.move(3)
        if 2 in field_.runners and 3 not in field_.runners and rng.random() < 0.47:
            field_.move(2)
        if 1 in field_.runners and 2 not in field_.runners:
            field_.move(1)
    return ball.play, runs


def settle(rng: random.Random, field_: Diamond, ball: Batted, batter: str) -> tuple[Batted, int]:
    """Carry out a ball in play: the play as it is scored, and the runs it brings."""
    if ball.play in {"single", "double", "triple", "home_run"} and ball.contact != "bunt":
        return ball, _hit(rng, field_, ball.play, batter)
    if ball.play in {"single", "error"}:
        runs = field_.move_all()
        field_.runners[1] = batter
        return ball, runs
    if ball.contact == "ground":
        play, runs = _ground_out(rng, field_, ball, batter)
        return replace(ball, play=play), runs
    field_.outs += 1
    if field_.outs == 3:
        return replace(ball, play="out"), 0
    if ball.contact == "bunt":
        return ball, field_.move_all() if 3 not in field_.runners else 0
    if ball.contact == "fly" and ball.distance_ft > 250 and 3 in field_.runners and rng.random() < 0.75:
        return replace(ball, play="sacrifice"), field_.move(3)
    return ball, 0
