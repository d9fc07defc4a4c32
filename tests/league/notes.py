"""The form of what a staff writes down: an observation with date, source, initials and how sure; an entry on a man."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Observation:
    """One thing somebody saw, every field as YAML text."""

    about: str
    text: str
    day: str
    source: str
    by: str
    confidence: str
    editions: str = ""
    clip: str = ""
    expires: str = ""


@dataclass(frozen=True)
class Graded:
    """An evaluation; `tools` is a line each: the tool, `now/later` or `now`, and what was seen of it, if anything."""

    day: str
    by: str
    source: str
    body: str
    role: str
    tools: str


@dataclass(frozen=True)
class Entry:
    """What is written on one man."""

    summary: str = ""
    observations: tuple[Observation, ...] = ()
    grades: Graded | None = None


def seen(
    about: str,
    text: str,
    day: str,
    by: str,
    confidence: str,
    *,
    source: str = "video",
    editions: str = "",
    clip: str = "",
    expires: str = "",
) -> Observation:
    """An observation; by video unless said otherwise."""
    return Observation(about, text, day, source, by, confidence, editions, clip, expires)
