"""When a build was made, written down and in words."""

from datetime import datetime

import pytest

from scoutgen.pages.built import FORM, in_words, time_of


def test_a_time_is_read_as_it_was_written() -> None:
    at = datetime(2026, 4, 8, 9, 5)  # noqa: DTZ001 - the machine's own
    assert at.strftime(FORM) == "2026-04-08 09:05"
    assert time_of(at.strftime(FORM)) == at


def test_a_time_is_short_enough_for_a_card() -> None:
    assert in_words("2026-04-08 09:05") == "8 Apr, 09:05"


@pytest.mark.parametrize("text", ["", "last night", "8 Apr, 21:40", "2026-04-31 10:00"])
def test_what_is_no_time_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"does not match|day"):
        time_of(text)
