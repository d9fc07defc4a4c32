"""Which texts, dates and numbers may stand in a record, each read from the text that was written?

A type here does three things at once: it reads the text, it refuses what is not meant with a plain sentence, and it
says in JSON Schema what an editor should accept. Editors parse YAML before they check it, so that a name may reach
them as a number (`class: 2027`): their half allows every form of what the reader accepts. Names, titles and keys go
into page titles, menus and addresses that the theme does not escape; hence their narrow alphabet.
"""

import re
import unicodedata
from collections.abc import Sequence
from datetime import date
from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema

from scoutgen.records.check import whole_hint
from scoutgen.records.sentences import said, shown

LONGEST_NAME = 80
LONGEST_KEY = 60
LONGEST_TEXT = 2_000

# Markup, template and table characters; control and invisible characters; an ampersand that could begin an entity
# (`A&M` and `A & M` stay fine).
_NOT_IN_NAMES = (
    r"<>\"\\`{}|\[\]\x00-\x1f\x7f-\x9f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\uffff\ud800-\udfff"
)
NAME_PATTERN = rf"^(?!.*&(?:#|[A-Za-z0-9]{{2}}))(?=.*[^\s.,'’\-])[^{_NOT_IN_NAMES}]+$"
KEY_PATTERN = r"^[a-z0-9][a-z0-9-]*$"
# Line breaks and tabs are a writer's own; what turns the reading direction around or shows nothing is not.
TEXT_PATTERN = r"^(?=[\s\S]*\S)[^\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff\ud800-\udfff]*$"
NUMBER_PATTERN = r"^-?(?:[0-9]{1,9}(?:\.[0-9]{1,9})?|\.[0-9]{1,9})$"
WHOLE_PATTERN = r"^-?[0-9]{1,9}$"
DATE_PATTERN = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
JERSEY_PATTERN = r"^[0-9]{1,2}$"
# One to four letters of any alphabet, each with or without a period; written by what it excludes, because editors'
# regular expressions know no classes of letters.
INITIALS_PATTERN = r"^(?:[^\x00-@\[-`{-\u00bf\u02b0-\u036f\u2000-\u2fff\ud800-\udfff\ufeff]\.?){1,4}$"
YES, NO = (
    ("yes", "Yes", "YES", "true", "True", "TRUE", "on", "On", "ON"),
    ("no", "No", "NO", "false", "False", "FALSE", "off", "Off", "OFF"),
)

# What an editor may have made of a text before it checks it.
_ANY_SCALAR = ("string", "number", "boolean")

Source: TypeAlias = Literal["video", "own_game", "same_site", "on_campus", "second_hand"]
Confidence: TypeAlias = Literal["sure", "likely", "hunch"]
Edition: TypeAlias = Literal["staff", "players", "recruiting"]


# A name inside a list written in one line, where a comma ends it.
WORD_IN_LINE = r"[^,<>\"\\`{}|\[\]]+"


class Record(BaseModel):
    """What one block of a YAML file holds: frozen, every key known, every value read from text."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_by_name=True, validate_by_alias=True)


def slug(text: str) -> str:
    """An ASCII key for a name: accents folded, everything else a hyphen; empty where nothing is left."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower().replace("'", "")
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_KEY].strip("-")


def why_not_a_name(text: str) -> str:
    """What keeps a text from being a name or title; empty where nothing does."""
    if not text.strip():
        return "is blank; fill it in or take it out"
    if len(text) > LONGEST_NAME:
        return f"is too long ({len(text):,} characters); at most {LONGEST_NAME} are read"
    if re.fullmatch(NAME_PATTERN, text):
        return ""
    bad = re.search(rf"[{_NOT_IN_NAMES}]", text)
    if bad is None and "&" in text:
        return f"{shown(text)} holds an & that could be read as a code; write 'and', or spaces around it"
    if bad is None:
        return f"{shown(text)} has no letter or digit in it"
    what = "a line break" if bad.group() in "\n\r\u2028\u2029" else bad.group()
    what = what if what.isprintable() else f"the invisible character U+{ord(what):04X}"
    return (
        f"{shown(text)} holds {what}, which a name or title cannot; letters (accents too), digits, spaces, "
        "apostrophes, hyphens, periods and commas can"
    )


def why_not_a_key(text: str) -> str:
    """What keeps a text from being a key; empty where nothing does."""
    if len(text) > LONGEST_KEY:
        return f"is too long ({len(text):,} characters); at most {LONGEST_KEY} are read"
    if re.fullmatch(KEY_PATTERN, text):
        return ""
    better = slug(text)
    hint = f"; write '{better}'" if better and better != text else ""
    return f"{shown(text)} is not a key; lower-case letters, digits and hyphens can stand in one{hint}"


def why_not_a_text(text: str) -> str:
    """What keeps a text from being free text; empty where nothing does."""
    if len(text) > LONGEST_TEXT:
        return f"is too long ({len(text):,} characters); at most {LONGEST_TEXT:,} are read"
    if re.fullmatch(TEXT_PATTERN, text):
        return ""
    if not text.strip():
        return "is blank; fill it in or take it out"
    # A letter beside it, because the pattern wants more than spaces.
    bad = next(c for c in text if not re.fullmatch(TEXT_PATTERN, f"x{c}"))
    return f"holds the control character U+{ord(bad):04X}; take it out"


def _words(value: object) -> str:
    if not isinstance(value, str):
        raise said(f"is {shown(value)}; a text is meant here")
    if not value.strip():
        raise said("is blank; fill it in or take it out")
    return value


def _name(text: str) -> str:
    text = text.strip()
    if why := why_not_a_name(text):
        raise said(why)
    return text


def _key(text: str) -> str:
    if why := why_not_a_key(text):
        raise said(why)
    return text


def _free_text(text: str) -> str:
    text = text.strip()
    if why := why_not_a_text(text):
        raise said(why)
    return text


def _date(value: object) -> object:
    if isinstance(value, date):
        return value
    text = _words(value)
    if re.fullmatch(DATE_PATTERN, text):
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise said(f"{shown(text)} is not a day of the calendar") from None
    raise said(f"{shown(text)} is not a date; write year-month-day, e.g. 2026-03-06")


def _yes_no(value: object) -> object:
    if isinstance(value, bool):
        return value
    word = _words(value)
    if word in YES:
        return True
    if word in NO:
        return False
    raise said(f"{shown(word)} is neither yes nor no")


def _number(value: object) -> object:
    """Digits with an optional decimal point; no nan, inf, 1e5 or 1_000, which nobody writes on purpose."""
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return value
    text = _words(value)
    if re.fullmatch(NUMBER_PATTERN, text):
        return text
    comma = "; write a decimal point, not a comma" if re.fullmatch(r"-?[0-9]+,[0-9]+", text) else ""
    raise said(f"{shown(text)} is not a number{comma}")


def _whole(value: object) -> object:
    if isinstance(value, int) and not isinstance(value, bool):
        return value
    text = _words(value)
    if re.fullmatch(WHOLE_PATTERN, text):
        return text
    raise said(f"{shown(text)} is not a whole number{whole_hint(text)}")


def _jersey(value: object) -> str:
    text = str(value) if isinstance(value, int) and not isinstance(value, bool) else _words(value)
    if re.fullmatch(JERSEY_PATTERN, text):
        return text
    raise said(f"{shown(text)} is not a jersey number; one or two digits are meant")


def _initials(text: str) -> str:
    if re.fullmatch(INITIALS_PATTERN, text):
        return text
    raise said(f"{shown(text)} is not somebody's initials; one to four letters are meant")


def in_one_line(item: Any, word: str, fewest: int = 0) -> BeforeValidator:  # noqa: ANN401 - a type as Python has it
    """A list may be written in one line, `P, OF`, and is a list all the same.

    Args:
        item: the type of one item.
        word: pattern of one item as text, for editors.
        fewest: the least number of items, for editors.
    """

    def items(value: object) -> object:
        parts = [part.strip() for part in value.split(",")] if isinstance(value, str) else value
        if isinstance(parts, list) and len(parts) < fewest:
            raise said("is an empty list; fill it in or take it out")
        return parts

    one_line = {"type": "string", "pattern": rf"^\s*(?:{word})\s*(?:,\s*(?:{word})\s*)*$"}
    return BeforeValidator(
        items,
        json_schema_input_type=Annotated[tuple[item, ...], Field(min_length=fewest)]
        | item
        | Annotated[str, WithJsonSchema(one_line)],
    )


def one_of(words: Any) -> str:  # noqa: ANN401 - a Literal as Python has it
    """The words of a vocabulary as a pattern."""
    return "|".join(map(re.escape, map(str, get_args(words))))


def text_schema(pattern: str, longest: int, forms: Sequence[str] = _ANY_SCALAR) -> dict[str, Any]:
    """JSON Schema of a text that an editor may have read as a number or a yes."""
    return {"type": list(forms), "pattern": pattern, "minLength": 1, "maxLength": longest}


Name: TypeAlias = Annotated[
    str, BeforeValidator(_words), AfterValidator(_name), WithJsonSchema(text_schema(NAME_PATTERN, LONGEST_NAME))
]
Key: TypeAlias = Annotated[
    str,
    BeforeValidator(_words),
    AfterValidator(_key),
    WithJsonSchema(text_schema(KEY_PATTERN, LONGEST_KEY, ("string", "integer", "boolean"))),
]
FreeText: TypeAlias = Annotated[
    str, BeforeValidator(_words), AfterValidator(_free_text), WithJsonSchema(text_schema(TEXT_PATTERN, LONGEST_TEXT))
]
Initials: TypeAlias = Annotated[
    str,
    BeforeValidator(_words),
    AfterValidator(_initials),
    WithJsonSchema(text_schema(INITIALS_PATTERN, 8, ("string", "boolean"))),
]
IsoDate: TypeAlias = Annotated[
    date, BeforeValidator(_date), WithJsonSchema({"type": "string", "pattern": DATE_PATTERN})
]
YesNo: TypeAlias = Annotated[
    bool,
    BeforeValidator(_yes_no),
    WithJsonSchema({"enum": [True, False, *YES, *NO]}),
]
# After the limits of a number: Annotated[float, between(0, 40), AS_NUMBER].
AS_NUMBER = BeforeValidator(_number)
AS_WHOLE = BeforeValidator(_whole)
Jersey: TypeAlias = Annotated[
    str,
    BeforeValidator(_jersey),
    WithJsonSchema({"type": ["integer", "string"], "minimum": 0, "maximum": 99, "pattern": JERSEY_PATTERN}),
]


def between(low: float, high: float) -> Any:  # noqa: ANN401 - pydantic's FieldInfo, used inside Annotated only
    """Limits of a number, for the reader."""
    return Field(ge=low, le=high)
