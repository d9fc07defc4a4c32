"""The season: which games were played, who took part, how each was charted."""

from dataclasses import dataclass
from datetime import date

from league import arms, bats
from league.chance import stream
from league.game import Club, Game
from league.log import GameLog
from league.rosters import FIELD, LINEUPS, NAMES, OWN, PASSING, ROSTERS
from league.truth import Truths

AS_OF = date(2026, 4, 9)


@dataclass(frozen=True)
class Fixture:
    """One game and its chart.

    Attributes:
        style: how its charter writes: `keys`, `short` (abbreviated pitches), `numbers`, `kph`, `feet` or `told`.
        tables: which tables were kept beside pitches: t(imes), h(olds), c(atcher's throws), b (habits), p(ositions).
    """

    day: date
    away: str
    home: str
    source: str
    charted_by: str
    style: str
    tables: str
    note: str

    @property
    def game(self) -> str:
        return f"g{self.day:%m%d}-{self.home}"


# day away home source charted_by style tables note
_FIXTURES = """
02-13   pinewold harbor     video       AJR keys    thcbp
02-14   pinewold harbor     video       TMW short   thc
02-15  fallowell ridge      own_game    DSK numbers -
02-20  cottersby harbor     same_site   TMW short   tcbp  Opening tournament, game before ours.
02-21     harbor ridge      own_game    DSK numbers thcbp
02-22    dunmere harbor     on_campus   AJR keys    thcb  Opening tournament, on our field.
02-27 slatefield pinewold   video       TMW short   tc
03-01  saltmarsh dunmere    video       AJR keys    tcb
03-03  cottersby ridge      own_game    DSK numbers -
03-06    dunmere harbor     video       AJR keys    thcbp
03-07    dunmere harbor     video       TMW short   thcbp
03-08    dunmere harbor     video       AJR keys    thcb  Video stops in the late innings.
03-13 slatefield ridge      own_game    DSK numbers thcbp
03-14 slatefield ridge      own_game    TMW short   thcb
03-15 slatefield ridge      own_game    DSK numbers tcp
03-17  fallowell harbor     second_hand AJR told    -     Notes of a friendly staff, no clocks.
03-20 slatefield harbor     video       AJR feet    thcbp
03-21 slatefield harbor     video       TMW short   thcbp
03-22 slatefield harbor     video       AJR keys    thcb
03-24   pinewold ridge      own_game    DSK numbers -
03-27      ridge saltmarsh  own_game    DSK numbers thcbp
03-28      ridge saltmarsh  own_game    TMW kph     thcb
03-29      ridge saltmarsh  own_game    DSK numbers tcbp
03-31      ridge fallowell  own_game    DSK numbers -
04-03     harbor saltmarsh  video       AJR keys    thcbp
04-04     harbor saltmarsh  video       TMW short   thcbp
04-04      ridge dunmere    own_game    DSK numbers -
04-05     harbor saltmarsh  video       AJR keys    thcb
04-05      ridge dunmere    own_game    DSK numbers -
04-07  cottersby harbor     video       DSK numbers tcb
04-07   pinewold ridge      own_game    DSK numbers -
"""


def _fixture(line: str) -> Fixture:
    day, away, home, source, by, style, tables, *note = line.split()
    return Fixture(date.fromisoformat(f"2026-{day}"), away, home, source, by, style, tables, " ".join(note))


FIXTURES: tuple[Fixture, ...] = tuple(map(_fixture, _FIXTURES.strip().splitlines()))

#: The video of this game stops nine pitches after this man has come in; he was not seen before or since.
CUT_OFF = ("g0308-harbor", "harbor", "paulo-kealohanui", 9)
_RARE = {CUT_OFF[2]}
#: The Friday starter's pitches a game, as his staff handles him.
_LIMITS = {"iker-nunez": 79}


def _staff(team: str, day: date) -> tuple[tuple[str, int], ...]:
    rng = stream("staff", team, day.isoformat())
    if team in PASSING:
        starters, pen = list(arms.PASSING_ARMS[:3]), list(arms.PASSING_ARMS[3:])
        closers: list[str] = []
    else:
        men = [man for man in ROSTERS[team] if man.pitches and man.there(day) and man.key not in _RARE]
        starters = [man.key for man in men if man.role == "starter"]
        pen = [man.key for man in men if man.role == "reliever"]
        closers = [man.key for man in men if man.role == "closer"]
    rng.shuffle(pen)
    limits = [(key, rng.randrange(18, 34)) for key in (*pen, *closers)]
    turn = {4: 0, 5: 1, 6: 2}.get(day.weekday())
    if turn is None:
        return tuple((key, 55 if place == 0 else limit + 12) for place, (key, limit) in enumerate(limits[: len(pen)]))
    starter = starters[turn]
    middle = rng.randrange(2, 4)
    first, late = limits[:middle], limits[middle : len(pen)]
    limits = [*first, *((key, 30) for key in closers), *late]
    if (team, starter) == ("harbor", "solomon-adeyemi-frost") and day == date(2026, 3, 8):
        return ((starter, 70), (limits[0][0], 16), (CUT_OFF[2], 60))
    return ((starter, _LIMITS.get(starter, rng.randrange(76, 96))), *limits)


def alignment(team: str, day: date) -> dict[str, str]:
    """Who bats where in the order and stands where, by key: his position; the order is the batting order."""
    if team in PASSING:
        return dict(zip(bats.PASSING_BATS, ("SS", "CF", "1B", "DH", "LF", "3B", "RF", "C", "2B"), strict=True))
    rng = stream("lineup", team, day.isoformat())
    order = dict(pair.split(":") for pair in LINEUPS[team].split())
    taken = {man.key: man for man in ROSTERS[team] if man.key not in order and not man.pitches}
    swaps = {}
    rest = day.weekday() in {1, 6}
    for key, position in order.items():
        able = [man for man in taken.values() if position in man.positions]
        wanted = rest if position == "C" else rng.random() < 0.14
        if wanted and able:
            swaps[key] = able[rng.randrange(len(able))].key
            del taken[swaps[key]]
        if team == "harbor" and position == "DH" and day.weekday() in {1, 5}:
            swaps[key] = "solomon-adeyemi-frost"
    return {swaps.get(key, key): position for key, position in order.items()}


def fielders(team: str, day: date) -> dict[int, str]:
    """Who stands at positions 2 to 9."""
    return {FIELD[position]: key for key, position in alignment(team, day).items() if position in FIELD}


def club_of(team: str, day: date) -> Club:
    """A team as it takes the field on a day."""
    order = alignment(team, day)
    return Club(team, tuple(order), fielders(team, day)[2], _staff(team, day))


def play_season() -> list[tuple[Fixture, GameLog]]:
    """Every charted game in full, in order of date."""
    pitchers, hitters = arms.pitchers(), bats.hitters()
    played = []
    for fixture in FIXTURES:
        away, home = club_of(fixture.away, fixture.day), club_of(fixture.home, fixture.day)
        catchers = {club.team: bats.catcher(club.team, club.catcher) for club in (away, home)}
        log = Game(fixture.game, away, home, Truths(pitchers, hitters, catchers)).play()
        if fixture.game == CUT_OFF[0]:
            log = _cut(log)
        played.append((fixture, log))
    return played


def _cut(log: GameLog) -> GameLog:
    """The game as far as its video goes."""
    _, team, key, count = CUT_OFF
    men = [(made.moment.pitcher_team, made.moment.pitcher) for made in log.pitches]
    his = [place for place, man in enumerate(men) if man == (team, key)]
    if len(his) < count:
        raise ValueError(f"{key} threw {len(his)} pitches only")
    last = log.pitches[his[count - 1]].moment
    end = (last.inning, last.half == "bottom")
    log.pitches = log.pitches[: his[count - 1] + 1]
    log.came = [one for one in log.came if (one.moment.inning, one.moment.half == "bottom") < end]
    log.clocked = [one for one in log.clocked if (one.moment.inning, one.moment.half == "bottom") < end]
    log.threw = [one for one in log.threw if (one.moment.inning, one.moment.half == "bottom") < end]
    return log


LISTED = tuple(NAMES)
SCOUTED = tuple(team for team in NAMES if team != OWN)
