"""Does a written cell say what its field allows, and if not, what should it say?

A record declares its fields once, as a pydantic model; this module reads that declaration for tables. Every *different*
text of a column is checked once, however many rows hold it, so that a million rows cost little more than a thousand.
"""

import difflib
import functools
import re
import types
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from scoutgen.records.pen_forms import short_forms

LONGEST_ECHO = 40
BLOCK = 5_000

Kind = Literal["text", "whole", "number", "yes_no", "date"]


def quoted(text: object) -> str:
    """A cell as a message shows it: at most 40 characters, nothing in it that moves a cursor."""
    whole = str(text)
    start = whole[:LONGEST_ECHO]
    safe = "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in start)
    return f'"{safe}…"' if len(whole) > LONGEST_ECHO else f'"{safe}"'


def listed(names: Iterable[str], last: str = "or") -> str:
    """Names in a row as one says them: `a, b or c`."""
    row = list(names)
    return f"{', '.join(row[:-1])} {last} {row[-1]}" if len(row) > 1 else "".join(row)


def nearest(word: str, names: Iterable[str], most: int = 1, cutoff: float = 0.6) -> list[str]:
    """The names a word was probably meant to be, best first; capitals do not count."""
    by_folded: dict[str, str] = {}
    for name in names:
        by_folded.setdefault(name.casefold(), name)
    close = difflib.get_close_matches(word[:80].casefold(), list(by_folded), n=most, cutoff=cutoff)
    return [by_folded[name] for name in close]


def did_you_mean(word: str, names: Iterable[str]) -> str:
    """`; did you mean "x"?` or nothing."""
    close = nearest(word, names)
    return f"; did you mean {quoted(close[0])}?" if close else ""


def whole_hint(text: str) -> str:
    """`; write 1 or 2` for a number with decimals where a whole one is meant, or nothing; 1,5 is such a number."""
    found = re.fullmatch(r"([+-]?)(\d{1,9})[.,](\d{0,9})", text, re.ASCII)
    if not found:
        return ""
    if re.fullmatch(r"[+-]?\d{1,3},\d{3}", text, re.ASCII):
        return f"; write {text.replace(',', '')}"
    sign, whole = found[1].removeprefix("+"), int(found[2])
    if not found[3].strip("0"):
        return f"; write {sign}{whole}"
    near = [f"{sign}{whole}" if whole else "0", f"{sign}{whole + 1}"]
    return f"; write {listed(reversed(near) if sign else near)}"


@dataclass(frozen=True)
class FieldCheck:
    """One column's rules, read off its declaration.

    Attributes:
        name: the column.
        kind: which sort of column the frame gets.
        required: must stand in every header.
        filled: must be filled in every row.
        allowed: the closed vocabulary, if it has one.
        short: what a short form of its words may mean, in small letters.
        low: the least number.
        high: the greatest number.
        longest: the most characters.
        blank_counts: a blank cell is a value of its own (empty bases), not a gap.
        adapter: checks a list of texts at once.
    """

    name: str
    kind: Kind
    required: bool
    filled: bool
    allowed: tuple[str, ...]
    short: Mapping[str, tuple[str, ...]]
    low: float | None
    high: float | None
    longest: int | None
    blank_counts: bool
    adapter: TypeAdapter[list[Any]]

    def values(self, texts: Sequence[str], context: Mapping[str, Any]) -> tuple[list[Any], dict[int, str]]:
        """Read every text.

        Args:
            texts: different texts of one column, stripped; a blank is read as missing unless `blank_counts`.
            context: vocabularies that a project adds to, by name.

        Returns:
            The values, None where missing or wrong; and what is wrong, by position.
        """
        texts = [self._written_out(text) for text in texts]
        out: list[Any] = [None] * len(texts)
        wrong: dict[int, str] = {}
        filled = [i for i, text in enumerate(texts) if text or self.blank_counts]
        for start in range(0, len(filled), BLOCK):
            places = filled[start : start + BLOCK]
            try:
                found = self.adapter.validate_python([texts[i] for i in places], context=dict(context))
            except ValidationError as error:
                for detail in error.errors(include_url=False):
                    place = places[int(detail["loc"][0])]
                    wrong.setdefault(place, self.explain(detail, texts[place]))
                places = [i for i in places if i not in wrong]
                found = self.adapter.validate_python([texts[i] for i in places], context=dict(context))
            for place, value in zip(places, found, strict=True):
                out[place] = value
        return out, wrong

    @property
    def in_full(self) -> "FieldCheck":
        """The same where no short form counts, as in a sheet of somebody else, whose P may be anything."""
        return replace(self, short={})

    def _written_out(self, text: str) -> str:
        meant = self.short.get(text.casefold(), ())
        return meant[0] if len(meant) == 1 else text

    def explain(self, error: ErrorDetails, text: str) -> str:
        """One pydantic error in words: what is wrong, what is allowed, what to do."""
        kind = error["type"]
        blank = "" if self.required else "; leave the cell blank if it was not charted"
        if len(meant := self.short.get(text.casefold(), ())) > 1:
            return f"{quoted(text)} may be {listed(meant)}; write it out"
        if kind == "literal_error":
            close = did_you_mean(text, self.allowed)
            write = listed(word or "nothing" for word in self.allowed)
            return (
                f"{quoted(text)} is not allowed{close} Write {write}"
                if close
                else f"{quoted(text)} is not allowed; write {write}"
            )
        if kind in ("greater_than_equal", "less_than_equal"):
            side = "small" if kind == "greater_than_equal" else "large"
            return f"{quoted(text)} is too {side}; allowed are {self.low:g} to {self.high:g}{blank}"
        if kind == "string_too_long":
            return f"{quoted(text)} is {len(text):,} characters long; at most {self.longest:,} are read; shorten it"
        return error["msg"]

    def when_blank(self) -> str:
        """What to say of a required cell that is blank."""
        if self.allowed:
            return f"is blank and must be filled in; write {listed(self.allowed)}"
        span = f" ({self.low:g} to {self.high:g})" if self.low is not None and self.high is not None else ""
        return f"is blank and must be filled in{span}"


@functools.cache
def field_checks(model: type[BaseModel]) -> dict[str, FieldCheck]:
    """The rules of every column a record declares, in its order."""
    return {name: _check_of(name, field) for name, field in model.model_fields.items()}


def _check_of(name: str, field: FieldInfo) -> FieldCheck:
    whole_type: Any = field.annotation
    for note in field.metadata:
        whole_type = Annotated[whole_type, note]
    schema = TypeAdapter(whole_type).json_schema()
    facts = _facts(schema)
    allowed = tuple(map(str, facts.get("enum", [facts["const"]] if "const" in facts else [])))
    return FieldCheck(
        name=name,
        kind=_kind(whole_type),
        required=field.is_required(),
        filled=field.is_required() and "anyOf" not in schema,
        allowed=allowed,
        short=short_forms(word for word in allowed if word),
        low=facts.get("minimum"),
        high=facts.get("maximum"),
        longest=facts.get("maxLength"),
        blank_counts="" in allowed,
        adapter=TypeAdapter(list[whole_type]),
    )


def _facts(schema: dict[str, Any]) -> dict[str, Any]:
    """Limits and vocabulary of a field, whether it may be missing or not."""
    for choice in schema.get("anyOf", []):
        if choice.get("type") != "null":
            return {**schema, **choice}
    return schema


def _kind(annotation: Any) -> Kind:  # noqa: ANN401 - any annotation of a model's field
    """The sort of column a type asks for."""
    if get_origin(annotation) in (Annotated, Union, types.UnionType):
        inner = [part for part in get_args(annotation) if part is not type(None)]
        return _kind(inner[0])
    kinds: dict[Any, Kind] = {int: "whole", float: "number", bool: "yes_no", date: "date"}
    return kinds.get(annotation, "text")
