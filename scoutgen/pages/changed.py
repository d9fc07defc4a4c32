"""What changed since the last build, in the order of what it means for the next game."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Final

from scoutgen.measures.intervals import LEVEL
from scoutgen.pages.said import DECIDED, GAMES, GRADED, HABITS, NUMBERS, READ, WHO, WRITTEN, Change, Said, changes

ADDRESS: Final = "changed"
MENU: Final = ("What changed",)
# The parts of a team's list, and the kinds each holds.
_PARTS: Final[Mapping[str, tuple[str, ...]]] = {
    "Who plays": WHO,
    "Decisions": (*DECIDED, *READ),
    "Habits": HABITS,
    "Numbers": NUMBERS,
    "Notes": WRITTEN,
    "Grades": GRADED,
}
# How many of each are new, for one line.
_COUNTED: Final[tuple[tuple[tuple[str, ...], str, str], ...]] = (
    (WHO, "change in who plays", "changes in who plays"),
    (("call",), "call", "calls"),
    (("level",), "level", "levels"),
    (READ, "thing to look for", "things to look for"),
    (HABITS, "habit", "habits"),
    (NUMBERS, "number", "numbers"),
    (WRITTEN, "note", "notes"),
    (GRADED, "grade", "grades"),
)


@dataclass(frozen=True)
class Earlier:
    """What this build is compared with.

    Attributes:
        said: what was said then; None where there is nothing to compare with.
        when: which build that was, or which day, in words.
        short: the same for a line among others.
        first: no earlier build of this edition says otherwise; `said` is then what was known before a day, if anything.
        same_since: the build from which on all have said the same; empty for the first build of all.
        unreadable: what the last build said could not be read.
    """

    said: Said | None = None
    when: str = ""
    short: str = ""
    first: bool = False
    same_since: str = ""
    unreadable: bool = False


NOT_COMPARED: Final = Earlier()


@dataclass(frozen=True)
class Line:
    """One line: a change, or several of one kind that say the same of one thing.

    Attributes:
        address, anchor: the page it stands on; empty where that page is no more.
        more: the other changes of the line: of several runners, or of both our hands, that go from the same to the
            same.
    """

    change: Change
    address: str
    anchor: str
    more: tuple[Change, ...] = ()

    @property
    def every(self) -> tuple[Change, ...]:
        """All its changes."""
        return (self.change, *self.more)


@dataclass(frozen=True)
class Group:
    """What changed about one team, by part."""

    title: str
    parts: tuple[tuple[str, tuple[Line, ...]], ...]


@dataclass(frozen=True)
class ChangedPage:
    """All that the page says.

    Attributes:
        earlier: what is compared with.
        counts: how many of what, in words, about the team we meet next, or about all where none is named.
        elsewhere: how many changes there are about other teams.
        groups: the team we meet next, or all of them where none is named.
        others: the other teams, whom we meet first in front.
        games: games that are new, grew, or are gone.
        level: of the interval that a number has left.
        game_plan: pages about a game are compared too.
    """

    title: str
    earlier: Earlier
    counts: tuple[str, ...]
    elsewhere: int
    groups: tuple[Group, ...]
    others: tuple[Group, ...]
    games: tuple[Line, ...]
    built: str
    as_of: date
    address: str = field(default=ADDRESS)
    level: float = LEVEL
    game_plan: bool = True

    @property
    def summary(self) -> str:
        """All counts in a line; empty where nothing changed."""
        there = ", ".join(self.counts)
        more = f"{self.elsewhere} more about other teams" if self.elsewhere else ""
        return "; ".join(part for part in (there, more) if part)


def changed_page(
    earlier: Earlier,
    now: Said,
    pages: Collection[str],
    *,
    coming: str,
    built: str,
    as_of: date,
    game_plan: bool = True,
) -> ChangedPage:
    """Compare, and put the page together.

    Args:
        earlier: what is compared with.
        now: what this build says.
        coming: the team we meet next, by name; empty for none.
        pages: addresses of all pages, so that no line links to one that is gone.
        built: when, in words.
        as_of: the day the site is made for.
        game_plan: the edition has pages about a game.
    """
    found = changes(earlier.said, now) if earlier.said is not None else ()
    lines = list(_lines(found, pages))
    played = tuple(line for line in lines if line.change.told.kind in GAMES)
    titles = dict.fromkeys(line.change.told.group for line in lines if line not in played)
    groups = [_group(title, [line for line in lines if line.change.told.group == title]) for title in titles]
    near = [change for change in found if not coming or change.told.group in ("", coming)]
    return ChangedPage(
        title=MENU[0],
        earlier=earlier,
        counts=tuple(_counts(near)),
        elsewhere=len(found) - len(near),
        groups=tuple(group for group in groups if not coming or group.title == coming),
        others=tuple(group for group in groups if coming and group.title != coming),
        games=played,
        built=built,
        as_of=as_of,
        game_plan=game_plan,
    )


def _lines(found: Sequence[Change], pages: Collection[str]) -> Iterator[Line]:
    together: dict[tuple[str, ...], list[Change]] = {}
    for number, change in enumerate(found):
        one, was = change.told, change.before
        shared = (one.group, one.about, one.what, was.said if was else "", one.said)
        alike = one.kind in DECIDED and was is not None
        together.setdefault(shared if alike else (str(number),), []).append(change)
    for first, *more in together.values():
        path, _, anchor = first.told.address.partition("#")
        there = path in pages
        # A part of a page may have gone with what it said.
        yield Line(first, path if there else "", anchor if there and first.now else "", tuple(more))


def _group(title: str, lines: Sequence[Line]) -> Group:
    parts = ((name, tuple(line for line in lines if line.change.told.kind in kinds)) for name, kinds in _PARTS.items())
    return Group(title, tuple((name, some) for name, some in parts if some))


def _counts(found: Sequence[Change]) -> Iterator[str]:
    games = [change for change in found if change.told.kind in GAMES]
    new = sum(change.how == "new" for change in games)
    for n, one, many in ((new, "new game", "new games"), (len(games) - new, "game changed", "games changed")):
        if n:
            yield f"{n} {one if n == 1 else many}"
    for kinds, one, many in _COUNTED:
        if n := sum(change.told.kind in kinds for change in found):
            yield f"{n} {one if n == 1 else many}"
