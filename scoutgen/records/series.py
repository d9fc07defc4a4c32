"""Whom do we play when, who throws for them, and what do we mean to do?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Annotated, Any, Literal, Self, TypeAlias

from pydantic import BeforeValidator, Field, WithJsonSchema, model_validator

from scoutgen.records.check import did_you_mean, listed
from scoutgen.records.fields import (
    FreeText,
    IsoDate,
    Key,
    Name,
    Record,
    in_one_line,
    one_of,
    why_not_a_key,
)
from scoutgen.records.opponents import Opponents, Team
from scoutgen.records.problems import Problem
from scoutgen.records.roster import find_player
from scoutgen.records.sentences import said, shown
from scoutgen.records.textfile import relative
from scoutgen.records.yamlfile import KeyPath
from scoutgen.records.yamlrecord import YamlSource, read_record

SERIES_FOLDER = "content/series"


# The recruiting edition holds no game plan.
PlanEdition: TypeAlias = Literal["staff", "players"]
# Editors that read YAML 1.1 take a plain `no` for false.
Rested: TypeAlias = Annotated[
    Literal["available", "limited", "no"], WithJsonSchema({"enum": ["available", "limited", "no", False]})
]


def _only_text(value: Any) -> Any:  # noqa: ANN401 - whatever the file holds
    """`- Make him throw strikes` is a line of the plan for the staff and the players."""
    return {"text": value} if isinstance(value, str) else value


class PlanLine(Record):
    """One line of what we mean to do."""

    text: FreeText = Field(description="What we do, in a sentence.")
    about: Name | None = Field(None, description="What it is about in a word or two, e.g. hitters, running, defense.")
    editions: Annotated[tuple[PlanEdition, ...], in_one_line(PlanEdition, one_of(PlanEdition), fewest=1)] = Field(
        ("staff", "players"), alias="for",
        description="Editions that show it; staff and players when left out.",
    )  # fmt: skip


PLAN_LINE = BeforeValidator(_only_text, json_schema_input_type=PlanLine | FreeText)


class Probable(Record):
    """Who probably starts a game for them."""

    game: Name = Field(description="The game as we call it, e.g. Friday, or its key in the games table.")
    date: IsoDate | None = Field(None, description="The day of the game.")
    pitcher: Name = Field(description="Key, full name or number on their roster.")


class BullpenState(Record):
    """How rested one of their relievers is; never why."""

    player: Name = Field(description="Key, full name or number on their roster.")
    state: Rested = Field(description="available, limited or no. No reasons: nothing about anybody's health.")
    as_of: IsoDate = Field(description="The day this was so.")


class SeriesFile(Record):
    """What content/series/<name>.yml holds."""

    title: Name | None = Field(
        None, description="Title of the pages; made from the opponent and the dates when left out."
    )
    opponent: Key = Field(description="The opponent's key: the name of its folder in content/opponents.")
    start: IsoDate = Field(description="First day.")
    end: IsoDate | None = Field(None, description="Last day; the first when left out.")
    where: Literal["home", "away", "neutral"] | None = Field(None, description="home, away or neutral.")
    probables: tuple[Probable, ...] = Field((), description="Their probable pitchers in the order of the games.")
    catcher: Name | None = Field(None, description="Their likely catcher: key, full name or number.")
    lineup: tuple[Name, ...] = Field(
        (), max_length=10, description="Their likely lineup in order: keys, full names or numbers."
    )
    plan: tuple[Annotated[PlanLine, PLAN_LINE], ...] = Field((), description="What we mean to do, a sentence a line.")
    bullpen: tuple[BullpenState, ...] = Field((), description="How rested their relievers are.")

    @model_validator(mode="after")
    def _dates_fit(self) -> Self:
        if self.end and self.end < self.start:
            raise said(f"end {self.end} is before start {self.start}")
        return self


@dataclass(frozen=True)
class Series:
    """A series as the pages know it; every man is given by his roster key.

    Attributes:
        name: the file's name; in addresses.
        opponent: a team's key.
    """

    name: str
    title: str
    opponent: str
    start: date
    end: date
    where: Literal["home", "away", "neutral"] | None = None
    probables: tuple[Probable, ...] = ()
    catcher: str | None = None
    lineup: tuple[str, ...] = ()
    plan: tuple[PlanLine, ...] = ()
    bullpen: tuple[BullpenState, ...] = ()
    file: str = ""


def read_series(root: Path, opponents: Opponents, as_of: date) -> tuple[tuple[Series, ...], list[Problem]]:
    """Which series are planned?

    Args:
        root: the project's folder.
        opponents: the teams; a series names one of them and men of its roster.
        as_of: the day the site is made for; a bullpen cannot have been seen after it.

    Returns:
        The series in order of start and name, and all problems.
    """
    found: list[Series] = []
    problems: list[Problem] = []
    base = root / SERIES_FOLDER
    for path in sorted(base.iterdir()) if base.is_dir() else ():
        if path.name.startswith("."):
            continue
        file = relative(path, root)
        if path.suffix != ".yml":
            problems.append(Problem(file, 0, "", "is not a series; series are files <name>.yml"))
            continue
        if why := why_not_a_key(path.stem):
            problems.append(Problem(file, 0, "", f"the file's name is the series' address, and {why}"))
        record, source, more = read_record(path, root, SeriesFile)
        problems += more
        if record is not None:
            series, more = _resolved(path.stem, record, source, opponents, as_of)
            problems += more
            found.append(series)
    return tuple(sorted(found, key=lambda s: (s.start, s.name))), problems


def _resolved(
    name: str, record: SeriesFile, source: YamlSource, opponents: Opponents, as_of: date
) -> tuple[Series, list[Problem]]:
    """The series with roster keys in place of names and numbers, and what they do not fit."""
    problems: list[Problem] = []
    team = opponents.teams.get(record.opponent)
    if team is None:
        problems.append(source.problem(("opponent",), _no_team(record.opponent, opponents.teams)))
    end = record.end or record.start
    roster = None if team is None or team.key in opponents.unread else team

    def key(text: str, at: KeyPath, day: date) -> str:
        if roster is None:
            return text
        man, why = find_player(roster.roster, text, day)
        if man is None:
            problems.append(source.problem(at, f"{why} ({roster.file})"))
            return text
        return man.key

    probables = []
    for i, probable in enumerate(record.probables):
        day = probable.date or record.start
        if not record.start <= day <= end:
            problems.append(
                source.problem(("probables", i, "date"), f"{day} is not within the series ({record.start} to {end})")
            )
        probables.append(
            probable.model_copy(update={"pitcher": key(probable.pitcher, ("probables", i, "pitcher"), day)})
        )
    lineup = tuple(key(text, ("lineup", i), record.start) for i, text in enumerate(record.lineup))
    problems += _twice(lineup, ("lineup",), source)
    bullpen = []
    for i, state in enumerate(record.bullpen):
        if state.as_of > as_of:
            problems.append(
                source.problem(("bullpen", i, "as_of"), f"{state.as_of} is after {as_of}, the day the site is made for")
            )
        bullpen.append(state.model_copy(update={"player": key(state.player, ("bullpen", i, "player"), record.start)}))
    catcher = None if record.catcher is None else key(record.catcher, ("catcher",), record.start)
    title = record.title or f"{team.name if team else record.opponent}, {_days(record.start, end, as_of)}"
    series = Series(name, title, record.opponent, record.start, end, record.where, tuple(probables), catcher, lineup,
                    record.plan, tuple(bullpen), source.file)  # fmt: skip
    return series, problems


def _no_team(key: str, teams: Mapping[str, Team]) -> str:
    if not teams:
        return f"{shown(key)} is not a team; there are none in content/opponents yet"
    return f"{shown(key)} is not a team; there are {listed(sorted(teams), 'and')}{did_you_mean(key, teams)}"


def _twice(lineup: tuple[str, ...], at: KeyPath, source: YamlSource) -> list[Problem]:
    """A man bats once in a lineup."""
    return [
        source.problem(
            (*at, i), f"'{man}' stands in the lineup twice (first in line {source.line((*at, lineup.index(man)))})"
        )
        for i, man in enumerate(lineup)
        if lineup.index(man) < i
    ]


def _days(start: date, end: date, as_of: date) -> str:
    """Which days, as short as they can be told apart: 10 to 12 Apr, with the year where it is another one than now."""
    last = f"{end.day} {end:%b}" + (f" {end.year}" if end.year != as_of.year else "")
    if start == end:
        return last
    return f"{start.day} to {last}" if start.month == end.month else f"{start.day} {start:%b} to {last}"
