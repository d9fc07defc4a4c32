"""pydantic's complaints in words: what is wrong, what is allowed, what to do."""

from typing import Annotated, Any, Literal

import pytest
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from scoutgen.records.sentences import not_allowed, sentence


class Man(BaseModel):
    model_config = ConfigDict(extra="forbid")
    name: str
    bats: Literal["L", "R"] = "R"
    age: Annotated[int, Field(ge=16, le=30)] = 20
    roles: list[str] = []


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({}, "is missing; it must be filled in"),
        ({"name": "A", "bats": "l"}, '"l" is not allowed; write L or R; did you mean "L"?'),
        ({"name": "A", "age": "7"}, '"7" is too small; the least is 16'),
        ({"name": "A", "age": "old"}, '"old" is not a whole number'),
        ({"name": "A", "roles": "P"}, "is \"P\"; a list is meant here, each item in a line of its own after '- '"),
        ({"name": ["A"]}, "is a list; a text is meant here"),
        ({"name": "A", "bast": "L"}, 'is not known here; did you mean "bats"?'),
        ({"name": "A", "zzz": "L"}, "is not known here; known are name, bats, age, roles"),
        ({"name": "A", "": "L"}, "a key without a name stands before the colon; known are name, bats, age, roles"),
    ],
)
def test_a_complaint_in_words(given: dict[str, Any], words: str) -> None:
    with pytest.raises(ValidationError) as caught:
        Man.model_validate(given)
    (error,) = caught.value.errors(include_url=False)
    assert sentence(error, list(Man.model_fields)) == words


def test_a_long_vocabulary_is_cut() -> None:
    words = not_allowed("x", [f"w{number}" for number in range(30)])
    assert words.endswith("w22, w23, …")
