"""Chance for the invented season: named streams of random numbers, the same on every machine."""

import random
from collections.abc import Mapping, Sequence
from typing import TypeVar

SEED = "lantern-coast-2026"

Thing = TypeVar("Thing")


def stream(*names: str) -> random.Random:
    """A stream of its own for each name: a change in one game leaves the others as they were."""
    return random.Random("/".join((SEED, *names)))  # noqa: S311 - a simulation keeps no secrets


def pick(rng: random.Random, weights: Mapping[Thing, float]) -> Thing:
    """One of the keys, by weight; written out so that it never depends on a library's way of drawing."""
    mark = rng.random() * sum(weights.values())
    last: Thing | None = None
    for thing, weight in weights.items():
        last = thing
        mark -= weight
        if mark < 0:
            break
    if last is None:
        raise ValueError("nothing to pick from")
    return last


def pick_at(rng: random.Random, chances: Sequence[float]) -> int:
    """An index, by weight."""
    return pick(rng, dict(enumerate(chances)))


def dirichlet(rng: random.Random, shares: Mapping[str, float], concentration: float) -> dict[str, float]:
    """Shares drawn around `shares`; the larger `concentration`, the closer."""
    drawn = {name: rng.gammavariate(concentration * share, 1.0) for name, share in shares.items() if share > 0}
    total = sum(drawn.values())
    return {name: value / total for name, value in drawn.items()}
