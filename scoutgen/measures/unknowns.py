"""What we do not know yet: what a staff wants charted about a man, how much of it there is, and what for."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

import pandas as pd

from scoutgen.measures.levels import STATES, plain_text
from scoutgen.measures.positions import off_bag_looks

ON_FIRST: Final = tuple(state for state in STATES if "1" in state)
ON_SECOND: Final = tuple(state for state in STATES if "2" in state)
ON_THIRD: Final = tuple(state for state in STATES if "3" in state)
ROLES: Final = ("pitcher", "catcher", "infield", "hitter")
UNKNOWN_COLUMNS: Final = [
    "team", "player", "role", "position", "priority", "what", "have", "want", "why", "text", "table",
]  # fmt: skip
#: Under which column each table has the man; an infield is looked at as a whole.
_PLAYER: Final = {
    "pitches": "pitcher", "at_bat": "batter", "holds": "pitcher", "throws": "catcher", "times": "player",
    "habits": "player",
}  # fmt: skip
_TEAM: Final = {"pitches": "pitcher_team", "at_bat": "batter_team"}


@dataclass(frozen=True)
class Absent:
    """What shows that a man does not do a thing: looked for in so many rows of a table, and in none of them.

    Attributes:
        table: the frame that would hold it.
        where: words each column must hold one of for a row to count as a look.
        column, value: where it would stand; a row with this column blank is no look.
        enough: looks that settle it.
    """

    table: str
    where: Mapping[str, tuple[object, ...]]
    column: str
    value: object
    enough: int


@dataclass(frozen=True)
class Want:
    """One thing worth charting.

    Attributes:
        role: whose it is: "pitcher", "catcher", "infield" (of a team), "hitter".
        what: it, as a member of staff would say it.
        table: the frame that holds it; "at_bat" are the pitches by their hitters, "off_bag" the looks of
            `off_bag_looks`, from two frames.
        want: rows wanted.
        why: the decision it serves.
        priority: 1 first.
        where: words each column must hold one of.
        filled: columns that must not be blank.
        position: of an infielder.
        absent: what shows that he does not do it at all, so that nobody is sent to wait for it.
    """

    role: str
    what: str
    table: str
    want: int
    why: str
    priority: int
    where: Mapping[str, tuple[object, ...]] = field(default_factory=dict)
    filled: tuple[str, ...] = ()
    position: int | None = None
    absent: Absent | None = None


_LIVE: Final = {"warmup": (False,)}
_PLATE: Final = {"measure": ("plate",), **_LIVE}
_MIX: Final = "what to look for"
_STEAL: Final = "whether to steal"
_HOME: Final = "stealing home, delayed steals"
_LEAD: Final = "the lead at third, the contact play"

# With none in thirty the share is under a tenth (Hanley and Lippman-Hand, JAMA 249 (1983) 1743-1745: about 3 / n).
_NO_SLIDE_STEP: Final = Absent("holds", {"bases": STATES[1:], "then": ("pitch",)}, "style", "slide_step", 30)

# Amounts are common practice (five readings of a time, ten better; twenty pitches for a lean, forty to use; three
# looks show a habit, eight make it one), in the order a series is prepared. From memory, but for the twenty and
# forty, which are the half-widths .20 and .15 of a share about one half.
WANTS: Final[tuple[Want, ...]] = (
    Want("pitcher", "pitches to left-handers", "pitches", 40, _MIX, 1, {"bats": ("L",)}, ("pitch",)),
    Want("pitcher", "pitches to right-handers", "pitches", 40, _MIX, 1, {"bats": ("R",)}, ("pitch",)),
    Want("pitcher", "times to the plate from the stretch", "times", 5, _STEAL, 1, {**_PLATE, "style": ("stretch",)}),
    Want(
        "pitcher", "times to the plate from the slide step", "times", 5, _STEAL, 1,
        {**_PLATE, "style": ("slide_step",)}, absent=_NO_SLIDE_STEP,
    ),
    Want(
        "pitcher", "first pitches to left-handers", "pitches", 20, "the first pitch: take or swing", 2,
        {"bats": ("L",), "balls": (0,), "strikes": (0,)}, ("pitch",),
    ),
    Want(
        "pitcher", "first pitches to right-handers", "pitches", 20, "the first pitch: take or swing", 2,
        {"bats": ("R",), "balls": (0,), "strikes": (0,)}, ("pitch",),
    ),
    Want(
        "pitcher", "two-strike pitches to left-handers", "pitches", 20, "what he finishes with", 2,
        {"bats": ("L",), "strikes": (2,)}, ("pitch",),
    ),
    Want(
        "pitcher", "two-strike pitches to right-handers", "pitches", 20, "what he finishes with", 2,
        {"bats": ("R",), "strikes": (2,)}, ("pitch",),
    ),
    Want(
        "pitcher", "times set with a runner on first", "holds", 10, "the lead at first", 2,
        {"bases": ON_FIRST}, ("then",),
    ),
    Want(
        "pitcher", "looks counted with a runner on second", "holds", 10, "stealing third", 2,
        {"bases": ON_SECOND}, ("looks",),
    ),
    Want("pitcher", "hold times", "holds", 10, "when to go", 3, {}, ("hold_seconds",)),
    Want("pitcher", "pickoff times to first", "times", 5, "the lead at first", 3, {"measure": ("pickoff_1",), **_LIVE}),
    Want(
        "pitcher", "times to the plate with a runner on second", "times", 5, "stealing third", 3,
        {**_PLATE, "bases": ON_SECOND},
    ),
    Want(
        "pitcher", "times to the plate from the windup", "times", 5, "stealing home", 4,
        {**_PLATE, "style": ("windup",)},
    ),
    Want("pitcher", "pitches with a place", "pitches", 40, "where to look for it", 3, {}, ("pitch", "height", "side")),
    Want("pitcher", "pitches with a speed", "pitches", 15, "timing", 4, {}, ("pitch", "speed_mph")),
    Want(
        "pitcher", "pitches with runners on", "pitches", 40, "what changes from the stretch", 4,
        {"bases": STATES[1:]}, ("pitch",),
    ),
    Want("catcher", "pop times to second", "throws", 5, _STEAL, 1, {"to": ("2",), **_LIVE}, ("pop_seconds",)),
    Want("catcher", "throws to second with a place", "throws", 10, _STEAL, 2, {"to": ("2",), **_LIVE}, ("accuracy",)),
    Want("catcher", "pop times to third", "throws", 5, "stealing third", 2, {"to": ("3",), **_LIVE}, ("pop_seconds",)),
    Want(
        "catcher", "timed return throws", "times", 10, _HOME, 2, {"measure": ("return_throw",), **_LIVE},
        ("style", "seconds"),
    ),
    Want(
        "catcher", "timed return throws with a runner on third", "times", 8, _HOME, 2,
        {"measure": ("return_throw",), "bases": ON_THIRD, **_LIVE}, ("style", "seconds"),
    ),
    Want("catcher", "exchange times", "throws", 5, _STEAL, 3, _LIVE, ("exchange_seconds",)),
    Want(
        "catcher", "looks at whether he lobs it back with a runner on third", "habits", 8, _HOME, 1,
        {"habit": ("lobs-return",), "bases": ON_THIRD}, ("seen",),
    ),
    Want(
        "catcher", "looks at whether he checks the runner on third before he returns it", "habits", 8, _HOME, 1,
        {"habit": ("returns-without-look",), "bases": ON_THIRD}, ("seen",),
    ),
    Want(
        "infield", "third baseman's feet off the bag with a runner on third", "off_bag", 3, _LEAD, 1,
        {"runner_on": ("3",)}, position=5,
    ),
    Want(
        "infield", "first baseman's feet off the bag with a runner on first", "off_bag", 3, "the lead at first", 2,
        {"runner_on": ("1",)}, position=3,
    ),
    Want(
        "infield", "looks at the infielders with runners on first and third", "infield_habits", 8, "the double steal",
        3, {"bases": ("13",), "position": (3, 4, 5, 6)}, ("seen",),
    ),
    Want("infield", "third baseman's depth", "positions", 8, "the bunt for a hit", 3, {}, ("depth_ft",), 5),
    Want("infield", "first baseman's depth", "positions", 8, "the bunt for a hit", 3, {}, ("depth_ft",), 3),
    Want("infield", "shortstop's depth", "positions", 8, "the contact play", 4, {}, ("depth_ft",), 6),
    Want("infield", "second baseman's depth", "positions", 8, "the contact play", 4, {}, ("depth_ft",), 4),
    Want("hitter", "plate appearances", "at_bat", 20, "how to pitch to him", 2, {}, ("play",)),
    Want(
        "hitter", "ground balls with a direction", "at_bat", 20, "where the infield plays", 2,
        {"contact": ("ground",)}, ("direction_deg",),
    ),
    Want(
        "hitter", "line drives and flies with a direction", "at_bat", 20, "where the outfield plays", 3,
        {"contact": ("line", "fly")}, ("direction_deg",),
    ),
    Want(
        "hitter", "times to first after a full swing", "times", 5, "how deep the infield plays", 3,
        {"measure": ("home_first",), "style": ("full",), **_LIVE}, ("seconds",),
    ),
)  # fmt: skip


def unknowns(
    frames: Mapping[str, pd.DataFrame],
    people: Iterable[tuple[str, str | None, str]],
    wants: Iterable[Want] = WANTS,
) -> pd.DataFrame:
    """What is still to be charted about these people?

    Args:
        frames: the season's frames by name; absent ones count as empty.
        people: (team, player, role) to ask about, charted or not: "pitcher", "catcher", "hitter" with a player;
            "infield" with None.
        wants: what is wanted of each role.

    Returns:
        One row per team, player and want not met, unless he was shown not to do it at all: UNKNOWN_COLUMNS, the most
        urgent first within a man, then what is furthest from done. `text` says it in full: "two-strike pitches to
        left-handers: 3 of 20 wanted", or "...: none"; `table` holds it. An empty table means that all of it is there.
    """
    frames = dict(frames)
    if "pitches" in frames:
        # The same rows again, asked about for the man at the plate.
        frames["at_bat"] = frames["pitches"]
    if "habits" in frames:
        # The same rows again, asked about for a team and not man by man.
        frames["infield_habits"] = frames["habits"]
    if "positions" in frames and "habits" in frames:
        frames["off_bag"] = off_bag_looks(frames["positions"], frames["habits"])
    asked = [(want, _wanted(frames, want), _never(frames, want)) for want in wants]
    rows = []
    for team, player, role in dict.fromkeys(people):
        who = (team, player)
        counted = [(want, have.get(who, 0)) for want, have, never in asked if want.role == role and who not in never]
        missing = [(want, n) for want, n in counted if n < want.want]
        missing.sort(key=lambda pair: (pair[0].priority, pair[1] / pair[0].want))
        rows += [
            (
                team,
                player,
                role,
                want.position,
                want.priority,
                want.what,
                n,
                want.want,
                want.why,
                _text(want, n),
                want.table,
            )
            for want, n in missing
        ]
    table = pd.DataFrame(rows, columns=UNKNOWN_COLUMNS)
    texts = dict.fromkeys(["team", "player", "role", "what", "why", "text", "table"], "str")
    numbers = dict.fromkeys(["priority", "have", "want"], "int64")
    return plain_text(table).astype({**texts, **numbers, "position": "Int16"})


def _text(want: Want, n: int) -> str:
    return f"{want.what}: none" if n == 0 else f"{want.what}: {n} of {want.want} wanted"


def _wanted(frames: Mapping[str, pd.DataFrame], want: Want) -> dict[tuple[str, str | None], int]:
    return _have(frames.get(want.table), want.table, want.where, want.filled, want.position)


def _never(frames: Mapping[str, pd.DataFrame], want: Want) -> set[tuple[str, str | None]]:
    """Who was looked at often enough and never did it."""
    absent = want.absent
    if absent is None:
        return set()
    frame = frames.get(absent.table)
    looks = _have(frame, absent.table, absent.where, (absent.column,))
    doing = _have(frame, absent.table, {**absent.where, absent.column: (absent.value,)})
    return {who for who, n in looks.items() if n >= absent.enough and who not in doing}


def _have(
    frame: pd.DataFrame | None,
    table: str,
    where: Mapping[str, tuple[object, ...]],
    filled: tuple[str, ...] = (),
    position: int | None = None,
) -> dict[tuple[str, str | None], int]:
    """How many rows of a table that hold these words, and something where `filled`, each man has.

    A team, with None, where the table is of an infield.
    """
    if frame is None or frame.empty:
        return {}
    kept = pd.Series(data=True, index=frame.index)
    for column, words in where.items():
        values = frame[column].astype("boolean").fillna(value=False) if column == "warmup" else frame[column]
        kept &= values.isin(list(words)).astype(bool)
    for column in filled:
        kept &= frame[column].notna()
    if position is not None:
        kept &= frame["position"].eq(position).fillna(value=False).astype(bool)
    rows = frame[kept]
    player = _PLAYER.get(table)
    if player is None:
        return {(str(team), None): int(n) for team, n in rows.groupby("team", observed=True).size().items()}
    team = _TEAM.get(table, "team")
    sizes = rows.groupby([team, player], observed=True).size().reset_index()
    return {(str(t), str(man)): int(n) for t, man, n in sizes.itertuples(index=False)}
