"""What may stand in a name, key, text, date or number, and what each refusal says."""

from datetime import date
from typing import Annotated, Any

import pytest
from pydantic import TypeAdapter, ValidationError

from scoutgen.records.fields import (
    AS_NUMBER,
    AS_WHOLE,
    FreeText,
    Initials,
    IsoDate,
    Jersey,
    Key,
    Name,
    YesNo,
    between,
    slug,
)
from scoutgen.records.sentences import sentence


def reason(kind: Any, text: object) -> str:  # noqa: ANN401 - a type as Python has it
    with pytest.raises(ValidationError) as caught:
        TypeAdapter(kind).validate_python(text)
    return sentence(caught.value.errors()[0])


def value(kind: Any, text: object) -> object:  # noqa: ANN401 - a type as Python has it
    return TypeAdapter(kind).validate_python(text)


@pytest.mark.parametrize(
    "name",
    [
        "Iván Núñez",
        "O'Brien",
        "O’Brien",
        "Jean-Luc St. Pierre, Jr.",
        "A&M",
        "Texas A & M",
        "山田 太郎",
        "27",
        "Müller & Söhne (B)",
    ],
)
def test_names_people_have(name: str) -> None:
    assert value(Name, name) == name


CANNOT = (
    "which a name or title cannot; letters (accents too), digits, spaces, apostrophes, hyphens, periods and commas can"
)


# The payloads of a hostile title: markup, attribute, code, template, link, table cell, entity.
@pytest.mark.parametrize(
    ("name", "bad"),
    [
        ("<script>", "<"),
        ("a > b", ">"),
        ('a "b"', '"'),
        ("a `b`", "`"),
        ("a \\ b", "\\"),
        ("{{ config }}", "{"),
        ("a }", "}"),
        ("a | b", "|"),
        ("[a](javascript:x)", "["),
        ("a ]", "]"),
        ("a\nb", "a line break"),
        ("a\u2028b", "a line break"),
        ("a\x07b", "the invisible character U+0007"),
        ("a\u202eb", "the invisible character U+202E"),
        ("a\u200bb", "the invisible character U+200B"),
    ],
)
def test_names_that_could_do_something(name: str, bad: str) -> None:
    assert reason(Name, name).endswith(f" holds {bad}, {CANNOT}")


@pytest.mark.parametrize("name", ["&lt;script&gt;", "&#60;b", "a &copy b", "&LT"])
def test_an_ampersand_that_could_be_an_entity(name: str) -> None:
    assert reason(Name, name).endswith("holds an & that could be read as a code; write 'and', or spaces around it")


def test_names_too_long_or_of_nothing() -> None:
    assert value(Name, "x" * 80) == "x" * 80
    assert reason(Name, "x" * 81) == "is too long (81 characters); at most 80 are read"
    assert reason(Name, "- . -") == '"- . -" has no letter or digit in it'
    assert reason(Name, "  ") == "is blank; fill it in or take it out"
    assert reason(Name, ["x"]) == "is a list; a text is meant here"


def test_keys() -> None:
    assert value(Key, "ivan-nunez-2") == "ivan-nunez-2"
    allowed = "is not a key; lower-case letters, digits and hyphens can stand in one"
    assert reason(Key, "Iván Núñez") == f"\"Iván Núñez\" {allowed}; write 'ivan-nunez'"
    assert reason(Key, "-a") == f"\"-a\" {allowed}; write 'a'"
    assert reason(Key, "a\n") == f"\"a\\n\" {allowed}; write 'a'"
    assert reason(Key, "../../etc") == f"\"../../etc\" {allowed}; write 'etc'"
    assert reason(Key, "山") == f'"山" {allowed}'
    assert reason(Key, "x" * 61) == "is too long (61 characters); at most 60 are read"


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Iván Núñez", "ivan-nunez"),
        ("O'Brien", "obrien"),
        ("  St. Pierre, Jr. ", "st-pierre-jr"),
        ("山田", ""),
        ("#27", "27"),
    ],
)
def test_keys_made_from_names(name: str, key: str) -> None:
    assert slug(name) == key


def test_free_text_may_hold_markup_but_no_control_characters() -> None:
    hostile = "<script>alert(1)</script> | {{ x }} [a](javascript:1)\n\tsecond line"
    assert value(FreeText, hostile) == hostile
    assert value(FreeText, "x" * 2_000) == "x" * 2_000
    assert reason(FreeText, "x" * 2_001) == "is too long (2,001 characters); at most 2,000 are read"
    assert reason(FreeText, "a\x1b[31m") == "holds the control character U+001B; take it out"
    assert reason(FreeText, "a\u202eb") == "holds the control character U+202E; take it out"


def test_dates() -> None:
    assert value(IsoDate, "2026-03-06") == date(2026, 3, 6)
    assert reason(IsoDate, "2026-02-29") == '"2026-02-29" is not a day of the calendar'
    for text in ("3/6/2026", "2026-3-6", "1000000", "2026-03-06T10:00", "20260306", " 2026-03-06"):
        assert reason(IsoDate, text) == f'"{text}" is not a date; write year-month-day, e.g. 2026-03-06'


def test_yes_and_no() -> None:
    assert [value(YesNo, word) for word in ("yes", "no", "true", "False", "on", "OFF")] == [True, False] * 3
    for word in ("1", "0", "y", "maybe"):
        assert reason(YesNo, word) == f'"{word}" is neither yes nor no'


def test_numbers() -> None:
    feet = Annotated[float, between(0, 40), AS_NUMBER]
    assert value(feet, "12.5") == 12.5
    assert value(feet, "012") == 12
    assert value(feet, ".305") == 0.305
    assert reason(feet, "40.1") == '"40.1" is too large; the most is 40.0'
    assert reason(feet, "-1") == '"-1" is too small; the least is 0.0'
    assert reason(feet, "1,5") == '"1,5" is not a number; write a decimal point, not a comma'
    for text in ("nan", "inf", "1e1", "1_0", "0x1F", "1:30", "٣", "5."):
        assert reason(feet, text) == f'"{text}" is not a number'
    count = Annotated[int, between(0, 9), AS_WHOLE]
    assert value(count, "7") == 7
    assert reason(count, "1,5") == '"1,5" is not a whole number; write 1 or 2'
    for text in ("7.0", "seven", "1_0", ""):
        assert "whole number" in reason(count, text) or "blank" in reason(count, text)


def test_jersey_numbers_are_text() -> None:
    assert [value(Jersey, text) for text in ("0", "00", "07", "27")] == ["0", "00", "07", "27"]
    for text in ("100", "-1", "2a", "#27"):
        assert reason(Jersey, text) == f'"{text}" is not a jersey number; one or two digits are meant'


def test_initials() -> None:
    assert [value(Initials, text) for text in ("AB", "A.B.", "ÉL", "山", "ABCD")] == ["AB", "A.B.", "ÉL", "山", "ABCD"]
    for text in ("ABCDE", "A B", "A1", "<b>", "A..B", "."):
        assert reason(Initials, text) == f'"{text}" is not somebody\'s initials; one to four letters are meant'
