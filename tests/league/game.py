"""Play one game by the official count rules."""

import random
from dataclasses import dataclass, replace

from league import runners
from league.chance import stream
from league.contact import Batted, batted, bunted
from league.diamond import Diamond, settle
from league.log import Clocked, GameLog, Moment, PitchMade
from league.plate import day_shares, mix, outcome, throw
from league.truth import CatcherTruth, HitterTruth, PitcherTruth


@dataclass(frozen=True)
class Club:
    """One team on the day: batting order, catcher, pitchers in the order they come with their pitch limits."""

    team: str
    lineup: tuple[str, ...]
    catcher: str
    staff: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Truths:
    """What is true of everybody in the game."""

    pitchers: dict[tuple[str, str], PitcherTruth]
    hitters: dict[tuple[str, str], HitterTruth]
    catchers: dict[str, CatcherTruth]


class _Mound:
    """A club's pitching on the day: who is on, how long, whom he has faced."""

    def __init__(self, club: Club, truths: Truths, rng: random.Random) -> None:
        self.club = club
        self.place = 0
        self.thrown = 0
        self.innings: set[int] = set()
        self.faced: dict[str, int] = {}
        self._shares = {
            key: day_shares(rng, truths.pitchers[club.team, key]) for key, _ in club.staff
        }  # fmt: skip

    @property
    def key(self) -> str:
        return self.club.staff[self.place][0]

    def shares(self, side: str) -> dict[str, float]:
        return self._shares[self.key][side]

    def relieve(self) -> None:
        """The next man comes when the one on the mound is through."""
        if self.thrown >= self.club.staff[self.place][1] and self.place + 1 < len(self.club.staff):
            self.place += 1
            self.thrown = 0
            self.innings.clear()
            self.faced.clear()


class Game:
    """Nine innings or as many as it takes."""

    def __init__(self, game: str, away: Club, home: Club, truths: Truths) -> None:
        self.rng = stream("game", game)
        self.truths = truths
        self.away, self.home = away, home
        self.log = GameLog(game=game, away=away.team, home=home.team, runs={away.team: 0, home.team: 0})
        self.mounds = {club.team: _Mound(club, truths, self.rng) for club in (away, home)}
        self.turn = {away.team: 0, home.team: 0}

    def play(self) -> GameLog:
        inning = 1
        while True:
            self._half(inning, "top", self.away, self.home)
            if inning >= 9 and self.log.runs[self.home.team] > self.log.runs[self.away.team]:
                return self.log
            self._half(inning, "bottom", self.home, self.away)
            if inning >= 9 and self.log.runs[self.home.team] != self.log.runs[self.away.team]:
                return self.log
            inning += 1

    def _won(self, moment_half: str, inning: int) -> bool:
        return moment_half == "bottom" and inning >= 9 and self.log.runs[self.home.team] > self.log.runs[self.away.team]

    def _half(self, inning: int, half: str, bat: Club, hold: Club) -> None:
        diamond = Diamond()
        mound = self.mounds[hold.team]
        while diamond.outs < 3 and not self._won(half, inning):
            mound.relieve()
            mound.innings.add(inning)
            if self._appearance(inning, half, bat, hold, diamond):
                self.turn[bat.team] = (self.turn[bat.team] + 1) % 9

    def _moment(self, inning: int, half: str, bat: Club, hold: Club, diamond: Diamond, count: tuple[int, int]) -> Moment:
        mound = self.mounds[hold.team]
        batter = bat.lineup[self.turn[bat.team]]
        throws = self.truths.pitchers[hold.team, mound.key].throws
        hand = self.truths.hitters[bat.team, batter].bats
        return Moment(
            inning=inning,
            half=half,
            outs=diamond.outs,
            bases=diamond.bases,
            lead=self.log.runs[hold.team] - self.log.runs[bat.team],
            pitcher_team=hold.team,
            pitcher=mound.key,
            batter_team=bat.team,
            batter=batter,
            catcher=hold.catcher,
            bats=("L" if throws == "R" else "R") if hand == "S" else hand,
            balls=count[0],
            strikes=count[1],
        )

    def _appearance(self, inning: int, half: str, bat: Club, hold: Club, diamond: Diamond) -> bool:
        """One plate appearance; False when the inning ends under the batter, who then leads off the next."""
        rng, mound = self.rng, self.mounds[hold.team]
        pitcher = self.truths.pitchers[hold.team, mound.key]
        batter = bat.lineup[self.turn[bat.team]]
        hitter = self.truths.hitters[bat.team, batter]
        mound.faced[batter] = mound.faced.get(batter, 0) + 1
        sacrifice = runners.wants_sacrifice(rng, diamond, inning, self.log.runs, bat.team, hold.team, hitter)
        count, last = (0, 0), ""
        while True:
            moment = self._moment(inning, half, bat, hold, diamond, count)
            style = "windup"
            if diamond.runners:
                style, out = runners.come_set(rng, self.log, moment, pitcher, diamond)
                if diamond.outs == 3:
                    return False
                if out:
                    moment = replace(moment, outs=diamond.outs, bases=diamond.bases)
            going = runners.goes(rng, self.truths.hitters, bat.team, diamond, count)
            made, ball = self._pitch(moment, pitcher, hitter, mound, last, bunt=sacrifice)
            seconds = runners.deliver(rng, self.log, moment, pitcher, style)
            runs, over = 0, False
            if ball is not None:
                if ball.contact in {"ground", "bunt"} or ball.play == "single":
                    self.log.clocked.append(runners.to_first(rng, moment, hitter, ball))
                settled, runs = settle(rng, diamond, ball, batter)
                made, over = replace(made, batted=settled, play=settled.play), True
            else:
                count, play = _next_count(count, made.result)
                over = bool(play)
                made = replace(made, play=play)
                if play == "strikeout":
                    diamond.outs += 1
                elif play in {"walk", "hit_by_pitch"}:
                    runs = diamond.force(batter)
                if made.result not in {"foul", "foul_bunt", "hit_by_pitch"} and play != "walk" and diamond.outs < 3:
                    runs += runners.take_bases(
                        rng, self.log, moment, made, going, seconds, self.truths, diamond, terminal=over
                    )
            self.log.pitches.append(made)
            self.log.runs[bat.team] += runs
            mound.thrown += 1
            last = made.result
            if over:
                return True
            if diamond.outs == 3 or self._won(half, inning):
                return False

    def _pitch(
        self, moment: Moment, pitcher: PitcherTruth, hitter: HitterTruth, mound: _Mound, last: str, *, bunt: bool
    ) -> tuple[PitchMade, Batted | None]:
        rng = self.rng
        count = f"{moment.balls}-{moment.strikes}"
        shares = mix(
            pitcher, moment.bats, count, mound.shares(moment.bats), time=min(3, mound.faced[moment.batter]), last=last
        )
        ball = throw(rng, pitcher, shares, count=count, innings=len(mound.innings))
        for_hit = rng.random() < hitter.bunt
        in_play: Batted | None = None
        if (bunt or for_hit) and moment.strikes < 2 and ball.miss_ft < 0.35:
            mark = rng.random()
            result = "in_play" if mark < 0.62 else "foul_bunt" if mark < 0.92 else "swinging_strike"
            if result == "in_play":
                in_play = bunted(rng, moment.bats, sacrifice=bunt, seconds=hitter.home_first)
        else:
            result = outcome(rng, ball, hitter, pitcher, count)
            if result == "in_play":
                in_play = batted(rng, ball, hitter, moment.bats, strikes=moment.strikes)
        made = PitchMade(moment, ball.truth.pitch, ball.mph, ball.x_ft, ball.z_ft, result)
        return made, in_play


def _next_count(count: tuple[int, int], result: str) -> tuple[tuple[int, int], str]:
    """The count after a pitch that was not put in play, and the play where it ends the appearance."""
    balls, strikes = count
    if result == "hit_by_pitch":
        return count, "hit_by_pitch"
    if result in {"ball", "pitchout"}:
        return (balls + 1, strikes), "walk" if balls == 3 else ""
    if result == "foul" and strikes == 2:
        return count, ""
    return (balls, strikes + 1), "strikeout" if strikes == 2 else ""


__all__ = ["Clocked", "Club", "Game", "Truths"]
