"""Play one game by the official count rules."""

from dataclasses import dataclass, field, replace

from league import runners
from league.chance import stream
from league.contact import Batted, batted, bunted
from league.diamond import Diamond, settle
from league.log import GameLog, Moment, PitchMade
from league.plate import day_shares, mix, outcome, throw
from league.runners import Scene
from league.truth import Truths


@dataclass(frozen=True)
class Club:
    """One team on the day: batting order, catcher, pitchers in the order they come with their pitch limits."""

    team: str
    lineup: tuple[str, ...]
    catcher: str
    staff: tuple[tuple[str, int], ...]


@dataclass
class _Mound:
    """A club's pitching on the day: who is on, how long, whom he has faced."""

    club: Club
    shares: dict[str, dict[str, dict[str, float]]]
    place: int = 0
    thrown: int = 0
    innings: set[int] = field(default_factory=set)
    faced: dict[str, int] = field(default_factory=dict)

    @property
    def key(self) -> str:
        return self.club.staff[self.place][0]

    def relieve(self) -> None:
        """The next man comes when the one on the mound is through."""
        if self.thrown >= self.club.staff[self.place][1] and self.place + 1 < len(self.club.staff):
            self.place, self.thrown, self.innings, self.faced = self.place + 1, 0, set(), {}


@dataclass(frozen=True)
class _Half:
    inning: int
    half: str
    bat: Club
    hold: Club
    diamond: Diamond = field(default_factory=Diamond)


class Game:
    """Nine innings or as many as it takes."""

    def __init__(self, game: str, away: Club, home: Club, truths: Truths) -> None:
        self.rng = stream("game", game)
        self.truths = truths
        self.away, self.home = away, home
        self.log = GameLog(game=game, away=away.team, home=home.team, runs={away.team: 0, home.team: 0})
        self.mounds = {
            club.team: _Mound(
                club, {key: day_shares(self.rng, truths.pitchers[club.team, key]) for key, _ in club.staff}
            )
            for club in (away, home)
        }
        self.turn = {away.team: 0, home.team: 0}

    def play(self) -> GameLog:
        """The whole game; the home team does not bat when it is ahead in the ninth or later."""
        runs, inning = self.log.runs, 0
        while inning < 9 or runs[self.home.team] == runs[self.away.team]:
            inning += 1
            self._half(_Half(inning, "top", self.away, self.home))
            if inning < 9 or runs[self.home.team] <= runs[self.away.team]:
                self._half(_Half(inning, "bottom", self.home, self.away))
        return self.log

    def _over(self, half: _Half) -> bool:
        runs = self.log.runs
        walk_off = half.half == "bottom" and half.inning >= 9 and runs[self.home.team] > runs[self.away.team]
        return half.diamond.outs == 3 or walk_off

    def _half(self, half: _Half) -> None:
        mound = self.mounds[half.hold.team]
        while not self._over(half):
            mound.relieve()
            mound.innings.add(half.inning)
            if self._appearance(half):
                self.turn[half.bat.team] = (self.turn[half.bat.team] + 1) % 9

    def _scene(self, half: _Half, balls: int, strikes: int) -> Scene:
        pitcher = self.mounds[half.hold.team].key
        batter = half.bat.lineup[self.turn[half.bat.team]]
        throws = self.truths.pitchers[half.hold.team, pitcher].throws
        hand = self.truths.hitters[half.bat.team, batter].bats
        moment = Moment(
            inning=half.inning,
            half=half.half,
            outs=half.diamond.outs,
            bases=half.diamond.bases,
            lead=self.log.runs[half.hold.team] - self.log.runs[half.bat.team],
            pitcher_team=half.hold.team,
            pitcher=pitcher,
            batter_team=half.bat.team,
            batter=batter,
            catcher=half.hold.catcher,
            bats=("L" if throws == "R" else "R") if hand == "S" else hand,
            balls=balls,
            strikes=strikes,
        )
        return Scene(self.rng, self.log, self.truths, half.diamond, moment)

    def _appearance(self, half: _Half) -> bool:
        """One plate appearance; False when the half inning ends under the batter, who then leads off the next."""
        mound = self.mounds[half.hold.team]
        scene = self._scene(half, 0, 0)
        mound.faced[scene.moment.batter] = mound.faced.get(scene.moment.batter, 0) + 1
        sacrifice = runners.wants_sacrifice(scene)
        last = ""
        while True:
            style = "windup"
            if half.diamond.runners:
                style = runners.come_set(scene)
                if half.diamond.outs == 3:
                    return False
                scene = scene.now()
            made = self._one_pitch(scene, style, last, bunt=sacrifice)
            if made.play:
                return True
            if self._over(half):
                return False
            (balls, strikes), _ = next_count((scene.moment.balls, scene.moment.strikes), made.result)
            scene, last = self._scene(half, balls, strikes), made.result

    def _one_pitch(self, scene: Scene, style: str, last: str, *, bunt: bool) -> PitchMade:
        """A pitch with everything that follows from it."""
        at, diamond = scene.moment, scene.diamond
        going = runners.goes(scene)
        made, ball = self._thrown(scene, last, bunt=bunt)
        seconds = runners.deliver(scene, style)
        runs = 0
        if ball is not None:
            if ball.contact in {"ground", "bunt"} or ball.play == "single":
                runners.run_to_first(scene, ball)
            settled, runs = settle(self.rng, diamond, ball, at.batter)
            made = replace(made, batted=settled, play=settled.play)
        else:
            made = replace(made, play=next_count((at.balls, at.strikes), made.result)[1])
            if made.play == "strikeout":
                diamond.outs += 1
            elif made.play:
                runs = diamond.force(at.batter)
            caught = made.result in {"ball", "called_strike", "swinging_strike", "foul_tip"} and made.play != "walk"
            if caught and diamond.outs < 3:
                more, note = runners.after_pitch(scene, made, going, seconds)
                runs, made = runs + more, replace(made, note=note)
        self.log.pitches.append(made)
        self.log.runs[at.batter_team] += runs
        self.mounds[at.pitcher_team].thrown += 1
        return made

    def _thrown(self, scene: Scene, last: str, *, bunt: bool) -> tuple[PitchMade, Batted | None]:
        rng, at, pitcher, hitter = self.rng, scene.moment, scene.pitcher, scene.hitter
        mound = self.mounds[at.pitcher_team]
        count = f"{at.balls}-{at.strikes}"
        day = mound.shares[at.pitcher][at.bats]
        shares = mix(pitcher, at.bats, count, day, time=min(3, mound.faced[at.batter]), last=last)
        ball = throw(rng, pitcher, shares, count=count, innings=len(mound.innings))
        in_play: Batted | None = None
        if (rng.random() < hitter.bunt or bunt) and at.strikes < 2 and ball.miss_ft < 0.35:
            mark = rng.random()
            result = "in_play" if mark < 0.62 else "foul_bunt" if mark < 0.92 else "swinging_strike"
            if result == "in_play":
                in_play = bunted(rng, at.bats, sacrifice=bunt, seconds=hitter.home_first)
        else:
            result = outcome(rng, ball, hitter, pitcher, count)
            if result == "in_play":
                in_play = batted(rng, ball, hitter, at.bats, strikes=at.strikes)
        return PitchMade(at, ball.truth.pitch, ball.mph, ball.x_ft, ball.z_ft, result), in_play


def next_count(count: tuple[int, int], result: str) -> tuple[tuple[int, int], str]:
    """The count after a pitch that was not put in play, and the play where it ends the appearance."""
    balls, strikes = count
    if result == "hit_by_pitch":
        return count, "hit_by_pitch"
    if result == "ball":
        return (balls + 1, strikes), "walk" if balls == 3 else ""
    if result == "foul" and strikes == 2:
        return count, ""
    return (balls, strikes + 1), "strikeout" if strikes == 2 else ""
