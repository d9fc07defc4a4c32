"""Grades run from 20 to 80 in fives, now and later, with what was seen of the tool."""

import pytest
from pydantic import ValidationError

from scoutgen.records.grades import Grade, Grades

HEAD = {"seen": "2026-04-04", "by": "CD"}


def test_a_grade_is_a_number_or_says_more() -> None:
    read = Grades.model_validate(
        {**HEAD, "source": "video", "tools": {"run": "60", "fastball": {"now": "55", "later": "60", "saw": "Carries."}}}
    )
    assert read.tools == {"run": Grade(now=60), "fastball": Grade(now=55, later=60, saw="Carries.")}
    assert read.source == "video"


@pytest.mark.parametrize("number", ["15", "85", "52", "5O", "", "50.0"])
def test_any_other_number_is_refused(number: str) -> None:
    with pytest.raises(ValidationError):
        Grades.model_validate({**HEAD, "tools": {"run": number}})


# There is no place for a way to reach anybody.
@pytest.mark.parametrize("key", ["phone", "email", "address", "parents", "agent", "contact", "handle"])
def test_nothing_tells_how_to_reach_him(key: str) -> None:
    with pytest.raises(ValidationError, match="Extra inputs are not permitted"):
        Grades.model_validate({**HEAD, key: "x"})
