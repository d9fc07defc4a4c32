"""Measures' tables as bytes and back, the same to the last bit, so that they can be kept between builds.

A line of JSON says of every column what it is; its numbers follow as numpy has them in memory.
Reading it can do nothing but make tables: nothing in it is run.
"""

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
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

    def share(self, names: Iterable[str]) -> None:
        """Let what is kept under these names go with a part of the site."""


def to_bytes(tables: Mapping[str, pd.DataFrame]) -> bytes:
    """Tables with a plain index, by name.

    Raises:
        TypeError: a column is of a kind that is not known here.
    """
    return _joined({name: _columns(frame) for name, frame in tables.items()})


def to_bytes_by_team(tables: Mapping[str, pd.DataFrame], teams: Iterable[str]) -> Iterator[tuple[str, bytes]]:
    """The rows of each team alone, as `to_bytes` would write them if no others had ever been there.

    Columns of a table without rows of a team are of no kind.

    Args:
        tables: by name, each with `team`.
        teams: whose rows are wanted.

    Raises:
        TypeError: as there.
    """
    whole = {name: _columns(frame) for name, frame in tables.items()}
    places = {name: _places(frame) for name, frame in tables.items()}

    def taken(name: str, team: str) -> dict[str, _Column]:
        rows = places[name].get(team)
        # A measure without rows may not know of what kind its columns are.
        return {of: _NOTHING if rows is None else column.taken(rows) for of, column in whole[name].items()}

    for team in teams:
        yield team, _joined({name: taken(name, team) for name in whole})


def _places(frame: pd.DataFrame) -> dict[str, NDArray[np.intp]]:
    """Where each team's rows are."""
    found: dict[str, NDArray[np.intp]] = dict(frame.groupby("team", observed=True, sort=False).indices)  # type: ignore[arg-type]  # keys are text
    return found


def from_bytes(content: bytes) -> Mapping[str, pd.DataFrame]:
    """The other way round, each table made when it is asked for.

    Raises:
        ValueError: it is nothing that `to_bytes` writes.
    """
    line, _, rest = content.partition(b"\n")
    try:
        head = json.loads(line)
        if not head:
            raise ValueError("no tables")
        for table in head.values():
            reader = _Reader(rest, table["at"])
            for _name, told in table["columns"]:
                reader.check(told, table["rows"])
    except (TypeError, KeyError, AttributeError, OverflowError, RecursionError) as wrong:
        raise ValueError(f"no tables: {wrong}") from wrong

    def frame(name: str) -> pd.DataFrame:
        rows, reader = head[name]["rows"], _Reader(rest, head[name]["at"])
        columns = {column: reader.column(told, rows) for column, told in head[name]["columns"]}
        return pd.DataFrame(columns, index=pd.RangeIndex(rows))

    return OnDemand(head, frame)


@dataclass(frozen=True)
class _Column:
    """A column as arrays of one element a row.

    Attributes:
        told: what it is.
        parts: its arrays; the first holds numbers of `words`, where there are some.
        words: what they stand for, -1 for nothing.
    """

    told: Mapping[str, Any]
    parts: tuple[_Part, ...]
    words: "pd.Index[Any] | None" = None

    def taken(self, rows: NDArray[np.intp]) -> "_Column":
        """Some of its rows, as if no others had ever been there."""
        parts = tuple(part[rows] for part in self.parts)
        if self.words is None:
            return replace(self, parts=parts)
        codes, held = parts[0], parts[0][parts[0] >= 0]
        # Words of a fixed set keep its order, texts have that of their first rows.
        used = pd.unique(held) if self.told["of"] == "text" else np.unique(held)
        new = np.full(len(self.words) + 1, -1, dtype=np.intp)
        new[used] = np.arange(len(used))
        words = self.words.take(used)
        renamed = new[codes]
        if self.told["of"] == "words":
            renamed = pd.Categorical.from_codes(renamed, categories=words).codes
        return replace(self, parts=(renamed,), words=words)

    def written(self, parts: list[_Part]) -> dict[str, Any]:
        """What stands of it in the head; its arrays go to `parts`."""
        if self.told["of"] == "anything":
            return {**self.told, "values": self.parts[0].tolist()}
        parts.extend(self.parts)
        if self.words is None:
            return dict(self.told)
        told = {**self.told, "codes": self.parts[0].dtype.str}
        if self.told["of"] == "text":
            return {**told, "texts": list(map(str, self.words))}
        return {**told, "categories": _column(self.words).written(parts), "number": len(self.words)}


_NOTHING: Final = _Column({"of": "anything"}, (np.empty(0, dtype=object),))


def _columns(frame: pd.DataFrame) -> dict[str, _Column]:
    return {str(name): _column(frame[name]) for name in frame}


def _joined(tables: Mapping[str, Mapping[str, _Column]]) -> bytes:
    head, whole, at = {}, [], 0
    for name, columns in tables.items():
        parts: list[_Part] = []
        told = [[of, column.written(parts)] for of, column in columns.items()]
        head[name] = {"rows": next((len(one.parts[0]) for one in columns.values()), 0), "at": at, "columns": told}
        whole += [np.ascontiguousarray(part).tobytes() for part in parts]
        at += sum(part.nbytes for part in parts)
    return b"\n".join([json.dumps(head).encode(), b"".join(whole)])


def _column(column: "pd.Series[Any] | pd.Index[Any]") -> _Column:
    kind = column.dtype
    if isinstance(kind, pd.CategoricalDtype):
        values: Any = column.array
        return _Column({"of": "words", "ordered": bool(kind.ordered)}, (values.codes,), kind.categories)
    if kind.name in _MASKED:
        data = column.to_numpy(dtype=kind.numpy_dtype, na_value=0)  # type: ignore[union-attr]  # pandas' own of these
        missing = np.asarray(column.isna())
        return _Column({"of": "masked", "kind": kind.name, "data": data.dtype.str}, (data, missing))
    if isinstance(kind, pd.StringDtype):
        codes, texts = pd.factorize(column)
        return _Column({"of": "text"}, (codes,), pd.Index(texts))
    if isinstance(kind, np.dtype) and kind.kind in "biufM":
        return _Column({"of": "numbers", "kind": kind.str}, (column.to_numpy(),))
    # Columns of tables without rows are of no kind of their own.
    if isinstance(kind, np.dtype) and kind.kind == "O" and all(type(value) in _PLAIN for value in column.tolist()):
        return _Column({"of": "anything"}, (column.to_numpy(),))
    raise TypeError(f"{column.name}: {kind} is no kind of column that can be kept")


class _Reader:
    def __init__(self, content: bytes, start: int) -> None:
        self._content, self._at = content, start

    def check(self, told: Mapping[str, Any], rows: int) -> None:
        """Pass a column by, of which `column` can make what it should.

        Raises:
            ValueError: it cannot; or whatever a head that is no head is good for.
        """
        match told["of"]:
            case "numbers":
                self._seen(told["kind"], rows, "biufM")
            case "masked":
                numbers = "bool" if told["kind"] == "boolean" else told["kind"].lower()
                if told["kind"] not in _MASKED or self._seen(told["data"], rows, "biu").dtype != np.dtype(numbers):
                    raise ValueError("numbers of another kind")
                self._seen("|b1", rows, "b")
            case "anything":
                if len(told["values"]) != rows or not all(type(value) in _PLAIN for value in told["values"]):
                    raise ValueError("values of another kind")
            case "text":
                self._check_codes(told["codes"], rows, len(told["texts"]))
                if not all(type(text) is str for text in told["texts"]):
                    raise ValueError("texts of another kind")
            case "words":
                self._check_codes(told["codes"], rows, told["number"])
                start = self._at
                self.check(told["categories"], told["number"])
                words = _Reader(self._content, start).column(told["categories"], told["number"])
                if not pd.Index(words).is_unique or type(told["ordered"]) is not bool:
                    raise ValueError("words that are none")
            case other:
                raise ValueError(f"{other!r} is no kind of column")

    def _check_codes(self, kind: str, rows: int, number: int) -> None:
        codes = self._seen(kind, rows, "i")
        if len(codes) and not -1 <= int(codes.min()) <= int(codes.max()) < number:
            raise ValueError("codes of nothing")

    def _seen(self, kind: str, rows: int, kinds: str) -> _Part:
        if np.dtype(kind).kind not in kinds or type(rows) is not int or rows < 0:
            raise ValueError(f"{rows!r} of {kind!r}")
        part = np.frombuffer(self._content, dtype=kind, count=rows, offset=self._at) if rows else np.empty(0, kind)
        self._at += part.nbytes
        return part

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
        return self._seen(kind, rows, "biufM").copy()
