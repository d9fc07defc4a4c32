"""Holds as a page shows them: each number beside the runners it was seen with."""

from measures.rows import frame

from scoutgen.measures.holds import hold_moves, hold_times, looks, slide_steps
from scoutgen.pages.holds import Holds, holds
from scoutgen.pages.rows import plain_rows
from scoutgen.records.program import Thresholds


def held(*sets: dict[str, object]) -> Holds:
    charted = frame("holds", *sets, team="harbor", pitcher="reyes")
    return holds(
        Thresholds(),
        looks=plain_rows(looks(charted)),
        times=plain_rows(hold_times(charted)),
        moves=plain_rows(hold_moves(charted)),
        slides=plain_rows(slide_steps(charted)),
    )


def test_nothing_charted_is_nothing_and_not_nought() -> None:
    found = held()
    assert not found.charted
    assert found.rows == ()
    assert (found.second, found.over_to_first, found.slide_step) == (None, None, None)


def test_what_is_known_of_the_same_runners_stands_in_one_row() -> None:
    found = held(
        {"bases": "1", "looks": 2, "hold_seconds": 1.5, "then": "pitch", "style": "slide_step"},
        {"bases": "13", "hold_seconds": 0.9, "then": "pitch"},
    )
    rows = {row.bases: row for row in found.rows}
    assert list(rows) == ["first", "first, third", "anyone"]
    first, corners = rows["first"], rows["first, third"]
    assert first.looks
    assert first.time
    assert first.slide
    assert (first.looks.mode, first.time.median, first.slide.k) == (2, 1.5, 1)
    assert corners.looks is None
    assert corners.time
    assert corners.time.median == 0.9


def test_a_steal_of_third_goes_by_the_runner_on_second_alone_before_any_other_state() -> None:
    alone = {"bases": "2", "looks": 3}
    with_first = {"bases": "12", "looks": 1}
    both = held(alone, with_first).second
    only_first = held(with_first).second
    assert both
    assert only_first
    assert (both.bases, both.mode) == ("runner on second", 3)
    assert (only_first.bases, only_first.mode) == ("first and second", 1)
    # With a man on third he looks elsewhere; a runner on first says nothing of it.
    for other in ("123", "23", "13", "3"):
        assert held({"bases": other, "looks": 0}).second is None
    assert held({"bases": "1", "looks": 2}).second is None


def test_throws_over_to_first_are_of_the_sets_a_steal_is_made_from() -> None:
    found = held(
        {"bases": "1", "then": "pickoff_1"}, {"bases": "13", "then": "pitch"},
        {"bases": "2", "then": "pickoff_2"}, {"bases": "", "then": "pitch"},
    )  # fmt: skip
    assert found.over_to_first
    assert (found.over_to_first.k, found.over_to_first.n) == (1, 1)
    assert found.over_to_first.what == "with a man on first alone"
    never_alone = held({"bases": "13", "then": "pickoff_1"}, {"bases": "12", "then": "pitch"}).over_to_first
    assert never_alone
    assert (never_alone.k, never_alone.n, never_alone.what) == (1, 2, "with first occupied")
    # Throws over to any base are the sum of the others, and stand in no list of single moves.
    assert {move.move for move in found.moves} - {move.move for move in found.once_set} == {"pickoff"}


def test_every_split_of_the_throws_over_says_what_it_is_split_by() -> None:
    found = held(
        {"bases": "1", "then": "pickoff_1", "balls": 0, "strikes": 2, "looks": 4},
        {"bases": "1", "then": "pitch", "balls": 0, "strikes": 0, "looks": 0},
    )
    said = {move.label: (move.claim.k, move.claim.n) for move in found.splits}
    assert said["count: two strikes"] == (1, 1)
    assert said["count: first pitch"] == (0, 1)
    assert said["looks: 3+"] == (1, 1)
    assert all(move.move == "pickoff_1" for move in found.splits)


def test_a_beat_is_said_only_from_enough_holds() -> None:
    def beat(*seconds: float) -> str:
        (row, _) = held(*[{"bases": "1", "hold_seconds": s} for s in seconds]).rows
        assert row.time
        return row.time.beat

    assert beat(*[1.0] * 7) == "few holds"
    assert beat(*[1.0, 1.1] * 4) == "on a beat"
    assert beat(*[0.5, 2.0] * 4) == "varies"


def test_slide_steps_are_of_the_sets_a_steal_is_made_from_unless_there_is_none_at_all() -> None:
    used = held(
        {"bases": "1", "then": "pitch", "style": "slide_step"}, {"bases": "1", "then": "pitch", "style": "stretch"},
        {"bases": "2", "then": "pitch", "style": "stretch"},
    ).slide_step  # fmt: skip
    assert used
    assert (used.k, used.n, used.what) == (1, 2, "with a man on first alone")
    never = held(
        {"bases": "1", "then": "pitch", "style": "stretch"}, {"bases": "2", "then": "pitch", "style": "stretch"}
    )
    assert never.slide_step
    assert (never.slide_step.k, never.slide_step.n, never.slide_step.what) == (0, 2, "sets")
    assert held({"bases": "1", "looks": 1}).slide_step is None
