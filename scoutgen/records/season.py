"""Everything the staff has, in one value: what was charted, who is who, what was written; or every problem at once."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from scoutgen.records import crosschecks
from scoutgen.records.content_folder import stray_content
from scoutgen.records.count_rules import check_counts, check_plays
from scoutgen.records.directory import Directory
from scoutgen.records.folder import stray_files
from scoutgen.records.games import made_up_games, read_games
from scoutgen.records.habit_kinds import HabitKind, read_habit_kinds
from scoutgen.records.habits import read_habits
from scoutgen.records.hand_pages import HandPage, read_hand_pages
from scoutgen.records.holds import read_holds
from scoutgen.records.opponents import Entry, Team, read_opponents
from scoutgen.records.pitches import read_pitches
from scoutgen.records.positions import read_positions
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.records.program import PROGRAM_FILE, Program, read_program
from scoutgen.records.resolve import ROLES, Games, Resolver, resolve_teams
from scoutgen.records.series import Series, read_series
from scoutgen.records.side_by_side import side_by_side
from scoutgen.records.sides import fill_sides
from scoutgen.records.table import Rows
from scoutgen.records.throws import read_throws
from scoutgen.records.times import read_times
from scoutgen.records.vocabulary import Names

TABLES = ("games", "pitches", "times", "holds", "throws", "habits", "positions")


@dataclass(frozen=True)
class Season:
    """All input of one project, checked, with every reference resolved.

    Attributes:
        root: the project's folder.
        as_of: the day the build speaks from.
        program: our own team and its settings.
        habit_kinds: the habits charted, by key.
        teams: every team, our own included; those without a file have a roster of the men charted.
        entries: scouting entries by team and player key.
        series: in order of their dates.
        pages: hand-written pages.
        games: and the other frames: all columns always, rows in order of date, game, file and line.
        warnings: shown, and the rows used.
        skipped: errors whose rows or files were left out; one row can have several.
        rows_left_out: how many rows that were.
        files_left_out: how many files could not be used whole; nobody knows how many rows they have.
    """

    root: Path
    as_of: date
    program: Program
    habit_kinds: dict[str, HabitKind]
    teams: dict[str, Team]
    entries: dict[tuple[str, str], Entry]
    series: tuple[Series, ...]
    pages: tuple[HandPage, ...]
    games: pd.DataFrame
    pitches: pd.DataFrame
    times: pd.DataFrame
    holds: pd.DataFrame
    throws: pd.DataFrame
    habits: pd.DataFrame
    positions: pd.DataFrame
    warnings: tuple[Problem, ...] = ()
    skipped: tuple[Problem, ...] = ()
    rows_left_out: int = 0
    files_left_out: int = 0


def read_season(
    root: Path, *, as_of: date, skip_bad_rows: bool = False, sides: bool = True, short_words: bool = True
) -> Season:
    """Read a whole project.

    Args:
        root: its folder, with data/ and content/, either of which may be missing.
        as_of: the day the build speaks from; nothing can have been charted after it.
        skip_bad_rows: leave out CSV rows and files with errors and list them in `skipped`; errors in content/ and of
            misnamed files still refuse.
        sides: give pitches the side of a hitter whose roster tells it; an import compares what was charted.
        short_words: habits may be shortened as on the printed sheets; in somebody else's words they may not.

    Raises:
        ProblemsFoundError: with every problem of every file, in the order of files and lines.
    """
    program, content = read_program(root)
    program_errors = bool(content)
    opponents, found = read_opponents(root, as_of, program.key)
    content += found
    series, found = read_series(root, opponents, as_of)
    content += found
    kinds, found = read_habit_kinds(root)
    content += found
    pages, found = read_hand_pages(root)
    content += found
    content += stray_content(root)
    content += [problem for problem in stray_files(root, TABLES) if problem.severity == "error"]

    own = (
        {program.key: Team(program.key, program.name, own=True, roster=program.roster, file=PROGRAM_FILE)}
        if program.key
        else {}
    )
    unread = opponents.unread | ({program.key} if program_errors and not program.roster else set())
    directory = Directory({**own, **opponents.teams}, unread)
    games = read_games(root, as_of=as_of)
    tables = read_tables(root, program, kinds, short_words=short_words)
    warnings = [problem for problem in stray_files(root, TABLES) if problem.severity == "warning"]
    games_frame, found = connect(games, tables, directory)
    warnings += found
    if sides:
        warnings += [
            problem for rows in tables if rows.table == "pitches" for problem in fill_sides(rows, directory.teams)
        ]

    data = [problem for rows in (games, *tables) for problem in rows.problems]
    warnings += [problem for problem in (*content, *data) if problem.severity == "warning"]
    errors = [problem for problem in (*content, *data) if problem.severity == "error"]
    refusing = [problem for problem in content if problem.severity == "error"]
    if refusing or (errors and not skip_bad_rows):
        raise ProblemsFoundError([*errors, *warnings])
    order = {name: number for number, name in enumerate(games_frame["game"])}
    frames = {rows.table: finished(rows, games_frame, order) for rows in tables}
    return Season(
        root=root,
        as_of=as_of,
        program=program,
        habit_kinds=kinds,
        teams=directory.with_charted_men(charted_men(frames)),
        entries=opponents.entries,
        series=series,
        pages=pages,
        games=games_frame,
        **frames,
        warnings=tuple(sorted(set(warnings))),
        skipped=tuple(sorted(set(errors))),
        rows_left_out=sum(rows.left_out for rows in (games, *tables)),
        files_left_out=len({name for rows in (games, *tables) for name in rows.lost}),
    )


def read_tables(root: Path, program: Program, kinds: Iterable[str], *, short_words: bool = True) -> list[Rows]:
    """Every table but the games, each checked by itself."""
    pitch_names = Names.of("pitch", program.pitch_names(), PROGRAM_FILE)
    habit_keys = Names.of("habit", dict.fromkeys(kinds, ()), "content/habits.yml", shortened=short_words)
    # Pitches, by far the most rows, are read by this process, so that nobody has to hand them over.
    return side_by_side(
        [
            partial(read_pitches, root, pitches=pitch_names, zone=program.zone),
            partial(read_times, root),
            partial(read_holds, root),
            partial(read_throws, root),
            partial(read_habits, root, habits=habit_keys),
            partial(read_positions, root),
        ]
    )


def connect(games: Rows, tables: list[Rows], directory: Directory) -> tuple[pd.DataFrame, list[Problem]]:
    """Resolve teams and players and check across tables; what is wrong lands in the tables' problems.

    Returns:
        The games that can be used, in order, and a warning where they had to be made up.
    """
    for column in ("away", "home"):
        resolve_teams(games, column, directory)
    made_up = not games.files and not games.problems and any(len(rows.frame) for rows in tables)
    warnings: list[Problem] = []
    if made_up:
        frame, warning = made_up_games(tables)
        warnings.append(warning)
    else:
        frame = (
            games.frame[~games.bad].sort_values(["date", "game"], kind="stable", key=_by_text).reset_index(drop=True)
        )
    known = Games(
        position={name: number for number, name in enumerate(frame["game"])},
        days=[None if pd.isna(day) else day.date() for day in frame["date"]],
        away=frame["away"].astype("object").fillna("").tolist(),
        home=frame["home"].astype("object").fillna("").tolist(),
    )
    second_hand = set(frame["game"][(frame["source"] == "second_hand").to_numpy(bool)])
    named = {game: known.teams(number) for game, number in known.position.items()}
    for rows in tables:
        crosschecks.check_games_known(rows, games, made_up=made_up)
        crosschecks.check_second_hand(rows, second_hand)
        if rows.table in ("habits", "positions"):
            resolve_teams(rows, "team", directory)
            crosschecks.check_team_plays(rows, directory, named)
    Resolver(directory, known).resolve(tables)
    for rows in tables:
        crosschecks.check_twice(rows)
        if rows.table == "pitches":
            crosschecks.check_order(rows)
            check_counts(rows)
            check_plays(rows)
    return frame, warnings


def _by_text(column: "pd.Series[Any]") -> "pd.Series[Any]":
    return column.astype("object") if column.dtype == "category" else column


def finished(rows: Rows, games: pd.DataFrame, order: dict[str, int]) -> pd.DataFrame:
    """The usable rows of a table with the game's date and source, in order of date, game, file and line."""
    frame = rows.frame
    column = frame["game"].cat
    place = np.array([order.get(name, -1) for name in column.categories] + [-1])[column.codes.to_numpy()]
    for number, name in enumerate(("date", "source"), 1):
        frame.insert(
            number, name, games[name].take(place).array if len(games) else games[name].reindex(frame.index).array
        )
    kept = np.flatnonzero(~rows.bad)
    if len(kept) < len(frame) or (np.diff(place) < 0).any():
        kept = kept[np.argsort(place[kept], kind="stable")]
        frame = frame.take(kept)
    frame.index = pd.RangeIndex(len(frame))
    return frame


def charted_men(frames: dict[str, pd.DataFrame]) -> dict[str, dict[str, set[str]]]:
    """Per team and man the columns he was charted in."""
    seen: dict[str, dict[str, set[str]]] = {}
    for table, frame in frames.items():
        first = ROLES[table][0]
        for role in ROLES[table]:
            team = role.team_column or (first.team_column if not role.against else "")
            if not team:
                continue
            pairs = frame[[team, role.column]].dropna().drop_duplicates()
            for name, man in pairs.itertuples(index=False):
                seen.setdefault(name, {}).setdefault(man, set()).add(role.column)
    return seen
