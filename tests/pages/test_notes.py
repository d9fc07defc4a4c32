"""What people saw: who may read it, until when, and in which order."""

from datetime import date
from typing import Any

import pytest

from scoutgen.pages.notes import Notes, notes
from scoutgen.records.opponents import Entry, Observation

TODAY = date(2026, 4, 9)


def saw(text: str, **how: Any) -> Observation:  # noqa: ANN401 - fields of a record
    usual = {"about": "delivery", "seen": "2026-03-06", "source": "video", "by": "AJR", "confidence": "sure"}
    return Observation.model_validate({**usual, "text": text, **how})


def read(*observations: Observation, edition: str = "staff") -> Notes:
    return notes(Entry("harbor", "reyes", None, observations), edition=edition, as_of=TODAY)


def texts(found: Notes) -> list[str]:
    return [note.text for topic in found.topics for note in topic.notes] + [note.text for _, note in found.old]


@pytest.mark.parametrize(
    ("edition", "expected"),
    [("staff", ["ours", "usual"]), ("players", ["usual"]), ("recruiting", ["grader"])],
)
def test_an_edition_shows_what_is_marked_for_it_and_nothing_else(edition: str, expected: list[str]) -> None:
    every = (saw("ours", **{"for": ["staff"]}), saw("usual"), saw("grader", **{"for": ["recruiting"]}))
    assert sorted(texts(read(*every, edition=edition))) == expected


def test_what_is_past_its_day_is_old_also_for_those_who_may_not_read_it() -> None:
    past = saw("limps", expires="2026-04-08", **{"for": ["staff"]})
    assert [note.text for _, note in read(past).old] == ["limps"]
    assert texts(read(past, edition="players")) == []


def test_it_counts_on_the_day_it_expires_and_not_on_the_next() -> None:
    assert read(saw("sore", expires="2026-04-09")).topics
    assert not read(saw("sore", expires="2026-04-08")).topics


def test_the_newest_comes_first_then_the_surest() -> None:
    found = read(
        saw("hunch", seen="2026-03-07", confidence="hunch"),
        saw("old", seen="2026-02-20"),
        saw("sure", seen="2026-03-07"),
    )
    assert texts(found) == ["sure", "hunch", "old"]


def test_two_people_are_two_views_and_one_man_who_wrote_twice_is_one() -> None:
    (topic,) = read(saw("a"), saw("b")).topics
    assert topic.views == 1
    (topic,) = read(saw("a"), saw("b", by="TMW")).topics
    assert topic.views == 2


def test_nobody_wrote_anything() -> None:
    assert notes(None, edition="staff", as_of=TODAY) == Notes((), ())
