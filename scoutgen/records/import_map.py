"""Which column of somebody else's file becomes which column of ours, as a map in YAML says it?"""

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema

from scoutgen.records import games, habits, holds, pitches, positions, throws, times
from scoutgen.records.check import FieldCheck, did_you_mean, field_checks, listed, quoted
from scoutgen.records.csvheader import OWN_PREFIX
from scoutgen.records.fields import AS_WHOLE, Key, Record, between
from scoutgen.records.import_bases import is_runner
from scoutgen.records.import_cells import UNITS, CellError, DateForm, Unit, unit_kind
from scoutgen.records.problems import Problem
from scoutgen.records.resolve import ROLES
from scoutgen.records.vocabulary import Names
from scoutgen.records.yamlrecord import YamlSource, read_record

Table: TypeAlias = Literal["games", "pitches", "times", "holds", "throws", "habits", "positions"]
RECORDS: Mapping[str, type[BaseModel]] = {
    "games": games.Game,
    "pitches": pitches.Pitch,
    "times": times.TimeReading,
    "holds": holds.Hold,
    "throws": throws.Throw,
    "habits": habits.HabitLook,
    "positions": positions.FielderPosition,
}
# Columns whose words a project adds to, by the vocabulary they are read with.
OPEN_WORDS = {"pitch": "pitches", "habit": "habits"}
LONGEST_HEADER = 200
LONGEST_SIGN = 5


def _several(value: object) -> object:
    """One text where a list may stand; not parted at commas, which headers may hold."""
    return [value] if isinstance(value, str) else value


# An editor reads a header such as 1 or yes as a number or an answer.
_SCALARS = ["string", "number", "boolean"]
Text: TypeAlias = Annotated[
    str, Field(max_length=LONGEST_HEADER), WithJsonSchema({"type": _SCALARS, "maxLength": LONGEST_HEADER})
]
Sign: TypeAlias = Annotated[
    str,
    Field(min_length=1, max_length=LONGEST_SIGN),
    WithJsonSchema({"type": _SCALARS, "minLength": 1, "maxLength": LONGEST_SIGN}),
]
Texts: TypeAlias = Annotated[
    tuple[Text, ...], BeforeValidator(_several, json_schema_input_type=tuple[Text, ...] | Text), Field(max_length=200)
]


def _filled(key: str) -> dict[str, Any]:
    """For editors: a key that is there and not blank."""
    return {"required": [key], "properties": {key: {"not": {"type": "null"}}}}


def _together(schema: dict[str, Any]) -> None:
    """What an editor can say of a rule that contradicts itself."""
    schema["oneOf"] = [_filled("from"), _filled("constant")]
    schema["dependentRequired"] = {"split": ["part"], "part": ["split"]}


def _columns_by_table(schema: dict[str, Any]) -> None:
    """For editors: the columns that a table may have, and those that it must have."""
    schema["allOf"] = [
        {
            "if": {"properties": {"table": {"const": table}}},
            "then": {
                "properties": {
                    "columns": {
                        "propertyNames": {"enum": list(checks)},
                        "required": [name for name, check in checks.items() if check.required],
                    }
                }
            },
        }
        for table, checks in ((table, field_checks(record)) for table, record in RECORDS.items())
    ]


class ColumnRule(Record):
    """How the cells of one column of ours come about."""

    model_config = ConfigDict(json_schema_extra=_together)

    headers: Texts = Field((), alias="from", description="The header of the column in their file, or several to join.")
    constant: Text | None = Field(None, description="The same text in every row, instead of from.")
    join: Annotated[str, Field(max_length=LONGEST_SIGN)] | None = Field(
        None, description="What stands between several columns joined; a space when left out."
    )
    values: dict[Text, Text] = Field(
        {}, description="Their word: our word. Capitals count only where two words differ by them alone."
    )
    blank: Texts = Field((), description="Texts of theirs that mean not charted, e.g. [n/a, none].")
    unit: Unit | None = Field(None, description="The unit their numbers are in; ours is part of our column's name.")
    decimal: Literal["point", "comma"] | None = Field(
        None, description="Whether 1,320 is one and a bit (comma) or a thousand (point)."
    )
    date: DateForm | None = Field(None, description="How their dates are written; in game: the game of that day.")
    split: Sign | None = Field(None, description="What parts the cell, e.g. the - of a count 1-2.")
    part: Annotated[int, between(1, 9), AS_WHOLE] | None = Field(None, description="Which part, from 1.")
    bases: Literal["marks", "columns"] | None = Field(
        None,
        description="marks: a sign for each base, x-x or 101; columns: three in from, filled when occupied.",
    )
    team: Key | None = Field(None, description="Whose roster a man is looked for on; in game: who plays.")


def _rule(value: object) -> object:
    return {"from": value} if isinstance(value, str | list) else value


_RULE = BeforeValidator(_rule, json_schema_input_type=ColumnRule | tuple[Text, ...] | Text)


class ImportMap(Record):
    """How a file of somebody else's becomes rows of one table."""

    model_config = ConfigDict(json_schema_extra=_columns_by_table)

    table: Table = Field(description="The table of the charting format the rows belong to.")
    name: Key | None = Field(
        None, description="Name of the written file; the game's or that of their file when left out."
    )
    sheets: Texts = Field((), description="Sheets of a workbook to read; the first when left out.")
    header: Annotated[int, between(1, 100), AS_WHOLE] = Field(1, description="The row that names the columns.")
    delimiter: Literal["comma", "semicolon", "tab", "bar"] | None = Field(
        None, description="What separates cells; found in the header row when left out."
    )
    encoding: Literal["utf-8", "utf-16", "latin-1"] | None = Field(
        None, description="How the text is saved; found in the file when left out."
    )
    only: dict[Text, Texts] = Field({}, description="Their header: the texts of the rows to take.")
    without: Texts = Field(
        (), description="Rows to leave out for good, as x_source has them (night.csv:12) or their line alone."
    )
    columns: dict[Text, Annotated[ColumnRule, _RULE]] = Field(
        description="Our column: their header, or a block that says how."
    )


def read_map(path: Path, context: Mapping[str, Names]) -> tuple[ImportMap | None, YamlSource, list[Problem]]:
    """The map in a file, or None and every reason why it is none.

    Args:
        path: the file, anywhere.
        context: vocabularies that the project adds to, by name.
    """
    record, source, problems = read_record(path, path.parent, ImportMap)
    if record is None:
        return None, source, problems
    problems += _column_problems(record, source, context)
    return (None if problems else record), source, problems


def _column_problems(record: ImportMap, source: YamlSource, context: Mapping[str, Names]) -> list[Problem]:
    checks = field_checks(RECORDS[record.table])
    found: list[Problem] = []

    def say(text: str, *path: str | int) -> None:
        found.append(source.problem(("columns", *path), text))

    for column, rule in record.columns.items():
        if column.startswith(OWN_PREFIX):
            say("is written by the import itself or not at all; take it out", column)
        elif column not in checks:
            say(
                f"is not a column of {record.table}{did_you_mean(column, checks)}; known are {', '.join(checks)}",
                column,
            )
        else:
            for key, text in _rule_problems(record.table, column, rule, context):
                say(text, column, *key)
    lacking = [name for name, check in checks.items() if check.required and name not in record.columns]
    if lacking and "columns" not in source.left_out:
        say(f"lack {listed(map(quoted, lacking), 'and')}, which every row of {record.table} must fill")
    return found


def _rule_problems(
    table: str, column: str, rule: ColumnRule, context: Mapping[str, Names]
) -> list[tuple[tuple[str | int, ...], str]]:
    """What contradicts itself or the column, each with the key it stands under."""
    check = field_checks(RECORDS[table])[column]
    found: list[tuple[tuple[str | int, ...], str]] = []
    if bool(rule.headers) == (rule.constant is not None):
        found.append(((), "needs either from (their header) or constant, and not both"))
    if (rule.split is None) != (rule.part is None):
        found.append(((), "split and part belong together, e.g. split: '-' and part: 1"))
    if rule.unit is not None and unit_kind(column) != UNITS[rule.unit][0]:
        fitting = [unit for unit in get_args(Unit) if UNITS[unit][0] == unit_kind(column)]
        what = f"write {listed(fitting)}" if fitting else "take it out"
        found.append((("unit",), f"{quoted(rule.unit)} is no unit of {column}; {what}"))
    if rule.decimal is not None and check.kind not in ("number", "whole"):
        found.append((("decimal",), f"{column} holds no numbers; take it out"))
    if rule.date is not None and check.kind != "date" and column != "game":
        found.append((("date",), f"{column} holds no dates; take it out"))
    if rule.bases is not None and column != "bases":
        found.append((("bases",), "belongs to the column bases alone; take it out"))
    if rule.bases == "columns" and len(rule.headers) != 3:
        found.append((("from",), "must name three columns: first, second and third base"))
    return found + _idle_keys(table, column, rule) + _word_problems(column, rule, check, context)


def _idle_keys(table: str, column: str, rule: ColumnRule) -> list[tuple[tuple[str | int, ...], str]]:
    """Keys that nothing would come of in this rule."""
    found: list[tuple[str, str]] = []
    given = {key for key in ("join", "split", "values", "blank") if getattr(rule, key) not in (None, (), {})}
    if rule.constant is not None and not rule.headers:
        found += [(key, "works on their cells, and constant takes none; take it out") for key in sorted(given)]
    elif rule.bases == "columns":
        found += [(key, "does nothing beside bases: columns; take it out") for key in sorted(given & {"join", "split"})]
    elif "join" in given and len(rule.headers) < 2:
        found.append(("join", "stands between several columns, and from names one; take it out"))
    men = [role.column for role in ROLES.get(table, ())]
    if rule.team is not None and column == "game" and rule.date is None:
        found.append(("team", "helps only to find the game of a day; take it out, or say by date how days are written"))
    elif rule.team is not None and column not in ("game", *men):
        found.append(("team", f"belongs to {listed(['game', *men])} alone; take it out"))
    return [((key,), text) for key, text in found]


def _word_problems(
    column: str, rule: ColumnRule, check: FieldCheck, context: Mapping[str, Names]
) -> list[tuple[tuple[str | int, ...], str]]:
    """Which words written in the map the reader would refuse."""
    found: list[tuple[tuple[str | int, ...], str]] = []
    if rule.constant is not None and rule.date is None and (why := _wrong(column, check, rule.constant, context)):
        found.append((("constant",), why))
    for word, ours in rule.values.items():
        if rule.bases == "columns":
            found += [(("values", word), f"{quoted(ours)} is no word for a base; write x or -")] * (not _is_sign(ours))
        elif rule.date is None and rule.unit is None and (why := _wrong(column, check, ours, context)):
            found.append((("values", word), why))
    return found


def _is_sign(text: str) -> bool:
    try:
        is_runner(text)
    except CellError:
        return False
    return True


def _wrong(column: str, check: FieldCheck, text: str, context: Mapping[str, Any]) -> str:
    """What the reader would say of a text in this column; nothing where only the project could tell."""
    if column in OPEN_WORDS and OPEN_WORDS[column] not in context:
        return ""
    _, wrong = check.values([text.strip()], context)
    return wrong.get(0, "")
