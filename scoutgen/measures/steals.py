"""Who can go on this pitcher and this catcher, by how much, and what the answer rests on."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import pandas as pd
from scipy import special

from scoutgen.measures.counts import ALL
from scoutgen.measures.intervals import LEVEL
from scoutgen.measures.steal_odds import NEVER, Chance, Seconds, StealInputs, StealOdds, mixed_odds, steal_odds

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

#: From which base, and what the runner, the catcher and the pitcher are timed at.
STEALS: Final[Mapping[str, tuple[str, str, str]]] = MappingProxyType(
    {"2": ("1", "first_second", "pop_2"), "3": ("2", "second_third", "pop_3")}
)

#: Throws that cost time at the bag, and those that are lost.
_WIDE: Final = ("field_side", "high", "short_hop")
_LOST: Final = ("dropped",)


@dataclass(frozen=True)
class Runner:
    """One of our men with his usual times in seconds; None where he was never timed."""

    key: str
    first_second: float | None = None
    second_third: float | None = None


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
        step with a runner there has only the stretch.
    """
    lookup = _Lookup(tables, few_readings)
    rows = []
    men = list(runners)
    for team, pitcher, catcher in batteries:
        for base, (start, run_measure, pop_key) in STEALS.items():
            thrower = lookup.catcher(team, catcher, pop_key)
            for style, held in lookup.deliveries(team, pitcher, start).items():
                for runner in men:
                    run = lookup.run(own_team, runner, run_measure)
                    if run is not None:
                        rows.append(_row((team, pitcher, catcher, runner.key, base, style), run, held, thrower))
    return pd.DataFrame(rows, columns=STEAL_COLUMNS)


@dataclass(frozen=True)
class _Thrower:
    pop: Seconds
    wide: Chance
    lost: Chance


@dataclass(frozen=True)
class _Held:
    """How a pitcher holds a runner: one delivery, or two with the share of the second."""

    plate: Seconds
    thrown_over: Chance
    other: Seconds | None = None
    share: Chance = NEVER


def _row(key: tuple[str, ...], run: Seconds, held: _Held, thrower: _Thrower) -> tuple[object, ...]:
    def odds(plate: Seconds) -> StealOdds:
        return steal_odds(StealInputs(run, plate, thrower.pop, thrower.wide, thrower.lost, held.thrown_over))

    found, plate = odds(held.plate), held.plate
    if held.other is not None:
        found = mixed_odds(found, odds(held.other), held.share)
        middle = (1 - held.share.share) * held.plate.mean + held.share.share * held.other.mean
        # The answer rests on the delivery he uses more.
        usual = held.plate if held.share.share < 0.5 else held.other
        plate = replace(usual, mean=middle)
    chances = (found.margin_s, found.p_safe, found.low, found.high, found.p_clock, found.picked)
    known = plate.n > 0 and thrower.pop.n > 0
    return (*key, *chances, run.mean, run.n, plate.mean, plate.n, thrower.pop.mean, thrower.pop.n, known)


class _Lookup:
    """The rows of the tables by whom and what they are of, the best known of each."""

    def __init__(self, tables: Tables, few_readings: int) -> None:
        live = tables.times[~tables.times["warmup"]]
        self._times = surest(live, ["team", "player", "measure", "style", "bases"], few_readings)
        pops = tables.throw_times[~tables.throw_times["warmup"] & tables.throw_times["measure"].eq("pop")]
        self._pops = surest(pops, ["team", "player", "to"], few_readings)
        at = tables.accuracy[~tables.accuracy["warmup"]]
        self._accuracy = _chances(at, ["team", "player", "to", "accuracy"])
        self._slides = _chances(tables.slide_steps[tables.slide_steps["k"] > 0], ["team", "player", "bases"])
        over = tables.moves[tables.moves["split"].eq("bases")]
        self._over = _chances(over, ["team", "player", "move", "value"])

    def run(self, team: str, runner: Runner, measure: str) -> Seconds | None:
        charted = self._times.get((team, runner.key, measure, ALL, ALL))
        if charted is not None:
            return charted
        said: float | None = getattr(runner, measure)
        return None if said is None else Seconds(said, ROSTER_MEAN_SD_S, JUMP_SPREAD_S)

    def catcher(self, team: str, key: str, pop: str) -> _Thrower:
        base = pop.removeprefix("pop_")
        # His throws to the base itself where any are charted, else wherever he threw.
        to = base if (team, key, base, _WIDE[0]) in self._accuracy else ALL
        wide, lost = (self._together(team, key, to, words) for words in (_WIDE, _LOST))
        return _Thrower(self._pops.get((team, key, base), USUAL[pop]), wide, lost)

    def deliveries(self, team: str, key: str, bases: str) -> dict[str, _Held]:
        """By style: each delivery he was seen to use with a runner there, and the mix of the two."""
        over = self._over.get((team, key, f"pickoff_{bases}", bases), NEVER)
        stretch = self._plate(team, key, "stretch", bases)
        found = {"stretch": _Held(stretch, over)}
        slide = self._slides.get((team, key, bases))
        if slide is not None and (team, key, "plate", "slide_step", ALL) in self._times:
            quick = self._plate(team, key, "slide_step", bases)
            found["slide_step"] = _Held(quick, over)
            found["mixed"] = _Held(stretch, over, quick, slide)
        return found

    def _plate(self, team: str, key: str, style: str, bases: str) -> Seconds:
        there = self._times.get((team, key, "plate", style, bases))
        anywhere = self._times.get((team, key, "plate", style, ALL))
        # With a runner there he may take longer; but a handful of readings there knows less than all of them.
        if there is not None and anywhere is not None and there.mean_sd <= 1.5 * anywhere.mean_sd:
            return there
        return anywhere or USUAL[style]

    def _together(self, team: str, key: str, to: str, words: tuple[str, ...]) -> Chance:
        parts = [self._accuracy[at] for word in words if (at := (team, key, to, word)) in self._accuracy]
        share = sum(part.share for part in parts)
        return Chance(min(share, 1.0), sum(part.sd**2 for part in parts) ** 0.5) if parts else NEVER


def surest(table: pd.DataFrame, keys: list[str], few_readings: int = 5) -> dict[tuple[str, ...], Seconds]:
    """Of each thing the readings whose mean is known best, watch or frames, but not a few where there are more."""
    ranked = table.assign(few=table["n"] < few_readings).sort_values(["few", "mean_sd"], kind="stable")
    best = ranked.drop_duplicates(keys)
    values = zip(best["mean"], best["mean_sd"], best["spread"], best["n"], strict=True)
    return {
        tuple(key): Seconds(float(mean), float(mean_sd), float(spread), int(n))
        for key, (mean, mean_sd, spread, n) in zip(best[keys].itertuples(index=False), values, strict=True)
    }


def _chances(table: pd.DataFrame, keys: list[str]) -> dict[tuple[str, ...], Chance]:
    half = 2 * float(special.ndtri(0.5 + LEVEL / 2))
    values = zip(table["share"], (table["high"] - table["low"]) / half, strict=True)
    return {
        tuple(key): Chance(float(share), float(sd))
        for key, (share, sd) in zip(table[keys].itertuples(index=False), values, strict=True)
    }
