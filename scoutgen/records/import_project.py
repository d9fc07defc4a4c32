"""One call from somebody else's file and a map to rows of a project, judged by the project's own reader."""

import os
import re
import shutil
from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from pathlib import Path

import pandas as pd

from scoutgen.records.check import field_checks
from scoutgen.records.fields import slug
from scoutgen.records.habit_kinds import read_habit_kinds
from scoutgen.records.import_bad_rows import other_problems
from scoutgen.records.import_conflicts import sort_out
from scoutgen.records.import_file import (
    DELIMITERS,
    Sheet,
    UnreadableError,
    csv_sheet,
    is_workbook,
    name_of,
)
from scoutgen.records.import_map import OPEN_WORDS, RECORDS, ImportMap
from scoutgen.records.import_names import Names, rosters_on_paper
from scoutgen.records.import_output import Difference, WriteError, as_csv, difference, why_not_over
from scoutgen.records.import_rows import MOST_PROBLEMS, Imported, ImportedRow, imported_rows, shown
from scoutgen.records.import_rules import read_map
from scoutgen.records.import_workbook import workbook_sheets
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.records.program import PROGRAM_FILE, read_program
from scoutgen.records.scratch import scratch
from scoutgen.records.season import read_season
from scoutgen.records.vocabulary import Names as Words
from scoutgen.records.writing import naming, write_whole
from scoutgen.records.yamlrecord import YamlSource


@dataclass(frozen=True)
class Report:
    """What an import did.

    Attributes:
        out: the file of ours, whether it was written or stood there.
        changed: whether it was written.
        rows: how many rows it holds.
        charted: imported rows that were charted already and not written again.
        passed_over: rows that the map leaves out.
        without: those of them that it names, with what stands in them.
        new, gone: how many rows an earlier import of the file had not written; where those stood that it had, and this
            one has not, or not so.
        conflicts: imported rows that contradict charted ones; not written.
        bad: rows with errors, left out.
        unused: columns of theirs that the map does not name.
        unmatched: names that are on no roster, in words.
        problems: of the whole project, once the rows were written.
    """

    out: str
    changed: bool
    rows: int
    charted: int
    passed_over: int
    without: tuple[str, ...]
    new: int
    gone: tuple[str, ...]
    conflicts: tuple[Problem, ...]
    bad: tuple[Problem, ...]
    bad_rows: int
    unused: tuple[str, ...]
    unmatched: tuple[str, ...]
    problems: tuple[Problem, ...]


def import_file(project: Path, file: Path, map_file: Path, *, as_of: date, skip_bad_rows: bool = False) -> Report:
    """Make rows of a project out of somebody else's file.

    Args:
        project: the project's folder.
        file: CSV or workbook.
        map_file: which of its columns become which of ours.
        as_of: the day after which nothing can have been charted.
        skip_bad_rows: leave rows with errors out instead of refusing.

    Raises:
        ProblemsFoundError: the map, the file or the project has errors; nothing was written.
        WriteError: another's file stands where the rows would be written.
        OSError: the disk is full or cannot be written.
    """
    read_once = cache(lambda: read_season(project, as_of=as_of, skip_bad_rows=True, sides=False))

    def teams() -> list[str]:
        try:
            return list(read_once().teams)
        except ProblemsFoundError:
            # Told when the map is right.
            return []

    words = vocabularies(project)
    wanted, source, problems = read_map(map_file, words, teams)
    if wanted is None:
        raise ProblemsFoundError(problems)
    season = read_once()
    found = imported_rows(
        _sheets(file, wanted, source), wanted, source, Names(season, rosters_on_paper(project, season))
    )
    # What was not read cannot be left out as bad rows.
    if found.unread or any(problem.file == source.file for problem in found.problems):
        raise ProblemsFoundError(found.problems)
    out = project / "data" / wanted.table / f"{_stem(wanted, file)}-import.csv"
    name = out.relative_to(project).as_posix()
    columns = list(wanted.columns)
    frame, rows, refused = _judged(project, wanted, found, as_of, map_file.name)
    bad = [*found.problems, *other_problems(wanted, found, words), *refused]
    if bad and not skip_bad_rows:
        raise ProblemsFoundError(bad)
    there = getattr(season, wanted.table)
    sorted_ = sort_out(wanted.table, frame, there[(there["file"].astype("object") != name).to_numpy(bool)])
    text = as_csv(columns, [rows[place] for place in sorted_.new], map_file.name).text
    former = out.read_bytes() if out.is_file() else b""
    changed = _put(out, project, text, name_of(file), map_file.name) if sorted_.new or out.exists() else False
    # Where it was written, an earlier import stood there and nothing else.
    otherwise = Difference(0 if former else len(sorted_.new), ())
    if changed and former:
        otherwise = difference(former.decode(), text)
    conflicts = tuple(
        Problem(rows[one.row].file, rows[one.row].line, shown(one.column, found.headers),
                f"{one.text} {one.file}:{one.line}; not written{rows[one.row].said(one.column)}")
        for one in sorted_.conflicts
    )  # fmt: skip
    bad_rows = found.bad_rows + len(found.rows) - len(rows)
    return Report(
        name, changed, len(sorted_.new), len(sorted_.charted), found.passed_over, tuple(found.without), otherwise.new,
        otherwise.gone, conflicts, tuple(sorted(set(bad))), bad_rows, tuple(found.unused),
        tuple(map(str, found.unmatched)), _problems_now(project, as_of),
    )  # fmt: skip


def vocabularies(project: Path) -> dict[str, Words]:
    """A project's own words for pitches and habits; what is wrong with them is said when the season is read."""
    program, _ = read_program(project)
    kinds, _ = read_habit_kinds(project)
    return {
        "pitches": Words.of("pitch", program.pitch_names(), PROGRAM_FILE),
        "habits": Words.of("habit", dict.fromkeys(kinds, ()), "content/habits.yml"),
    }


def _sheets(file: Path, wanted: ImportMap, source: YamlSource) -> list[Sheet]:
    try:
        if is_workbook(file):
            return workbook_sheets(file, wanted.sheets)
        if wanted.sheets:
            raise ProblemsFoundError([source.problem(("sheets",), f"{name_of(file)} is no workbook; take it out")])
        delimiter = DELIMITERS[wanted.delimiter] if wanted.delimiter else None
        return [csv_sheet(file, delimiter=delimiter, encoding=wanted.encoding, header=wanted.header)]
    except UnreadableError as wrong:
        raise ProblemsFoundError([Problem(name_of(file), wrong.line, "", str(wrong))]) from None


def _stem(wanted: ImportMap, file: Path) -> str:
    game = wanted.columns["game"]
    if wanted.name is not None:
        return wanted.name
    if game.constant is not None and slug(game.constant):
        return slug(game.constant)
    return slug(" ".join([file.stem, *wanted.sheets])) or "file"


def _judged(
    project: Path, wanted: ImportMap, found: Imported, as_of: date, map_name: str
) -> tuple[pd.DataFrame, list[ImportedRow], list[Problem]]:
    """The rows as the project's own reader takes them: the frame, its rows, and what was wrong with the others.

    Read in a copy of the project that holds no other rows of this table, so that only the imported ones are judged.
    """
    written = as_csv(list(wanted.columns), found.rows, map_name)
    with scratch(project, "import") as copy, naming(copy):
        _copy(project / "content", copy / "content")
        for table in {"games", "pitches"} - {wanted.table}:
            _copy(project / "data" / table, copy / "data" / table)
            _copy(project / "data" / f"{table}.csv", copy / "data" / f"{table}.csv")
        place = copy / "data" / wanted.table / "import.csv"
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(written.text, encoding="utf-8", newline="")
        season = read_season(copy, as_of=as_of, skip_bad_rows=True, sides=False, short_words=False)
    here = f"data/{wanted.table}/import.csv"
    at = {line: place for place, line in enumerate(written.lines)}
    worded = {name for name, check in field_checks(RECORDS[wanted.table]).items() if check.allowed} | set(OPEN_WORDS)
    problems = [_theirs(p, at, found, worded) for p in season.skipped if p.file == here]
    frame: pd.DataFrame = getattr(season, wanted.table)
    return frame, [found.rows[at[line]] for line in frame["line"].tolist()], problems[:MOST_PROBLEMS]


def _theirs(problem: Problem, at: dict[int, int], found: Imported, worded: Collection[str]) -> Problem:
    """A problem of a written row as one of the row it was made of."""
    place = at.get(problem.line)
    if place is None:
        file = found.rows[0].file if found.rows else problem.file
        return replace(problem, file=file, line=0)
    row = found.rows[place]

    def in_their_file(line: re.Match[str]) -> str:
        """Another row of the written file, by its place in the sheet it came from."""
        other = found.rows[at[int(line[1])]] if int(line[1]) in at else None
        if other is None:
            return line[0]
        return f"line {other.line}" if other.file == row.file else f"{other.file}:{other.line}"

    # A text of theirs stands in quotes.
    told = re.sub(r'(?<!")\bline (\d{1,9})\b', in_their_file, problem.text)
    if problem.column in worded and told.startswith('"'):
        told += "; a word of theirs is named under values: in the map"
    text = f"{told}{row.said(problem.column)}"
    return replace(problem, file=row.file, line=row.line, column=shown(problem.column, found.headers), text=text)


def _copy(source: Path, target: Path) -> None:
    if source.is_dir():
        shutil.copytree(source, target, symlinks=True, copy_function=_link_or_copy)
    elif source.is_file():
        target.parent.mkdir(parents=True, exist_ok=True)
        _link_or_copy(source, target)


def _link_or_copy(source: str | Path, target: str | Path) -> None:
    """The same file under two names costs nothing; on another disk it is copied."""
    try:
        os.link(source, target, follow_symlinks=False)
    except OSError:
        shutil.copy2(source, target, follow_symlinks=False)


def _put(out: Path, project: Path, text: str, file: str, map_name: str) -> bool:
    """Write the rows unless they stand there; whether they were written.

    Raises:
        WriteError: another's file stands there, or the folder is not the project's.
    """
    if not out.parent.resolve().is_relative_to(project.resolve()):
        raise WriteError(f"{out.parent}: points outside the project")
    if out.exists():
        if out.read_bytes() == text.encode():
            return False
        if why := why_not_over(out, file, map_name):
            raise WriteError(f"{out}: {why}")
    write_whole(out, text.encode())
    return True


def _problems_now(project: Path, as_of: date) -> tuple[Problem, ...]:
    try:
        return read_season(project, as_of=as_of).warnings
    except ProblemsFoundError as found:
        return found.problems
