"""Whom do we play: teams, their parks and rosters, and what the staff wrote down about each man?"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from scoutgen.records.check import did_you_mean
from scoutgen.records.contact import contact_problems
from scoutgen.records.fields import (
    AS_NUMBER,
    Confidence,
    Edition,
    FreeText,
    Initials,
    IsoDate,
    Name,
    Record,
    Source,
    between,
    in_one_line,
    one_of,
    slug,
    why_not_a_key,
)
from scoutgen.records.grades import Grades
from scoutgen.records.problems import Problem
from scoutgen.records.roster import LARGEST_ROSTER, RosterPlayer, roster_problems
from scoutgen.records.sentences import said
from scoutgen.records.textfile import relative
from scoutgen.records.yamlfile import KeyPath
from scoutgen.records.yamlrecord import YamlSource, read_record

OPPONENTS_FOLDER = "content/opponents"


class Observation(Record):
    """One thing somebody saw, with everything needed to judge it later."""

    about: Name = Field(description="What it is about in a word or two, e.g. delivery, lead, return throw.")
    text: FreeText = Field(description="What was seen, in a sentence.")
    seen: IsoDate = Field(description="The day it was seen, e.g. 2026-03-06.")
    source: Source = Field(
        description="How it was lawfully seen: video, own_game, same_site, on_campus or second_hand."
    )
    by: Initials = Field(description="Initials of who saw it.")
    confidence: Confidence = Field(description="sure, likely or hunch.")
    editions: Annotated[tuple[Edition, ...], in_one_line(Edition, one_of(Edition), fewest=1)] = Field(
        ("staff", "players"), alias="for",
        description="Editions that show it; staff and players when left out. Write [staff] to keep it among the staff.",
    )  # fmt: skip
    clip: FreeText | None = Field(None, description="Link or file name with a time.")
    expires: IsoDate | None = Field(None, description="The day after which it counts as old.")

    @model_validator(mode="after")
    def _expires_after_seen(self) -> Self:
        if self.expires and self.expires < self.seen:
            raise said(f"expires {self.expires} is before seen {self.seen}")
        return self


class Fence(Record):
    """One point of the outfield fence."""

    bearing_deg: Annotated[float, between(-50, 50), AS_NUMBER] = Field(
        description="-45 is the left-field line, 0 second base, +45 the right-field line."
    )
    distance_ft: Annotated[float, between(200, 500), AS_NUMBER] = Field(description="Feet from home plate.")
    height_ft: Annotated[float, between(0, 60), AS_NUMBER] | None = Field(
        None, description="Height of the fence there."
    )


class Park(Record):
    """The ballpark, as far as a decision hangs on it."""

    name: Name | None = Field(None, description="The park's name.")
    fences: tuple[Fence, ...] = Field((), description="Points of the fence from left to right.")
    backstop_ft: Annotated[float, between(10, 120), AS_NUMBER] | None = Field(
        None, description="Feet from home plate to the backstop."
    )
    surface: Literal["grass", "turf", "mixed"] | None = Field(None, description="grass, turf or mixed.")
    notes: tuple[FreeText, ...] = Field((), description="Sun, wind, mound, foul ground: a sentence each.")


NO_PARK = Park()


class TeamFile(Record):
    """What content/opponents/<team>/team.yml holds."""

    name: Name = Field(description="The team's name as the pages show it.")
    park: Park = Field(NO_PARK, description="The ballpark.")
    tendencies: tuple[Observation, ...] = Field(
        (), description="What their staff likes to do: bunts, runs, sends, bullpen."
    )
    roster: tuple[RosterPlayer, ...] = Field((), max_length=LARGEST_ROSTER, description="Their men.")


class EntryFile(Record):
    """What content/opponents/<team>/players/<key>.yml holds."""

    summary: FreeText | None = Field(None, description="One line on the man.")
    observations: tuple[Observation, ...] = Field(
        (), description="What was seen; those that disagree stand side by side."
    )
    grades: Grades | None = Field(
        None, description="20-80 grades, for evaluations; the players' edition never has them."
    )


@dataclass(frozen=True)
class Team:
    """A team as the pages know it.

    Attributes:
        key: in addresses and charts; the name of the team's folder.
        own: our own program.
        listed: has a file; a team only named in charts has none, and its roster is made up from them.
    """

    key: str
    name: str
    own: bool = False
    listed: bool = True
    park: Park = NO_PARK
    tendencies: tuple[Observation, ...] = ()
    roster: tuple[RosterPlayer, ...] = ()
    file: str = ""

    def player(self, key: str) -> RosterPlayer | None:
        """The man with that key."""
        return next((man for man in self.roster if man.key == key), None)


@dataclass(frozen=True)
class Entry:
    """A scouting entry on one man; `player` is his roster key."""

    team: str
    player: str
    summary: str | None = None
    observations: tuple[Observation, ...] = ()
    grades: Grades | None = None
    file: str = ""


@dataclass(frozen=True)
class Opponents:
    """Every opponent with a folder, and every entry by team and player key.

    Attributes:
        teams: by key; a team whose file could not be read is there without a roster.
        entries: by team and player key.
        unread: keys of the teams whose file could not be read, so that nobody is called missing from their rosters.
    """

    teams: dict[str, Team]
    entries: dict[tuple[str, str], Entry]
    unread: frozenset[str] = frozenset()


def read_opponents(root: Path, as_of: date, own_key: str = "") -> tuple[Opponents, list[Problem]]:
    """What do we have on paper about the teams we play?

    Args:
        root: the project's folder.
        as_of: the day the site is made for; nothing can have been seen after it.
        own_key: our own team's key, which no opponent may have.

    Returns:
        The teams by key, the entries by (team, player), both in the order of their keys, and all problems.
    """
    teams: dict[str, Team] = {}
    entries: dict[tuple[str, str], Entry] = {}
    unread: set[str] = set()
    problems: list[Problem] = []
    base = root / OPPONENTS_FOLDER
    for folder in sorted(base.iterdir()) if base.is_dir() else ():
        if folder.name.startswith("."):
            continue
        if not folder.is_dir():
            problems.append(
                Problem(
                    relative(folder, root),
                    0,
                    "",
                    "stands beside the teams; each team has a folder with a team.yml in it",
                )
            )
            continue
        if why := why_not_a_key(folder.name):
            problems.append(Problem(relative(folder, root), 0, "", f"the folder's name is the team's key, and {why}"))
            continue
        if folder.name == own_key:
            problems.append(
                Problem(relative(folder, root), 0, "", "has our own team's key; our men stand in content/program.yml")
            )
            continue
        team, found = _read_team(folder, root, as_of, teams)
        problems += found
        if team is None:
            unread.add(folder.name)
        teams[folder.name] = team or Team(folder.name, folder.name)
        for entry in _read_entries(folder, root, team, as_of, problems):
            entries[entry.team, entry.player] = entry
    return Opponents(teams, entries, frozenset(unread)), problems


def _read_team(folder: Path, root: Path, as_of: date, others: Mapping[str, Team]) -> tuple[Team | None, list[Problem]]:
    path = folder / "team.yml"
    if not path.exists():
        return None, [Problem(relative(folder, root), 0, "", "has no team.yml; it names the team and its roster")]
    record, source, problems = read_record(path, root, TeamFile)
    if record is None or "roster" in source.left_out:
        return None, problems
    for other in others.values():
        if slug(other.name) == slug(record.name) != "":
            text = f"'{record.name}' is the name of {other.key} too; charts that write the name could mean either"
            problems.append(source.problem(("name",), f"{text}; tell them apart"))
    problems += roster_problems(record.roster, source)
    problems += contact_problems(_names_in(record), source)
    problems += late_observations(record.tendencies, ("tendencies",), source, as_of)
    team = Team(folder.name, record.name, False, True, record.park, record.tendencies, record.roster, source.file)
    return team, problems


def _read_entries(folder: Path, root: Path, team: Team | None, as_of: date, problems: list[Problem]) -> list[Entry]:
    entries = []
    base = folder / "players"
    for path in sorted(base.iterdir()) if base.is_dir() else ():
        if path.name.startswith("."):
            continue
        file = relative(path, root)
        if path.suffix != ".yml":
            problems.append(
                Problem(file, 0, "", "is not an entry; entries are files <key>.yml, <key> as in the team's roster")
            )
            continue
        if team is not None and team.player(path.stem) is None:
            keys = [man.key for man in team.roster]
            hint = (
                did_you_mean(path.stem, keys) or f"; add him to {team.file} or rename the file to a key that is there"
            )
            problems.append(Problem(file, 0, "", f"'{path.stem}' is not a key of {team.name}'s roster{hint}"))
        record, source, found = read_record(path, root, EntryFile)
        problems += found
        if record is None:
            continue
        problems += late_observations(record.observations, ("observations",), source, as_of)
        if record.grades is not None and record.grades.seen > as_of:
            problems.append(source.problem(("grades", "seen"), _late(record.grades.seen, as_of)))
        problems += contact_problems(_evaluation_texts(record), source)
        entries.append(Entry(folder.name, path.stem, record.summary, record.observations, record.grades, file))
    return entries


def _names_in(team: TeamFile) -> Iterator[tuple[KeyPath, str]]:
    """Every text of a team's file that the recruiting edition shows, with its place."""
    yield ("name",), team.name
    for position, man in enumerate(team.roster):
        yield ("roster", position, "name"), man.name
        yield ("roster", position, "class"), man.class_year or ""


def _evaluation_texts(entry: EntryFile) -> Iterator[tuple[KeyPath, str]]:
    """Every text of an entry that the recruiting edition shows, with its place."""
    for position, seen in enumerate(entry.observations):
        if "recruiting" in seen.editions:
            for name in ("about", "text", "clip"):
                yield ("observations", position, name), getattr(seen, name) or ""
    if entry.grades is not None:
        yield ("grades", "body"), entry.grades.body or ""
        yield ("grades", "role"), entry.grades.role or ""
        for tool, grade in entry.grades.tools.items():
            yield ("grades", "tools", tool, "saw"), grade.saw or ""


def late_observations(
    observations: tuple[Observation, ...], at: KeyPath, source: YamlSource, as_of: date
) -> list[Problem]:
    """Observations said to be seen after the day the site is made for."""
    return [
        source.problem((*at, position, "seen"), _late(observation.seen, as_of))
        for position, observation in enumerate(observations)
        if observation.seen > as_of
    ]


def _late(seen: date, as_of: date) -> str:
    return f"{seen} is after {as_of}, the day the site is made for; correct the date, or build with a later --as-of"
