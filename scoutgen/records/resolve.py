"""Who is meant in each row of a table: roster keys for players and teams, by team, half inning and date.

A row's team is known from its half and the game, or from its `team` column. Where it is not, the one roster that has
the man decides; then the one team the game names; then, of two teams without rosters, the one common to all his games.
Everything is done once per different combination of text, game, half and team, never per row.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

import numpy as np
import numpy.typing as npt
import pandas as pd

from scoutgen.records.directory import Answer, Directory
from scoutgen.records.table import Rows

Ints = npt.NDArray[np.int64]
Plays = Literal["pitching", "batting", "either", "team"]


@dataclass(frozen=True)
class Role:
    """A column that names a player.

    Attributes:
        column: the column.
        plays: how his team is known: his side pitches or bats in that half; the row's team column; or not by itself.
        team_column: the frame's column for his team, if it has one.
        beside: another column of the row whose man plays for the same team (or, with `against`, for the other).
        against: see `beside`.
    """

    column: str
    plays: Plays
    team_column: str = ""
    beside: str = ""
    against: bool = False


# In the order of resolving: the man whom others hang on comes first.
ROLES: dict[str, tuple[Role, ...]] = {
    "pitches": (
        Role("pitcher", "pitching", "pitcher_team"),
        Role("batter", "batting", "batter_team", beside="pitcher", against=True),
        Role("catcher", "pitching", beside="pitcher"),
    ),
    "times": (Role("player", "either", "team"),),
    "holds": (Role("pitcher", "either", "team"),),
    "throws": (
        Role("catcher", "either", "team"),
        Role("pitcher", "either", beside="catcher"),
        Role("runner", "either", beside="catcher", against=True),
    ),
    "habits": (Role("player", "team", "team"),),
    "positions": (Role("player", "team", "team"),),
}


@dataclass
class Games:
    """What resolving needs of the games: by position, the day and the teams (empty where blank)."""

    position: dict[str, int]
    days: list[date | None]
    away: list[str]
    home: list[str]

    def teams(self, game: int) -> list[str]:
        """The teams the game names."""
        return [team for team in (self.away[game], self.home[game]) if team]

    def other(self, game: int, team: str) -> str:
        """The team against which this one plays; empty where the game does not say."""
        if team == self.away[game]:
            return self.home[game]
        return self.away[game] if team == self.home[game] else ""


@dataclass
class _Open:
    """Combinations of one role whose team is not known by themselves, to be decided when the others are."""

    role: Role
    rows: Rows
    where: Ints
    inverse: Ints
    questions: list[tuple[str, int, str]]
    answers: list[Answer | None]


@dataclass
class Resolver:
    """Resolves table after table against one directory."""

    directory: Directory
    games: Games
    answers: dict[tuple[str, str], tuple[Ints, list[Answer]]] = field(default_factory=dict)

    def resolve(self, tables: Sequence[Rows]) -> None:
        """Replace the texts in the role columns of every table by roster keys, and add the team columns."""
        # Pitches tell most (half, pitcher and batter), so that the other tables can lean on them.
        for group in ([r for r in tables if r.table == "pitches"], [r for r in tables if r.table != "pitches"]):
            for depth in range(3):
                self.decide(
                    [self.ask(rows, ROLES[rows.table][depth]) for rows in group if depth < len(ROLES[rows.table])]
                )
        for rows in tables:
            teams = {role.column: role.team_column for role in ROLES[rows.table]}
            for column, team_column in teams.items():
                self.write(rows, column, team_column)

    def ask(self, rows: Rows, role: Role) -> _Open:
        """One question per different text, game and known team; answered where the team is known."""
        frame = rows.frame
        text = frame[role.column].cat
        game = np.array([self.games.position.get(name, -1) for name in frame["game"].cat.categories] + [-1], np.int64)
        games = game[frame["game"].cat.codes.to_numpy()]
        codes = text.codes.to_numpy().astype(np.int64)
        where = np.flatnonzero((codes >= 0) & (games >= 0))
        names = list(self.directory.teams)
        number = {name: i for i, name in enumerate(names)}
        team, not_team = self.known_team(rows, role, games, number)
        # The game matters where the team is open, or where a number's owner hangs on the date.
        dated = np.array([self.directory.is_dated(name) for name in names] + [True])
        matters = np.where(dated[team], games, 0)
        key = codes[where]
        for part, size in ((matters, len(self.games.days)), (team + 1, len(names) + 1), (not_team + 1, len(names) + 1)):
            key = key * size + part[where]
        inverse, unique = pd.factorize(key)
        first = np.full(len(unique), len(key), np.int64)
        np.minimum.at(first, inverse, np.arange(len(key)))
        categories = text.categories.tolist()
        questions: list[tuple[str, int, str]] = []
        answers: list[Answer | None] = []
        for place in where[first].tolist():
            word, at = categories[codes[place]], int(games[place])
            if team[place] >= 0:
                answers.append(self.directory.player(names[team[place]], word, self.games.days[at]))
                questions.append((word, at, ""))
            else:
                answers.append(None)
                questions.append((word, at, names[not_team[place]] if not_team[place] >= 0 else ""))
        return _Open(role, rows, where, inverse, questions, answers)

    def known_team(self, rows: Rows, role: Role, games: Ints, number: dict[str, int]) -> tuple[Ints, Ints]:
        """Per row the number of his team, and of a team that is not his; -1 where unknown."""
        frame = rows.frame
        away = np.array([number.get(team, -1) for team in self.games.away] + [-1], np.int64)[games]
        home = np.array([number.get(team, -1) for team in self.games.home] + [-1], np.int64)[games]
        unknown = np.full(len(frame), -1, np.int64)
        if role.plays == "team":
            given = frame["team"].cat
            return np.array([number.get(t, -1) for t in given.categories] + [-1], np.int64)[
                given.codes.to_numpy()
            ], unknown
        team, not_team = unknown, unknown
        if role.plays in ("pitching", "batting"):
            # In the top half the away team bats and the home team pitches; the code of a blank half is -1.
            half = frame["half"].cat.set_categories(["top", "bottom"]).cat.codes.to_numpy()
            at_home = half == (0 if role.plays == "pitching" else 1)
            team = np.where(half < 0, -1, np.where(at_home, home, away))
            not_team = np.where(half < 0, -1, np.where(at_home, away, home))
        if role.beside:
            his = self.team_numbers(rows, role.beside, number)
            if role.against:
                his_other = np.where(his == away, home, np.where(his == home, away, -1))
                team = np.where(team >= 0, team, np.where(his >= 0, his_other, -1))
            else:
                team = np.where(team >= 0, team, his)
            not_team = np.where((not_team < 0) & role.against, his, not_team)
        return team, not_team

    def team_numbers(self, rows: Rows, column: str, number: dict[str, int]) -> Ints:
        """Per row the number of the team of a man already resolved."""
        codes, answers = self.answers[rows.table, column]
        return np.array([number.get(answer.team, -1) for answer in answers] + [-1], np.int64)[codes]

    def decide(self, asked: Sequence[_Open]) -> None:
        """Answer what was left open, from all tables at once; complain where nobody can be meant."""
        common: dict[str, set[str]] = {}
        for open_ in asked:
            for (word, game, not_team), answer in zip(open_.questions, open_.answers, strict=True):
                if answer is None and len(teams := {t for t in self.games.teams(game) if t != not_team}) > 1:
                    common[word] = common.get(word, teams) & teams
        for open_ in asked:
            final = [
                answer or self.guess(*question, common.get(question[0], set()))
                for question, answer in zip(open_.questions, open_.answers, strict=True)
            ]
            codes = np.full(len(open_.rows.frame), -1, np.int64)
            codes[open_.where] = open_.inverse
            self.answers[open_.rows.table, open_.role.column] = codes, final
            wrong = np.array([bool(answer.why_not) for answer in final] + [False])[codes]
            open_.rows.flag(wrong, open_.role.column, _reasons(codes, final), by=codes)

    def guess(self, word: str, game: int, not_team: str, common: set[str]) -> Answer:
        """His team is not known from the row: see the module's rule."""
        directory, day = self.directory, self.games.days[game]
        named = [team for team in self.games.teams(game) if team != not_team]
        found = directory.on_rosters(named, word, day)
        if len(found) == 1:
            return found[0]
        if found:
            both = " and ".join(directory.teams[answer.team].name for answer in found)
            return Answer(why_not=f'"{word}" is on the rosters of {both}; fill in half, or write his key or full name')
        all_named = len(self.games.teams(game)) > 1
        outside = [] if all_named else directory.elsewhere([*named, not_team], word, day)
        if len(outside) == 1:
            return outside[0]
        without = [team for team in named if not directory.has_roster(team)]
        if len(without) > 1:
            charted = [team for team in without if directory.charted_on(team, word)]
            without = charted if len(charted) == 1 else [team for team in without if team in common]
        if len(without) == 1:
            return directory.player(without[0], word, day)
        if named and all(directory.has_roster(team) for team in named):
            return directory.nowhere(named, word, day)
        return directory.unlisted(word)

    def write(self, rows: Rows, column: str, team_column: str) -> None:
        """Put the answers into the frame."""
        codes, answers = self.answers[rows.table, column]
        rows.frame[column] = _category([answer.player for answer in answers], codes)
        if not team_column or ROLES[rows.table][0].plays == "team":
            return
        teams = _category([answer.team for answer in answers], codes)
        if team_column not in rows.frame:
            # Beside the man, where a reader looks for it.
            rows.frame.insert(rows.frame.columns.tolist().index(column) + 1, team_column, "")
        rows.frame[team_column] = teams


def _reasons(codes: Ints, answers: Sequence[Answer]) -> Callable[[int], str]:
    """Why nobody can be meant in a row."""
    return lambda row: answers[codes[row]].why_not


def _category(names: Sequence[str], codes: Ints) -> pd.Categorical:
    different = sorted({name for name in names if name})
    number = {name: i for i, name in enumerate(different)}
    slots = np.array([number.get(name, -1) for name in names] + [-1], np.int64)
    return pd.Categorical.from_codes(slots[codes], pd.Index(different, dtype="str"))


def resolve_teams(rows: Rows, column: str, directory: Directory) -> None:
    """Replace team texts by keys; warn of one close to a team on paper, refuse one that cannot have an address.

    Args:
        rows: the table.
        column: the column with team texts.
        directory: known teams; new ones are added.
    """
    texts = rows.frame[column].cat
    codes = texts.codes.to_numpy().astype(np.int64)
    answers = [directory.team(text) for text in texts.categories]
    wrong = np.array([bool(answer.why_not) for answer in answers] + [False])[codes]
    rows.flag(wrong, column, lambda row: answers[codes[row]].why_not, by=codes)
    for number, text in enumerate(texts.categories):
        team = answers[number].team
        if team and not directory.teams[team].listed and (words := directory.warn_of(text)):
            rows.say(np.flatnonzero(codes == number)[:1], column, words, "warning")
    rows.frame[column] = _category([answer.team for answer in answers], codes)
