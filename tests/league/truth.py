"""What is true of an invented player: the numbers that charts of him can only estimate."""

from collections.abc import Mapping
from dataclasses import dataclass, field

HARD = frozenset({"fastball", "sinker", "cutter"})
BREAKING = frozenset({"slider", "sweeper", "curve"})

#: How far the mix moves from game to game: the concentration of a Dirichlet distribution.
GAME_CONCENTRATION = 14.0

#: What a count does to the log weight of hard, breaking and soft pitches; a pitcher scales it by his own `lean`.
COUNT_LEAN: Mapping[str, tuple[float, float, float]] = {
    "0-0": (0.0, 0.0, 0.0),
    "0-1": (-0.25, 0.2, 0.15),
    "0-2": (-0.4, 0.5, 0.0),
    "1-0": (0.15, -0.15, 0.15),
    "1-1": (-0.1, 0.1, 0.2),
    "1-2": (-0.45, 0.5, 0.1),
    "2-0": (0.6, -0.5, 0.0),
    "2-1": (0.25, -0.2, 0.2),
    "2-2": (-0.3, 0.4, 0.1),
    "3-0": (1.6, -1.5, -1.0),
    "3-1": (0.9, -0.6, -0.3),
    "3-2": (0.3, 0.0, -0.2),
}


@dataclass(frozen=True)
class PitchTruth:
    """One pitch of an arsenal: base shares by side, speed, and where it is aimed (feet; arm side positive)."""

    pitch: str
    same: float
    opposite: float
    mph: float
    arm_side_ft: float
    height_ft: float
    whiff: float = 1.0


@dataclass(frozen=True)
class Clocks:
    """Times and habits of a pitcher with men on.

    Pairs are mean and spread in seconds; `looks` are the chances of 0, 1, 2, ... looks at a runner on second;
    `behind_mound` the chance that he walks off the back of the mound after a pitch with a runner on.
    """

    windup: tuple[float, float] = (1.80, 0.07)
    stretch: tuple[float, float] = (1.38, 0.06)
    slide_step: tuple[float, float] | None = (1.19, 0.04)
    slide_share: float = 0.2
    pickoff: tuple[float, float] = (1.05, 0.07)
    pickoff_share: float = 0.08
    looks: tuple[float, ...] = (0.15, 0.50, 0.30, 0.05)
    hold: tuple[float, float] = (2.6, 0.8)
    windup_with_third: bool = False
    behind_mound: float = 0.1


@dataclass(frozen=True)
class PitcherTruth:
    """A pitcher: mix, command, clocks.

    Attributes:
        lean: how strongly he follows the count (1 is the league's way).
        special: log weights added for a side and count, as ("L", "0-0") -> {"curve": 1.0}.
        later: log weights added the second time through, doubled the third.
        after: log weights after the result of the pitch before, as "swinging_strike" -> {"slider": 0.8}.
        drop_mph: speed lost an inning, from the fourth inning of his work on.
        command_ft: spread of his locations.
    """

    throws: str
    arsenal: tuple[PitchTruth, ...]
    lean: float = 1.0
    special: Mapping[tuple[str, str], Mapping[str, float]] = field(default_factory=dict)
    later: Mapping[str, float] = field(default_factory=dict)
    after: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    drop_mph: float = 0.15
    command_ft: float = 0.66
    clocks: Clocks = field(default_factory=Clocks)
    strikeout: float = 1.0


@dataclass(frozen=True)
class HitterTruth:
    """A hitter and runner. `pull` and `ground` are log tilts against the league's hitter, `go` a rate a pitch."""

    bats: str
    contact: float = 1.0
    chase: float = 1.0
    power: float = 1.0
    first_swing: float = 0.30
    pull: float = 0.0
    ground: float = 0.0
    two_strike_pull: float = 0.0
    bunt: float = 0.004
    home_first: float = 4.35
    first_second: float = 3.45
    go: float = 0.012


@dataclass(frozen=True)
class CatcherTruth:
    """A catcher: throws to the bases, the return throw, and how he does it."""

    pop_2: tuple[float, float] = (2.03, 0.06)
    pop_3: tuple[float, float] = (1.62, 0.06)
    exchange: tuple[float, float] = (0.74, 0.04)
    accuracy: Mapping[str, float] = field(
        default_factory=lambda: {
            "on_bag": 0.55, "first_side": 0.16, "field_side": 0.11, "high": 0.09, "short_hop": 0.06, "dropped": 0.03,
        },
    )  # fmt: skip
    returns: Mapping[str, float] = field(default_factory=lambda: {"firm": 0.82, "lob": 0.12, "knees": 0.06})
    back_pick: float = 0.01
    habits: Mapping[str, float] = field(default_factory=dict)


#: Seconds in the air of a return throw, mean and spread by style.
RETURN_SECONDS: Mapping[str, tuple[float, float]] = {"firm": (0.72, 0.05), "lob": (1.22, 0.08), "knees": (0.95, 0.07)}


@dataclass(frozen=True)
class InfieldTruth:
    """A team's fielders: chance of each habit by key of content/habits.yml, and where they stand.

    Attributes:
        habits: chance that a look finds the habit.
        feet: mean and spread of the habits measured as a distance.
        depth: mean depth in feet from the bag's line or the plate, by position.
    """

    habits: Mapping[str, float] = field(default_factory=dict)
    feet: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    depth: Mapping[int, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Truths:
    """What is true of everybody in a game: pitchers and hitters by team and key, the catchers by team."""

    pitchers: Mapping[tuple[str, str], PitcherTruth]
    hitters: Mapping[tuple[str, str], HitterTruth]
    catchers: Mapping[str, CatcherTruth]
