"""Two builds compared thing by thing."""

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scoutgen.pages.said import HABIT_STEPS, KINDS, Saying, changes, content, from_plain, to_plain


def saying(kind: str, said: str = "", **given: object) -> Saying:
    return Saying(kind, "Gannet Harbor", "27 Núñez", "first pitch, lefties", said, "teams/harbor/players/x", **given)  # type: ignore[arg-type]


def how(before: Saying | None, now: Saying | None) -> str:
    found = changes({"x": before} if before else {}, {"x": now} if now else {})
    assert len(found) <= 1
    return found[0].how if found else ""


SHARE = saying("number", k=15, n=29, value=0.52, low=0.38, high=0.66, sure="usable")


def test_the_same_is_no_change() -> None:
    for kind in KINDS:
        one = saying(kind, "seen")
        assert how(one, one) == ""


@pytest.mark.parametrize(
    ("now", "expected"),
    [
        ({"k": 30, "n": 44, "value": 0.67}, "moved"),
        ({"k": 30, "n": 44, "value": 0.66}, ""),
        ({"k": 22, "n": 29, "value": 0.75}, ""),  # no more charted: a row was mended
        ({"k": 30, "n": 44, "value": 0.67, "sure": "thin"}, ""),
    ],
)
def test_a_share_is_told_when_it_leaves_its_old_interval_with_more_charted(
    now: dict[str, object], expected: str
) -> None:
    assert how(SHARE, replace(SHARE, **now)) == expected  # type: ignore[arg-type]


def test_a_thin_share_had_no_number_that_could_move() -> None:
    assert how(replace(SHARE, sure="thin"), replace(SHARE, n=44, value=0.9)) == ""


def test_a_clock_is_told_when_it_moves_when_it_is_first_known_and_when_its_method_is_another() -> None:
    few = saying("clock", "watch", n=3, value=1.50, low=1.2, high=1.8, unit="s", sure="thin")
    known = replace(few, n=9, value=1.45, low=1.40, high=1.50, sure="usable")
    assert how(few, known) == "known"
    assert how(known, replace(known, n=14, value=1.46)) == ""
    assert how(known, replace(known, n=14, value=1.52)) == "moved"
    assert how(known, replace(known, n=14, said="frames")) == "other"
    assert how(few, replace(few, n=4, value=2.5)) == ""


def test_what_to_look_for_is_told_when_it_is_another_pitch_or_first_known() -> None:
    thin = saying("look_for", "fastball", k=7, n=12, value=0.5, sure="thin")
    known = replace(thin, k=12, n=22, sure="lean")
    assert how(thin, known) == "known"
    assert how(known, replace(known, n=30, said="curve")) == "other"
    assert how(known, replace(known, said="curve")) == "", "with nothing charted it is the same season read anew"
    assert how(thin, replace(thin, n=14, said="curve")) == "", "two thin tallies"


@pytest.mark.parametrize("kind", ["call", "level", "probable", "catcher", "lineup", "bullpen"])
def test_a_decision_is_told_when_it_reads_otherwise(kind: str) -> None:
    assert how(saying(kind, "▲ go"), saying(kind, "✕ no")) == "other"


@pytest.mark.parametrize(
    ("kind", "come", "gone"),
    [
        ("probable", "new", "gone"), ("lineup", "new", "gone"), ("bullpen", "new", "gone"), ("game", "new", "gone"),
        ("note", "new", ""), ("plan", "new", ""), ("summary", "new", ""), ("turn", "new", ""),
        ("call", "", ""), ("level", "", ""), ("number", "", ""), ("clock", "", ""), ("look_for", "", ""),
    ],
)  # fmt: skip
def test_what_comes_and_goes(kind: str, come: str, gone: str) -> None:
    """A note that was taken back is not said again: it may have been meant for fewer eyes."""
    assert how(None, saying(kind)) == come
    assert how(saying(kind), None) == gone


@pytest.mark.parametrize(
    ("before", "now", "expected"),
    [
        ("looked for", "seen", "other"), ("seen", "recurs", "other"), ("recurs", "seen", "other"),
        ("", "looked for", ""), (None, "looked for", ""), (None, "seen", "new"), (None, "recurs", "new"),
    ],
)  # fmt: skip
def test_a_habit_is_told_when_it_passes_a_threshold_or_is_first_seen(
    before: str | None, now: str, expected: str
) -> None:
    assert how(None if before is None else saying("habit", before), saying("habit", now)) == expected


def test_changes_keep_the_order_of_what_is_said_now_and_what_is_gone_stands_last() -> None:
    before = {"z": saying("game", "1 pitch"), "b": saying("call", "go")}
    now = {"c": saying("note", "x"), "b": saying("call", "no"), "a": saying("game", "2 pitches")}
    assert [change.told.kind for change in changes(before, now)] == ["note", "call", "game", "game"]
    assert [change.how for change in changes(before, now)] == ["new", "other", "new", "gone"]


TEXTS = st.text(max_size=8)
NUMBERS = st.none() | st.floats(0, 1)
SAYINGS = st.builds(
    Saying, kind=st.sampled_from([k for k in KINDS if k != "habit"]), group=TEXTS, about=TEXTS, what=TEXTS, said=TEXTS,
    address=TEXTS, who=TEXTS, k=st.none() | st.integers(0, 99), n=st.integers(0, 99), value=NUMBERS, low=NUMBERS,
    high=NUMBERS, sure=TEXTS, detail=TEXTS,
) | st.builds(saying, st.just("habit"), st.sampled_from(HABIT_STEPS))  # fmt: skip
SAID = st.dictionaries(TEXTS, SAYINGS, max_size=4)


@given(SAID)
def test_what_was_said_is_read_from_a_file_as_it_was(said: dict[str, Saying]) -> None:
    back = from_plain(json.loads(json.dumps(to_plain(said))))
    assert content(back) == content(said)
    assert changes(back, said) == ()
    assert [c.how for c in changes(said, back)] == []


@given(SAID, SAID)
def test_any_two_builds_can_be_compared(before: dict[str, Saying], now: dict[str, Saying]) -> None:
    found = changes(before, now)
    assert len(found) <= len(set(before) | set(now))
    assert all(change.told for change in found)


@given(
    st.recursive(st.none() | st.booleans() | st.integers() | TEXTS, lambda s: st.lists(s) | st.dictionaries(TEXTS, s))
)
def test_what_is_none_is_refused_with_the_errors_named(whatever: object) -> None:
    try:
        from_plain(whatever)
    except (ValueError, TypeError):
        return
    assert not whatever


@pytest.mark.parametrize(
    "broken",
    [{"kind": "rumour"}, {"kind": "habit", "said": "always"}, {"kind": "note", "n": "3"}, {"kind": "note", "x": 1}, {},
     {"kind": "number", "value": "0.5"}, {"kind": "game", "k": True}],
)  # fmt: skip
def test_a_saying_of_another_shape_is_refused(broken: dict[str, object]) -> None:
    with pytest.raises((ValueError, TypeError)):
        from_plain([["x", broken]])


def test_names_are_kept_of_what_is_told_when_it_is_gone_alone() -> None:
    kept = dict(to_plain({"note": saying("note", "text"), "game": saying("game", "9 pitches")}))
    assert kept["note"] == {"kind": "note", "said": "text", "n": 0}
    assert kept["game"]["about"] == "27 Núñez"
