"""Has an estimate moved further than what was said of it allowed, or is it better known than it was?"""

from typing import Final

from scoutgen.measures.sureness import SURENESS

_THIN: Final = SURENESS[-1]


def moved(low: float | None, high: float | None, estimate: float | None, *, old_n: int, n: int) -> bool:
    """Does the new estimate lie outside the interval that stood with the old one, with more charted than then?

    The new estimate is held against the old interval, not the other way round, since that interval is what was printed
    and acted on. It is also the rule that cries wolf least. The old looks are among the new, so with an old half-width
    of z standard errors and a man who has not changed, the estimate leaves it with the chance of a normal deviate
    beyond z / sqrt(1 - old_n / n): never as much as the interval itself leaves out (10 in 100), 2 in 100 where as much
    again was charted, less than 1 in 1,000 after one game among six. The old estimate leaves the new interval with the
    chance of one beyond z / sqrt(n / old_n - 1): 10 in 100 with as much again, 34 with four times as much.

    Args:
        low: lower end of the old 90 % interval; None where there was none, from which nothing can move.
        high: its upper end.
        estimate: the new estimate, in the same unit.
        old_n: looks or readings behind the old one.
        n: and behind the new one.
    """
    if low is None or high is None or estimate is None or n <= old_n:
        return False
    return not low <= estimate <= high


def better_known(old_sure: str, sure: str) -> bool:
    """Was it too thin for a number, and is no more?

    Args:
        old_sure: a word of `SURENESS`; empty where it was not known at all.
        sure: the same of now.
    """
    return old_sure in ("", _THIN) and sure in SURENESS and sure != _THIN
