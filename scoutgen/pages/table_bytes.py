"""Measures' tables as bytes and back, the same to the last bit, so that they can be kept between builds.

A line of JSON says of every column what it is; its numbers follow as numpy has them in memory.
Reading it can do nothing but make tables: nothing in it is run.
"""

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Final, Protocol, TypeVar

import numpy as np
import pandas as pd
from numpy.typing import NDArray

#: Columns of whole numbers and of yes and no that may be missing: what pandas makes them of.
_MASKED: Final[Mapping[str, Any]] = {
    **{f"{sign}Int{bits}": pd.arrays.IntegerArray for sign in ("", "U") for bits in (8, 16, 32, 64)},
    "boolean": pd.arrays.BooleanArray,
}
#: What may stand in a column of no kind of its own.
_PLAIN: Final = (str, int, float, bool, type(None))
_Part = NDArray[Any]
_T = TypeVar("_T")


class OnDemand(Mapping[str, _T]):
    """Things by name, each made when it is first asked for.

    Args:
        names: of all there are.
        make: makes one.
    """

    def __init__(self, names: Iterable[str], make: Callable[[str], _T]) -> None:
        self._made: dict[str, _T | None] = dict.fromkeys(names)
        self._make = make

    def __getitem__(self, name: str) -> _T:
        """One of them."""
        made = self._made[name]
        if made is None:
            made = self._made[name] = self._make(name)
        return made

    def __iter__(self) -> Iterator[str]:
        """Their names."""
        return iter(self._made)

    def __len__(self) -> int:
        """How many there are."""
        return len(self._made)


class TableShelf(Protocol):
    """Where tables are kept between builds, by a name that says all that they come from."""

    def get(self, name: str) -> bytes | None:
        """What is kept under a name; None where there is nothing whole."""

    def put(self, name: str, content: bytes) -> None:
        """Keep something; where that cannot be, it is made again next time."""

    def holds(self, name: str) -> bool:
        """Whether something is kept under a name, whole or not; it goes on being kept."""


def to_bytes(tables: Mapping[str, pd.DataFrame]) -> bytes:
    """Tables with a plain index, by name.

    Raises:
        TypeError: a column is of a kind that is not known here.
    """
    head, whole, at = {}, [], 0
    for name, frame in tables.items():
        parts: list[_Part] = []
        columns = [[str(column), _told(frame[column], parts)] for column in frame]
        head[name] = {"rows": len(frame), "at": at, "columns": columns}
        whole += [np.ascontiguousarray(part).tobytes() for part in parts]
        at += sum(part.nbytes for part in parts)
    return b"\n".join([json.dumps(head).encode(), b"".join(whole)])


def from_bytes(content: bytes) -> Mapping[str, pd.DataFrame]:
    """The other way round, each table when it is asked for; `content` as `to_bytes` wrote it."""
    line, _, rest = content.partition(b"\n")
    head = json.loads(line)

    def frame(name: str) -> pd.DataFrame:
        rows, reader = head[name]["rows"], _Reader(rest, head[name]["at"])
        columns = {column: reader.column(told, rows) for column, told in head[name]["columns"]}
        return pd.DataFrame(columns, index=pd.RangeIndex(rows))

    return OnDemand(head, frame)


def _told(column: "pd.Series[Any] | pd.Index[Any]", parts: list[_Part]) -> dict[str, Any]:
    """What a column is; its parts go to `parts`."""
    kind = column.dtype
    if isinstance(kind, pd.CategoricalDtype):
        values: Any = column.array
        parts.append(values.codes)
        told = {"of": "words", "codes": values.codes.dtype.str, "ordered": bool(kind.ordered)}
        return {**told, "categories": _told(kind.categories, parts), "number": len(kind.categories)}
    if kind.name in _MASKED:
        data = column.to_numpy(dtype=kind.numpy_dtype, na_value=0)  # type: ignore[union-attr]  # pandas' own of these
        parts.extend([data, column.isna().to_numpy()])
        return {"of": "masked", "kind": kind.name, "data": data.dtype.str}
    if isinstance(kind, pd.StringDtype):
        codes, texts = pd.factorize(column)
        parts.append(codes)
        return {"of": "text", "codes": codes.dtype.str, "texts": list(map(str, texts))}
    if isinstance(kind, np.dtype) and kind.kind in "biufM":
        parts.append(column.to_numpy())
        return {"of": "numbers", "kind": kind.str}
    values = column.tolist()
    # Columns of tables without rows are of no kind of their own.
    if isinstance(kind, np.dtype) and kind.kind == "O" and all(type(value) in _PLAIN for value in values):
        return {"of": "anything", "values": values}
    raise TypeError(f"{column.name}: {kind} is no kind of column that can be kept")


class _Reader:
    def __init__(self, content: bytes, start: int) -> None:
        self._content, self._at = content, start

    def column(self, told: Mapping[str, Any], rows: int) -> Any:  # noqa: ANN401 - one of pandas' arrays
        match told["of"]:
            case "numbers":
                return self._part(told["kind"], rows)
            case "masked":
                data, mask = self._part(told["data"], rows), self._part("|b1", rows)
                return _MASKED[told["kind"]](data, mask)
            case "anything":
                return pd.Series(told["values"], dtype="object").array
            case "text":
                texts = pd.array(told["texts"], dtype="str")
                return texts.take(self._part(told["codes"], rows), allow_fill=True)
            case _:
                codes = self._part(told["codes"], rows)
                categories = pd.Index(self.column(told["categories"], told["number"]))
                return pd.Categorical.from_codes(codes, categories=categories, ordered=told["ordered"])

    def _part(self, kind: str, rows: int) -> _Part:
        part = np.frombuffer(self._content, dtype=kind, count=rows, offset=self._at).copy()
        self._at += part.nbytes
        return part
