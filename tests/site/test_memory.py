"""What is remembered between builds: which state a build is compared with, and files that are damaged."""

import json
import os
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.said import Said, Saying
from scoutgen.site.memory import Memory, State, place, recall, remember

AS_OF = date(2026, 4, 8)


def said(word: str) -> Said:
    return {"x": Saying("call", "Harbor", "Friday", "steal of second", word, "running")}


def built(memory: Memory, at: str, word: str) -> tuple[str, Memory]:
    """One build: what it is compared with, and what is remembered then."""
    earlier = memory.earlier(said(word), at)
    told = "" if earlier.said is None else earlier.said["x"].said
    return told, memory.after(State(at, AS_OF, said(word)))


def builds(*each: tuple[str, str]) -> list[str]:
    """For every build of an edition, at a time and saying a word, the word it is compared with; "" for none."""
    memory, found = Memory(), []
    for at, word in each:
        told, memory = built(memory, at, word)
        found.append(told)
    return found


def test_the_first_build_has_nothing_to_compare_with_and_the_second_that_differs_the_first() -> None:
    assert builds(("2026-04-08 21:40", "a"), ("2026-04-08 21:41", "b")) == ["", "a"]


def test_building_again_with_nothing_new_changes_nothing() -> None:
    evening = [("2026-04-08 21:40", "b"), ("2026-04-08 21:50", "b"), ("2026-04-09 08:00", "b")]
    assert builds(("2026-04-07 22:00", "a"), *evening) == ["", "a", "a", "a"]
    assert builds(*evening) == ["", "", ""]


def test_a_game_charted_in_several_sittings_is_compared_with_last_night() -> None:
    last_night = [("2026-04-07 20:00", "a"), ("2026-04-07 22:00", "b")]
    tonight = [
        ("2026-04-08 21:00", "c"),
        ("2026-04-08 21:30", "d"),
        ("2026-04-09 00:30", "e"),
        ("2026-04-09 09:00", "e"),
    ]
    assert builds(*last_night, *tonight) == ["", "a", "b", "b", "b", "b"]


def test_the_next_piece_of_work_is_compared_with_the_end_of_this_one() -> None:
    assert builds(("2026-04-07 20:00", "a"), ("2026-04-08 20:00", "b"), ("2026-04-09 20:00", "c"))[-1] == "b"


def test_taken_back_and_done_again_is_compared_with_the_state_between() -> None:
    assert builds(("2026-04-08 21:00", "a"), ("2026-04-08 21:05", "b"), ("2026-04-08 21:10", "a")) == ["", "a", "b"]
    assert builds(
        ("2026-04-07 21:00", "a"), ("2026-04-08 21:00", "b"), ("2026-04-08 21:05", "a"), ("2026-04-08 21:10", "a")
    ) == ["", "a", "b", "b"]


def test_a_clock_that_went_backwards_is_no_harm() -> None:
    assert builds(("2026-04-08 21:00", "a"), ("2026-04-08 03:00", "b"), ("2026-04-08 03:01", "c")) == ["", "a", "a"]


@given(st.lists(st.tuples(st.integers(0, 72), st.sampled_from("abc")), max_size=9))
def test_no_build_is_compared_with_itself_and_none_with_what_never_was(steps: list[tuple[int, str]]) -> None:
    hours = 0
    memory, words = Memory(), set()
    for gap, word in steps:
        hours += gap
        at = f"2026-04-{1 + hours // 24:02d} {hours % 24:02d}:00" if hours < 24 * 29 else "2026-04-30 00:00"
        told, memory = built(memory, at, word)
        assert told != word
        assert told in words | {""}
        # Something is compared with as soon as there is something that differs.
        assert bool(told) or not words - {word}
        words.add(word)
        words &= {s.said["x"].said for s in (memory.before, memory.first, memory.now) if s}


def test_the_words_say_when_and_for_which_day_it_was_built() -> None:
    state = State("2026-04-08 21:40", AS_OF, {})
    assert state.words == "the build of Wed 8 Apr 2026, 21:40"
    assert replace(state, as_of=date(2026, 4, 9)).words == "the build of Wed 8 Apr 2026, 21:40 (as of Thu 9 Apr)"


def test_a_memory_is_read_as_it_was_written(tmp_path: Path) -> None:
    memory = Memory()
    for at, word in (("2026-04-07 20:00", "a"), ("2026-04-08 20:00", "b"), ("2026-04-08 20:30", "c")):
        _, memory = built(memory, at, word)
        remember(tmp_path, "staff", memory)
        back = recall(tmp_path, "staff")
        assert not back.unreadable
        for name in ("before", "first", "now"):
            kept, was = getattr(back, name), getattr(memory, name)
            assert (kept and (kept.built, kept.as_of, kept.said["x"].said)) == (
                was and (was.built, was.as_of, was.said["x"].said)
            )
    assert [file.name for file in place(tmp_path, "staff").parent.iterdir()] == ["staff.json"]


def test_editions_are_remembered_apart(tmp_path: Path) -> None:
    remember(tmp_path, "staff", Memory().after(State("2026-04-08 21:40", AS_OF, said("a"))))
    assert recall(tmp_path, "players") == Memory()
    assert place(tmp_path, "players") == tmp_path / ".scoutgen" / "said" / "players.json"


BUILT = {"built": "2026-04-08 21:40", "as_of": "2026-04-08", "said": []}
GOOD = {"format": 2, "before": None, "first": None, "now": BUILT}


def test_the_shape_of_a_file_is_this(tmp_path: Path) -> None:
    place(tmp_path, "staff").parent.mkdir(parents=True)
    place(tmp_path, "staff").write_text(json.dumps(GOOD))
    assert recall(tmp_path, "staff").now == State("2026-04-08 21:40", AS_OF, {})


@pytest.mark.parametrize(
    "text",
    [
        "", "{", "[]", "null", "7", '"x"', "[" * 100_000, "\x00",
        json.dumps({**GOOD, "format": 1}), json.dumps({**GOOD, "now": 3}), json.dumps({"format": 2}),
        *(json.dumps({**GOOD, "now": {**BUILT, **wrong}})
          for wrong in ({"built": "last night"}, {"as_of": "x"}, {"said": 3}, {"said": [["x", {"kind": "rumour"}]]},
                        {"said": [["x", {"kind": "note", "n": []}]]}, {"as_of": 7})),
    ],
)  # fmt: skip
def test_a_damaged_file_or_one_of_another_version_counts_as_none(tmp_path: Path, text: str) -> None:
    file = place(tmp_path, "staff")
    file.parent.mkdir(parents=True)
    file.write_text(text)
    memory = recall(tmp_path, "staff")
    assert memory == Memory(unreadable=True)
    earlier = memory.earlier(said("a"), "2026-04-08 21:40")
    assert (earlier.said, earlier.first, earlier.unreadable) == (None, True, True)
    after = memory.after(State("2026-04-08 21:40", AS_OF, said("a")))
    assert not after.unreadable


def test_bytes_that_are_no_text_and_a_folder_in_its_place_count_as_none(tmp_path: Path) -> None:
    file = place(tmp_path, "staff")
    file.parent.mkdir(parents=True)
    file.write_bytes(b"\xff\xfe\x00")
    assert recall(tmp_path, "staff").unreadable
    place(tmp_path, "players").mkdir()
    assert recall(tmp_path, "players").unreadable


def test_what_cannot_be_written_leaves_what_was_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = Memory().after(State("2026-04-08 21:40", AS_OF, said("a")))
    remember(tmp_path, "staff", kept)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        remember(tmp_path, "staff", kept.after(State("2026-04-09 21:40", AS_OF, said("b"))))
    monkeypatch.undo()
    now = recall(tmp_path, "staff").now
    assert now
    assert now.said["x"].said == "a"
