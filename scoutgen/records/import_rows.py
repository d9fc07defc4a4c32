"""What does the map make of each row of a foreign sheet: a row of ours, or what is wrong with it?"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from scoutgen.records.check import FieldCheck, did_you_mean, field_checks, listed, quoted
from scoutgen.records.import_bases import marked_bases, occupied
from scoutgen.records.import_cells import CellError, converted, day, number, part_of, plain, unit_kind
from scoutgen.records.import_choice import Met, left_out, lines_without, never_met, of_totals
from scoutgen.records.import_file import UNSAVED, Sheet, UnreadableError, header_of, refuse_merged
from scoutgen.records.import_map import NOTES, RECORDS, ColumnRule, ImportMap
from scoutgen.records.import_names import Names, Row, Unmatched
from scoutgen.records.problems import Problem
from scoutgen.records.resolve import ROLES
from scoutgen.records.yamlrecord import YamlSource

MOST_PROBLEMS = 1_000
# What a spreadsheet writes where its arithmetic failed.
BROKEN_CELLS = frozenset({"#N/A", "#REF!", "#VALUE!", "#DIV/0!", "#NAME?", "#NULL!", "#NUM!"})


@dataclass(frozen=True)
class ImportedRow:
    """A row of ours, and where it came from.

    Attributes:
        cells: by column of ours.
        file, line: the sheet's name and its line.
        theirs: by column of ours, what stands in their cells, where that is something else.
    """

    cells: Row
    file: str
    line: int
    theirs: Row = field(default_factory=dict)

    def said(self, column: str) -> str:
        """What to put behind a problem of a column, so that its cell can be found as it is written."""
        return f"; the cell says {quoted(self.theirs[column])}" if column in self.theirs else ""


@dataclass
class Imported:
    """All sheets of a file through one map.

    Attributes:
        rows: those without anything wrong yet.
        problems: what is wrong with other rows.
        halves: those rows without their wrong cells.
        bad_rows: how many those are.
        passed_over: rows that `only` and `without` left out.
        without: those that `without` left out, by their place in the sheet, with what stands in them.
        unread: some sheet could not be read to its end.
        unused: headers that the map does not name.
        unmatched: names that are on no roster.
    """

    rows: list[ImportedRow] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    halves: list[ImportedRow] = field(default_factory=list)
    bad_rows: int = 0
    passed_over: int = 0
    without: list[str] = field(default_factory=list)
    unread: bool = False
    unused: list[str] = field(default_factory=list)
    unmatched: list[Unmatched] = field(default_factory=list)
    headers: dict[str, str] = field(default_factory=dict)


def imported_rows(sheets: Sequence[Sheet], wanted: ImportMap, source: YamlSource, names: Names) -> Imported:
    """Read every row of the sheets.

    Args:
        sheets: as read.
        wanted: the map.
        source: the map's file, for problems of the map with these sheets.
        names: the project's rosters and games.
    """
    found = Imported(headers={name: " + ".join(rule.headers) for name, rule in wanted.columns.items()})
    met = Met()
    for sheet in sheets:
        try:
            line, header = header_of(sheet, wanted.header)
            places = {name: place for place, name in enumerate(header) if name}
            lacking = list(_lacking(wanted, places, source, sheet.file))
            found.problems += lacking
            used = {name for rule in wanted.columns.values() for name in rule.headers} | set(wanted.only)
            found.unused += [name for name in places if name not in used and name not in found.unused]
            refuse_merged(sheet, line)
            if not lacking:
                _Reading(sheet, places, wanted, names, found, met).read(line)
        except UnreadableError as wrong:
            found.problems.append(sheet.problem(wrong.line, "", f"{wrong}; nothing from here on was read"))
            found.unread = True
    # Of a sheet that was not read nobody knows what stands in it.
    if not found.unread and not any(problem.file == source.file for problem in found.problems):
        found.problems += never_met(wanted, source, met)
    found.unmatched = sorted(names.unmatched.values(), key=lambda one: (one.column, one.text))
    return found


def _lacking(wanted: ImportMap, places: dict[str, int], source: YamlSource, file: str) -> Iterator[Problem]:
    asked: list[tuple[tuple[str, ...], str]] = [
        (("columns", column, "from"), name) for column, rule in wanted.columns.items() for name in rule.headers
    ]
    asked += [(("only", name), name) for name in wanted.only]
    for path, name in asked:
        if name not in places:
            text = f"{file} has no column {quoted(name)}{did_you_mean(name, places)}"
            yield source.problem(path, text)


@dataclass
class _Reading:
    """One sheet through the map."""

    sheet: Sheet
    places: dict[str, int]
    wanted: ImportMap
    names: Names
    found: Imported
    met: Met

    def read(self, header_line: int) -> None:
        """Read it to its end."""
        wanted, places = self.wanted, self.places
        checks = field_checks(RECORDS[wanted.table])
        makers = [
            (column, _maker(column, rule, checks[column]), [places[name] for name in rule.headers])
            for column, rule in wanted.columns.items()
        ]
        only = [
            (places[name], {text.casefold() for text in texts}, self.met.cells.setdefault(name, {}))
            for name, texts in wanted.only.items()
        ]
        without = lines_without(wanted.without, self.sheet.file)
        width = max(places.values(), default=0) + 1
        for line, cells in self.sheet.rows:
            if line <= header_line:
                continue
            full = cells + [""] * (width - len(cells))
            for place, _, seen in only:
                seen.setdefault(full[place].casefold(), full[place])
            wants = all(full[place].casefold() in texts for place, texts, _ in only)
            self.met.taken |= wants
            if line in without:
                self.met.without.add(without[line])
                self.found.without.append(left_out(cells, f"{self.sheet.file}:{line}"))
            if wants and line not in without:
                self.take(line, full, makers)
            else:
                self.found.passed_over += 1

    def take(self, line: int, cells: list[str], makers: Sequence[tuple[str, "Maker", list[int]]]) -> None:
        row: Row = {}
        wrong: list[tuple[str, str]] = []
        for column, maker, at in makers:
            try:
                row[column] = maker([cells[place] for place in at])
            except CellError as why:
                wrong.append((column, str(why)))
        wrong += self.look_up(row, line)
        given = ((column, ", ".join([cells[place] for place in at])) for column, _, at in makers if at)
        theirs = {column: text for column, text in given if text != row.get(column)}
        if not wrong:
            self.found.rows.append(ImportedRow(row, self.sheet.file, line, theirs))
            return
        self.found.bad_rows += 1
        mapped = [cells[place] for column, _, at in makers if column not in NOTES for place in at]
        if told := of_totals(mapped, f"{self.sheet.file}:{line}"):
            # Its cells are wrong one by one, and none of that is what is the matter.
            wrong = [("", told), *wrong[:1]]
        elif len(self.found.problems) < MOST_PROBLEMS:
            bad = {column for column, _ in wrong}
            kept = {column: text for column, text in row.items() if column not in bad}
            self.found.halves.append(ImportedRow(kept, self.sheet.file, line, theirs))
        room = max(0, MOST_PROBLEMS - len(self.found.problems))
        said = [self.sheet.problem(line, shown(column, self.found.headers), text) for column, text in wrong]
        self.found.problems += said[:room]

    def look_up(self, row: Row, line: int) -> list[tuple[str, str]]:
        """Put the project's keys for days and men into a row; what cannot be found comes back."""
        wrong: list[tuple[str, str]] = []
        men = {role.column for role in ROLES.get(self.wanted.table, ())}
        for column, rule in self.wanted.columns.items():
            try:
                if column == "game" and rule.date and row.get("game"):
                    row["game"] = self.names.game_on(row["game"], rule.team)
                elif column in men and row.get(column):
                    row[column] = self.man(column, row, rule.team, line)
            except CellError as why:
                wrong.append((column, str(why)))
        return wrong

    def man(self, column: str, row: Row, team: str | None, line: int) -> str:
        text = row[column]
        teams = self.names.teams_of(self.wanted.table, column, row, team)
        by_half = team is None and bool(row.get("half"))
        key = self.names.player(text, teams, row.get("game", ""), by_half=by_half)
        if key is not None:
            return key
        one = self.names.unmatched.setdefault((column, text), Unmatched(column, text, f"{self.sheet.file}:{line}"))
        one.rows += 1
        return text


def shown(column: str, headers: dict[str, str]) -> str:
    """Our column with theirs, as problems name it."""
    theirs = "".join(c if c.isprintable() else "?" for c in headers.get(column, ""))
    return f"{column} (from {theirs})" if theirs and theirs != column else column


Maker: TypeAlias = Callable[[list[str]], str]


def _maker(column: str, rule: ColumnRule, check: FieldCheck) -> Maker:
    """From the cells of a row to the text of one column; each different cell is worked out once."""
    done: dict[tuple[str, ...], str | CellError] = {}

    def made(cells: list[str]) -> str:
        key = tuple(cells)
        if key not in done:
            try:
                done[key] = _made(column, key, rule, check)
            except CellError as wrong:
                done[key] = wrong
        answer = done[key]
        if isinstance(answer, CellError):
            raise answer
        return answer

    return made


def _made(column: str, cells: tuple[str, ...], rule: ColumnRule, check: FieldCheck) -> str:
    if UNSAVED in cells:
        raise CellError(
            "holds a formula without a saved value, and formulas are not worked out here; open the workbook in the "
            "spreadsheet and save it, or paste the values"
        )
    broken = next((cell for cell in cells if cell in BROKEN_CELLS), None)
    if broken is not None:
        raise CellError(f"{broken} is a spreadsheet's error, not a value")
    if rule.bases == "columns":
        return occupied([_base_cell(cell, rule) for cell in cells])
    text = rule.constant if rule.constant is not None else (rule.join or " ").join(filter(None, cells))
    if not text or _is_blank(text, rule):
        return ""
    if rule.split is not None and rule.part is not None:
        text = part_of(text, rule.split, rule.part)
    ours = _word(text, rule)
    return _in_our_notation(column, text, rule, check) if ours is None else ours


def _base_cell(cell: str, rule: ColumnRule) -> str:
    ours = _word(cell, rule)
    return "" if _is_blank(cell, rule) else cell if ours is None else ours


def _is_blank(text: str, rule: ColumnRule) -> bool:
    return text.casefold() in map(str.casefold, rule.blank)


def _word(text: str, rule: ColumnRule) -> str | None:
    folded = {word.casefold(): ours for word, ours in rule.values.items()}
    return rule.values.get(text) or folded.get(text.casefold())


def _in_our_notation(column: str, text: str, rule: ColumnRule, check: FieldCheck) -> str:
    if rule.date is not None or check.kind == "date":
        return day(text, rule.date)
    if rule.bases == "marks":
        return marked_bases(text)
    try:
        if unit_kind(column):
            return converted(text, column, rule.unit, rule.decimal)
        if check.kind in ("number", "whole"):
            found = number(text, rule.decimal)
            return plain(found) if check.kind == "whole" else found
    except CellError as why:
        raise CellError(f"{why}{_instead(column, text, check) if str(why).endswith('a number') else ''}") from None
    _, wrong = check.in_full.values([text], {})
    if wrong and text.casefold() in check.short:
        raise CellError(f"{quoted(text)} is a word of theirs; name it under values: with {listed(check.allowed)}")
    return text


def _instead(column: str, text: str, check: FieldCheck) -> str:
    """What to do about a text in a column of numbers."""
    if check.kind == "whole" and check.low is not None and check.high is not None and any(map(str.isalpha, text)):
        span = f"{check.low:g} to {check.high:g}"
        return f"; {column} is one from {span}; name the word under values: in the map with what it means"
    return "; mend it, or name it under values: or blank: in the map"
