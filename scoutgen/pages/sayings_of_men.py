"""What one man's page says, thing by thing."""

from collections.abc import Iterator

from scoutgen.pages.claims import Claim
from scoutgen.pages.habits import Habit
from scoutgen.pages.notes import Notes
from scoutgen.pages.player import Facing, PlayerPage
from scoutgen.pages.said import Saying
from scoutgen.pages.times import Clock
from scoutgen.pages.usage import Situation
from scoutgen.pages.words import SHORT_SIDES

Keyed = tuple[str, Saying]


def of_man(page: PlayerPage) -> Iterator[Keyed]:
    """What is said of him: what to look for, how he holds and throws, how he hits, his habits, what people saw."""
    who = f"{page.person.team.key}|{page.person.man.key}"
    name = page.person.brief
    own = _Own(who, page.team_name, name, page.address)
    yield from _pitching(page, own)
    if page.catching:
        for base, pop in (("second", page.catching.pop_second), ("third", page.catching.pop_third)):
            yield from own.clock(f"pop to {base}", pop)
        for claim in page.catching.accuracy:
            yield from own.number(f"throws {claim.what}", claim, "throws")
        for back in page.catching.returns:
            yield from own.number(f"{back.style} back to the mound", back.claim, "throws")
    yield from own.clock("home to first", page.home_first)
    yield from _hitting(page, own)
    for habit in page.habits:
        yield of_habit(habit, who, page.team_name, name, page.address)
    if page.summary:
        yield (
            f"summary|{who}|{page.summary}",
            Saying("summary", page.team_name, name, "in our words", page.summary, page.address),
        )
    yield from of_notes(page.notes, who, page.team_name, name, f"{page.address}#notes")


class _Own:
    """Sayings about one man, with what all of them share filled in."""

    def __init__(self, who: str, group: str, about: str, address: str) -> None:
        self._who, self._group, self._about, self._address = who, group, about, address

    def saying(self, kind: str, what: str, said: str, **numbers: object) -> Keyed:
        made = Saying(kind, self._group, self._about, what, said, self._address, **numbers)  # type: ignore[arg-type]
        return f"{kind}|{self._who}|{what}", made

    def number(self, what: str, claim: Claim | None, of: str = "") -> Iterator[Keyed]:
        """A share; `of`: what was counted."""
        if claim is not None and claim.n:
            yield self.saying(
                "number", what, "", k=claim.k, n=claim.n, value=claim.share, low=claim.low, high=claim.high,
                sure=claim.sure, detail=of,
            )  # fmt: skip

    def clock(self, what: str, clock: Clock | None) -> Iterator[Keyed]:
        """A time, with the interval of its mean about the middle one, which is what is printed."""
        if clock is None:
            return
        half = clock.mean_half
        ends = (None, None) if half is None else (clock.median - half, clock.median + half)
        yield self.saying(
            "clock", what, clock.method, n=clock.n, value=clock.median, low=ends[0], high=ends[1], unit="s",
            sure="thin" if clock.few else "usable", detail=clock.method,
        )  # fmt: skip


def _pitching(page: PlayerPage, own: _Own) -> Iterator[Keyed]:
    pitching = page.pitching
    if pitching is None:
        return
    for facing in pitching.sides:
        yield from _mix(facing, own)
    for style, clock in (("from the stretch", pitching.clocks.stretch), ("slide step", pitching.clocks.slide_step)):
        yield from own.clock(f"to the plate, {style}", clock)
    held = pitching.holds
    for what, claim in (("slide step", held.slide_step), ("throws to first", held.over_to_first)):
        if claim is not None:
            yield from own.number(f"{what}, {claim.what}" if what != claim.what else what, claim, "sets")
    if held.second is not None:
        said = f"{held.second.mode} most often" if held.second.pattern else "no pattern"
        yield own.saying("looks", "looks, runner on second", said, k=held.second.k_mode, n=held.second.n)
    for turn in pitching.changes.turns:
        for change in turn.changes:
            what = f"{turn.when.lower()}{' ' + turn.whom if turn.whom else ''}, {change.pitch}"
            said = f"{'' if change.proven else 'likely '}{'up' if change.up else 'down'}"
            # Whom it concerns may become clear later: it is the same change.
            _, one = own.saying("turn", what, said, k=change.k, n=change.n)
            yield f"turn|{page.person.team.key}|{page.person.man.key}|{turn.when}|{change.pitch}", one


def _mix(facing: Facing, own: _Own) -> Iterator[Keyed]:
    """What to look for, and each pitch's share, in the situations a hitter asks about."""
    mix = facing.mix
    for situation in mix.glance:
        words = f"{situation.label.lower()}, {SHORT_SIDES[mix.side]}"
        if situation.best is not None:
            best, two = situation.best, _likeliest(situation)
            yield own.saying(
                "look_for", words, " or ".join(sorted(two)), k=best.k, n=situation.n, value=best.share, sure=best.sure,
                who=two[0], detail="".join(two[1:]),
            )  # fmt: skip
        for claim in situation.cells:
            yield from own.number(f"{words}, {claim.what}", claim)
    for claim in mix.whole:
        yield from own.number(f"{SHORT_SIDES[mix.side]}, all counts, {claim.what}", claim)


def _likeliest(situation: Situation) -> list[str]:
    """The pitch to look for, or the two that the data cannot tell apart."""
    two = (situation.best, None if situation.clear else situation.second)
    return [claim.what for claim in two if claim is not None]


def _hitting(page: PlayerPage, own: _Own) -> Iterator[Keyed]:
    for side in page.hitting.sides if page.hitting else ():
        stands = f", {side.words}" if side.words else ""
        yield from own.number(f"swings at the first pitch{stands}", side.first)
        if side.ground:
            yield from own.number(f"pulls ground balls{stands}", side.ground.pull)
        if side.air:
            yield from own.number(f"pulls flies and line drives{stands}", side.air.pull)
        if side.bunts:
            yield from own.number(f"bunts{stands}", side.bunts.claim, "plate appearances")


def of_habit(habit: Habit, who: str, group: str, about: str, address: str) -> Keyed:
    """A habit by how far it has come: looked for, seen, seen in half of enough looks; with the looks it rests on.

    It is not said to recur while one look seen otherwise would undo that: two of three are no changed habit.
    """
    looks = habit.deciding
    seen = "seen" if looks.k else "looked for" if looks.n else ""
    said = "recurs" if habit.recurs and 2 * (looks.k - 1) >= looks.n and habit.kind.measured != "feet" else seen
    return f"habit|{who}|{habit.position or ''}|{habit.kind.key}", Saying(
        "habit", group, about, habit.kind.said.rstrip("?"), said, address, k=looks.k, n=looks.n, detail=habit.door
    )


def of_notes(notes: Notes, key: str, group: str, about: str, address: str) -> Iterator[Keyed]:
    """Every note of one man or team, those past their date too, so that none is new when its day has come."""
    every = [(topic.about, note) for topic in notes.topics for note in topic.notes]
    for what, note in (*every, *notes.old):
        yield (
            f"note|{key}|{what}|{note.seen}|{note.by}|{note.text}",
            Saying(
                "note", group, about, what, note.text, address, detail=f"{note.by}, {note.source}, {note.confidence}"
            ),
        )
