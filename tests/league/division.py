"""A division for the benchmarks: the demo's opponents many times over, each time with games of their own."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from league import arms, bats
from league.game import Game
from league.handwritten import PAGES
from league.log import GameLog
from league.papers import content_files
from league.rosters import NAMES, OWN, PASSING
from league.season import FIXTURES, SCOUTED, Fixture, club_of
from league.sheets import game_files
from league.truth import Truths

_TEAMS = re.compile(rf"\b({'|'.join((*(name for name in NAMES if name != OWN), *PASSING))})\b")


@dataclass(frozen=True)
class Replayed(Fixture):
    """A fixture of the demo played once more, with chances of its own."""

    run: str

    @property
    def game(self) -> str:
        return f"{super().game}-{self.run}"


def write_division(folder: Path, *, opponents: int = 30, times: int = 3) -> int:
    """Write content/ and data/ of a season with many opponents.

    Args:
        folder: the project.
        opponents: how many, of about 27 pages each; a multiple of the demo's three.
        times: how often each of the demo's 31 games is played, 314 pitches each; one is 10,000 pitches for three
            opponents.

    Returns:
        Pitches written.
    """
    pitches = 0
    for group in range(opponents // len(SCOUTED)):
        played = list(_played(group, times))
        pitches += sum(len(log.pitches) for _, log in played)
        texts = {f"data/{path}": text for path, text in game_files(played).items()}
        content = content_files(played)
        texts |= {f"content/{path}": text for path, text in content.items() if group == 0 or "opponents/" in path}
        if group == 0:
            texts |= {f"content/{path}": text for path, text in PAGES.items()}
        for path, text in texts.items():
            place = folder / _renamed(path, group)
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_text(_renamed(text, group), encoding="utf-8")
    return pitches


def _played(group: int, times: int) -> Iterator[tuple[Fixture, GameLog]]:
    pitchers, hitters = arms.pitchers(), bats.hitters()
    for fixture in FIXTURES:
        for again in range(times):
            one = Replayed(**vars(fixture), run=f"{group}{_letters(again)}")
            away, home = club_of(one.away, one.day), club_of(one.home, one.day)
            catchers = {club.team: bats.catcher(club.team, club.catcher) for club in (away, home)}
            yield one, Game(one.game, away, home, Truths(pitchers, hitters, catchers)).play()


def _renamed(text: str, group: int) -> str:
    """The same words about the teams of another group."""
    if group == 0:
        return text
    text = _TEAMS.sub(rf"\1-{group}", text)
    text = re.sub(r"\bgames\.csv$", f"games/{group}.csv", text)
    return re.sub(r"^(name: .*)$", rf"\1 {group}", text, count=1, flags=re.MULTILINE)


def _letters(number: int) -> str:
    """a to z, then za to zz."""
    return chr(97 + number) if number < 26 else f"z{chr(97 + number - 26)}" if number < 52 else f"zz{number}"
