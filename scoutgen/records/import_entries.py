"""How does a first map write down one column of somebody else's, and what of it does a person have to say?"""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import get_args

from scoutgen.records.check import FieldCheck
from scoutgen.records.import_bases import is_sign
from scoutgen.records.import_cells import CellError, DateForm, number, plain, unit_kind
from scoutgen.records.import_columns import Column, folded
from scoutgen.records.import_map import OPEN_WORDS
from scoutgen.records.import_notations import date_forms, decimal_sign, no_numbers, unit_by_size
from scoutgen.records.import_words import VALUES
from scoutgen.records.vocabulary import Names

MOST_WORDS = 60
# Rows named beside cells that do not fit; of more, the file itself is to be mended.
MOST_ROWS_NAMED = 12
_YAML_WORDS = frozenset({"yes", "no", "true", "false", "on", "off", "null"})


@dataclass(frozen=True)
class Known:
    """What the project can tell of a foreign file: its own words for pitches and habits, the days it has games of."""

    words: Mapping[str, Names]
    played: Collection[str] = ()


@dataclass(frozen=True)
class Entry:
    """One column of ours in a first map.

    Attributes:
        lines: as the map has them.
        open: cells of theirs that nobody can guess; the lines say so.
    """

    lines: tuple[str, ...]
    open: tuple[str, ...] = ()


def entry(name: str, column: Column, check: FieldCheck, known: Known) -> Entry:
    """A column of ours out of one of theirs."""
    if check.kind == "date":
        return dated(name, column, known) or Entry((f"  {name}: {in_yaml(column.header)}",))
    if check.allowed or name in VALUES or name in OPEN_WORDS:
        return _of_words(name, column, check, known)
    keys: list[str] = []
    notes = ["runs of the pitching side minus the others; see whose theirs is"] if name == "lead" else []
    open_: list[str] = []
    odd: list[str] = []
    kind, unit = unit_kind(name), ""
    if kind:
        unit = column.unit or unit_by_size(name, column)
        keys += [f"unit: {unit}"] if unit and unit not in ("mph", "ft", "s") else []
    if kind or check.kind in ("number", "whole"):
        sign, open_ = decimal_sign(column.cells)
        keys += [f"decimal: {sign}"] if sign else []
        notes += [_two_ways(open_[0], sign)] if open_ else []
        # A dash for what was not read is no number.
        dashes = [cell for cell in column.cells if cell and not re.search(r"\w", cell)]
        keys += [f"blank: [{', '.join(map(in_yaml, dashes))}]"] if dashes else []
        odd = no_numbers(name, column, check.low, check.high, unit=unit, sign=sign)
    header = in_yaml(column.header)
    note = f"  # {'; '.join(notes)}" if notes else ""
    said = f"{{from: {header}, {', '.join(keys)}}}" if keys else header
    told = misfits(
        column, odd, f"not a {_span(check)}", "say what they mean under values:, or name them under blank: [...]; or "
    )
    return Entry((f"  {name}: {said}{note}", *told), (*open_, *odd))


def misfits(column: Column, odd: Sequence[str], what: str, first: str = "") -> tuple[str, ...]:
    """Comments that list cells that do not fit, with where they stand and what to do; nothing where all do.

    Args:
        column: theirs.
        odd: those of its cells.
        what: what they are not.
        first: what else the map can say of them, before what is always open.
    """
    if not odd:
        return ()
    rows = list(dict.fromkeys(row for cell in odd for row in column.lines.get(cell, ())))
    cells = f"{', '.join(map(in_yaml, odd[:MOST_WORDS]))}{_and_more(len(odd) - MOST_WORDS)}"
    without = f"without: [{', '.join(map(in_yaml, rows[:MOST_ROWS_NAMED]))}]{_and_more(len(rows) - MOST_ROWS_NAMED)}"
    return (
        f"  # {what}: {cells}",
        f"  #   {first}mend the file, or leave their rows out, all in one list above columns: {without}",
    )


def _and_more(many: int) -> str:
    return f" and {many:,} more" if many > 0 else ""


def _span(check: FieldCheck) -> str:
    span = f" from {check.low:g} to {check.high:g}" if check.low is not None and check.high is not None else ""
    return f"{'whole ' if check.kind == 'whole' else ''}number{span}"


def _two_ways(cell: str, sign: str) -> str:
    if sign:
        return f"{in_yaml(cell)} can be read in two ways, and the other cells have a {sign}: see that it is right"
    return f"{in_yaml(cell)} can be read in two ways: add decimal: comma for one and a bit here, point for thousands"


def dated(name: str, column: Column, known: Known, note: str = "") -> Entry | None:
    """A column of days; a comment where they can be read in two ways, nothing where they are no days."""
    forms, odd = date_forms(column, known.played)
    if not forms:
        return None
    header = in_yaml(column.header)
    line = f"  {name}: {{from: {header}, date: {forms[0]}}}{note}"
    if len(forms) > 1:
        either = f"{{from: {header}, date: {forms[0]}}}  # or {', '.join(forms[1:])}: nothing in the file tells"
        line = f"  # write one of the two: {name}: {either}"
    return Entry((line, *misfits(column, odd, f"not a date as {' or '.join(forms)}")), tuple(odd))


def counted(column: Column, split: str, odd: Sequence[str]) -> dict[str, Entry]:
    """Balls and strikes out of a column of counts; with the strikes, the cells that are none."""
    header, told = in_yaml(column.header), misfits(column, odd, "not a count, or one that a spreadsheet made a day of")
    line = f"{{from: {header}, split: {in_yaml(split)}, part: "
    return {
        "balls": Entry((f"  balls: {line}1}}",)),
        "strikes": Entry((f"  strikes: {line}2}}", *told), tuple(odd)),
    }


def of_bases(three: Sequence[Column]) -> Entry:
    """Occupied bases out of a column for each, with the cells that do not say whether a runner is there."""
    headers = ", ".join(in_yaml(column.header) for column in three)
    open_ = [cell for cell in dict.fromkeys(cell for column in three for cell in column.cells) if not is_sign(cell)]
    line = f"  bases: {{from: [{headers}], bases: columns}}"
    unsaid = ", ".join(map(in_yaml, open_[:MOST_WORDS]))
    note = f"  # name under values: as x or -, or under blank: [...]: {unsaid}" if open_ else ""
    return Entry((f"{line}{note}",), tuple(open_))


def our_word(name: str, word: str, check: FieldCheck) -> str:
    """Our word for one of theirs: the trade's other words for it, or ours as people write it; empty for any other."""
    bare = folded(word)
    as_written = {folded(ours.replace("_", " ")): ours for ours in check.allowed if ours}
    return VALUES.get(name, {}).get(bare) or as_written.get(bare, "")


def foreign_words(name: str, column: Column, check: FieldCheck, known: Known) -> dict[str, str]:
    """The cells that the reader would not take as they are, each with our word for it or nothing."""
    texts = [_plain(cell) if check.kind == "whole" else cell for cell in column.cells]
    _, wrong = check.in_full.values(texts, known.words)
    ours = {column.cells[place]: our_word(name, column.cells[place], check) for place in sorted(wrong)}
    # A catcher is no fielder whose place is charted, and a project may not have every pitch.
    _, refused = check.values(list(ours.values()), known.words)
    return {cell: "" if place in refused else word for place, (cell, word) in enumerate(ours.items())}


def _plain(cell: str) -> str:
    """A number as the import writes it, any other text as it is."""
    try:
        return plain(number(cell))
    except CellError:
        return cell


def _of_words(name: str, column: Column, check: FieldCheck, known: Known) -> Entry:
    """A column of words: theirs beside ours, and those nobody can guess as comments."""
    foreign = foreign_words(name, column, check, known)
    if not foreign:
        return Entry((f"  {name}: {in_yaml(column.header)}",))
    lines = [f"  {name}:", f"    from: {in_yaml(column.header)}"]
    said = [f"      {in_yaml(word)}: {ours}" for word, ours in foreign.items() if ours]
    lines += ["    values:", *said] if said else []
    open_ = [word for word, ours in foreign.items() if not ours]
    if open_:
        lines += [f"    # write these under values:, each as {_one_of(name, check, known)}; or under blank: [...]"]
        lines += [f"    #   {in_yaml(word)}:" for word in open_[:MOST_WORDS]]
        lines += [f"    #   and {len(open_) - MOST_WORDS:,} more"] if len(open_) > MOST_WORDS else []
    return Entry(tuple(lines), tuple(open_))


def _one_of(name: str, check: FieldCheck, known: Known) -> str:
    allowed = [word for word in check.allowed if word]
    if check.kind == "yes_no":
        allowed = ["yes", "no"]
    if name in OPEN_WORDS and OPEN_WORDS[name] in known.words:
        allowed = list(dict.fromkeys(known.words[OPEN_WORDS[name]].by_spelling.values()))
    if check.kind == "whole":
        return f"a {_span(check)}"
    return f"one of {', '.join(allowed)}" if allowed else f"a {name} of the project"


def how(name: str, check: FieldCheck) -> str:
    """What to write for a column of ours that every row must fill and nothing in the file tells."""
    form = f"FORM as {', '.join(get_args(DateForm))}"
    if name == "game":
        return f"write game: {{constant: KEY}} for a file of one game, or game: {{from: HEADER, date: FORM}}, {form}"
    if name in ("balls", "strikes"):
        part = 1 if name == "balls" else 2
        return f'write {name}: HEADER, or for counts like 1-2 {name}: {{from: HEADER, split: "-", part: {part}}}'
    if check.kind == "date":
        return f"write {name}: {{from: HEADER, date: FORM}}, {form}"
    words = f", WORD as {', '.join(check.allowed)}" if check.allowed else ""
    return f"write {name}: HEADER, or {name}: {{constant: {'WORD' if words else '...'}}}{words}"


def examples(column: Column) -> str:
    """A few cells of a column, so that a person knows it again."""
    shown = ", ".join(in_yaml(cell[:30]) for cell in column.cells[:4])
    return f"e.g. {shown}" if shown else "always blank"


def in_yaml(text: str) -> str:
    """A text as YAML has it, on one line whatever it holds."""
    if re.fullmatch(r"[A-Za-z][A-Za-z0-9 _/]*[A-Za-z0-9]", text) and text.casefold() not in _YAML_WORDS:
        return text
    escaped = "".join(
        c if c.isprintable() and c not in '"\\' else f"\\{c}" if c in '"\\' else f"\\U{ord(c):08X}" for c in text
    )
    return f'"{escaped}"'
