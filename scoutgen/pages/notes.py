"""What people saw and wrote down: observations with their date, source and initials, by what they are about."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from scoutgen.pages.words import SOURCE_WORDS
from scoutgen.records.opponents import Entry, Observation

_CONFIDENCE = {"sure": 0, "likely": 1, "hunch": 2}


@dataclass(frozen=True)
class Note:
    """One observation, ready to print."""

    text: str
    seen: date
    source: str
    by: str
    confidence: str
    clip: str


@dataclass(frozen=True)
class Topic:
    """Every current observation about one thing; `views` more than one when different people saw it differently.

    Attributes:
        about: what it is about.
        notes: newest first.
        views: how many people wrote; with two or more, their notes stand side by side.
    """

    about: str
    notes: tuple[Note, ...]
    views: int


@dataclass(frozen=True)
class Notes:
    """A player's observations: current ones by topic, and those past their date, which are marked as old."""

    topics: tuple[Topic, ...]
    old: tuple[tuple[str, Note], ...]


def notes(entry: Entry | None, *, as_of: date) -> Notes:
    """A player's observations; those for other editions have been left out with `records.editions.for_edition`.

    Args:
        entry: the scouting entry; None where nobody wrote one.
        as_of: an observation whose `expires` lies before this day is old.
    """
    mine = entry.observations if entry else ()
    current = [o for o in mine if not _is_old(o, as_of)]
    expired = [o for o in mine if _is_old(o, as_of)]
    topics: dict[str, list[Observation]] = {}
    for observation in current:
        topics.setdefault(observation.about, []).append(observation)
    return Notes(
        topics=tuple(
            Topic(about, tuple(map(_note, _newest_first(some))), views=len({o.by for o in some}))
            for about, some in topics.items()
        ),
        old=tuple((o.about, _note(o)) for o in _newest_first(expired)),
    )


def noted(observations: Iterable[Observation], *, as_of: date) -> tuple[tuple[str, Note, bool], ...]:
    """What each is about, the note, and whether it is past its day; the newest first."""
    return tuple((o.about, _note(o), _is_old(o, as_of)) for o in _newest_first(observations))


def _is_old(o: Observation, as_of: date) -> bool:
    return o.expires is not None and o.expires < as_of


def _newest_first(observations: Iterable[Observation]) -> list[Observation]:
    return sorted(observations, key=lambda o: (-o.seen.toordinal(), _CONFIDENCE[o.confidence], o.text))


def _note(o: Observation) -> Note:
    return Note(
        text=o.text,
        seen=o.seen,
        source=SOURCE_WORDS[o.source],
        by=o.by,
        confidence=o.confidence,
        clip=o.clip or "",
    )
