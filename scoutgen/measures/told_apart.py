"""How many more pitches would tell the likeliest from the next, where what to look for is open between two."""

from math import ceil, sqrt
from typing import Final

#: No answer where it would take more than so many times the pitches charted: nobody charts that before a game.
MOST_TIMES: Final = 10


def to_tell_apart(n: int, share: float, low: float, second_share: float) -> int | None:
    """How many pitches would tell the likeliest from the next, if the shares stay as they are?

    They are told apart once the low end of the first's interval lies over the second's share, as `look_for` asks. An
    interval narrows with the root of what is charted, so n must grow by the square of how much narrower it must be.

    Args:
        n: pitches charted in the situation, at least 1.
        share: estimated share of the likeliest, 0-1.
        low: low end of its interval, 0-1, not over `share`.
        second_share: estimated share of the next, 0-1.

    Returns:
        Pitches in all, those charted among them, rounded up; where they are told apart already that is n or fewer.
        None where the shares are alike, or so near that MOST_TIMES as many would not do.
    """
    gap, half = share - second_share, share - low
    if gap <= 0 or gap * sqrt(MOST_TIMES) < half:
        return None
    return ceil(n * (half / gap) ** 2)
