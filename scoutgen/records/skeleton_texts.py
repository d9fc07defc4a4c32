"""The texts of new files: skeletons filled in, and the headers and lines of tables."""

import csv
import io
import textwrap
from collections.abc import Iterable, Mapping
from importlib import resources
from string import Template

from pydantic import BaseModel

from scoutgen.records.games import Game
from scoutgen.records.habits import HabitLook
from scoutgen.records.holds import Hold
from scoutgen.records.pitches import Pitch
from scoutgen.records.positions import FielderPosition
from scoutgen.records.schemas import schema_file
from scoutgen.records.throws import Throw
from scoutgen.records.times import TimeReading

SCHEMAS_FOLDER = "schemas"
TABLES: Mapping[str, type[BaseModel]] = {
    "games": Game,
    "pitches": Pitch,
    "times": TimeReading,
    "holds": Hold,
    "throws": Throw,
    "habits": HabitLook,
    "positions": FielderPosition,
}
# The other notation of the same thing; whoever charts by hand writes the simple one.
NOT_BY_HAND = frozenset({"speed_kph", "plate_x_ft", "plate_z_ft", "direction_deg"})


def header(table: str) -> list[str]:
    """The columns of a table that is charted by hand, in the order of the charting format."""
    return [name for name in TABLES[table].model_fields if name not in NOT_BY_HAND]


def line_end(text: str) -> str:
    """The line end that a table has."""
    return "\r\n" if "\r\n" in text else "\n"


def table_line(cells: Iterable[str], end: str = "\n") -> str:
    """A line of a table, with quotes where a cell needs them."""
    stream = io.StringIO(newline="")
    csv.writer(stream, lineterminator=end).writerow(cells)
    return stream.getvalue()


def schema_place(name: str, depth: int) -> str:
    """Where an editor finds the schema from a file that many folders down."""
    return f"{'../' * depth}{SCHEMAS_FOLDER}/{schema_file(name)}"


def filled(skeleton: str, **values: object) -> str:
    """A skeleton with what it leaves open."""
    text = (resources.files("scoutgen.records") / "skeletons" / skeleton).read_text(encoding="utf-8")
    return Template(text).substitute({name: str(value) for name, value in values.items()})


def commented(words: Iterable[str]) -> str:
    """A list of words that goes on over comment lines."""
    return "\n# ".join(textwrap.wrap(f"{', '.join(words)}.", width=112, break_on_hyphens=False))
