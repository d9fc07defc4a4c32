"""What do the rows of one table say, typed, and which of them cannot be used?"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pandas as pd
from pydantic import BaseModel

from scoutgen.records.check import FieldCheck, Kind, field_checks
from scoutgen.records.csvfile import ABSENT, CodedTable, read_csv_files
from scoutgen.records.folder import same_files, table_files
from scoutgen.records.plainlines import Codes
from scoutgen.records.problems import Problem, Severity

MOST_PLACES = 20
MOST_DIFFERENT: dict[Severity, int] = {"error": 1_000, "warning": 200}
Mask = npt.NDArray[np.bool_]


@dataclass
class Rows:
    """One table: a frame of the declared columns with `file` and `line`, and what is wrong with it.

    Attributes:
        table: its name.
        frame: every declared column; rows in order of files and lines; nothing is left out yet.
        bad: rows with an error.
        problems: everything wrong so far, files and rows.
        files: names of the files, `frame.file` in words.
        unread: whether some file could not be read, or not to its end.
        torn: rows that could not be taken apart and are not in the frame.
        lost: names of the files left out whole, or from some line on.
    """

    table: str
    frame: pd.DataFrame
    bad: Mask
    problems: list[Problem] = field(default_factory=list)
    files: list[str] = field(default_factory=list)
    unread: bool = False
    torn: int = 0
    lost: set[str] = field(default_factory=set)

    @property
    def left_out(self) -> int:
        """How many rows cannot be used, as far as they were read at all."""
        return int(self.bad.sum()) + self.torn

    def flag(
        self,
        where: Mask,
        column: str,
        text: str | Callable[[int], str],
        severity: Severity = "error",
        by: npt.NDArray[Any] | None = None,
    ) -> None:
        """Say the same of many rows, or of each its own.

        Args:
            where: the rows meant.
            column: the column meant, or nothing for the row.
            text: what is wrong; a function gets the row's position.
            severity: an error makes the rows unusable.
            by: per row a number; rows of one number get one text. Without it a text is written for each of the first
                rows only, and the rest are counted.
        """
        places = np.flatnonzero(where)
        if severity == "error":
            self.bad[places] = True
        if isinstance(text, str) or not places.size:
            self.say(places, column, str(text), severity)
            return
        most = MOST_DIFFERENT[severity]
        if by is None:
            texts = [text(place) for place in places[:most].tolist()]
            numbers, words = pd.factorize(np.array(texts, dtype=object))
            for number, sentence in enumerate(words.tolist()):
                self.say(places[:most][numbers == number], column, sentence, severity)
            rest = places[most:]
        else:
            order = places[np.argsort(by[places], kind="stable")]
            starts = np.flatnonzero(np.diff(by[order], prepend=np.iinfo(np.int64).min)).tolist()
            for start, end in zip(starts[:most], [*starts[1:], len(order)], strict=False):
                self.say(order[start:end], column, text(int(order[start])), severity)
            rest = order[starts[most] :] if len(starts) > most else order[:0]
        if rest.size:
            same = "are wrong in this column in other ways" if severity == "error" else "are like this"
            self.say(rest[:1], column, f"and {len(rest):,} more rows {same}, too many to list", severity)

    def cell(self, row: int, column: str) -> Any:  # noqa: ANN401 - whatever the column holds
        """One cell, for a message."""
        return self.frame[column].iloc[row]

    def place(self, row: int, seen_from: int) -> str:
        """Where a row stands: its line, with the file where that is another one."""
        line, file = self.cell(row, "line"), self.cell(row, "file")
        return f"line {line}" if file == self.cell(seen_from, "file") else f"{file}:{line}"

    def say(self, places: npt.NDArray[Any], column: str, text: str, severity: Severity = "error") -> None:
        """One text for many rows: the first places each in a line, the rest as one."""
        shown = places[: MOST_PLACES + 1]
        files = self.frame["file"].cat.codes.to_numpy()[shown]
        lines = self.frame["line"].to_numpy()[shown]
        for number, (file, line) in enumerate(zip(files.tolist(), lines.tolist(), strict=True)):
            if number == MOST_PLACES:
                left = len(places) - MOST_PLACES
                text = f"and {left:,} more {'row' if left == 1 else 'rows'} with the same problem: {text}"
            self.problems.append(Problem(self.files[file], line, column, text, severity))


def read_rows(root: Path, table: str, model: type[BaseModel], context: Mapping[str, Any] | None = None) -> Rows:
    """Read and check all files of a table, cell by cell.

    Args:
        root: the project's folder.
        table: `pitches`, `times`, ...
        model: the record that declares its columns.
        context: vocabularies that the project adds to, for the cells that need them.
    """
    checks = field_checks(model)
    files, problems = table_files(root, table)
    unread = any(problem.severity == "error" for problem in problems)
    for later, earlier in same_files(files):
        text = f"holds exactly the same bytes as {earlier.name}; delete one of the two, or its rows would count twice"
        problems.append(Problem(later.name, 0, "", text))
        files.remove(later)
    lost = {problem.file for problem in problems if problem.severity == "error"}
    coded = read_csv_files(files, list(checks), [name for name, check in checks.items() if check.required])
    frame = pd.DataFrame(index=pd.RangeIndex(len(coded.line)))
    rows = Rows(
        table, frame, np.zeros(len(coded.line), bool), problems + coded.problems, coded.files,
        unread or bool(coded.unread), coded.torn, lost | {coded.files[number] for number in coded.unread},
    )  # fmt: skip
    # Lengths and files first: cells point at them when they are wrong.
    file = pd.Categorical.from_codes(coded.file, pd.Index(coded.files, dtype="object").astype("str"))
    frame["file"] = file
    frame["line"] = coded.line
    columns: dict[str, Any] = {}
    for name, check in checks.items():
        columns[name] = _column(rows, coded, check, context or {})
    rows.frame = pd.DataFrame({**columns, "file": file, "line": coded.line}, index=frame.index, copy=False)
    if coded.lame:
        rows.bad |= np.isin(coded.file, list(coded.lame))
    return rows


def _column(rows: Rows, coded: CodedTable, check: FieldCheck, context: Mapping[str, Any]) -> Any:  # noqa: ANN401 - any pandas array
    """Check the different texts of a column and spread the values over the rows."""
    codes = coded.codes.pop(check.name)
    texts = [text.strip() for text in coded.texts.pop(check.name)]
    values, wrong = check.values(texts, context)
    if check.filled:
        wrong |= {place: check.when_blank() for place, text in enumerate(texts) if not text and place not in wrong}
    if wrong:
        is_wrong = np.array([place in wrong for place in range(len(texts))] + [False])
        rows.flag(is_wrong[codes], check.name, lambda row: wrong[int(codes[row])], by=codes)
    return spread(check.kind, values, codes, check.allowed)


def spread(kind: Kind, values: Sequence[Any], codes: Codes, allowed: Sequence[str] = ()) -> Any:  # noqa: ANN401 - any pandas array
    """A column of values from one value per different text.

    Args:
        kind: which sort of column.
        values: per different text its value, None where missing.
        codes: per row the number of its text; ABSENT where there is none.
        allowed: a closed vocabulary in its own order, which becomes the order of the categories.
    """
    missing = np.array([value is None for value in values] + [True])
    if kind == "number":
        return np.array([np.nan if v is None else v for v in values] + [np.nan], float)[codes]
    if kind == "date":
        days = [np.datetime64("NaT") if v is None else np.datetime64(v) for v in (*values, None)]
        return np.array(days, "datetime64[s]")[codes]
    if kind == "whole":
        whole = np.array([0 if v is None else v for v in values] + [0], np.int16)
        return pd.arrays.IntegerArray(whole[codes], missing[codes])
    if kind == "yes_no":
        yes = np.array([bool(v) for v in values] + [False])
        return pd.arrays.BooleanArray(yes[codes], missing[codes])
    names = list(allowed) or sorted({v for v in values if v is not None})
    number = {name: i for i, name in enumerate(names)}
    slots = np.array([ABSENT if v is None else number[v] for v in values] + [ABSENT], np.int32)
    return pd.Categorical.from_codes(slots[codes], pd.Index(names, dtype="str"))
