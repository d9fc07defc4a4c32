"""What does a new team, player, series, game or project start from?

Each function writes commented files that read without a problem as they are, and refuses to write over anything. Every
optional key stands in them switched off, with what it means; a test switches all of them on and reads them.
"""

import csv
import io
import os
import re
from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from pathlib import Path
from typing import get_args

from scoutgen.records.check import did_you_mean, listed
from scoutgen.records.fields import JERSEY_PATTERN, Source, slug, why_not_a_key, why_not_a_name, why_not_a_text
from scoutgen.records.grades import Tool
from scoutgen.records.habit_kinds import Door, usual_habit_kinds
from scoutgen.records.opponents import OPPONENTS_FOLDER, Team, read_opponents
from scoutgen.records.program import PROGRAM_FILE, read_program
from scoutgen.records.roster import RosterPlayer, find_player
from scoutgen.records.schemas import MODELS, schema_file, schema_text
from scoutgen.records.series import SERIES_FOLDER
from scoutgen.records.skeleton_texts import (
    SCHEMAS_FOLDER,
    TABLES,
    commented,
    filled,
    header,
    line_end,
    schema_place,
    table_line,
)
from scoutgen.records.textfile import read_text, relative
from scoutgen.records.writing import write_all

SEASON = timedelta(days=120)


class SkeletonError(Exception):
    """Nothing was written; the text says why and what to do."""


def init_project(folder: Path, key: str = "our-team", name: str = "Our Team") -> list[Path]:
    """A whole empty project that checks without a problem and builds.

    Args:
        folder: made when it is not there; files that are there already are never written over.
        key: our team's key.
        name: our team's name.

    Returns:
        The files written, in order.
    """
    _must_be(key=key, name=name)
    files = {
        folder / "mkdocs.yml": filled("mkdocs.yml", name=name),
        folder / "README.md": filled("README.md", name=name),
        folder / ".gitignore": filled("gitignore"),
        folder / PROGRAM_FILE: filled("program.yml", schema=schema_place("program", 1), key=key, name=name),
        folder / "content" / "habits.yml": filled(
            "habits.yml",
            schema=schema_place("habits", 1),
            usual=commented(usual_habit_kinds()),
            doors=commented(get_args(Door)),
        ),
        **{folder / "content" / place / ".gitkeep": "" for place in ("opponents", "pages", "series")},
        **{folder / "data" / f"{table}.csv": table_line(header(table)) for table in TABLES},
        **{folder / SCHEMAS_FOLDER / schema_file(kind): schema_text(kind) for kind in MODELS},
    }
    return _write(files, folder)


def new_team(root: Path, key: str, name: str) -> list[Path]:
    """A folder for an opponent with its team.yml; the files written."""
    _must_be(key=key, name=name)
    program, _ = read_program(root)
    if key == program.key:
        raise SkeletonError(f"'{key}' is our own team; our men stand in {PROGRAM_FILE}")
    path = root / OPPONENTS_FOLDER / key / "team.yml"
    today = _today()
    text = filled("team.yml", schema=schema_place("team", 3), name=name, seen=today, expires=today + SEASON)
    return _write({path: text}, root)


def new_player(root: Path, team: str, who: str) -> list[Path]:
    """A scouting entry on a man of an opponent's roster.

    Args:
        root: the project's folder.
        team: the opponent's key.
        who: his key, full name or number.
    """
    opponent = _opponent(root, team)
    man, why = find_player(opponent.roster, who)
    if man is None:
        key = slug(who)
        number = who.strip().removeprefix("#").strip()
        start = f"number: {number}" if re.fullmatch(JERSEY_PATTERN, number) else f"key: {key}"
        line = f"; write him there first, e.g. '  - {{{start}, name: ...}}' under roster" if key else ""
        raise SkeletonError(f"{opponent.file}: {why}{line}")
    path = root / OPPONENTS_FOLDER / team / "players" / f"{man.key}.yml"
    today = _today()
    text = filled(
        "player.yml",
        schema=schema_place("player", 4),
        who=f"{man.name}, {opponent.name}",
        seen=today,
        expires=today + SEASON,
        tools=commented(get_args(Tool)),
    )
    return _write({path: text}, root)


def new_series(root: Path, name: str, opponent: str, start: date, end: date | None = None) -> list[Path]:
    """A series against an opponent; `name` is its address, `end` two days after `start` when left out."""
    _must_be(key=name)
    team = _opponent(root, opponent)
    end = end or start + timedelta(days=2)
    if end < start:
        raise SkeletonError(f"the end {end} is before the start {start}")
    path = root / SERIES_FOLDER / f"{name}.yml"
    text = filled(
        "series.yml",
        schema=schema_place("series", 2),
        opponent=opponent,
        start=start,
        end=end,
        as_of=_today(),
        pitcher=_example(team.roster, "P"),
        catcher=_example(team.roster, "C"),
        hitter=_example(team.roster, "CF"),
    )
    return _write({path: text}, root)


def new_game(
    root: Path, key: str, day: date, *, away: str, home: str, source: str, charted_by: str
) -> tuple[Path, list[Path]]:
    """A row in the games table and, for every other table, a file for this game with its header alone.

    Args:
        root: the project's folder.
        key: the game's key; also the name of its files.
        day: the day it was played.
        away: team key.
        home: team key.
        source: how it was lawfully seen.
        charted_by: who charts it.

    Returns:
        The games table, which has a row more, and the files written.
    """
    _must_be(key=key)
    for team in (away, home):
        _must_be(name=team)
    if why := why_not_a_text(charted_by):
        raise SkeletonError(f"charted_by {why}")
    if away == home:
        raise SkeletonError(f"'{away}' cannot play itself; give two teams")
    if source not in get_args(Source):
        raise SkeletonError(f"'{source}' is not a source; write {listed(get_args(Source))}")
    _teams_on_paper(root, away, home)
    games = root / "data" / "games.csv"
    row = {"game": key, "date": day.isoformat(), "away": away, "home": home, "source": source, "charted_by": charted_by}
    before = _games_text(games, root, key)
    files = {root / "data" / table / f"{key}.csv": table_line(header(table)) for table in TABLES if table != "games"}
    _refuse_existing(files, root)
    # Last of all: a game that is in the table has its files.
    write_all({**_encoded(files), games: (before + _row_for(before, row)).encode()})
    return games, list(files)


def _teams_on_paper(root: Path, *teams: str) -> None:
    """One of the two at least must be a team with a file; the other may be anybody, but not a slip of the pen."""
    program, _ = read_program(root)
    opponents, _ = read_opponents(root, date.max)
    ours = {program.key: program.name} if program.key else {}
    names = ours | {key: team.name for key, team in opponents.teams.items()}
    known = [name for pair in names.items() for name in pair]
    strange = [team for team in teams if team not in names and slug(team) not in map(slug, names.values())]
    for team in strange:
        make = f"a new team is made with: scoutgen new team {slug(team) or 'KEY'} NAME"
        if close := did_you_mean(team, known):
            raise SkeletonError(f"'{team}' is not a team of this project{close} If not, {make}")
        if len(strange) == len(teams) and known:
            keys = listed(names, "and")
            raise SkeletonError(
                f"neither '{teams[0]}' nor '{teams[1]}' is a team of this project; teams are {keys}; {make}"
            )


def _games_text(path: Path, root: Path, key: str) -> str:
    """The games table as it is, with a line end at its end; a header where there is none yet."""
    for table in sorted([path, *(root / "data" / "games").glob("*.csv")]):
        if not table.exists():
            continue
        text, problems = read_text(table, root)
        if text is None:
            raise SkeletonError(str(problems[0]))
        if any(row.get("game") == key for row in csv.DictReader(io.StringIO(text, newline=""))):
            raise SkeletonError(
                f"{relative(table, root)}: the game '{key}' is there already; give the new one another key"
            )
    if not path.exists():
        return table_line(header("games"))
    text = read_text(path, root)[0] or ""
    if not text.strip():
        return table_line(header("games"))
    return text if text.endswith(("\n", "\r")) else text + line_end(text)


def _row_for(table: str, row: Mapping[str, str]) -> str:
    """A row in the table's own order of columns and with its own line ends."""
    columns = next(csv.reader(io.StringIO(table, newline="")))
    missing = [name for name in row if name not in columns]
    if missing:
        raise SkeletonError(f"data/games.csv: there is no column {listed(missing, 'and')}; add it to the header")
    return table_line([row.get(name, "") for name in columns], line_end(table))


def _opponent(root: Path, key: str) -> Team:
    """The team as its file says; a file with errors is named and nothing is made from it."""
    opponents, problems = read_opponents(root, date.max)
    team = opponents.teams.get(key)
    if team is None:
        hint = did_you_mean(key, opponents.teams) or f"; make it with: scoutgen new team {slug(key) or 'KEY'} NAME"
        raise SkeletonError(f"'{key}' is not a team in {OPPONENTS_FOLDER}{hint}")
    if key in opponents.unread:
        folder = f"{OPPONENTS_FOLDER}/{key}"
        raise SkeletonError(str(next((p for p in problems if p.file.startswith(folder)), f"{folder} cannot be read")))
    return team


def _example(roster: Iterable[RosterPlayer], position: str) -> str:
    """A man to show how a key is filled in: of that position if there is one."""
    men = sorted(roster, key=lambda man: position not in man.positions)
    return men[0].key if men else f"key-of-a-man-{position.lower()}"


def _today() -> date:
    """The staff's own day, which is the machine's."""
    return date.today()  # noqa: DTZ011


def _must_be(*, key: str | None = None, name: str | None = None) -> None:
    if key is not None and (why := why_not_a_key(key)):
        raise SkeletonError(f"the key {why}")
    if name is not None and (why := why_not_a_name(name)):
        raise SkeletonError(f"the name {why}")


def _refuse_existing(files: Iterable[Path], root: Path) -> None:
    there = [relative(path, root) for path in files if os.path.lexists(path)]
    if there:
        raise SkeletonError(
            f"{listed(there[:5], 'and')} {'is' if len(there) == 1 else 'are'} there already; nothing was written"
        )


def _write(files: Mapping[Path, str], root: Path) -> list[Path]:
    _refuse_existing(files, root)
    write_all(_encoded(files))
    return list(files)


def _encoded(files: Mapping[Path, str]) -> dict[Path, bytes]:
    return {path: text.encode() for path, text in files.items()}
