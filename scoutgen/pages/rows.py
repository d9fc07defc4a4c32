"""A measure's table as plain rows: what pages and facts are made of, without pandas' price for every small slice."""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, TypeAlias

import numpy as np
import pandas as pd

Row: TypeAlias = Mapping[str, Any]
Rows: TypeAlias = Sequence[Row]


class Table:
    """A measure's rows by team and player, made into dictionaries man by man, as they are asked for.

    Args:
        frame: with `team` and perhaps `player`; rows without a player are under None.
    """

    def __init__(self, frame: pd.DataFrame) -> None:
        self._columns = {str(name): plain_column(frame[name]) for name in frame}
        self._runs = _runs(frame)
        self._rows: dict[tuple[str, str | None], Rows] = {}

    def of(self, team: str, player: str | None) -> Rows:
        """One man's rows, in the order of the measure."""
        rows = self._rows.get((team, player))
        if rows is None:
            runs = self._runs.get(team, {}).get(player, ())
            rows = self._rows[team, player] = [row for run in runs for row in self._rows_of(run)]
        return rows

    def of_team(self, team: str) -> Rows:
        """One team's rows, man by man."""
        return [row for player in self._runs.get(team, ()) for row in self.of(team, player)]

    def columns_of(self, team: str, player: str) -> dict[str, list[Any]]:
        """One man's rows as columns; empty where he has none."""
        runs = self._runs.get(team, {}).get(player)
        if not runs:
            return {}
        return {name: [value for run in runs for value in column[run]] for name, column in self._columns.items()}

    def _rows_of(self, run: slice) -> Iterator[dict[str, Any]]:
        cells = zip(*(column[run] for column in self._columns.values()), strict=True)
        return (dict(zip(self._columns, row, strict=True)) for row in cells)


def plain_rows(frame: pd.DataFrame) -> list[dict[str, Any]]:
    """Rows of a frame as dictionaries of text, int, float, bool and date; a missing value is None."""
    columns = {str(name): plain_column(frame[name]) for name in frame}
    return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]


def plain_column(column: "pd.Series[Any]") -> list[Any]:
    """A column's values as `plain_rows` has them."""
    if pd.api.types.is_datetime64_any_dtype(column):
        days = column.to_numpy().astype("datetime64[D]")
        return list(days.astype(object).tolist())
    if pd.api.types.is_float_dtype(column):
        numbers = column.to_numpy(dtype=float, na_value=math.nan)
        missing = np.isnan(numbers)
        return _with_gaps(numbers.tolist(), missing)
    return _with_gaps(column.astype(object).tolist(), column.isna().to_numpy(bool))


def _with_gaps(values: list[Any], missing: "np.ndarray[Any, np.dtype[np.bool_]]") -> list[Any]:
    for place in np.flatnonzero(missing).tolist():
        values[place] = None
    return values


def _runs(frame: pd.DataFrame) -> dict[str, dict[str | None, list[slice]]]:
    """Where each man's rows stand, by team and player in the order of their first rows."""
    keys = [frame[name] for name in ("team", "player") if name in frame]
    changes = np.zeros(len(frame), bool)
    changes[:1] = True
    for key in keys:
        codes = pd.factorize(key)[0]
        changes[1:] |= codes[1:] != codes[:-1]
    starts = np.flatnonzero(changes).tolist()
    found: dict[str, dict[str | None, list[slice]]] = {}
    heads = [plain_column(key.iloc[starts]) for key in keys]
    players = heads[1] if len(heads) > 1 else [None] * len(starts)
    for team, player, start, stop in zip(heads[0], players, starts, [*starts[1:], len(frame)], strict=False):
        found.setdefault(team, {}).setdefault(player, []).append(slice(start, stop))
    return found
