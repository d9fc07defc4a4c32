"""What the builds of each edition said last, kept in the project between builds: .scoutgen/said/<edition>.json.

A file holds up to three states: what was said when the last evening's work was done (`before`), and the first and the
newest of this one. Builds that follow each other by less than WORK_HOURS belong to one piece of work: whoever charts a
game in five sittings, or lets `scoutgen serve` rebuild at every save, asks afterwards what changed since before.
"""

import contextlib
import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from scoutgen.pages.changed import Earlier
from scoutgen.pages.said import Said, content, from_plain, to_plain

FORMAT: Final = 1
WORK_HOURS: Final = 4
BUILT_FORM: Final = "%Y-%m-%d %H:%M"


@dataclass(frozen=True)
class State:
    """What one build said; `built` is its time, as BUILT_FORM has it, `as_of` the day it was made for."""

    built: str
    as_of: date
    said: Said

    @property
    def words(self) -> str:
        """Which build, for a page."""
        at = _time(self.built)
        day = f"{at:%a} {at.day} {at:%b} {at.year}, {at:%H:%M}"
        other = "" if self.as_of == at.date() else f" (as of {self.as_of:%a} {self.as_of.day} {self.as_of:%b})"
        return f"the build of {day}{other}"

    @property
    def short(self) -> str:
        """The same in a line among others."""
        at = _time(self.built)
        return f"{at.day} {at:%b}, {at:%H:%M}"


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
        after = self.after(State(built, date.min, said))
        for state in (after.before, after.first, self.now):
            if state is not None and content(state.said) != content(said):
                return Earlier(state.said, state.words, state.short)
        return Earlier(first=True, same_since=self.now.words if self.now else "", unreadable=self.unreadable)

    def after(self, state: State) -> "Memory":
        """What is remembered once a build has said this."""
        if self.now is None:
            return Memory(None, state, state)
        if content(self.now.said) == content(state.said):
            return self
        if _apart(self.now.built, state.built):
            return Memory(self.now, state, state)
        return replace(self, now=state)


def place(project: Path, edition: str) -> Path:
    """Where an edition is remembered."""
    return project / ".scoutgen" / "said" / f"{edition}.json"


def recall(project: Path, edition: str) -> Memory:
    """What is remembered of an edition; a file that cannot be read counts as none."""
    try:
        text = place(project, edition).read_text(encoding="utf-8")
    except FileNotFoundError:
        return Memory()
    except (OSError, UnicodeDecodeError):
        return Memory(unreadable=True)
    try:
        kept = json.loads(text)
        if kept["format"] != FORMAT:
            return Memory(unreadable=True)
        before, first, now = (_state(kept[name]) for name in ("before", "first", "now"))
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
    file = place(project, edition)
    file.parent.mkdir(parents=True, exist_ok=True)
    growing = file.with_name(f"{file.name}.{os.getpid()}")
    try:
        growing.write_text(text + "\n", encoding="utf-8", newline="\n")
        growing.replace(file)
    except OSError:
        with contextlib.suppress(OSError):
            growing.unlink(missing_ok=True)
        raise


def _apart(earlier: str, later: str) -> bool:
    """Whether two builds belong to different pieces of work; a clock that went backwards parts none."""
    return _time(later) - _time(earlier) >= timedelta(hours=WORK_HOURS)


def _time(built: str) -> datetime:
    return datetime.strptime(built, BUILT_FORM)  # noqa: DTZ007 - compared with others of this machine alone


def _plain(state: State | None) -> dict[str, Any] | None:
    if state is None:
        return None
    return {"built": state.built, "as_of": state.as_of.isoformat(), "said": to_plain(state.said)}


def _state(kept: Mapping[str, Any] | None) -> State | None:
    if kept is None:
        return None
    state = State(str(kept["built"]), date.fromisoformat(kept["as_of"]), from_plain(kept["said"]))
    _ = state.words  # a time that is none
    return state
