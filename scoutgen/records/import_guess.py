"""What does a first look at somebody else's file recognise, written as a map for a person to go through?"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain, islice
from pathlib import Path

from scoutgen.records.check import FieldCheck, field_checks
from scoutgen.records.import_cells import CellError, day, number, unit_kind
from scoutgen.records.import_file import UNSAVED, Sheet, UnreadableError, csv_sheet, header_of, is_workbook, name_of
from scoutgen.records.import_map import OPEN_WORDS, RECORDS
from scoutgen.records.import_output import WriteError, write_whole
from scoutgen.records.import_project import vocabularies
from scoutgen.records.import_words import COUNT, HEADERS, TELLING, VALUES
from scoutgen.records.import_workbook import sheet_names, workbook_sheets
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.records.vocabulary import Names

ROWS_LOOKED_AT = 2_000
MOST_WORDS = 60
HEADER_WITHIN = 20
# Units as they stand in headers, in brackets or behind the word.
_UNITS = {
    "kph": "kph", "kmh": "kph", "km h": "kph", "mph": "mph", "m s": "m/s", "m": "m", "metres": "m", "meters": "m",
    "cm": "cm", "ft": "ft", "feet": "ft", "in": "in", "inches": "in", "yd": "yd", "yards": "yd", "s": "s", "sec": "s",
    "ms": "ms",
}  # fmt: skip
_ORDERS = ("year-month-day", "day.month.year", "day/month/year", "month/day/year")
_COUNTS = re.compile(r"[0-3]\s*([-–/.])\s*[0-2]", re.ASCII)
# A pitch this fast was not thrown by anybody, so the numbers are kilometres.
FASTEST_MPH = 110


@dataclass
class Guessed:
    """A written map.

    Attributes:
        path: the file.
        recognised: how many of their columns it uses.
        open: their columns that it does not.
    """

    path: Path
    recognised: int
    open: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class _Column:
    """One of their columns: its name, the bare words of it, its unit if it says one, and its different cells."""

    header: str
    words: str
    unit: str
    cells: tuple[str, ...]


def write_guess(file: Path, project: Path) -> Guessed:
    """Write a first map beside a file, `night.csv` → `night-map.yml`, and ask nothing.

    Raises:
        ProblemsFoundError: the file cannot be read.
        WriteError: a map of that name stands there.
        OSError: it cannot be written.
    """
    path = file.with_name(f"{file.stem}-map.yml")
    if path.exists() or path.is_symlink():
        raise WriteError(f"{path}: stands there already; it is never written over: move it away to have another")
    try:
        text, guessed = guess(file, path, vocabularies(project))
    except UnreadableError as wrong:
        raise ProblemsFoundError([Problem(name_of(file), wrong.line, "", str(wrong))]) from None
    write_whole(path, text)
    return guessed


def guess(file: Path, path: Path, context: Mapping[str, Names]) -> tuple[str, Guessed]:
    """The text of a first map.

    Raises:
        UnreadableError: the file cannot be read.
    """
    names = sheet_names(file) if is_workbook(file) else []
    sheet = workbook_sheets(file, names[:1])[0] if names else csv_sheet(file)
    line, columns, rows = _columns(sheet)
    table = _table(columns)
    checks = field_checks(RECORDS[table])
    found, rest = _assigned(columns, table, checks, context)
    lines = [
        f"# A first map of {name_of(file)}, guessed from its headers and {rows:,} rows. Read it through.",
        f"table: {table}  # or {', '.join(name for name in RECORDS if name != table)}",
    ]
    if len(names) > 1:
        others = ", ".join(_quoted(name) for name in names[1:20])
        lines += [f"sheets: [{_quoted(names[0])}]  # there are also {others}"]
    lines += [f"header: {line}"] if line > 1 else []
    lines.append("columns:")
    for name, check in checks.items():
        if name in found:
            lines += found[name]
        elif check.required:
            lines += [f"  # {name}: not recognised, and every row must fill it; {_how(name)}"]
    lines += ["", "# Columns not recognised; delete what is not charted:"] if rest else []
    lines += [f"#   {_quoted(one.header)}: {_examples(one)}" for one in rest]
    return "\n".join(lines) + "\n", Guessed(path, len(columns) - len(rest), [one.header for one in rest])


def _assigned(
    columns: Sequence[_Column], table: str, checks: Mapping[str, FieldCheck], context: Mapping[str, Names]
) -> tuple[dict[str, list[str]], list[_Column]]:
    """By column of ours its lines of the map, and their columns that mean none of ours."""
    found: dict[str, list[str]] = {}
    rest: list[_Column] = []
    for column in columns:
        meant = [(name, lines) for name, lines in _meaning(column, table, checks, context) if name not in found]
        found |= dict(meant)
        rest += [] if meant else [column]
    for column in list(rest):
        name = _by_cells(column, {name: check for name, check in checks.items() if name not in found}, context)
        if name:
            first, *more = _lines(name, column, checks[name], context)
            found[name] = [f"{first}  # by its cells", *more]
            rest.remove(column)
    return found, rest


def _columns(sheet: Sheet) -> tuple[int, list[_Column], int]:
    """The line of the header, their columns, and how many rows were looked at."""
    first = list(islice(sheet.rows, HEADER_WITHIN))
    # A title may stand above it: the row with most of the trade's words in it names the columns.
    words = [sum(1 for cell in cells if cell and _is_known(_column(cell, ()))) for _, cells in first]
    line = first[words.index(max(words))][0] if first else 1
    _, header = header_of(Sheet(sheet.file, iter(first)), line)
    cells: list[dict[str, None]] = [{} for _ in header]
    rows = 0
    below = (row for row in chain(first, sheet.rows) if row[0] > line)
    for _, row in islice(below, ROWS_LOOKED_AT):
        rows += 1
        for seen, cell in zip(cells, row, strict=False):
            if cell and cell != UNSAVED:
                seen.setdefault(cell)
    return line, [_column(name, tuple(seen)) for name, seen in zip(header, cells, strict=True) if name], rows


def _is_known(column: _Column) -> bool:
    return bool(_named(column)) or column.words in COUNT


def _column(header: str, cells: tuple[str, ...]) -> _Column:
    words = folded(header)
    unit = next((key for key in sorted(_UNITS, key=len, reverse=True) if re.search(rf"(?:^| ){key}$", words)), "")
    bare = words.removesuffix(unit).strip() if unit else words
    return _Column(header, bare or words, _UNITS.get(unit, ""), cells)


def folded(text: str) -> str:
    """Words without capitals, signs and the seams of JoinedWords."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text)
    return " ".join(re.sub(r"[^a-z0-9]+", " ", parted.casefold()).split())


def _table(columns: Sequence[_Column]) -> str:
    """The table that most of the telling columns point to; pitches where nothing tells."""
    there = {name for column in columns for name in _named(column)} | {"count" for c in columns if c.words in COUNT}
    known = {table: set(field_checks(record)) for table, record in RECORDS.items()}
    return max(
        sorted(RECORDS, key=lambda name: name != "pitches"),
        key=lambda table: 3 * len(there & set(TELLING[table])) + len(there & known[table]),
    )


def _named(column: _Column) -> list[str]:
    """Our columns that its header can mean."""
    own = [name for name in HEADERS if column.words == folded(name) or folded(column.header) == folded(name)]
    found = own or [name for name, words in HEADERS.items() if column.words in words]
    if not found and column.unit in ("mph", "kph"):
        found = ["speed_mph"]
    return found


def _meaning(
    column: _Column, table: str, checks: Mapping[str, FieldCheck], context: Mapping[str, Names]
) -> list[tuple[str, list[str]]]:
    """The columns of ours it becomes, each with its lines of the map."""
    if {"balls", "strikes"} <= set(checks) and _is_count(column):
        split = next(found[1] for cell in column.cells if (found := _COUNTS.fullmatch(cell)))
        return [
            (name, [f"  {name}: {{from: {_quoted(column.header)}, split: {_quoted(split)}, part: {part}}}"])
            for part, name in enumerate(("balls", "strikes"), 1)
        ]
    if column.words in HEADERS["date"] and table != "games":
        form = _date_form(column.cells)
        rule = f"{{from: {_quoted(column.header)}, date: {form}}}" if form else ""
        if not rule:
            return []
        return [("game", [f"  game: {rule}  # the game of that day in data/games; or write constant: its key"])]
    for name in _named(column):
        if name in checks:
            return [(name, _lines(name, column, checks[name], context))]
    return []


def _by_cells(column: _Column, free: Mapping[str, FieldCheck], context: Mapping[str, Names]) -> str:
    """The one column of ours whose words its cells are; letters alone or single digits tell nothing."""
    if len(column.cells) < 2 or all(len(cell) < 3 for cell in column.cells):
        return ""
    fitting = []
    for name, check in free.items():
        if check.allowed or name in OPEN_WORDS:
            _, wrong = check.values(list(column.cells), context)
            known = VALUES.get(name, {})
            if all(folded(column.cells[place]) in known for place in wrong):
                fitting.append(name)
    return fitting[0] if len(fitting) == 1 else ""


def _is_count(column: _Column) -> bool:
    """Whether every cell is a count, or a day that a spreadsheet made of one."""
    counts = [cell for cell in column.cells if _COUNTS.fullmatch(cell)]
    days = [cell for cell in column.cells if re.fullmatch(r"\d{4}-\d{2}-\d{2}", cell, re.ASCII)]
    return bool(counts) and len(counts) + len(days) == len(column.cells)


def _lines(name: str, column: _Column, check: FieldCheck, context: Mapping[str, Names]) -> list[str]:
    """The lines of the map for one column."""
    header = _quoted(column.header)
    if check.kind == "date":
        form = _date_form(column.cells)
        if form is None:
            either = "date: month/day/year}  # or day/month/year: nothing in the file tells"
            return [f"  # {name}: {{from: {header}, {either}"]
        return [f"  {name}: {{from: {header}, date: {form}}}"]
    keys: list[str] = []
    if kind := unit_kind(name):
        unit = column.unit or _unit_by_size(name, column.cells)
        if unit and unit not in ("mph", "ft", "s"):
            keys.append(f"unit: {unit}")
    if (kind or check.kind == "number") and any(re.fullmatch(r"-?\d*,\d+", cell) for cell in column.cells):
        keys.append("decimal: comma")
    if name in VALUES or name in OPEN_WORDS:
        return _with_values(name, column, check, context)
    if not keys:
        return [f"  {name}: {header}"]
    return [f"  {name}: {{from: {header}, {', '.join(keys)}}}"]


def _with_values(name: str, column: _Column, check: FieldCheck, context: Mapping[str, Names]) -> list[str]:
    """A column of words: theirs beside ours, and those nobody can guess as comments."""
    _, wrong = check.values(list(column.cells), context)
    foreign = [column.cells[place] for place in sorted(wrong)][:MOST_WORDS]
    if not foreign:
        return [f"  {name}: {_quoted(column.header)}"]
    known = VALUES.get(name, {})
    lines = [f"  {name}:", f"    from: {_quoted(column.header)}", "    values:"]
    said = [f"      {_quoted(word)}: {known[folded(word)]}" for word in foreign if folded(word) in known]
    open_ = [word for word in foreign if folded(word) not in known]
    lines = lines + said if said else lines[:-1]
    if open_:
        allowed = ", ".join(filter(None, check.allowed)) or "a word of the project"
        lines += [f"    # write these under values:, each as one of {allowed}; or under blank: [...]"]
        lines += [f"    #   {_quoted(word)}:" for word in open_]
    return lines


def _date_form(cells: Sequence[str]) -> str | None:
    """The one notation all of the cells can be read in; None where none fits or two do."""
    if not cells:
        return None
    if all(re.fullmatch(r"\d{5}(\.\d+)?", cell) for cell in cells):
        return "serial"
    fitting = []
    for form in _ORDERS:
        sign = {"day.month.year": ".", "day/month/year": "/", "month/day/year": "/"}.get(form)
        try:
            if sign is None or all(sign in cell or re.match(r"\d{4}-", cell) for cell in cells):
                for cell in cells:
                    day(cell, form)
                fitting.append(form)
        except CellError:
            continue
    # Points stand between day and month where the day comes first; of slashes nobody can tell.
    return fitting[0] if len(fitting) == 1 or fitting[:1] == ["year-month-day"] else None


def _unit_by_size(name: str, cells: Sequence[str]) -> str:
    if name != "speed_mph":
        return ""
    sizes = []
    for cell in cells:
        try:
            sizes.append(float(number(cell)))
        except CellError:
            continue
    return "kph" if sizes and max(sizes) > FASTEST_MPH else ""


def _how(name: str) -> str:
    if name == "game":
        return "write game: {constant: KEY} for a file of one game"
    return f"write {name}: HEADER, or {name}: {{constant: ...}}"


def _examples(column: _Column) -> str:
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
