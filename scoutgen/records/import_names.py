"""Which man of which roster does a name in somebody else's file mean?

The project's own reader knows keys, full names and numbers. Here come the other ways in which files write a man: family
name first, an initial before it or after it, the family name alone; each only where it can be one man and no other.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

import pandas as pd

from scoutgen.records.check import listed, nearest, quoted
from scoutgen.records.fields import LONGEST_NAME, slug
from scoutgen.records.import_cells import CellError
from scoutgen.records.opponents import Team, read_opponents
from scoutgen.records.resolve import ROLES
from scoutgen.records.roster import RosterPlayer, find_player
from scoutgen.records.season import Season

Row = dict[str, str]


@dataclass
class Unmatched:
    """A text that means nobody on any roster and was kept as it is: how often, and where first."""

    column: str
    text: str
    place: str
    rows: int = 0

    def __str__(self) -> str:
        count = "1 row" if self.rows == 1 else f"{self.rows:,} rows"
        return f"{self.place}: {self.column}: {quoted(self.text)} is on no roster ({count}); it is kept as it is"


@dataclass
class Names:
    """The rosters of a project, asked once for each different question.

    Attributes:
        season: teams and games.
        on_paper: teams whose rosters were written by somebody; those of other teams are made up of the men charted.
        unmatched: by column and text, names that are on no roster.
    """

    season: Season
    on_paper: frozenset[str]
    unmatched: dict[tuple[str, str], Unmatched] = field(default_factory=dict)
    _answers: dict[tuple[str, tuple[str, ...], date | None], str | CellError | None] = field(default_factory=dict)
    _by_name: dict[str, set[str]] = field(default_factory=dict)
    _games: dict[str, tuple[str, str, date | None]] = field(default_factory=dict)
    _on_day: dict[str, list[str]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        frame = self.season.games[["game", "away", "home", "date"]].astype("object")
        for game, away, home, day in frame.itertuples(index=False):
            self._games[game] = (
                away if isinstance(away, str) else "",
                home if isinstance(home, str) else "",
                None if pd.isna(day) else day.date(),
            )
            if not pd.isna(day):
                self._on_day.setdefault(f"{day:%Y-%m-%d}", []).append(game)

    def game_on(self, day: str, team: str | None) -> str:
        """The one game of that day, or of that team on that day.

        Raises:
            CellError: there is none, or there are several.
        """
        found = [game for game in self._on_day.get(day, ()) if team in (None, *self._games[game][:2])]
        if len(found) == 1:
            return found[0]
        whose = f" of {team}" if team else ""
        if not found:
            year, month, of_month = day.split("-")
            turned = f"{year}-{of_month}-{month}"
            hint = f", but one on {turned}: is date: in the map right?" if turned in self._on_day else "; add it there"
            raise CellError(f"data/games has no game{whose} on {day}{hint}")
        raise CellError(f"data/games has several games{whose} on {day}: {listed(sorted(found), 'and')}; give the key")

    def teams_of(self, table: str, column: str, row: Row, team: str | None) -> tuple[str, ...]:
        """The teams a man of this column can play for; every one where nothing is known."""
        if team is not None:
            return (team,)
        role = next(role for role in ROLES[table] if role.column == column)
        if role.plays == "team":
            given = row.get("team", "")
            found = [t.key for t in self.season.teams.values() if slug(given) in (t.key, slug(t.name))]
            return tuple(found) or (given,)
        away, home, _ = self._games.get(row.get("game", ""), ("", "", None))
        half = row.get("half", "").casefold()
        if role.plays in ("pitching", "batting") and half in ("top", "bottom") and away and home:
            return (away,) if (half == "top") == (role.plays == "batting") else (home,)
        return tuple(team for team in (away, home) if team)

    def player(self, text: str, teams: tuple[str, ...], game: str, *, by_half: bool = False) -> str | None:
        """His key, the text itself where the project's reader will know it, or None where nobody is meant.

        Args:
            text: as their file has him.
            teams: for which he can play.
            game: its key, for numbers that changed hands.
            by_half: the half of the inning said for which.

        Raises:
            CellError: nobody on rosters that are whole, or several men.
        """
        day = self._games.get(game, ("", "", None))[2]
        question = (text, teams, day)
        if question not in self._answers:
            try:
                self._answers[question] = self._asked(text, teams, day, by_half=by_half)
            except CellError as nobody:
                self._answers[question] = nobody
        answer = self._answers[question]
        if isinstance(answer, CellError):
            raise answer
        return answer

    def _asked(self, text: str, teams: Sequence[str], day: date | None, *, by_half: bool) -> str | None:
        known = [self.season.teams[key] for key in teams if key in self.season.teams]
        rosters = [team for team in known if team.key in self.on_paper]
        if not teams:
            rosters = [team for key, team in self.season.teams.items() if key in self.on_paper]
        found = [man for team in rosters if (man := find_player(team.roster, text, day)[0])]
        if len(found) == 1:
            return found[0].key
        if len(found) > 1 or re.fullmatch(r"#?\s*\d{1,2}", text, re.ASCII):
            # A number on both teams: the reader weighs what else the row says, or names the trouble.
            return text
        men = meant([man for team in rosters for man in team.roster], text)
        if len(men) == 1:
            return men[0].key
        if men:
            who = listed(man.key for man in men)
            raise CellError(f"{quoted(text)} could be {who}; say which under values: in the map")
        if rosters and len(rosters) == len(teams):
            others = [self.season.teams[key].name for key in self._with(text) if key not in teams]
            if others:
                here = listed([team.name for team in rosters], "and")
                see = "which half of the inning it was" if by_half else "for which team he played"
                there = listed(others, "and")
                raise CellError(f"{quoted(text)} is on the roster of {there}, not of {here}; see {see}")
            raise CellError(_nobody(text, rosters))
        return None

    def _with(self, text: str) -> list[str]:
        """Teams on paper that have a man of this whole name."""
        if not self._by_name:
            for team in self.on_paper:
                for man in self.season.teams[team].roster:
                    for name in (man.key, slug(man.name)):
                        self._by_name.setdefault(name, set()).add(team)
        return sorted({team for name in _whole_names(text) for team in self._by_name.get(name, ())})


def _nobody(text: str, rosters: Iterable[Team]) -> str:
    teams = list(rosters)
    names = {name: man.key for team in teams for man in team.roster for name in (man.key, man.name)}
    in_order = " ".join(filter(None, _parts(text))) if len(text) <= LONGEST_NAME else text
    close = list(dict.fromkeys(names[name] for name in (*nearest(text, names, 2), *nearest(in_order, names, 2))))[:2]
    hint = f"; did you mean {listed(close)}? Say so" if close else "; say who is meant"
    where = listed([team.name for team in teams], "and")
    return f"{quoted(text)} is not on the roster of {where}{hint} under values: in the map, or add him to it"


def meant(men: Sequence[RosterPlayer], text: str) -> list[RosterPlayer]:
    """The men a text can mean beyond keys, full names and numbers: `Last, First`, `Last First`, `F. Last`, `Last`.

    Accents and capitals do not count.
    """
    first, last = _parts(text) if len(text) <= LONGEST_NAME else ("", "")
    if not last:
        return []
    whole = _whole_names(text)
    same = [man for man in men if slug(man.name) in whole]
    if same:
        return same
    families = [man for man in men if _is_family(man, last)]
    if not first:
        return families
    initial = slug(first)
    return [man for man in families if len(initial) == 1 and slug(man.name).startswith(initial)]


def _whole_names(text: str) -> set[str]:
    """What the name of a man can be, first name first; of two words and more any may be where the family name ends."""
    if len(text) > LONGEST_NAME:
        return set()
    words = text.split() if "," not in text else []
    turned = {slug(" ".join((*words[at:], *words[:at]))) for at in range(len(words))}
    return {slug(" ".join(_parts(text))), *turned} - {""}


def _parts(text: str) -> tuple[str, str]:
    """First name or initial, and family name."""
    if "," in text:
        last, _, first = text.partition(",")
        return first.strip(), last.strip()
    before = re.fullmatch(r"(\w)(?:\.\s*|\s+)(\S.*)", text)
    if before:
        return before[1], before[2]
    after = re.fullmatch(r"(\S.*?)\s+(\w)\.?", text)
    return (after[2], after[1]) if after else ("", text)


def _is_family(man: RosterPlayer, last: str) -> bool:
    words = man.name.split()
    return any(slug(" ".join(words[start:])) == slug(last) != "" for start in range(1, len(words)))


def rosters_on_paper(project: Path, season: Season) -> frozenset[str]:
    """Keys of the teams whose men somebody wrote down, our own included."""
    program = season.program
    teams = read_opponents(project, season.as_of, program.key)[0].teams
    return frozenset(key for key, team in teams.items() if team.roster) | ({program.key} if program.roster else set())
