"""The charts as files: one a table and game, with the columns its charter filled."""

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Sequence

from league.charting import Row, hold_rows, pitch_rows, throw_rows, time_rows
from league.log import GameLog
from league.looking import habit_rows, position_rows
from league.season import Fixture

COLUMNS: dict[str, tuple[str, ...]] = {
    "games": ("game", "date", "away", "home", "source", "charted_by", "clip", "note"),
    "pitches": (
        "game", "inning", "half", "outs", "bases", "lead", "pitcher", "batter", "catcher", "bats", "balls",
        "strikes", "pitch", "speed_mph", "speed_kph", "height", "side", "plate_x_ft", "plate_z_ft", "result", "play",
        "contact", "direction_deg", "field", "distance_ft", "fielder", "clip", "note",
    ),
    "times": (
        "game", "inning", "player", "measure", "style", "bases", "outs", "balls", "strikes", "bats", "seconds",
        "method", "warmup", "clip", "note",
    ),
    "holds": (
        "game", "inning", "pitcher", "bases", "balls", "strikes", "looks", "hold_seconds", "then", "style", "clip",
        "note",
    ),
    "throws": (
        "game", "inning", "catcher", "pitcher", "runner", "to", "pop_seconds", "exchange_seconds", "method", "accuracy",
        "result", "warmup", "clip", "note",
    ),
    "habits": (
        "game", "inning", "team", "player", "position", "habit", "bases", "bats", "outs", "seen", "feet", "clip",
        "note",
    ),
    "positions": (
        "game", "inning", "team", "position", "player", "bats", "bases", "outs", "strikes", "depth_ft", "off_bag_ft",
        "toward", "note",
    ),
}  # fmt: skip

#: Table, its letter in a fixture's plan, and what makes its rows.
_TABLES: tuple[tuple[str, str, Callable[[Fixture, GameLog], Iterator[Row]]], ...] = (
    ("pitches", "", pitch_rows),
    ("times", "t", time_rows),
    ("holds", "h", hold_rows),
    ("throws", "c", throw_rows),
    ("habits", "b", habit_rows),
    ("positions", "p", position_rows),
)

#: Tables in which two rows alike look like a slip of the charter.
_TYPED_ONCE = frozenset({"times", "holds", "throws"})


def _apart(rows: Iterable[Row]) -> list[Row]:
    """The rows, with a note in each that says the same as one before it: it was seen again, not typed twice."""
    before: set[tuple[tuple[str, str], ...]] = set()
    kept = []
    for row in rows:
        same = tuple(row.items())
        kept.append(row | {"note": "again"} if same in before else row)
        before.add(same)
    return kept


def as_csv(table: str, rows: Sequence[Row]) -> str:
    """RFC 4180 text with the columns of the table that any row fills."""
    used = [column for column in COLUMNS[table] if any(row.get(column) for row in rows)]
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(used)
    writer.writerows([row.get(column, "") for column in used] for row in rows)
    return out.getvalue()


def game_files(played: Sequence[tuple[Fixture, GameLog]]) -> dict[str, str]:
    """Text by path under data/, for every table of every game."""
    files = {"games.csv": as_csv("games", [_game(fixture) for fixture, _ in played])}
    for fixture, log in played:
        for table, letter, rows_of in _TABLES:
            if letter in fixture.tables:
                rows = _apart(rows_of(fixture, log)) if table in _TYPED_ONCE else list(rows_of(fixture, log))
                if rows:
                    files[f"{table}/{fixture.game.removeprefix('g')}.csv"] = as_csv(table, rows)
    return files


def _game(fixture: Fixture) -> Row:
    return {
        "game": fixture.game,
        "date": fixture.day.isoformat(),
        "away": fixture.away,
        "home": fixture.home,
        "source": fixture.source,
        "charted_by": fixture.charted_by,
        "clip": f"{fixture.game}.mp4" if fixture.source == "video" else "",
        "note": fixture.note,
    }
