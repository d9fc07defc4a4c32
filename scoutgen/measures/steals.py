"""Who can go on this pitcher and this catcher, by how much, and what the answer rests on."""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Final

import pandas as pd
from scipy import special

from scoutgen.measures.counts import ALL
from scoutgen.measures.intervals import LEVEL
from scoutgen.measures.steal_odds import (
    NEVER,
    Chance,
    Seconds,
    StealInputs,
    StealOdds,
    mixed_odds,
    odds_of_runners,
)

STEAL_COLUMNS: Final = [
    "team", "player", "catcher", "runner", "base", "style", "margin_s", "p_safe", "low", "high", "p_clock", "picked",
    "run_s", "run_n", "plate_s", "plate_n", "pop_s", "pop_n", "known",
]  # fmt: skip

#: What is usual where nobody was timed: mean, how far men differ, and what one man scatters by. To the plate and pop
#: as trade sources have them (big-league mean pop 2.0 s; college games 1.95 to 2.15; 1.3 s and less to the plate holds
#: most runners, 1.5 s and more gives up many: Kansas City Star, 26 March 2014); the rest by common practice, memory.
USUAL: Final[Mapping[str, Seconds]] = MappingProxyType(
    {
        "stretch": Seconds(1.40, 0.10, 0.06),
        "slide_step": Seconds(1.18, 0.07, 0.05),
        "pop_2": Seconds(2.05, 0.08, 0.07),
        "pop_3": Seconds(1.60, 0.08, 0.07),
    }
)

#: What a runner's time from the roster is known to, and what he scatters by from jump to jump. Common practice, memory.
ROSTER_MEAN_SD_S: Final = 0.04
JUMP_SPREAD_S: Final = 0.08

#: How far a man's mean with runners so is from his mean over all: with second occupied he looks and takes longer.
#: Common practice, memory: a few hundredths.
STATES_APART_S: Final = 0.04

#: From which base, and what the runner, the catcher and the pitcher are timed at.
STEALS: Final[Mapping[str, tuple[str, str, str]]] = MappingProxyType(
    {"2": ("1", "first_second", "pop_2"), "3": ("2", "second_third", "pop_3")}
)

#: Throws that cost time at the bag, and those that are lost.
WIDE: Final = ("field_side", "high", "short_hop")
_LOST: Final = ("dropped",)


@dataclass(frozen=True)
class Runner:
    """One of our men with his usual time in seconds to each base ("2", "3"); bases he was never timed to are absent."""

    key: str
    seconds: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Tables:
    """What the measures of those names say that an attempt hangs on.

    `times` is `time_summary`, `accuracy` `throw_accuracy`, `moves` `hold_moves`.
    """

    times: pd.DataFrame
    throw_times: pd.DataFrame
    accuracy: pd.DataFrame
    slide_steps: pd.DataFrame
    moves: pd.DataFrame


def steals(
    tables: Tables,
    runners: Iterable[Runner],
    batteries: Iterable[tuple[str, str, str]],
    *,
    own_team: str,
    few_readings: int = 5,
) -> pd.DataFrame:
    """Can he go: every runner of ours on every battery of theirs?

    Args:
        tables: what the other measures say of the season.
        runners: our men; who has no time for a base has no row there, unless he was charted.
        batteries: team, pitcher and catcher, by key.
        own_team: our key, under which our own readings are charted.
        few_readings: of one thing timed by watch and by frames, what has fewer gives way to what has not.

    Returns:
        One row for each team, player (the pitcher), catcher, runner, base ("2", "3") and style ("stretch",
        "slide_step", "mixed"): STEAL_COLUMNS. Margin and times in seconds; chances 0-1, their interval at 90 %.
        `run_n`, `plate_n` and `pop_n` are the readings behind each time, 0 for one from our roster (the runner's) or a
        usual one; `known`: neither the plate nor the pop is a usual one. A pitcher who was not seen to use the slide
        step with a runner there has only the stretch; one who was, but was never timed at it, has a usual one.
    """
    lookup = _Lookup(tables, few_readings)
    rows: list[tuple[object, ...]] = []
    men = list(runners)
    runs = {
        base: [(man.key, run) for man in men if (run := lookup.run(own_team, man, base)) is not None] for base in STEALS
    }
    for team, pitcher, catcher in batteries:
        for base, (start, _, pop_key) in STEALS.items():
            thrower, held = lookup.catcher(team, catcher, pop_key), lookup.held(team, pitcher, start)
            for style, plate, odds in _by_style([run for _, run in runs[base]], held, thrower):
                for (runner, run), found in zip(runs[base], odds, strict=True):
                    key = (team, pitcher, catcher, runner, base, style)
                    rows.append((*key, *_amounts(found, run, plate, thrower.pop)))
    return pd.DataFrame(rows, columns=STEAL_COLUMNS)


@dataclass(frozen=True)
class _Thrower:
    pop: Seconds
    wide: Chance
    lost: Chance


@dataclass(frozen=True)
class _Held:
    """How a pitcher holds a runner: his deliveries (`quick` is None where he has no slide step), and throws over."""

    stretch: Seconds
    quick: Seconds | None
    share: Chance
    over: Chance


def _by_style(runs: list[Seconds], held: _Held, thrower: _Thrower) -> Iterator[tuple[str, Seconds, list[StealOdds]]]:
    """Each delivery and their mix, with the time it rests on and every runner's odds."""

    def odds(plate: Seconds) -> list[StealOdds]:
        still = Seconds(0.0, 0.0, 0.0)
        return odds_of_runners(runs, StealInputs(still, plate, thrower.pop, thrower.wide, thrower.lost, held.over))

    slow = odds(held.stretch)
    yield "stretch", held.stretch, slow
    if held.quick is None:
        return
    quick = odds(held.quick)
    yield "slide_step", held.quick, quick
    share = held.share.share
    # The answer rests on the delivery he uses more.
    usual = held.stretch if share < 0.5 else held.quick
    plate = replace(usual, mean=(1 - share) * held.stretch.mean + share * held.quick.mean)
    yield "mixed", plate, [mixed_odds(a, b, held.share) for a, b in zip(slow, quick, strict=True)]


def _amounts(found: StealOdds, run: Seconds, plate: Seconds, pop: Seconds) -> tuple[object, ...]:
    chances = (found.margin_s, found.p_safe, found.low, found.high, found.p_clock, found.picked)
    return (*chances, run.mean, run.n, plate.mean, plate.n, pop.mean, pop.n, plate.n > 0 and pop.n > 0)


class _Lookup:
    """The rows of the tables by whom and what they are of, the best known of each."""

    def __init__(self, tables: Tables, few_readings: int) -> None:
        live = tables.times[~tables.times["warmup"]]
        self._times = surest(live, ["team", "player", "measure", "style", "bases"], few_readings)
        pops = tables.throw_times[~tables.throw_times["warmup"] & tables.throw_times["measure"].eq("pop")]
        self._few = few_readings
        self._pops = surest(pops, ["team", "player", "to"], few_readings)
        at = tables.accuracy[~tables.accuracy["warmup"]]
        self._accuracy = _chances(at, ["team", "player", "to", "accuracy"])
        self._slides = _chances(tables.slide_steps[tables.slide_steps["k"] > 0], ["team", "player", "bases"])
        over = tables.moves[tables.moves["split"].eq("bases")]
        self._over = _chances(over, ["team", "player", "move", "value"])

    def run(self, team: str, runner: Runner, base: str) -> Seconds | None:
        charted = self._times.get((team, runner.key, STEALS[base][1], ALL, ALL))
        # What the staff wrote stands for many runs that nobody charted: a handful of readings does not replace it.
        if base in runner.seconds and (charted is None or charted.n < self._few):
            return Seconds(runner.seconds[base], ROSTER_MEAN_SD_S, JUMP_SPREAD_S)
        return charted

    def catcher(self, team: str, key: str, pop: str) -> _Thrower:
        base = pop.removeprefix("pop_")
        # His throws to the base itself where any are charted, else wherever he threw.
        to = base if (team, key, base, WIDE[0]) in self._accuracy else ALL
        wide, lost = (self._together(team, key, to, words) for words in (WIDE, _LOST))
        # Charted as a share of all throws, asked for as one of those that are caught.
        caught = max(1 - lost.share, 1e-6)
        wide = Chance(min(wide.share / caught, 1.0), wide.sd / caught)
        return _Thrower(self._pops.get((team, key, base), USUAL[pop]), wide, lost)

    def held(self, team: str, key: str, bases: str) -> _Held:
        """How he holds a runner there; a slide step only where he was seen to use it there, a usual one if untimed."""
        slide = self._slides.get((team, key, bases))
        return _Held(
            stretch=self._plate(team, key, "stretch", bases),
            quick=self._plate(team, key, "slide_step", bases) if slide is not None else None,
            share=slide or NEVER,
            over=self._over.get((team, key, f"pickoff_{bases}", bases), NEVER),
        )

    def _plate(self, team: str, key: str, style: str, bases: str) -> Seconds:
        there = self._times.get((team, key, "plate", style, bases))
        anywhere = self._times.get((team, key, "plate", style, ALL))
        if anywhere is None:
            return there or USUAL[style]
        # All his readings say less of this situation than their number makes believe; of the two the surer is taken.
        apart = replace(anywhere, mean_sd=math.hypot(anywhere.mean_sd, STATES_APART_S))
        told = there is not None and there.n >= min(self._few, anywhere.n)
        return there if there is not None and told and there.mean_sd <= apart.mean_sd else apart

    def _together(self, team: str, key: str, to: str, words: tuple[str, ...]) -> Chance:
        # Places exclude each other, so that the spread of their sum is at most this.
        parts = [self._accuracy[at] for word in words if (at := (team, key, to, word)) in self._accuracy]
        share = sum(part.share for part in parts)
        return Chance(min(share, 1.0), sum(part.sd**2 for part in parts) ** 0.5) if parts else NEVER


def surest(table: pd.DataFrame, keys: list[str], few_readings: int = 5) -> dict[tuple[str, ...], Seconds]:
    """Of each thing the readings whose mean is known best, watch or frames, but not a few where there are more."""
    ranked = table.assign(few=table["n"] < few_readings).sort_values(["few", "mean_sd"], kind="stable")
    best = ranked.drop_duplicates(keys)
    values = best[["mean", "mean_sd", "spread", "n", "method"]].itertuples(index=False)
    return {
        tuple(key): Seconds(float(mean), float(mean_sd), float(spread), int(n), str(method))
        for key, (mean, mean_sd, spread, n, method) in zip(best[keys].itertuples(index=False), values, strict=True)
    }


def _chances(table: pd.DataFrame, keys: list[str]) -> dict[tuple[str, ...], Chance]:
    half = 2 * float(special.ndtri(0.5 + LEVEL / 2))
    values = zip(table["share"], (table["high"] - table["low"]) / half, strict=True)
    return {
        tuple(key): Chance(float(share), float(sd))
        for key, (share, sd) in zip(table[keys].itertuples(index=False), values, strict=True)
    }
