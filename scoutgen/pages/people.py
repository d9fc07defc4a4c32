"""Who gets a page, and as what: from the rosters and from what was charted."""

from collections.abc import Iterable
from dataclasses import dataclass

import pandas as pd

from scoutgen.pages.words import BATS_WORDS, HAND_WORDS, SHORT_HAND_WORDS
from scoutgen.records.opponents import Team
from scoutgen.records.roster import RosterPlayer
from scoutgen.records.season import Season

# How far a man's own page stands from the others in a list of a staff.
_ROLE_ORDER = {"starter": 0, "reliever": 1, "closer": 2}


@dataclass(frozen=True)
class Person:
    """One man of a team we play.

    Attributes:
        pitches, catches, plays: what he is looked at as; a two-way player is more than one of them.
        charted: pitches charted of him as a pitcher.
    """

    team: Team
    man: RosterPlayer
    pitches: bool
    catches: bool
    plays: bool
    charted: int

    @property
    def address(self) -> str:
        """Where his page stands."""
        return f"teams/{self.team.key}/players/{self.man.key}"

    @property
    def title(self) -> str:
        """Number and name, as a card shows it; the number alone where no name is known."""
        if self.man.number and self.man.name.lstrip("# ") == self.man.number:
            return f"No. {self.man.number}"
        return f"{self.man.number} {self.man.name}" if self.man.number else self.man.name

    @property
    def brief(self) -> str:
        """Number and family name, for a short line."""
        named = self.man.number and self.man.name[:1].isalpha()
        return f"{self.man.number} {self.man.name.split()[-1]}" if named else self.title

    @property
    def hand(self) -> str:
        """Hand and side in words: what he throws with if he pitches, how he bats if he does not."""
        words = []
        if self.pitches:
            words.append(HAND_WORDS.get(self.man.throws or "", "pitcher, hand not known"))
        if self.catches:
            words.append("catcher")
        if self.plays and self.man.positions:
            words.append(", ".join(p for p in self.man.positions if p not in ("P", "C")))
        if (self.plays or self.catches) and self.man.bats:
            words.append(BATS_WORDS[self.man.bats])
        return ", ".join(w for w in words if w)

    @property
    def short_hand(self) -> str:
        """LHP, RHP, C or his first position: what a reader types and a list shows."""
        if self.pitches:
            return SHORT_HAND_WORDS.get(self.man.throws or "", "P")
        return self.man.positions[0] if self.man.positions else ""

    @property
    def staff_place(self) -> tuple[int, int, str]:
        """Order in a staff: starters, relievers, closer; the most charted first."""
        return (_ROLE_ORDER.get(self.man.role or "", 1), -self.charted, self.man.name)


def team_address(team: Team) -> str:
    """Where a team's page stands."""
    return f"teams/{team.key}/index"


def infield_address(team: Team) -> str:
    """Where the page of its infield stands."""
    return f"teams/{team.key}/infield"


def people(season: Season) -> dict[str, tuple[Person, ...]]:
    """Everybody of every team we play, by team, in the order of the roster."""
    thrown = _sizes(season.pitches, "pitcher_team", "pitcher")
    caught = _sizes(season.throws, "team", "catcher")
    out = {}
    for team in season.teams.values():
        if team.own:
            continue
        out[team.key] = tuple(_person(team, man, thrown, caught) for man in team.roster)
    return out


def asked_about(everybody: Iterable[Person], teams: Iterable[Team]) -> list[tuple[str, str | None, str]]:
    """Of whom the charting to-do speaks: pitchers, catchers and each infield that anything is known of."""
    asked: list[tuple[str, str | None, str]] = []
    for person in everybody:
        asked += [(person.team.key, person.man.key, "pitcher")] if person.pitches else []
        asked += [(person.team.key, person.man.key, "catcher")] if person.catches else []
    return asked + [(team.key, None, "infield") for team in teams]


def _person(
    team: Team, man: RosterPlayer, thrown: dict[tuple[str, str], int], caught: dict[tuple[str, str], int]
) -> Person:
    key = (team.key, man.key)
    pitches = key in thrown or "P" in man.positions or man.role is not None
    catches = key in caught or "C" in man.positions
    plays = any(p not in ("P", "C") for p in man.positions) or not (pitches or catches)
    return Person(team, man, pitches, catches, plays, thrown.get(key, 0))


def _sizes(frame: pd.DataFrame, team: str, player: str) -> dict[tuple[str, str], int]:
    sizes = frame.groupby([team, player], observed=True).size().rename("n").reset_index()
    return {(str(row[team]), str(row[player])): int(row["n"]) for row in sizes.to_dict("records")}
