"""Looks at habits and at where fielders stood: what a man in the stands writes down between pitches."""

import random
from collections.abc import Iterator

from league.arms import pitchers
from league.bats import INFIELDS, catcher
from league.chance import stream
from league.charting import Row, unseen
from league.log import GameLog, Moment
from league.season import SCOUTED, Fixture, fielders

#: Habit, whose position, chance of a look at it after a pitch, and the runners that must be on for it.
_LOOKS: tuple[tuple[str, tuple[int, ...], float, str], ...] = (
    ("lobs-return", (2,), 0.05, ""),
    ("lobs-return", (2,), 0.35, "3"),
    ("returns-without-look", (2,), 0.45, "3"),
    ("returns-from-knees", (2,), 0.02, ""),
    ("drops-head", (2,), 0.15, "1"),
    ("back-picks", (2,), 0.10, "1"),
    ("blocks-away", (2,), 0.03, "1"),
    ("never-looks-at-second", (1,), 0.15, "2"),
    ("same-look-count", (1,), 0.15, "2"),
    ("walks-behind-mound", (1,), 0.12, "1"),
    ("slow-to-cover-first", (1,), 0.004, ""),
    ("soft-return-infield", (3, 5, 6), 0.015, ""),
    ("turns-back", (4, 6), 0.02, ""),
    ("first-behind-runner", (3,), 0.16, "1"),
    ("middle-late-to-bag", (4, 6), 0.05, "1"),
    ("middle-breaks-early", (4, 6), 0.05, "1"),
    ("third-off-bag", (5,), 0.45, "3"),
    ("third-deep-on-bunt", (5,), 0.02, ""),
    ("one-hops-cutoff", (7, 8, 9), 0.04, "2"),
    ("misses-cutoff", (7, 8, 9), 0.02, "2"),
    ("slow-to-charge", (7, 9), 0.02, "1"),
)
#: Habits that a kind of return throw is.
CATCHER_RETURNS = {"lobs-return": "lob", "returns-from-knees": "knees"}
#: A third baseman this far off the bag with a runner on third counts as far, in feet.
FAR_FT = 15.0


def habit_rows(fixture: Fixture, log: GameLog) -> Iterator[Row]:
    """One row a look, at their fielders only."""
    rng = stream("chart", fixture.game, "habits")
    for made in log.pitches:
        at = made.moment
        if made.play or made.result in {"foul", "foul_bunt"} or at.pitcher_team not in SCOUTED:
            continue
        for habit, positions, chance, needs in _LOOKS:
            if needs not in at.bases or rng.random() >= chance or (positions == (1,) and unseen(at)):
                continue
            look = _look(fixture, at, habit, positions[rng.randrange(len(positions))], rng)
            # Drawn all the same, so that no other look changes: with nobody on there is no runner to turn his back to.
            if habit != "turns-back" or at.bases:
                yield look


def _look(fixture: Fixture, at: Moment, habit: str, position: int, rng: random.Random) -> Row:
    truth = INFIELDS[at.pitcher_team]
    player = at.pitcher if position == 1 else fielders(at.pitcher_team, fixture.day)[position]
    row = {
        "game": fixture.game, "inning": str(at.inning), "team": at.pitcher_team,
        "player": player, "position": str(position), "habit": habit,
        "bases": at.bases or "-", "bats": at.bats, "outs": str(at.outs),
    }  # fmt: skip
    if habit in truth.feet:
        feet = max(0.0, rng.gauss(*truth.feet[habit]))
        return row | {"seen": "yes" if feet >= FAR_FT else "no", "feet": f"{feet:.0f}"}
    return row | {"seen": "yes" if rng.random() < habit_chance(at.pitcher_team, player, habit) else "no"}


def habit_chance(team: str, player: str, habit: str) -> float:
    """How often a man truly does it."""
    if habit in CATCHER_RETURNS:
        return catcher(team, player).returns[CATCHER_RETURNS[habit]]
    if habit in (his := catcher(team, player).habits):
        return his[habit]
    if habit in {"never-looks-at-second", "same-look-count", "walks-behind-mound"}:
        clocks = pitchers()[team, player].clocks
        looks = clocks.looks
        return {"never-looks-at-second": looks[0], "same-look-count": max(looks)}.get(habit, clocks.behind_mound)
    return INFIELDS[team].habits[habit]


def position_rows(fixture: Fixture, log: GameLog) -> Iterator[Row]:
    """Where they stood before the first or the last pitch to some of the hitters."""
    rng = stream("chart", fixture.game, "positions")
    before = ""
    for made in log.pitches:
        at = made.moment
        if at.pitcher_team not in SCOUTED:
            continue
        new, before = at.batter != before, at.batter
        if rng.random() < (0.13 if new else 0.06 if at.strikes == 2 else 0.0):
            for position, player in sorted(fielders(at.pitcher_team, fixture.day).items()):
                if position >= 3:
                    yield _stand(fixture, at, position, player, rng)


def _stand(fixture: Fixture, at: Moment, position: int, player: str, rng: random.Random) -> Row:
    truth = INFIELDS[at.pitcher_team]
    double_play = "1" in at.bases and at.outs < 2
    depth = truth.depth[position]
    if position <= 6:
        depth -= (14.0 if position in {4, 6} else 4.0) * double_play
        depth -= 22.0 * (at.bases in {"3", "13"} and at.outs == 0)
    row = {
        "game": fixture.game, "inning": str(at.inning), "team": at.pitcher_team, "position": str(position),
        "player": player, "bats": at.bats, "bases": at.bases or "-", "outs": str(at.outs), "strikes": str(at.strikes),
        "depth_ft": f"{depth + rng.gauss(0, 4 if position <= 6 else 8):.0f}",
    }  # fmt: skip
    pull = (position in {5, 6, 7}) == (at.bats == "R")
    if position in {4, 6}:
        off = 32.0 - 12.0 * double_play + (4.0 if pull else -6.0)
        row |= {"off_bag_ft": f"{max(3.0, rng.gauss(off, 3)):.0f}", "toward": "line" if pull else "middle"}
    elif position in {3, 5}:
        off = 24.0 if not pull else 16.0
        if position == 3 and "1" in at.bases:
            # On the bag to hold the runner, or behind him; a draw of its own, so that no other look changes.
            own = stream("behind", fixture.game, str(at.inning), at.batter)
            off = 14.0 if own.random() < truth.habits["first-behind-runner"] else 3.0
        if position == 5 and "3" in at.bases:
            off = truth.feet["third-off-bag"][0]
        row |= {"off_bag_ft": f"{max(0.0, rng.gauss(off, 2)):.0f}", "toward": "line" if pull else "middle"}
    elif rng.random() < 0.3:
        row["toward"] = "line" if pull else "middle"
    return row
