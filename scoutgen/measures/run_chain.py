"""How many runs come of a half inning: a chain of plate appearances over the bases and outs."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from scoutgen.measures.intervals import Floats

#: Bases in the order of every table here: bit 1 is first, bit 2 second, bit 4 third.
BASE_STATES: Final = ("", "1", "2", "12", "3", "13", "23", "123")
OUTS: Final = 3
STATES: Final = len(BASE_STATES) * OUTS

#: Runs a plate appearance brings at most: one before it and four on it.
_MOST_AT_ONCE: Final = 5

#: Half innings a team bats in a game of nine; the home team's ninth that is not played is not taken off.
INNINGS: Final = 9


@dataclass(frozen=True)
class EventShares:
    """How plate appearances end, each a share of them; what is left are outs in play.

    The usual ones are a round line about NCAA Division I 2009: average .302, on base .373, slugging .457 (Zimmerman,
    Beyond the Box Score, 10 June 2009), strikeouts and errors by common practice.
    """

    walk: float = 0.105
    single: float = 0.178
    double: float = 0.052
    triple: float = 0.006
    home_run: float = 0.025
    strikeout: float = 0.18
    error: float = 0.016

    @property
    def out_in_play(self) -> float:
        """What is left: outs in play."""
        return 1 - float(sum(getattr(self, each.name) for each in fields(self)))


_MOVED_UP: Final[Mapping[str, float]] = MappingProxyType(
    {"1": 0.072, "2": 0.039, "12": 0.043, "3": 0.014, "13": 0.099, "23": 0.015, "123": 0.016}
)
_PICKED_OUT: Final[Mapping[str, float]] = MappingProxyType(
    {"1": 0.021, "2": 0.005, "12": 0.007, "3": 0.003, "13": 0.011, "23": 0.003, "123": 0.003}
)


@dataclass(frozen=True)
class Advancement:
    """How runners advance, as shares; the second of a pair is with two out.

    Round rates of the big leagues 2019, innings one to eight (Retrosheet), as tests/published holds them.

    Attributes:
        first_to_third: on a single, from first to third.
        second_scores: on a single, from second home.
        first_scores: on a double, from first home.
        double_play: of balls in play that are outs, with first occupied and fewer than two out.
        third_scores: on other outs in play with fewer than two out; the second of the pair is with first occupied,
            where the infield does not play in.
        second_moves, first_moves: on the same.
        moved_up: a base gained between plate appearances (steal, wild pitch, passed ball, balk) by bases occupied, as
            shares of plate appearances; `picked_out`: a runner lost so.
    """

    first_to_third: tuple[float, float] = (0.28, 0.33)
    second_scores: tuple[float, float] = (0.49, 0.77)
    first_scores: tuple[float, float] = (0.33, 0.49)
    double_play: float = 0.24
    third_scores: tuple[float, float] = (0.53, 0.61)
    second_moves: float = 0.44
    first_moves: float = 0.20
    moved_up: Mapping[str, float] = field(default_factory=lambda: _MOVED_UP)
    picked_out: Mapping[str, float] = field(default_factory=lambda: _PICKED_OUT)


@dataclass(frozen=True)
class RunChain:
    """Moves between states; a state is `outs * 8 + bases`.

    Attributes:
        moves: chance of each state after a plate appearance with that many runs, runs (0-5) x states x states.
        ends: chance that the half inning ends on it, with that many runs, runs x states.
    """

    moves: Floats
    ends: Floats


def state(bases: str, outs: int) -> int:
    """Place of a state in the chain's tables.

    Args:
        bases: occupied bases, as "13".
        outs: 0-2.
    """
    return outs * len(BASE_STATES) + BASE_STATES.index(bases)


def run_chain(shares: EventShares, advancement: Advancement | None = None) -> RunChain:
    """The chain of plate appearances, with what happens on the bases before each; every row of it sums to 1."""
    how = advancement or Advancement()
    moves = np.zeros((_MOST_AT_ONCE + 1, STATES, STATES))
    ends = np.zeros((_MOST_AT_ONCE + 1, STATES))
    for outs in range(OUTS):
        for bases in range(len(BASE_STATES)):
            at = outs * len(BASE_STATES) + bases
            for first, there, out_first, home in _between(how, bases):
                if outs + out_first >= OUTS:
                    ends[home, at] += first
                    continue
                for chance, after, more_outs, runs in _plays(shares, how, there, outs + out_first):
                    out = outs + out_first + more_outs
                    if out >= OUTS:
                        ends[home + runs, at] += first * chance
                    else:
                        moves[home + runs, at, out * len(BASE_STATES) + after] += first * chance
    return RunChain(moves, ends)


def run_expectancy(chain: RunChain) -> Floats:
    """Runs expected to the end of the half inning, outs (0-2) x bases (as BASE_STATES)."""
    runs = np.arange(_MOST_AT_ONCE + 1)
    on_the_play = runs @ (chain.moves.sum(axis=2) + chain.ends)
    found = np.linalg.solve(np.eye(STATES) - chain.moves.sum(axis=0), on_the_play)
    return np.asarray(found.reshape(OUTS, -1), dtype=np.float64)


def runs_distribution(chain: RunChain, most: int = 24) -> Floats:
    """Chance of each number of runs to the end of the half inning: states x (0 ... most).

    The last column takes in all that is more, so that every row sums to 1.
    """
    stay = np.linalg.inv(np.eye(STATES) - chain.moves[0])
    found = np.zeros((most + 1, STATES))
    for runs in range(most):
        reached = chain.ends[runs].copy() if runs <= _MOST_AT_ONCE else np.zeros(STATES)
        for scored in range(1, min(runs, _MOST_AT_ONCE) + 1):
            reached += chain.moves[scored] @ found[runs - scored]
        found[runs] = stay @ reached
    found[most] = 1 - found[:most].sum(axis=0)
    return np.ascontiguousarray(np.maximum(found, 0.0).T)


def shares_for(runs_per_team_game: float, usual: EventShares | None = None) -> EventShares:
    """Event shares of a league that scores so many runs: walks, hits and errors all more or less often alike.

    Args:
        runs_per_team_game: 2 to 15 runs in nine innings.
        usual: the line that is made more or less of.
    """
    start = usual or EventShares()
    reached = [each.name for each in fields(EventShares) if each.name != "strikeout"]

    def scaled(by: float) -> EventShares:
        return replace(start, **{name: getattr(start, name) * by for name in reached})

    def over(by: float) -> float:
        return float(run_expectancy(run_chain(scaled(by)))[0, 0]) * INNINGS - runs_per_team_game

    room = (1 - start.strikeout) / sum(getattr(start, name) for name in reached)
    from scipy import optimize  # noqa: PLC0415 - a fifth of a second to read; most rebuilds ask for none

    return scaled(float(optimize.brentq(over, 0.05, 0.98 * room, xtol=1e-10)))


def _plays(shares: EventShares, how: Advancement, bases: int, outs: int) -> Iterator[tuple[float, int, int, int]]:
    """Ways a plate appearance can go: chance, bases after, outs made, runs."""
    two = int(outs == OUTS - 1)
    yield shares.strikeout, bases, 1, 0
    yield shares.home_run, 0, 0, bases.bit_count() + 1
    yield shares.triple, 4, 0, bases.bit_count()
    yield shares.walk, *_walk(bases)
    for chance, after, runs in _single(how, bases, two):
        yield shares.single * chance, after, 0, runs
    # Everybody moves up a base on an error.
    yield shares.error, ((bases << 1) & 7) | 1, 0, int(bool(bases & 4))
    scored = (bases & 6).bit_count()
    going = how.first_scores[two] if bases & 1 else 0.0
    yield shares.double * going, 2, 0, scored + 1
    yield shares.double * (1 - going), 2 | (4 if bases & 1 else 0), 0, scored
    for chance, after, more, runs in _out(how, bases, outs):
        yield shares.out_in_play * chance, after, more, runs


def _between(how: Advancement, bases: int) -> Iterator[tuple[float, int, int, int]]:
    """What happens on the bases before a plate appearance: chance, bases after, outs made, runs."""
    word = BASE_STATES[bases]
    up, out = how.moved_up.get(word, 0.0), how.picked_out.get(word, 0.0)
    yield 1 - up - out, bases, 0, 0
    if not bases:
        return
    if word == "13":
        # The man on first goes, the one on third stays.
        yield up, BASE_STATES.index("23"), 0, 0
        yield out, BASE_STATES.index("3"), 1, 0
        return
    yield up, (bases << 1) & 7, 0, int(bool(bases & 4))
    # It is the leading man who is out.
    yield out, bases & ~(1 << (bases.bit_length() - 1)), 1, 0


def _walk(bases: int) -> tuple[int, int, int]:
    if bases == 7:
        return 7, 0, 1
    # The lowest empty base is filled: everybody behind it is forced.
    return bases | (~bases & (bases + 1)), 0, 0


def _single(how: Advancement, bases: int, two: int) -> Iterator[tuple[float, int, int]]:
    home = int(bool(bases & 4))
    from_second = how.second_scores[two] if bases & 2 else 0.0
    for scores, chance in ((1, from_second), (0, 1 - from_second)):
        if not chance:
            continue
        third = 4 if bases & 2 and not scores else 0
        if not bases & 1:
            yield chance, 1 | third, home + scores
            continue
        # Third is free for the man from first only where nobody stopped there.
        goes = 0.0 if third else how.first_to_third[two]
        yield chance * goes, 1 | 4, home + scores
        yield chance * (1 - goes), 1 | 2 | third, home + scores


def _out(how: Advancement, bases: int, outs: int) -> Iterator[tuple[float, int, int, int]]:
    if outs == OUTS - 1:
        yield 1.0, bases, 1, 0
        return
    both = how.double_play if bases & 1 else 0.0
    if both:
        # The man on third scores on it unless it is the third out; the one on second goes to third.
        runs = int(bool(bases & 4)) if outs == 0 else 0
        yield both, 4 if bases & 2 else 0, 2, runs
    spread: dict[tuple[int, int], float] = defaultdict(float)
    for third, chance_3 in _moving(bases & 4, how.third_scores[bases & 1]):
        for second, chance_2 in _moving(bases & 2 and (third or not bases & 4), how.second_moves):
            for first, chance_1 in _moving(bases & 1 and (second or not bases & 2), how.first_moves):
                after = (bases & 4 if not third else 0) | (4 if second else bases & 2) | (2 if first else bases & 1)
                spread[after, int(third)] += chance_3 * chance_2 * chance_1
    for (after, runs), chance in spread.items():
        yield (1 - both) * chance, after, 1, runs


def _moving(free: int | bool, chance: float) -> tuple[tuple[bool, float], ...]:
    """Whether a runner moves up, where he is there and the base before him is free."""
    return ((True, chance), (False, 1 - chance)) if free else ((False, 1.0),)
