"""What does a first look at somebody else's file recognise, written as a map for a person to go through?"""

import os
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

import pandas as pd

from scoutgen.records.check import FieldCheck, field_checks
from scoutgen.records.games import read_games
from scoutgen.records.import_cells import unit_kind
from scoutgen.records.import_columns import (
    COUNTS,
    Column,
    date_forms,
    first_look,
    folded,
    is_count,
    likely_table,
    meant_by,
    unit_by_size,
)
from scoutgen.records.import_file import UnreadableError, name_of
from scoutgen.records.import_map import OPEN_WORDS, RECORDS
from scoutgen.records.import_output import WriteError
from scoutgen.records.import_project import vocabularies
from scoutgen.records.import_words import BASES, HEADERS, VALUES
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.records.schemas import schema_file
from scoutgen.records.vocabulary import Names
from scoutgen.records.writing import write_whole

MOST_WORDS = 60


@dataclass
class Guessed:
    """A written map.

    Attributes:
        path: the file.
        recognised: how many of their columns it uses.
        open: their columns that it does not.
        blank: columns of ours that every row must fill and that it could not find.
    """

    path: Path
    recognised: int
    open: list[str] = field(default_factory=list)
    blank: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class Known:
    """What the project can tell of a foreign file: its own words for pitches and habits, the days it has games of."""

    words: Mapping[str, Names]
    played: Collection[str] = ()


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
        others = ", ".join(_quoted(name) for name in look.others[:20])
        sheets = ", ".join(_quoted(name) for name in look.sheets)
        lines += [f"sheets: [{sheets}]" + (f"  # not read: {others}" if others else "")]
    lines += [f"header: {look.line}"] if look.line > 1 else []
    lines.append("columns:")
    blank = []
    for name, check in checks.items():
        lines += found.get(name, [])
        if check.required and not any(line.startswith(f"  {name}:") for line in found.get(name, [])):
            blank.append(name)
            lines += [] if name in found else [f"  # {name}: not recognised, and every row must fill it; {_how(name)}"]
    lines += ["", "# Columns not recognised; delete what is not charted:"] if rest else []
    lines += [f"#   {_quoted(one.header)}: {_examples(one)}" for one in rest]
    open_ = [one.header for one in rest]
    return "\n".join(lines) + "\n", Guessed(path, len(look.columns) - len(rest), open_, blank)


def _assigned(
    columns: Sequence[Column], table: str, checks: Mapping[str, FieldCheck], known: Known
) -> tuple[dict[str, list[str]], list[Column]]:
    """By column of ours its lines of the map, and their columns that mean none of ours."""
    found, used = _several_for_one(columns, checks)
    rest: list[Column] = []
    for column in columns:
        if column.header in used:
            continue
        meant = [(name, lines) for name, lines in _meaning(column, table, checks, known) if name not in found]
        found |= dict(meant)
        rest += [] if meant else [column]
    for column in list(rest):
        if "game" not in found and table != "games" and (lines := _days_by_cells(column, known)):
            found["game"] = lines
            rest.remove(column)
            continue
        name = _by_cells(column, {name: check for name, check in checks.items() if name not in found}, known)
        if name:
            first, *more = _lines(name, column, checks[name], known)
            found[name] = [f"{first}  # by its cells", *more]
            rest.remove(column)
    return found, rest


def _several_for_one(
    columns: Sequence[Column], checks: Mapping[str, FieldCheck]
) -> tuple[dict[str, list[str]], set[str]]:
    """What only columns side by side tell: a column for each base, and B and S for balls and strikes."""
    found: dict[str, list[str]] = {}
    used: set[str] = set()
    by_words = {folded(column.header): column for column in columns}
    if "bases" in checks:
        for words in BASES:
            three = [by_words[word] for word in words if word in by_words]
            # A base gained, in the words of a result, is no runner on it.
            if len(three) == 3 and all(len(column.cells) <= 3 for column in three):
                headers = ", ".join(_quoted(column.header) for column in three)
                found["bases"] = [f"  bases: {{from: [{headers}], bases: columns}}"]
                used |= {column.header for column in three}
                break
    for name, letter, most in (("balls", "b", "3"), ("strikes", "s", "2")):
        column = by_words.get(letter)
        if name in checks and {"b", "s"} <= set(by_words) and column and all("0" <= c <= most for c in column.cells):
            found[name] = [f"  {name}: {_quoted(column.header)}"]
            used.add(column.header)
    return found, used


def _meaning(column: Column, table: str, checks: Mapping[str, FieldCheck], known: Known) -> list[tuple[str, list[str]]]:
    """The columns of ours it becomes, each with its lines of the map."""
    if {"balls", "strikes"} <= set(checks) and is_count(column):
        split = next(found[1] for cell in column.cells if (found := COUNTS.fullmatch(cell)))
        return [
            (name, [f"  {name}: {{from: {_quoted(column.header)}, split: {_quoted(split)}, part: {part}}}"])
            for part, name in enumerate(("balls", "strikes"), 1)
        ]
    if column.words in HEADERS["date"] and table != "games":
        note = "  # the game of that day in data/games; or write constant: its key"
        lines = _dated("game", column, known, note)
        return [("game", lines)] if lines else []
    for name in meant_by(column):
        if name in checks:
            return [(name, _lines(name, column, checks[name], known))]
    return []


def _dated(name: str, column: Column, known: Known, note: str = "") -> list[str]:
    """The line for a column of days; a comment where they can be read in two ways, nothing where they are no days."""
    forms = date_forms(column.cells, known.played)
    header = _quoted(column.header)
    if len(forms) == 1:
        return [f"  {name}: {{from: {header}, date: {forms[0]}}}{note}"]
    if not forms:
        return []
    either = f"{{from: {header}, date: {forms[0]}}}  # or {', '.join(forms[1:])}: nothing in the file tells"
    return [f"  # write one of the two: {name}: {either}"]


def _by_cells(column: Column, free: Mapping[str, FieldCheck], known: Known) -> str:
    """The one column of ours whose words its cells are; letters alone or single digits tell nothing."""
    if len(column.cells) < 2 or all(len(cell) < 3 for cell in column.cells):
        return ""
    fitting = []
    for name, check in free.items():
        if check.allowed or name in OPEN_WORDS:
            _, wrong = check.values(list(column.cells), known.words)
            if all(_ours(name, column.cells[place], check) for place in wrong):
                fitting.append(name)
    return fitting[0] if len(fitting) == 1 else ""


def _days_by_cells(column: Column, known: Known) -> list[str]:
    """The game's line for a column that holds nothing but days, whatever it is called."""
    forms = date_forms(column.cells, known.played)
    if not forms or forms == ["serial"]:
        return []
    return _dated("game", column, known, "  # by its cells; the game of that day in data/games")


def _ours(name: str, word: str, check: FieldCheck) -> str:
    """Our word for one of theirs: the trade's other words for it, or ours as people write it; empty for any other."""
    bare = folded(word)
    as_written = {folded(ours.replace("_", " ")): ours for ours in check.allowed if ours}
    return VALUES.get(name, {}).get(bare) or as_written.get(bare, "")


def _lines(name: str, column: Column, check: FieldCheck, known: Known) -> list[str]:
    """The lines of the map for one column."""
    header = _quoted(column.header)
    if check.kind == "date":
        return _dated(name, column, known) or [f"  {name}: {header}"]
    keys: list[str] = []
    if kind := unit_kind(name):
        unit = column.unit or unit_by_size(name, column.cells)
        if unit and unit not in ("mph", "ft", "s"):
            keys.append(f"unit: {unit}")
    if kind or check.kind in ("number", "whole"):
        if any(re.fullmatch(r"-?\d*,\d+", cell) for cell in column.cells):
            keys.append("decimal: comma")
        # A dash for what was not read is no number.
        dashes = [cell for cell in column.cells if cell and not re.search(r"\w", cell)]
        keys += [f"blank: [{', '.join(map(_quoted, dashes))}]"] if dashes else []
    if check.allowed or name in VALUES or name in OPEN_WORDS:
        return _with_values(name, column, check, known)
    note = "  # runs of the pitching side minus the others; see whose theirs is" if name == "lead" else ""
    if not keys:
        return [f"  {name}: {header}{note}"]
    return [f"  {name}: {{from: {header}, {', '.join(keys)}}}{note}"]


def _with_values(name: str, column: Column, check: FieldCheck, known: Known) -> list[str]:
    """A column of words: theirs beside ours, and those nobody can guess as comments."""
    _, wrong = check.values(list(column.cells), known.words)
    foreign = [column.cells[place] for place in sorted(wrong)][:MOST_WORDS]
    if not foreign:
        return [f"  {name}: {_quoted(column.header)}"]
    lines = [f"  {name}:", f"    from: {_quoted(column.header)}", "    values:"]
    said = [f"      {_quoted(word)}: {ours}" for word in foreign if (ours := _ours(name, word, check))]
    open_ = [word for word in foreign if not _ours(name, word, check)]
    lines = lines + said if said else lines[:-1]
    if open_:
        allowed = ", ".join(filter(None, check.allowed)) or "a word of the project"
        lines += [f"    # write these under values:, each as one of {allowed}; or under blank: [...]"]
        lines += [f"    #   {_quoted(word)}:" for word in open_]
    return lines


def _how(name: str) -> str:
    if name == "game":
        return "write game: {constant: KEY} for a file of one game"
    return f"write {name}: HEADER, or {name}: {{constant: ...}}"


def _examples(column: Column) -> str:
    shown = ", ".join(_quoted(cell[:30]) for cell in column.cells[:4])
    return f"e.g. {shown}" if shown else "always blank"


def _quoted(text: str) -> str:
    """A text as YAML has it, on one line whatever it holds."""
    if re.fullmatch(r"[A-Za-z][A-Za-z0-9 _/]*[A-Za-z0-9]", text) and text.casefold() not in _YAML_WORDS:
        return text
    escaped = "".join(
        c if c.isprintable() and c not in '"\\' else f"\\{c}" if c in '"\\' else f"\\U{ord(c):08X}" for c in text
    )
    return f'"{escaped}"'


_YAML_WORDS = frozenset({"yes", "no", "true", "false", "on", "off", "null"})
