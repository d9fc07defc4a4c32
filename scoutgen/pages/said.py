"""What a build said, thing by thing, in a form that the next build can be compared with; and the comparison."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, TypeAlias

from scoutgen.measures.moved import better_known, moved

#: Compared by their words; one that comes or goes is a change too.
WHO: Final = ("probable", "catcher", "lineup", "bullpen")
#: Compared by their words; one that comes or goes follows from something else that is told.
DECIDED: Final = ("call", "level")
#: Compared by their words once more was charted: what to look for, what changes later, whether looks have a pattern.
READ: Final = ("look_for", "turn", "looks")
#: Compared by how far they have come.
HABITS: Final = ("habit",)
#: Compared by their interval once more was charted: a share, a clock.
NUMBERS: Final = ("number", "clock")
#: Told when they come, never when they go: what was taken back is not said again.
WRITTEN: Final = ("note", "plan", "summary")
#: Compared by their words; one that comes is told too, one that goes is not.
GRADED: Final = ("grade",)
#: Told when they come, go or grow.
GAMES: Final = ("game",)
KINDS: Final = (*WHO, *DECIDED, *READ, *HABITS, *NUMBERS, *WRITTEN, *GRADED, *GAMES)

#: How far a habit has come, by what the page does with it.
HABIT_STEPS: Final = ("", "looked for", "seen", "recurs")


@dataclass(frozen=True)
class Saying:
    """One thing a build said.

    Attributes:
        kind: one of KINDS.
        group: whose pages it concerns, as a heading: a team's name; empty for games.
        about: whom it is about, as a link reads.
        what: what is said of him.
        said: what it says, in words: compared as they are.
        address: the page it stands on, with its heading after a "#" where it has one.
        who: of several that say the same of one thing, whom this one concerns: a runner; of two pitches the likelier.
        k, n: the tally; n alone for readings.
        value, low, high: the estimate and its 90 % interval: a share of 0-1, or seconds where `unit` is "s".
        sure: firm, usable, lean or thin.
        detail: what it rests on, in words.
    """

    kind: str
    group: str
    about: str
    what: str
    said: str
    address: str
    who: str = ""
    k: int | None = None
    n: int = 0
    value: float | None = None
    low: float | None = None
    high: float | None = None
    unit: str = ""
    sure: str = ""
    detail: str = ""


#: All that a build said, by a key that stays the same from build to build, in the order of importance.
Said: TypeAlias = Mapping[str, Saying]


@dataclass(frozen=True)
class Change:
    """One thing that is not as it was; `before` is None where it is new, `now` where it is gone.

    `how`: "new", "gone", "other" (other words), "moved" (a number beyond its interval), "known" (too thin before).
    """

    how: str
    before: Saying | None
    now: Saying | None

    @property
    def told(self) -> Saying:
        """The saying that is there: the new one, else the one that is gone."""
        found = self.now or self.before
        assert found is not None  # noqa: S101 - a change is of something
        return found


def changes(before: Said, now: Said) -> tuple[Change, ...]:
    """What is not as it was, in the order of what is said now; what is gone stands last.

    Two builds are compared by their keys alone, so that any part of what was said can be: a page's, a card's.
    """
    found = [_change(before.get(key), saying) for key, saying in now.items()]
    gone = [_change(saying, None) for key, saying in before.items() if key not in now]
    return tuple(change for change in (*found, *gone) if change is not None)


def _change(before: Saying | None, now: Saying | None) -> Change | None:
    how = _how(before, now)
    return Change(how, before, now) if how else None


def _how(before: Saying | None, now: Saying | None) -> str:
    if before is None or now is None:
        return _come_or_gone(before, now)
    if now.kind in (*READ, *NUMBERS) and now.n <= before.n:
        return ""
    # A thin estimate is printed without a number, so nothing of it can be told.
    if now.kind in ("look_for", *NUMBERS) and now.sure == "thin":
        return ""
    if now.kind in ("look_for", "clock") and better_known(before.sure, now.sure):
        return "known"
    if now.kind in NUMBERS and before.said == now.said:
        gone = before.sure != "thin" and moved(before.low, before.high, now.value, old_n=before.n, n=now.n)
        return "moved" if gone else ""
    return "other" if before.said != now.said and now.said not in HABIT_STEPS[:2] else ""


def _come_or_gone(before: Saying | None, now: Saying | None) -> str:
    if before is None and now is not None:
        if now.kind in HABITS:
            return "new" if now.said in HABIT_STEPS[2:] else ""
        return "new" if now.kind in (*WHO, *WRITTEN, *GRADED, *GAMES, "turn") else ""
    return "gone" if before is not None and before.kind in (*WHO, *GAMES) else ""


def content(said: Said) -> list[tuple[object, ...]]:
    """What two builds must have alike to say the same, whatever pages are called and however finely it is counted."""
    return [(key, one.said, one.k, one.n, _short(one.value), one.sure) for key, one in said.items()]


def _short(value: float | None) -> str:
    return "" if value is None else f"{value:.4f}"


def to_plain(said: Said) -> list[list[Any]]:
    """As lists and dictionaries, for a file: key and what differs from an empty saying.

    Names and addresses only of what is told when it is gone; of everything else the next build has its own.
    """
    return [[key, {name: _plain(value) for name, value in _kept(one).items()}] for key, one in said.items()]


_NAMES: Final = ("group", "about", "what", "address", "unit")


def _kept(one: Saying) -> dict[str, Any]:
    unnamed = () if one.kind in (*WHO, *GAMES) else _NAMES
    return {name: value for name, value in vars(one).items() if value not in (None, "") and name not in unnamed}


def _plain(value: object) -> object:
    return float(f"{value:.6g}") if isinstance(value, float) else value


def from_plain(rows: Any, met: dict[Any, tuple[Any, Saying]] | None = None) -> dict[str, Saying]:  # noqa: ANN401 - whatever a file holds
    """The other way round.

    Args:
        rows: what a file holds.
        met: sayings that were read before, by key, with what was read: two builds have most in common.

    Raises:
        ValueError: it is not what `to_plain` writes.
    """
    met = {} if met is None else met
    said = {}
    try:
        for key, one in rows:
            found = met.get(key)
            # Yes for 1, or 1.0, is met as what it equals; alone it would be refused.
            if found is None or found[0] != one:
                met[key] = found = one, _saying(one)
            said[str(key)] = found[1]
    except (TypeError, KeyError, AttributeError) as wrong:
        raise ValueError(f"not a list of sayings: {wrong}") from wrong
    return said


# Of JSON's kinds of value exactly one of these: yes and no are no numbers here.
_TYPES: Final[Mapping[str, tuple[type, ...]]] = {
    "k": (int, type(None)), "n": (int,), **dict.fromkeys(("value", "low", "high"), (int, float, type(None))),
}  # fmt: skip
_WORDS: Final = (str,)
_EMPTY: Final = dict.fromkeys(("said", *_NAMES), "")


def _saying(one: Mapping[str, Any]) -> Saying:
    for name, value in one.items():
        if type(value) not in _TYPES.get(name, _WORDS):
            raise TypeError(f"{name} is {value!r}")
    made = Saying(**{**_EMPTY, **one})
    if made.kind not in KINDS or (made.kind in HABITS and made.said not in HABIT_STEPS):
        raise ValueError(f"{made.kind}: {made.said}")
    return made
