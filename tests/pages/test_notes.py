"""What people saw: until when, and in which order."""

from datetime import date
from typing import Any

from scoutgen.pages.notes import Notes, noted, notes
from scoutgen.records.opponents import Entry, Observation

TODAY = date(2026, 4, 9)


def saw(text: str, **how: Any) -> Observation:  # noqa: ANN401 - fields of a record
    usual = {"about": "delivery", "seen": "2026-03-06", "source": "video", "by": "AJR", "confidence": "sure"}
    return Observation.model_validate({**usual, "text": text, **how})


def read(*observations: Observation) -> Notes:
    return notes(Entry("harbor", "reyes", None, observations), as_of=TODAY)


def texts(found: Notes) -> list[str]:
    return [note.text for topic in found.topics for note in topic.notes] + [note.text for _, note in found.old]


def test_what_is_past_its_day_is_old() -> None:
    past = saw("limps", expires="2026-04-08")
    assert [note.text for _, note in read(past).old] == ["limps"]
    assert not read(past).topics


def test_in_a_row_they_stand_newest_first_and_say_which_are_old() -> None:
    row = noted((saw("old", expires="2026-04-08"), saw("new", seen="2026-03-20")), as_of=TODAY)
    assert [(about, note.text, old) for about, note, old in row] == [
        ("delivery", "new", False),
        ("delivery", "old", True),
    ]


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
    assert notes(None, as_of=TODAY) == Notes((), ())
