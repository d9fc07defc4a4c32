"""What the builds of each edition said last, kept in the project between builds: .scoutgen/said/<edition>.json.

A file holds up to three states: what was said when the last evening's work was done (`before`), and the first and the
newest of this one. Builds that follow each other by less than WORK_HOURS belong to one piece of work: whoever charts a
game in five sittings, or lets `scoutgen serve` rebuild at every save, asks afterwards what changed since before.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path
from typing import Any, Final

from scoutgen.pages.built import in_words, time_of
from scoutgen.pages.changed import Earlier
from scoutgen.pages.said import Said, Saying, content, from_plain, to_plain
from scoutgen.records.writing import write_whole
from scoutgen.site import kept

FORMAT: Final = 2
WORK_HOURS: Final = 4


@dataclass(frozen=True)
class State:
    """What one build said; `built` is its time, as it is written down, `as_of` the day it was made for.

    `rows` is what was read of it, which is written again as it is; None where it is of this build.
    """

    built: str
    as_of: date
    said: Said
    rows: list[list[Any]] | None = field(default=None, compare=False, repr=False)

    @property
    def words(self) -> str:
        """Which build, for a page."""
        at = time_of(self.built)
        day = f"{at:%a} {at.day} {at:%b} {at.year}, {at:%H:%M}"
        other = "" if self.as_of == at.date() else f" (as of {self.as_of:%a} {self.as_of.day} {self.as_of:%b})"
        return f"the build of {day}{other}"


@dataclass(frozen=True)
class Memory:
    """What is remembered of an edition; None where no build was.

    Attributes:
        before: the last state of the work before this one.
        first, now: the first and the newest state of this one.
        unreadable: there is a file, which is damaged or of another version; it counts as none.
    """

    before: State | None = None
    first: State | None = None
    now: State | None = None
    unreadable: bool = False

    def earlier(self, said: Said, built: str) -> Earlier:
        """What a build that says this is compared with: the oldest state of this piece of work that says otherwise.

        Building again with nothing changed compares with the same state as before. Whoever takes a change back and then
        makes it again, is compared with the state in between.
        """
        for state in (*self._stay(said, built), self.now):
            if state is not None and content(state.said) != content(said):
                return Earlier(state.said, state.words, in_words(state.built))
        return Earlier(first=True, same_since=self.now.words if self.now else "", unreadable=self.unreadable)

    def after(self, state: State) -> "Memory":
        """What is remembered once a build has said this."""
        if self.now is not None and content(self.now.said) == content(state.said):
            return self
        before, first = self._stay(state.said, state.built)
        return Memory(before, first or state, state)

    def _stay(self, said: Said, built: str) -> "tuple[State | None, State | None]":
        """The states before and first of the work a build belongs to; None for what there is not, or is that build."""
        if self.now is None:
            return None, None
        if content(self.now.said) != content(said) and _apart(self.now.built, built):
            return self.now, None
        return self.before, self.first


def place(project: Path, edition: str) -> Path:
    """Where an edition is remembered."""
    return kept.place(project, "said", edition)


def recall(project: Path, edition: str) -> Memory:
    """What is remembered of an edition; a file that cannot be read counts as none."""
    file = place(project, edition)
    if (found := kept.read_json(file)) is None:
        return Memory(unreadable=file.exists())
    try:
        if found["format"] != FORMAT:
            return Memory(unreadable=True)
        met: dict[Any, tuple[Any, Saying]] = {}
        before, first, now = (_state(found[name], met) for name in ("before", "first", "now"))
        return Memory(before, first or now, now)
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return Memory(unreadable=True)


def remember(project: Path, edition: str, memory: Memory) -> None:
    """Keep it, whole or not at all.

    Raises:
        OSError: the disk is full or cannot be written; what was kept before stands.
    """
    first = None if memory.first == memory.now else memory.first
    states = {"before": _plain(memory.before), "first": _plain(first), "now": _plain(memory.now)}
    text = json.dumps({"format": FORMAT, **states}, ensure_ascii=False, separators=(",", ":"))
    write_whole(place(project, edition), f"{text}\n".encode())


def _apart(earlier: str, later: str) -> bool:
    """Whether two builds belong to different pieces of work; a clock that went backwards parts none."""
    return time_of(later) - time_of(earlier) >= timedelta(hours=WORK_HOURS)


def _plain(state: State | None) -> dict[str, Any] | None:
    if state is None:
        return None
    return {"built": state.built, "as_of": state.as_of.isoformat(), "said": state.rows or to_plain(state.said)}


def _state(found: Mapping[str, Any] | None, met: dict[Any, tuple[Any, Saying]]) -> State | None:
    if found is None:
        return None
    rows = found["said"]
    state = State(str(found["built"]), date.fromisoformat(found["as_of"]), from_plain(rows, met), rows)
    _ = state.words  # a time that is none
    return state
