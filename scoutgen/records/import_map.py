"""Which column of somebody else's file becomes which column of ours, as a map in YAML says it?"""

from collections.abc import Mapping
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema

from scoutgen.records import games, habits, holds, pitches, positions, throws, times
from scoutgen.records.check import field_checks
from scoutgen.records.fields import AS_WHOLE, Key, Record, between
from scoutgen.records.import_cells import DateForm, Unit

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
# Columns of free text.
NOTES = frozenset({"clip", "note", "charted_by"})
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


AS_RULE = BeforeValidator(_rule, json_schema_input_type=ColumnRule | tuple[Text, ...] | Text)


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
    columns: dict[Text, Annotated[ColumnRule, AS_RULE]] = Field(
        description="Our column: their header, or a block that says how."
    )
