"""The catcher's throws as a page shows them: live or warm-up, by base, and the return with a runner on third."""

from measures.rows import frame

from scoutgen.measures.throws import throw_accuracy, throw_results, throw_times
from scoutgen.measures.times import returns
from scoutgen.pages.rows import plain_rows
from scoutgen.pages.throws import Throws, throws
from scoutgen.records.program import Thresholds


def thrown(*made: dict[str, object], back: tuple[dict[str, object], ...] = ()) -> Throws:
    """What is shown of his throws, and of the ball he sends `back` to the mound."""
    down = frame("throws", *[{"method": "watch", **throw} for throw in made], team="harbor", catcher="cole")
    same = {"team": "harbor", "player": "cole", "measure": "return_throw", "method": "watch", "warmup": False}
    returned = frame("times", *[{"seconds": 1.2, **ball} for ball in back], **same)
    return throws(
        Thresholds(),
        times=plain_rows(throw_times(down)),
        accuracy=plain_rows(throw_accuracy(down)),
        results=plain_rows(throw_results(down)),
        returns=plain_rows(returns(returned)),
    )


def test_a_pop_to_third_is_no_pop_to_second() -> None:
    found = thrown({"to": "2", "pop_seconds": 2.0}, {"to": "3", "pop_seconds": 1.6})
    assert found.pop_second
    assert found.pop_third
    assert (found.pop_second.median, found.pop_third.median) == (2.0, 1.6)
    assert thrown({"to": "3", "pop_seconds": 1.6}).pop_second is None


def test_between_innings_he_is_not_timed_for_a_runner() -> None:
    found = thrown(*[{"to": "2", "pop_seconds": 1.85, "warmup": True, "accuracy": "on_bag"}] * 6)
    assert found.pop_second is None
    assert found.live == ()
    assert [(clock.label, clock.n) for clock in found.warmups] == [("Pop to second", 6)]
    assert found.accuracy == ()


def test_outs_are_of_the_throws_that_had_a_play() -> None:
    found = thrown({"to": "2", "result": "out"}, {"to": "2", "result": "safe"}, {"to": "2", "result": "no_play"})
    assert [(claim.what, claim.k, claim.n) for claim in found.results] == [("any base", 1, 2), ("second", 1, 2)]


def test_where_he_throws_adds_up_over_all_places() -> None:
    found = thrown(*[{"to": "2", "accuracy": "on_bag"}] * 3, {"to": "3", "accuracy": "high"})
    assert {claim.what: claim.k for claim in found.accuracy if claim.k} == {"on the bag": 3, "high": 1}
    assert all(claim.n == 4 for claim in found.accuracy)


def test_returns_with_a_runner_on_third_count_him_whoever_else_is_on() -> None:
    back = (
        {"style": "lob", "bases": "3"}, {"style": "lob", "bases": "123"}, {"style": "firm", "bases": "13"},
        {"style": "lob", "bases": "12"}, {"style": "firm", "bases": ""}, {"style": "lob"},
    )  # fmt: skip
    found = thrown(back=back)
    assert found.third == (("lob", 2, 3), ("firm", 1, 3))
    # All of them together, also the one with no runners charted.
    assert [(row.style, row.claim.k, row.claim.n) for row in found.returns] == [("firm", 2, 6), ("lob", 4, 6)]


def test_never_charted_is_nothing_at_all() -> None:
    found = thrown()
    assert (found.live, found.warmups, found.results, found.returns, found.third) == ((), (), (), (), ())
    assert found.pop_second is None
