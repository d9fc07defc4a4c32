"""A measure's table as plain rows: what pages and facts are made of, without pandas' price for every small slice."""

import math
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from typing import Any, Protocol, TypeAlias

import numpy as np
import pandas as pd
from numpy.typing import NDArray

Row: TypeAlias = Mapping[str, Any]
Rows: TypeAlias = Sequence[Row]
# Where one man's rows stand: runs of rows, by player in the order of their first rows.
_Places: TypeAlias = dict[str | None, list[slice]]


class ByTeam(Protocol):
    """A measure's rows by team and player; rows without a player are under None."""

    @property
    def columns(self) -> list[str]:
        """Their names, with the kind of each."""

    def of(self, team: str, player: str | None) -> Rows:
        """One man's rows, in the order of the measure."""

    def of_team(self, team: str) -> Rows:
        """One team's rows, man by man."""

    def columns_of(self, team: str, player: str) -> dict[str, list[Any]]:
        """One man's rows as columns; empty where he has none."""

    def digest(self, team: str) -> bytes:
        """What says whether the table says the same of a team as another one."""

    def part(self, team: str) -> "ByTeam":
        """What the table says of one team, and nothing of any other."""


class Table:
    """A measure's rows by team and player, made into dictionaries as they are asked for.

    Args:
        frame: with `team` and perhaps `player`; rows without a player are under None.
    """

    def __init__(self, frame: pd.DataFrame) -> None:
        #: As the measure made it.
        self.frame = frame
        self._places = _places(frame)
        self._teams: dict[str, _TeamRows] = {}

    @property
    def columns(self) -> list[str]:
        """Their names, with the kind of each."""
        return [f"{name} {kind}" for name, kind in self.frame.dtypes.items()]

    def of(self, team: str, player: str | None) -> Rows:
        """One man's rows, in the order of the measure."""
        return self._team(team).of(player)

    def of_team(self, team: str) -> Rows:
        """One team's rows, man by man."""
        rows = self._team(team)
        return [row for player in rows.places for row in rows.of(player)]

    def columns_of(self, team: str, player: str) -> dict[str, list[Any]]:
        """One man's rows as columns; empty where he has none."""
        return self._team(team).columns_of(player)

    def digest(self, team: str) -> bytes:
        """A hash of everything that the table says of a team."""
        places = [place for places in self._places.get(team, {}).values() for place in places]
        return b"".join(self._hashes[place].tobytes() for place in places)

    def part(self, team: str) -> "Table":
        """What the table says of one team, and nothing of any other."""
        alone = object.__new__(Table)
        alone.frame, alone._teams = self.frame.iloc[:0], {team: self._team(team)}
        alone._places = {team: self._places[team]} if team in self._places else {}
        return alone

    def _team(self, team: str) -> "_TeamRows":
        if team not in self._teams:
            self._teams[team] = _TeamRows(self._cells, self._places.get(team, {}))
        return self._teams[team]

    @cached_property
    def _cells(self) -> dict[str, "_Cells"]:
        """Column by column, ready to be made plain for one team after another."""
        return {str(name): _Cells(self.frame[name]) for name in self.frame}

    @cached_property
    def _hashes(self) -> NDArray[np.uint64]:
        """One hash a row."""
        return np.asarray(pd.util.hash_pandas_object(self.frame, index=False), dtype=np.uint64)


class _TeamRows:
    """One team's rows of a table; `places` are those of its men among them."""

    def __init__(self, columns: Mapping[str, "_Cells"], places: _Places) -> None:
        runs = [np.arange(run.start, run.stop) for some in places.values() for run in some]
        rows = np.concatenate(runs) if runs else np.arange(0)
        self._columns = {name: cells.plain(rows) for name, cells in columns.items()}
        self._rows: dict[str | None, Rows] = {}
        self.places: dict[str | None, slice] = {}
        at = 0
        for player, some in places.items():
            size = sum(run.stop - run.start for run in some)
            self.places[player] = slice(at, at + size)
            at += size

    def of(self, player: str | None) -> Rows:
        if player not in self._rows:
            place = self.places.get(player)
            self._rows[player] = [] if place is None else list(self._rows_of(place))
        return self._rows[player]

    def columns_of(self, player: str) -> dict[str, list[Any]]:
        place = self.places.get(player)
        return {} if place is None else {name: column[place] for name, column in self._columns.items()}

    def _rows_of(self, place: slice) -> Iterator[dict[str, Any]]:
        cells = zip(*(column[place] for column in self._columns.values()), strict=True)
        return (dict(zip(self._columns, row, strict=True)) for row in cells)


def plain_rows(frame: pd.DataFrame) -> list[dict[str, Any]]:
    """Rows of a frame as dictionaries of text, int, float, bool and date; a missing value is None."""
    columns = {str(name): plain_column(frame[name]) for name in frame}
    return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]


def plain_column(column: "pd.Series[Any]") -> list[Any]:
    """A column's values as `plain_rows` has them."""
    return _Cells(column).plain(np.arange(len(column)))


class _Cells:
    """A column on its way to plain values: pandas is asked once for all of it, not for every man."""

    def __init__(self, column: "pd.Series[Any]") -> None:
        self._missing: NDArray[np.bool_] | None = None
        self._values: NDArray[Any]
        if pd.api.types.is_datetime64_any_dtype(column):
            # Of days numpy itself makes dates, and None of no day.
            self._values = column.to_numpy().astype("datetime64[D]")
        elif pd.api.types.is_float_dtype(column):
            self._values = column.to_numpy(dtype=float, na_value=math.nan)
            self._missing = np.isnan(self._values)
        else:
            self._values = column.astype(object).to_numpy()
            self._missing = column.isna().to_numpy(bool)

    def plain(self, rows: NDArray[np.intp]) -> list[Any]:
        """The values in some rows."""
        values: list[Any] = self._values[rows].tolist()
        if self._missing is not None:
            for place in np.flatnonzero(self._missing[rows]).tolist():
                values[place] = None
        return values


def _places(frame: pd.DataFrame) -> dict[str, _Places]:
    """Where each man's rows stand, by team and player in the order of their first rows."""
    keys = [frame[name] for name in ("team", "player") if name in frame]
    changes = np.zeros(len(frame), bool)
    changes[:1] = True
    for key in keys:
        codes = pd.factorize(key)[0]
        changes[1:] |= codes[1:] != codes[:-1]
    starts = np.flatnonzero(changes).tolist()
    found: dict[str, _Places] = {}
    heads = [plain_column(key.iloc[starts]) for key in keys]
    players = heads[1] if len(heads) > 1 else [None] * len(starts)
    for team, player, start, stop in zip(heads[0], players, starts, [*starts[1:], len(frame)], strict=False):
        found.setdefault(team, {}).setdefault(player, []).append(slice(start, stop))
    return found
