"""What the staff's charts keep of a game: a part of it, with the errors of a watch and an eye."""

import random
from collections.abc import Iterator

from league.bats import catcher as catcher_truth
from league.chance import pick, stream
from league.contact import FIFTHS
from league.log import Clocked, GameLog, Moment, PitchMade
from league.rosters import BY_KEY, OWN
from league.season import SCOUTED, Fixture

Row = dict[str, str]

#: Spread of one reading: a hand-held watch, and counting frames at 60 a second.
WATCH_ERROR_S, FRAME_ERROR_S = 0.10, 0.007
_SHORT = {
    "fastball": "FB",
    "sinker": "SI",
    "cutter": "CT",
    "slider": "SL",
    "curve": "CB",
    "change": "CH",
    "splitter": "SPL",
}
#: Chance that a time of a kind finds someone with a watch in his hand.
_TIMED = {"windup": 0.16, "stretch": 0.34, "slide_step": 0.55, "return_throw": 0.06, "home_first": 0.40}
_LIMITS = {"plate": (0.8, 2.6), "return_throw": (0.4, 2.5), "home_first": (3.0, 6.0)}


def unseen(at: Moment) -> bool:
    """Nobody has had a look at the Gannet Harbor closer with a runner on second."""
    return at.pitcher == "cormac-otierney" and "2" in at.bases


def _alone(team: str, key: str, style: str) -> str:
    """A player in a row that does not name his team: never by number."""
    return BY_KEY[team, key].name if style == "short" else key


def _who(team: str, key: str, style: str) -> str:
    """A player as the charter writes him in a row that names his team."""
    man = BY_KEY.get((team, key))
    if man is None or style in {"keys", "feet"}:
        return key
    return man.number if style in {"numbers", "kph"} else man.name if style == "told" else key


def _cell(place: float, edges: tuple[float, ...]) -> str:
    return str(1 + sum(place > edge for edge in edges))


def height_cell(z_ft: float) -> str:
    """Height as charted, 1 under the zone to 5 over it, by the zone the simulator calls."""
    return _cell(z_ft, (1.6, 2.2, 2.8, 3.4))


def side_cell(x_ft: float) -> str:
    """Side as charted, 1 off the plate to the catcher's left to 5 off to his right."""
    return _cell(x_ft, (-0.83, -0.277, 0.277, 0.83))


def _bases(bases: str, style: str) -> str:
    if style == "short":
        return "-".join(bases) if bases else "-"
    return bases


def pitch_rows(fixture: Fixture, log: GameLog) -> Iterator[Row]:
    """Every pitch of the game, as its charter writes it."""
    rng = stream("chart", fixture.game, "pitches")
    minute = 6.0
    for made in log.pitches:
        minute += 0.42 + 0.25 * rng.random() + (2.2 if made.moment.outs == 0 and made.moment.bases == "" else 0.0) * 0.1
        yield _pitch_row(fixture, made, rng, minute)


def _pitch_row(fixture: Fixture, made: PitchMade, rng: random.Random, minute: float) -> Row:
    style, at = fixture.style, made.moment
    row = {
        "game": fixture.game,
        "inning": str(at.inning),
        "half": at.half,
        "outs": str(at.outs),
        "bases": _bases(at.bases, style),
        "lead": str(at.lead),
        "pitcher": _who(at.pitcher_team, at.pitcher, style),
        "batter": _who(at.batter_team, at.batter, style),
        "catcher": _who(at.pitcher_team, at.catcher, style),
        "bats": at.bats,
        "balls": str(at.balls),
        "strikes": str(at.strikes),
        "pitch": _SHORT.get(made.pitch, made.pitch) if style in {"short", "kph"} else made.pitch,
        "result": made.result,
        "play": made.play,
    }
    hard = rng.random()  # drawn in every style, so that a change of style moves nothing else
    if style == "told":
        del row["catcher"], row["lead"], row["bases"]
    else:
        if style == "kph":
            row["speed_kph"] = f"{made.mph * 1.609344:.0f}" if hard < 0.8 else ""
        elif at.pitcher_team in SCOUTED or fixture.source == "own_game":
            row["speed_mph"] = f"{made.mph:.0f}" if hard < 0.7 else ""
        if style == "feet":
            row["plate_x_ft"], row["plate_z_ft"] = f"{made.x_ft:.1f}", f"{made.z_ft:.1f}"
        else:
            row["height"], row["side"] = height_cell(made.z_ft), side_cell(made.x_ft)
    if made.batted is not None:
        ball = made.batted
        row["contact"] = ball.contact
        row["fielder"] = str(ball.fielder)
        if style == "told":
            row["field"] = FIFTHS[min(4, int((ball.direction_deg + 45) // 18))]
        else:
            row["direction_deg"] = f"{ball.direction_deg + rng.gauss(0, 2):.0f}"
            row["distance_ft"] = f"{5 * round(ball.distance_ft / 5)}"
    if made.note and hard < 0.6:
        row["note"] = made.note
    if (
        fixture.source == "video"
        and made.play in {"home_run", "strikeout"}
        and at.pitcher_team in SCOUTED
        and hard < 0.5
    ):
        row["clip"] = f"{fixture.game}.mp4 {int(minute // 60)}:{int(minute % 60):02d}:{int(minute * 60 % 60):02d}"
    return row


def _situation(at: Moment) -> Row:
    return {
        "bases": at.bases or "-",
        "outs": str(at.outs),
        "balls": str(at.balls),
        "strikes": str(at.strikes),
        "bats": at.bats,
    }


def time_rows(fixture: Fixture, log: GameLog) -> Iterator[Row]:
    """Readings of a watch, or of frames where the video was good enough."""
    rng = stream("chart", fixture.game, "times")
    for one in log.clocked:
        wanted = one.team in SCOUTED or (
            one.team == OWN and one.measure in {"home_first", "first_second", "second_third"}
        )
        chance = _TIMED.get(one.style if one.measure == "plate" else one.measure, 0.75)
        frames = fixture.source == "video" and rng.random() < (0.5 if fixture.charted_by == "AJR" else 0.1)
        error = rng.gauss(0, FRAME_ERROR_S if frames else WATCH_ERROR_S)
        if rng.random() >= chance or not wanted or (one.player == one.moment.pitcher and unseen(one.moment)):
            continue
        low, high = _LIMITS.get(one.measure, (0.5, 5.0))
        row = {
            "game": fixture.game,
            "inning": str(one.moment.inning),
            "player": _alone(one.team, one.player, fixture.style),
        }
        row["measure"] = one.measure
        if one.style:
            row["style"] = one.style
        row |= _situation(one.moment)
        row["seconds"] = f"{min(high, max(low, one.seconds + error)):.2f}"
        row["method"] = "frames" if frames else "watch"
        yield row
    yield from _warmups(fixture, log, rng)


def _warmups(fixture: Fixture, log: GameLog, rng: random.Random) -> Iterator[Row]:
    """Before the first inning someone times the starter from the stretch: kept apart from the game."""
    if fixture.source not in {"own_game", "same_site"}:
        return
    starters = {made.moment.pitcher_team: made.moment.pitcher for made in reversed(log.pitches)}
    times: dict[str, list[Clocked]] = {}
    for one in log.clocked:
        if one.measure == "plate" and one.style == "stretch":
            times.setdefault(one.player, []).append(one)
    for team, starter in starters.items():
        for one in times.get(starter, [])[:3] if team in SCOUTED else []:
            yield {
                "game": fixture.game, "inning": "1", "player": starter, "measure": "plate", "style": "stretch",
                "seconds": f"{one.seconds - 0.05 + rng.gauss(0, WATCH_ERROR_S):.2f}", "method": "watch",
                "warmup": "yes",
            }  # fmt: skip


def hold_rows(fixture: Fixture, log: GameLog) -> Iterator[Row]:
    """Looks and holds of their pitchers each time they came set with a runner on."""
    rng = stream("chart", fixture.game, "holds")
    for one in log.came:
        if one.moment.pitcher_team not in SCOUTED or unseen(one.moment):
            continue
        seconds = f"{max(0.3, one.hold_seconds + rng.gauss(0, WATCH_ERROR_S)):.2f}"
        at = one.moment
        yield {
            "game": fixture.game, "inning": str(at.inning),
            "pitcher": _alone(at.pitcher_team, at.pitcher, fixture.style), "bases": at.bases,
            "balls": str(at.balls), "strikes": str(at.strikes), "looks": str(one.looks), "hold_seconds": seconds,
            "then": one.then, "style": one.style,
        }  # fmt: skip


def throw_rows(fixture: Fixture, log: GameLog) -> Iterator[Row]:
    """Their catchers' throws, and what they showed before the game."""
    rng = stream("chart", fixture.game, "throws")
    for one in log.threw:
        at = one.moment
        if at.pitcher_team not in SCOUTED and OWN not in (at.pitcher_team, at.batter_team):
            continue
        if at.pitcher_team not in {*SCOUTED, OWN}:
            continue
        frames = fixture.source == "video" and rng.random() < 0.5
        error = FRAME_ERROR_S if frames else WATCH_ERROR_S
        row = {
            "game": fixture.game, "inning": str(at.inning), "catcher": at.catcher, "pitcher": at.pitcher,
            "runner": one.runner if (at.batter_team, one.runner) in BY_KEY else "", "to": str(one.to),
            "pop_seconds": f"{max(1.2, one.pop_seconds + rng.gauss(0, error)):.2f}",
            "exchange_seconds": f"{one.exchange_seconds + rng.gauss(0, error / 2):.2f}" if frames else "",
            "method": "frames" if frames else "watch", "accuracy": one.accuracy, "result": one.result,
        }  # fmt: skip
        yield row
    for team in sorted({made.moment.pitcher_team for made in log.pitches} & set(SCOUTED)):
        catcher = next(made.moment.catcher for made in log.pitches if made.moment.pitcher_team == team)
        truth = catcher_truth(team, catcher)
        for _ in range(2):
            yield {
                "game": fixture.game, "inning": "1", "catcher": catcher, "to": "2",
                "pop_seconds": f"{rng.gauss(*truth.pop_2) - 0.06 + rng.gauss(0, WATCH_ERROR_S):.2f}",
                "method": "watch", "accuracy": pick(rng, truth.accuracy), "result": "no_play", "warmup": "yes",
            }  # fmt: skip
