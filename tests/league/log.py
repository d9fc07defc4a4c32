"""What happened in a game, in full: the charts keep a part of it."""

from dataclasses import dataclass, field

from league.contact import Batted


@dataclass(frozen=True)
class Moment:
    """The situation before a pitch, from the pitching side."""

    inning: int
    half: str
    outs: int
    bases: str
    lead: int
    pitcher_team: str
    pitcher: str
    batter_team: str
    batter: str
    catcher: str
    bats: str
    balls: int
    strikes: int


@dataclass(frozen=True)
class PitchMade:
    """A pitch and what came of it; `play` only on the last of a plate appearance."""

    moment: Moment
    pitch: str
    mph: float
    x_ft: float
    z_ft: float
    result: str
    play: str = ""
    batted: Batted | None = None
    note: str = ""


@dataclass(frozen=True)
class Came:
    """The pitcher came set with a runner on, and what he did then."""

    moment: Moment
    style: str
    looks: int
    hold_seconds: float
    then: str


@dataclass(frozen=True)
class Clocked:
    """A true time, before anyone's watch."""

    moment: Moment
    team: str
    player: str
    measure: str
    style: str
    seconds: float


@dataclass(frozen=True)
class Threw:
    """A catcher's throw to a base."""

    moment: Moment
    runner: str
    to: int
    pop_seconds: float
    exchange_seconds: float
    accuracy: str
    result: str


@dataclass
class GameLog:
    """Everything of one game, in order."""

    game: str
    away: str
    home: str
    pitches: list[PitchMade] = field(default_factory=list)
    came: list[Came] = field(default_factory=list)
    clocked: list[Clocked] = field(default_factory=list)
    threw: list[Threw] = field(default_factory=list)
    runs: dict[str, int] = field(default_factory=dict)
