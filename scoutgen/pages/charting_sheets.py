"""Blank sheets to chart by hand: the columns of the charting format, and the words each of them allows.

Every column, limit and word is read off the records that will read the file, so that paper and file cannot differ.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from math import ceil, floor
from typing import Any

from scoutgen.records.games import Game
from scoutgen.records.habits import HabitLook
from scoutgen.records.holds import Hold
from scoutgen.records.pen_forms import pen_forms
from scoutgen.records.pitches import Pitch
from scoutgen.records.positions import FielderPosition
from scoutgen.records.season import Season
from scoutgen.records.throws import Throw
from scoutgen.records.times import LIMITS_SECONDS, TimeReading
from scoutgen.records.vocabulary import Row

# Left to whoever types the rows: links to film, and what is measured on a screen in place of what an eye can tell.
NOT_BY_HAND = ("game", "clip", "speed_kph", "plate_x_ft", "plate_z_ft", "direction_deg")
YES_NO = ("yes", "no")
# A pen needs 6 mm; site.css gives a row this much at least.
ROW_MM = 6.2
# What numbers stand for, where they are more than a count: told as docs/charting-format.md tells it.
_MEANINGS = {
    "lead": "runs of the pitching side minus the batting side",
    "height": "1 under the zone, 2-4 its thirds from the bottom, 5 over it",
    "side": "as the catcher sees it: 1 off the plate to his left, 2-4 its thirds, 5 off to his right",
}

# Letter paper without its margins, and what stands on it beside the rows; site.css has the same.
_TALL_MM, _WIDE_MM = 254.0, 190.5
_HEAD_MM, _HEADING_LINE_MM, _WORDS_LINE_MM = 19.5, 3.6, 3.45
# Characters of the list of words on one line, few enough that a wide one fits too.
_TALL_LINE, _WIDE_LINE = 115, 170
_QUESTION_LINE = 66
_FEWEST_ROWS = 10
# Letters of a heading's longest part that a narrow column holds.
_NARROW = 7


@dataclass(frozen=True)
class Word:
    """A word a column allows: what the pen writes, what the file has, and what else there is to say of it."""

    pen: str
    word: str
    told: str = ""


# Empty bases are a dash that can be seen; the format reads a blank the same.
NOBODY_ON = Word("-", "-", "empty")


@dataclass(frozen=True)
class Column:
    """One column of a sheet.

    Attributes:
        name: as the format has it.
        must: the file needs it in every row.
        words: the words it allows; empty where no list binds.
        limits: the smallest and the largest number, in words; empty where there is none.
        meaning: what its numbers stand for; empty where they say it themselves.
        asks: its words are questions, each of which stands on a line of its own.
    """

    name: str
    must: bool
    words: tuple[Word, ...] = ()
    limits: str = ""
    meaning: str = ""
    asks: bool = False

    @property
    def heading(self) -> str:
        """The name, which breaks between its parts, with the star of a column that must be filled."""
        return self.name.replace("_", " ") + ("*" if self.must else "")

    @property
    def blank_says_empty(self) -> bool:
        """A cell that is left blank says that nobody is on, and not that nobody looked."""
        return NOBODY_ON in self.words

    @property
    def narrow(self) -> bool:
        """A number or a word of a list needs less room than a name does."""
        return bool(self.words or self.limits) and max(map(len, self.name.split("_"))) <= _NARROW

    @property
    def size(self) -> int:
        """Characters it takes in the list of words, near enough."""
        said = sum(len(w.word) + len(w.told) + (len(w.pen) + 1 if w.pen != w.word else 0) + 2 for w in self.words)
        return len(self.name) + len(self.limits) + len(self.meaning) + said + 6


@dataclass(frozen=True)
class Sheet:
    """One sheet of paper: a table of the format with as many rows as fit under its head and its words."""

    table: str
    title: str
    wide: bool
    columns: tuple[Column, ...]
    rows: int


@dataclass(frozen=True)
class SheetsPage:
    """The sheets that are printed together.

    Attributes:
        sources: how a game may have been seen, one of which is marked in the head.
    """

    address: str
    title: str
    menu: tuple[str, ...]
    sheets: tuple[Sheet, ...]
    sources: tuple[str, ...]
    built: str
    as_of: date

    @property
    def wide(self) -> bool:
        """Printed across."""
        return any(sheet.wide for sheet in self.sheets)


_PAGES: tuple[tuple[str, str, tuple[tuple[str, str, type[Row]], ...]], ...] = (
    ("pitches", "Pitches", (("pitches", "Pitches", Pitch),)),
    ("times", "Times", (("times", "Times", TimeReading), ("throws", "Catcher's throws", Throw))),
    (
        "looks",
        "Looks and habits",
        (
            ("holds", "Looks and holds", Hold),
            ("habits", "Habits", HabitLook),
            ("positions", "Where they stood", FielderPosition),
        ),
    ),
)
# Portrait paper holds no more columns than this.
_MOST_TALL = 16


def charting_sheets(season: Season, *, built: str) -> tuple[SheetsPage, ...]:
    """The pages of blank sheets, with this program's pitches and habits.

    Args:
        season: for the names of pitches and the habits charted.
        built: when, in words.
    """
    own = {"pitch": _pitches(season), "habit": _habits(season), "measure": _measures()}
    seen = _column("source", Game.model_json_schema()["properties"]["source"], must=True)
    return tuple(
        SheetsPage(
            address=f"charting/{name}",
            title=f"Charting sheet{'s' if len(tables) > 1 else ''}: {title.lower()}",
            menu=("Charting sheets", title),
            sheets=tuple(_sheet(table, heading, record, own) for table, heading, record in tables),
            sources=tuple(word.word for word in seen.words),
            built=built,
            as_of=season.as_of,
        )
        for name, title, tables in _PAGES
    )


def _sheet(table: str, title: str, record: type[Row], own: Mapping[str, tuple[Word, ...]]) -> Sheet:
    properties = record.model_json_schema()["properties"]
    columns = tuple(
        _column(name, properties[name], own.get(name, ()), must=field.is_required())
        for name, field in record.model_fields.items()
        if name not in NOT_BY_HAND
    )
    wide = len(columns) > _MOST_TALL
    return Sheet(table, title, wide, columns, _rows(columns, wide=wide))


def _column(name: str, schema: dict[str, Any], own: tuple[Word, ...] = (), *, must: bool) -> Column:
    """One column from its JSON Schema, the blank that is always allowed taken out."""
    (said,) = [one for one in schema.get("anyOf", [schema]) if one.get("type") != "null"]
    words, limits = own, ""
    if "enum" in said and not own:
        words = tuple(Word(pen, word) if word else NOBODY_ON for word, pen in pen_forms(said["enum"]).items())
    elif said.get("type") == "boolean":
        words = tuple(Word(word, word) for word in YES_NO)
    elif "maximum" in said:
        limits = f"{said['minimum']:g} to {said['maximum']:g}"
    elif said.get("type") == "number":
        limits = "seconds as the measure allows"
    return Column(name, must, words, limits, _MEANINGS.get(name, ""), asks=name == "habit")


def _pitches(season: Season) -> tuple[Word, ...]:
    """Every pitch by its first short form, or as it is; both may stand in the file."""
    return tuple(Word(forms[0] if forms else name, name) for name, forms in season.program.pitch_names().items())


def _habits(season: Season) -> tuple[Word, ...]:
    """Every habit by its pen form, with what is asked and of whom."""
    forms = pen_forms(season.habit_kinds)
    return tuple(
        Word(forms[key], key, f"{kind.question} ({', '.join(map(str, kind.positions))})")
        for key, kind in season.habit_kinds.items()
    )


def _measures() -> tuple[Word, ...]:
    """Every measure with the seconds it can have."""
    forms = pen_forms(LIMITS_SECONDS)
    return tuple(Word(forms[name], name, f"{low:g} to {high:g}") for name, (low, high) in LIMITS_SECONDS.items())


def _rows(columns: Collection[Column], *, wide: bool) -> int:
    """As many rows as surely fit; the sheet stretches them over what is left."""
    line = _WIDE_LINE if wide else _TALL_LINE
    # Columns follow one another; a question starts a line of its own, in two columns of lines.
    told = ceil(sum(c.size for c in columns if not c.asks) / line)
    questions = [w for c in columns if c.asks for w in c.words]
    asked = sum(ceil((len(w.pen) + len(w.word) + len(w.told) + 3) / _QUESTION_LINE) for w in questions)
    words_mm = (told + ceil(asked / 2) + 2) * _WORDS_LINE_MM
    headings_mm = max(len(c.name.split("_")) for c in columns) * _HEADING_LINE_MM
    room = (_WIDE_MM if wide else _TALL_MM) - _HEAD_MM - headings_mm - words_mm
    return max(floor(room / ROW_MM), _FEWEST_ROWS)
