"""Which team, and which man on it, does a text in a chart mean?"""

import hashlib
import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from scoutgen.records.check import did_you_mean, listed, nearest, quoted
from scoutgen.records.fields import slug
from scoutgen.records.opponents import OPPONENTS_FOLDER, Team
from scoutgen.records.program import PROGRAM_FILE
from scoutgen.records.roster import RosterPlayer, find_player, men_meant

# The team of men whose team no chart and no roster tells.
UNLISTED = "unlisted"
OF_ROLE = {"pitcher": "P", "catcher": "C"}


def folded(text: str) -> str:
    """A name without capitals, accents and extra spaces: two spellings of one man."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    return " ".join(plain.casefold().removeprefix("#").split())


def key_of(text: str) -> str:
    """An ASCII key for a text; a text without any Latin letter or digit gets one from its bytes."""
    return slug(text) or "n" + hashlib.sha256(folded(text).encode()).hexdigest()[:8]


@dataclass(frozen=True)
class Answer:
    """Who is meant; or, with neither, why nobody is."""

    team: str = ""
    player: str = ""
    why_not: str = ""


@dataclass
class Directory:
    """Every team and man: those on paper, and those that only the charts name.

    Attributes:
        teams: by key; teams named only in charts are added as they come.
        unread: keys of teams whose file could not be read: nobody is called missing from their rosters.
        made_up: per team without a roster, the texts its men were charted under, by key.
    """

    teams: dict[str, Team]
    unread: frozenset[str] = frozenset()
    made_up: dict[str, dict[str, str]] = field(default_factory=dict)
    _found: dict[tuple[str, str], Answer] = field(default_factory=dict)
    _on_paper: dict[tuple[str, str, date | None], Answer] = field(default_factory=dict)

    def has_roster(self, team: str) -> bool:
        """Whether the team's men are on paper, so that a text must mean one of them."""
        return bool(self.teams[team].roster) and team not in self.unread

    def team(self, text: str) -> Answer:
        """The team a text means: a key, a name, or a new one."""
        key = key_of(text)
        if text in self.teams and self.teams[text].listed:
            return Answer(text)
        for team in self.teams.values():
            if slug(team.name) == key and team.listed:
                return Answer(team.key)
        known = self.teams.setdefault(key, Team(key, text, listed=False))
        if folded(known.name) != folded(text) and known.key != folded(text):
            both = f"{quoted(text)} and {quoted(known.name)}"
            return Answer(why_not=f"{both} would share the address {quoted(key)}; write the team one way")
        return Answer(key)

    def player(self, team: str, text: str, day: date | None) -> Answer:
        """The man a text means on one team; on a team without a roster he is added."""
        if not self.has_roster(team):
            return self._chart_only(team, text)
        answer = self._found.get((team, text))
        if answer is None:
            answer = self._found[team, text] = self._on_roster(team, text, None)
        return answer if answer.player or day is None or not self.is_dated(team) else self._on_roster(team, text, day)

    def is_dated(self, team: str) -> bool:
        """Whether some number on the roster changed hands during the season."""
        return any(man.from_date or man.until_date for man in self.teams[team].roster)

    def _on_roster(self, team: str, text: str, day: date | None) -> Answer:
        known = self.teams[team]
        man, why = find_player(known.roster, text, day)
        if man is not None:
            return Answer(team, man.key)
        number = text.strip().removeprefix("#").strip()
        if sum(man.number == number for man in known.roster) > 1 or " could be " in why:
            return Answer(why_not=why)
        return Answer(why_not=self._nobody([team], text, f"the roster of {known.name}"))

    def _nobody(self, teams: Sequence[str], text: str, where: str) -> str:
        """Nobody of this name on these rosters: who comes near, and where to add him."""
        known = [self.teams[team] for team in teams]
        names = {name: man for team in known for man in team.roster for name in (man.key, man.name)}
        men = listed(dict.fromkeys(f"{quoted(names[n].key)} ({names[n].name})" for n in nearest(text, names, 2)))
        meant = f"; did you mean {men}? If not," if men else ";"
        files = listed(team.file or (PROGRAM_FILE if team.own else f"{OPPONENTS_FOLDER}/{team.key}") for team in known)
        return f"{quoted(text)} is not on {where}{meant} add him to {files}"

    def _chart_only(self, team: str, text: str) -> Answer:
        key = key_of(text)
        first = self.made_up.setdefault(team, {}).setdefault(key, text)
        # Where the roster could not be read, that is the problem, and not how its men are written.
        if team not in self.unread and first != text and folded(first) != folded(text) and folded(text) != key:
            both = f"{quoted(text)} and {quoted(first)} on {self.teams[team].name}"
            hint = "write the man one way, or give the team a roster"
            return Answer(why_not=f"{both} would share the address {quoted(key)}; {hint}")
        return Answer(team, key)

    def charted_on(self, team: str, text: str) -> bool:
        """Whether the charts themselves have placed this text on the team."""
        return key_of(text) in self.made_up.get(team, {})

    def on_rosters(self, teams: Iterable[str], text: str, day: date | None) -> list[Answer]:
        """On which of these teams' rosters is he?"""
        answers = [self._listed(team, text, day) for team in teams if self.has_roster(team)]
        return [answer for answer in answers if answer.player]

    def _listed(self, team: str, text: str, day: date | None) -> Answer:
        """As `player` on a team with a roster, but for the reason why not, which takes long to word."""
        asked = (team, text, day if self.is_dated(team) else None)
        answer = self._on_paper.get(asked)
        if answer is None:
            men = men_meant(self.teams[team].roster, text, day)
            answer = self._on_paper[asked] = Answer(team, men[0].key) if len(men) == 1 else Answer()
        return answer

    def elsewhere(self, teams: Iterable[str], text: str, day: date | None) -> list[Answer]:
        """On which roster outside these teams is he, by key or name? A bare number says nothing there."""
        if re.fullmatch(r"#?\s*\d+", text):
            return []
        inside = set(teams)
        return self.on_rosters((team for team in self.teams if team not in inside), text, day)

    def unlisted(self, text: str) -> Answer:
        """A man of whom only the name is known."""
        self.teams.setdefault(UNLISTED, Team(UNLISTED, "Team not charted", listed=False))
        return self._chart_only(UNLISTED, text)

    def nowhere(self, teams: Sequence[str], text: str, day: date | None) -> Answer:
        """Why none of these rosters has him."""
        if len(teams) == 1:
            return self.player(teams[0], text, day)
        rosters = listed((self.teams[team].name for team in teams), "and")
        return Answer(why_not=self._nobody(teams, text, f"the rosters of {rosters}"))

    def with_charted_men(self, seen: Mapping[str, Mapping[str, set[str]]]) -> dict[str, Team]:
        """All teams; those without a roster get one of the men charted, those without a file a name with capitals.

        Args:
            seen: per team and man the roles he was charted in.
        """
        teams: dict[str, Team] = {}
        for key, team in sorted(self.teams.items()):
            roster = list(team.roster)
            if not self.has_roster(key):
                roster += [
                    _made_up(man, self.made_up[key][man], roles) for man, roles in sorted(seen.get(key, {}).items())
                ]
            teams[key] = replace(team, name=team.name if team.listed else _as_a_name(team.name), roster=tuple(roster))
        return {key: team for key, team in teams.items() if key != UNLISTED or team.roster}

    def warn_of(self, text: str) -> str:
        """What to say of a team name close to one on paper; empty where none is."""
        on_paper = [name for team in self.teams.values() if team.listed for name in (team.key, team.name)]
        close = did_you_mean(text, on_paper)
        return f"no team file is called {quoted(text)}{close} It is taken for a team of its own" if close else ""


def _as_a_name(text: str) -> str:
    """A team's name from how charts write it: what has capitals stands as it is, a key becomes words."""
    if text != text.lower():
        return text
    return " ".join(word[:1].upper() + word[1:] for word in re.split(r"[\s_-]+", text) if word) or text


def _made_up(key: str, text: str, roles: set[str]) -> RosterPlayer:
    number = re.fullmatch(r"#?\s*(\d{1,2})", text)
    positions = [OF_ROLE[role] for role in sorted(roles, reverse=True) if role in OF_ROLE]
    return RosterPlayer.model_validate(
        {"key": key, "name": text, "positions": positions, **({"number": number.group(1)} if number else {})}
    )
