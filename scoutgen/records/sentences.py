"""How is a machine's complaint said to a person: what is wrong, what is allowed, what to do?

`sentence(error, names)` takes one entry of `ValidationError.errors()` and gives the words that follow the key's name,
e.g. `"slidr" is not allowed; write fastball, slider or other; did you mean "slider"?`. Quoting, lists of names and the
nearest names come from check.py, so that YAML and tables sound alike.
"""

import re
from collections.abc import Sequence

from pydantic_core import ErrorDetails, PydanticCustomError

from scoutgen.records.check import did_you_mean, listed, nearest, quoted

MOST_WORDS = 24


def said(text: str) -> PydanticCustomError:
    """An error whose words are used as they are; raise it from a validator."""
    return PydanticCustomError("said", "{text}", {"text": text})


def shown(value: object) -> str:
    """A value as a problem quotes it."""
    if isinstance(value, (dict, list)):
        return "a list" if isinstance(value, list) else "a block of keys"
    return quoted(value)


def not_allowed(value: object, allowed: Sequence[str]) -> str:
    """The answer to a word that is not in a vocabulary."""
    words = listed(allowed) if len(allowed) <= MOST_WORDS else f"{', '.join(allowed[:MOST_WORDS])}, …"
    return f"{shown(value)} is not allowed; write {words}{did_you_mean(str(value), allowed)}"


def sentence(error: ErrorDetails, names: Sequence[str] = ()) -> str:
    """What one pydantic error means.

    Args:
        error: an entry of `ValidationError.errors()`.
        names: the names that may stand at this place, for an unknown key or column.

    Returns:
        Words to follow the name of the key or column, without a full stop.
    """
    kind, value, context = error["type"], error["input"], error.get("ctx", {})
    if kind == "extra_forbidden":
        key = str(error["loc"][-1])
        known = "" if nearest(key, names) or not names else f"; known are {', '.join(names)}"
        if not key.strip():
            return f"a key without a name stands before the colon{known}"
        return f"is not known here{did_you_mean(key, names)}{known}"
    if (value is None and kind != "missing") or (value == "" and kind.startswith("string_")):
        return "is blank; fill it in or take it out"
    if kind in ("literal_error", "enum"):
        return not_allowed(value, re.findall(r"'([^']*)'", str(context.get("expected", ""))))
    words = _SAYINGS.get(kind, "{shown} cannot be read here")
    return words.format(shown=shown(value), **context)


_NO_TEXT = "is {shown}; a text is meant here"
_NO_WHOLE = "{shown} is not a whole number"
_NO_NUMBER = "{shown} is not a number"
_NO_LIST = "is {shown}; a list is meant here, each item in a line of its own after '- '"
_NO_KEYS = "is {shown}; keys and values are meant here, e.g. 'name: ...' in lines of their own"
# By pydantic's type of error; the names in braces are those of its context.
_SAYINGS: dict[str, str] = {
    "said": "{text}",
    "value_error": "{error}",
    "missing": "is missing; it must be filled in",
    "greater_than_equal": "{shown} is too small; the least is {ge}",
    "less_than_equal": "{shown} is too large; the most is {le}",
    "multiple_of": "{shown} is not a multiple of {multiple_of}",
    "string_too_long": "is longer than {max_length} characters; shorten it",
    "string_too_short": _NO_TEXT,
    "string_type": _NO_TEXT,
    "int_parsing": _NO_WHOLE,
    "int_type": _NO_WHOLE,
    "int_from_float": _NO_WHOLE,
    "float_parsing": _NO_NUMBER,
    "float_type": _NO_NUMBER,
    "list_type": _NO_LIST,
    "tuple_type": _NO_LIST,
    "dict_type": _NO_KEYS,
    "model_type": _NO_KEYS,
    "mapping_type": _NO_KEYS,
    "too_long": "has {actual_length} items; at most {max_length} are read",
}
