"""A measure's table as plain rows: what pages and facts are made of, without pandas' price for every small slice."""

import math
from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias

import pandas as pd

Row: TypeAlias = Mapping[str, Any]
Rows: TypeAlias = Sequence[Row]


def plain_rows(frame: pd.DataFrame) -> list[dict[str, Any]]:
    """Rows of a frame as dictionaries of text, int, float, bool and date; a missing value is None."""
    columns = [str(name) for name in frame]
    values = [_plain(frame[name]) for name in frame]
    return [dict(zip(columns, row, strict=True)) for row in zip(*values, strict=True)]


def _plain(column: pd.Series) -> list[Any]:
    if pd.api.types.is_datetime64_any_dtype(column):
        return [None if missing else day for day, missing in zip(column.dt.date, column.isna(), strict=True)]
    if pd.api.types.is_float_dtype(column):
        numbers = column.to_numpy(dtype=float, na_value=math.nan).tolist()
        return [None if math.isnan(v) else v for v in numbers]
    values = column.astype(object)
    return [None if missing else value for value, missing in zip(values.tolist(), column.isna(), strict=True)]
