"""What does a first look at somebody else's file recognise, written as a map for a person to go through?"""

import os
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

import pandas as pd

from scoutgen.records.check import FieldCheck, field_checks
from scoutgen.records.games import read_games
from scoutgen.records.import_columns import Column, first_look, meant_by
from scoutgen.records.import_entries import Entry, Known, dated, entry, examples, foreign_words, how, in_yaml
from scoutgen.records.import_file import UnreadableError, name_of
from scoutgen.records.import_map import OPEN_WORDS, RECORDS
from scoutgen.records.import_notations import date_forms, nearly_all
from scoutgen.records.import_output import WriteError
from scoutgen.records.import_project import vocabularies
from scoutgen.records.import_table import likely_table
from scoutgen.records.import_together import several_for_one
from scoutgen.records.import_words import EITHER, HEADERS
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.records.schemas import schema_file
from scoutgen.records.writing import write_whole

# Of rows that repeat the header; a file with more is better mended.
MOST_AGAIN = 100


@dataclass
class Guessed:
    """A written map.

    Attributes:
        path: the file.
        recognised: how many of their columns it uses.
        unused: their columns that it does not.
        words: by column that it uses, cells of theirs that a person must say something of.
        blank: columns of ours that every row must fill and that it could not find.
    """

    path: Path
    recognised: int
    unused: list[str] = field(default_factory=list)
    words: list[tuple[str, ...]] = field(default_factory=list)
    blank: list[str] = field(default_factory=list)


def write_guess(file: Path, project: Path, *, as_of: date) -> Guessed:
    """Write a first map beside a file, `night.csv` → `night-map.yml`, and ask nothing.

    Args:
        file: CSV or workbook.
        project: the project's folder.
        as_of: the day after which there can be no game.

    Raises:
        ProblemsFoundError: the file cannot be read.
        WriteError: a map of that name stands there.
        OSError: it cannot be written.
    """
    path = file.with_name(f"{file.stem}-map.yml")
    if path.exists() or path.is_symlink():
        raise WriteError(f"{path}: stands there already; it is never written over: move it away to have another")
    days = read_games(project, as_of=as_of).frame["date"].dropna()
    known = Known(vocabularies(project), {f"{when:%Y-%m-%d}" for when in pd.DatetimeIndex(days)})
    try:
        text, guessed = guess(file, path, known)
    except UnreadableError as wrong:
        raise ProblemsFoundError([Problem(name_of(file), wrong.line, "", str(wrong))]) from None
    write_whole(path, f"{_for_editors(project, path)}{text}".encode())
    return guessed


def _for_editors(project: Path, path: Path) -> str:
    """The line by which an editor finds the schema, where the project has it and the map stands in the project."""
    there = project.resolve() / "schemas" / schema_file("import-map")
    folder = path.resolve().parent
    if not there.is_file() or not folder.is_relative_to(project.resolve()):
        return ""
    return f"# yaml-language-server: $schema={Path(os.path.relpath(there, folder)).as_posix()}\n"


def guess(file: Path, path: Path, known: Known) -> tuple[str, Guessed]:
    """The text of a first map.

    Raises:
        UnreadableError: the file cannot be read.
    """
    look = first_look(file)
    table = likely_table(look.columns)
    checks = field_checks(RECORDS[table])
    found, rest = _assigned(look.columns, table, checks, known)
    lines = [
        f"# A first map of {name_of(file)}, guessed from its headers and {look.rows:,} rows. Read it through.",
        f"table: {table}  # or {', '.join(name for name in RECORDS if name != table)}",
    ]
    if look.others or len(look.sheets) > 1:
        others = ", ".join(in_yaml(name) for name in look.others[:20])
        sheets = ", ".join(in_yaml(name) for name in look.sheets)
        lines += [f"sheets: [{sheets}]" + (f"  # not read: {others}" if others else "")]
    lines += [f"header: {look.line}"] if look.line > 1 else []
    if look.again:
        rows = ", ".join(in_yaml(row) for row in look.again[:MOST_AGAIN])
        more = f"; {len(look.again) - MOST_AGAIN:,} more do: take them out" if len(look.again) > MOST_AGAIN else ""
        lines += [f"without: [{rows}]  # they name the columns once more{more}"]
    lines.append("columns:")
    blank = []
    for name, check in checks.items():
        said = found[name].lines if name in found else ()
        lines += said
        if check.required and not any(line.startswith(f"  {name}:") for line in said):
            blank.append(name)
            open_ = f"  # {name}: not recognised, and every row must fill it; {how(name, check)}"
            lines += [] if name in found else [open_]
    lines += ["", "# Columns not recognised; delete what is not charted:"] if rest else []
    lines += [f"#   {in_yaml(one.header)}: {examples(one)}" for one in rest]
    words = [found[name].open for name in checks if name in found and found[name].open]
    unused = [one.header for one in rest]
    return "\n".join(lines) + "\n", Guessed(path, len(look.columns) - len(rest), unused, words, blank)


def _assigned(
    columns: Sequence[Column], table: str, checks: Mapping[str, FieldCheck], known: Known
) -> tuple[dict[str, Entry], list[Column]]:
    """By column of ours its entry in the map, and their columns that mean none of ours."""
    found, used = several_for_one(columns, checks, known)
    rest: list[Column] = []
    for column in columns:
        if column.header in used:
            continue
        elsewhere = {name for other in columns if other is not column for name in meant_by(other)}
        meant = {
            name: entry_
            for name, entry_ in _meaning(column, table, checks, known, elsewhere).items()
            if name not in found
        }
        found |= meant
        rest += [] if meant else [column]
    for column in list(rest):
        if "game" not in found and table != "games" and (days := _days_by_cells(column, known)):
            found["game"] = days
            rest.remove(column)
            continue
        name = _by_cells(column, {name: check for name, check in checks.items() if name not in found}, known)
        if name:
            one = entry(name, column, checks[name], known)
            found[name] = replace(one, lines=(f"{one.lines[0]}  # by its cells", *one.lines[1:]))
            rest.remove(column)
    return found, rest


def _meaning(
    column: Column, table: str, checks: Mapping[str, FieldCheck], known: Known, elsewhere: Collection[str]
) -> dict[str, Entry]:
    """The columns of ours it becomes, each with its entry; `elsewhere`: those that other headers mean."""
    if column.words in HEADERS["date"] and table != "games":
        note = "  # the game of that day in data/games; or write constant: its key"
        days = dated("game", column, known, note)
        return {"game": days} if days else {}
    names = [name for name in meant_by(column) if name in checks][:1]
    names += [name for name in EITHER.get(column.words, ()) if name in checks and name not in elsewhere]
    if not names:
        return {}
    name = max(names, key=lambda one: _words_known(one, column, checks[one], known))
    return {name: entry(name, column, checks[name], known)}


def _words_known(name: str, column: Column, check: FieldCheck, known: Known) -> int:
    """How many of its cells are words of a column of ours."""
    return len(column.cells) - sum(not ours for ours in foreign_words(name, column, check, known).values())


def _by_cells(column: Column, free: Mapping[str, FieldCheck], known: Known) -> str:
    """The one column of ours whose words its cells are, or nearly all; letters and single digits tell nothing."""
    odd: dict[str, int] = {}
    for name, check in free.items():
        if check.allowed or name in OPEN_WORDS:
            unknown = [cell for cell, ours in foreign_words(name, column, check, known).items() if not ours]
            words = set(column.cells) - set(unknown)
            if len(words) > 1 and any(len(word) > 2 for word in words) and nearly_all(column, unknown):
                odd[name] = column.rows(unknown)
    fewest = [name for name, rows in odd.items() if rows == min(odd.values())]
    return fewest[0] if len(fewest) == 1 else ""


def _days_by_cells(column: Column, known: Known) -> Entry | None:
    """The game's entry for a column of days, whatever it is called."""
    forms, _ = date_forms(column, known.played)
    if not forms or forms == ["serial"]:
        return None
    return dated("game", column, known, "  # by its cells; the game of that day in data/games")
