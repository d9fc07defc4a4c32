"""When a build was made: how it is written down, and how it is said."""

from datetime import datetime
from typing import Final

# By the clock of the machine that built; no zone, since nobody compares builds of two machines.
FORM: Final = "%Y-%m-%d %H:%M"


def time_of(built: str) -> datetime:
    """The time that was written down.

    Raises:
        ValueError: it is none.
    """
    return datetime.strptime(built, FORM)  # noqa: DTZ007 - as above


def in_words(built: str) -> str:
    """As short as a card has room for: 8 Apr, 21:40."""
    at = time_of(built)
    return f"{at.day} {at:%b}, {at:%H:%M}"
