"""What is looked for where only a tally can be printed."""

from scoutgen.pages.usage import Situation, usage_side
from scoutgen.records.program import Thresholds


def first_pitch(tally: dict[str, int], shares: dict[str, float], half: float) -> Situation:
    """The first pitch to left-handers of a man seen to throw each pitch so often, and thought to by share."""
    n, order = sum(tally.values()), sorted(shares, key=lambda pitch: -shares[pitch])
    rows = [
        {"bats": bats, "count": count, "pitch": pitch, "k": k, "n": n, "share": shares[pitch],
         "low": shares[pitch] - half, "high": shares[pitch] + half}
        for bats in ("all", "L") for count in ("all", "first pitch") for pitch, k in tally.items()
    ]  # fmt: skip
    look = {"bats": "L", "count": "first pitch", "pitch": order[0], "second": order[1], "ahead_of_second": True}
    mix = usage_side("L", Thresholds(), usage=rows, look_for=[look], bases=[], times_through=[])
    return mix.glance[0]


def test_a_tally_alone_is_led_by_its_commonest_pitch() -> None:
    row = first_pitch({"cutter": 6, "curve": 6, "fastball": 7}, {"cutter": 0.36, "curve": 0.34, "fastball": 0.30}, 0.25)
    assert row.best is not None
    assert row.second is not None
    assert (row.best.what, row.best.k, row.clear) == ("fastball", 7, False)
    assert row.second.k == 6


def test_nobody_is_told_to_look_for_what_was_never_seen() -> None:
    row = first_pitch({"fastball": 0, "change": 3}, {"fastball": 0.55, "change": 0.45}, 0.25)
    assert row.best is not None
    assert row.best.what == "change"
    assert row.second is None


def test_what_is_sure_enough_for_a_percent_goes_by_the_estimate() -> None:
    row = first_pitch({"fastball": 17, "change": 17}, {"fastball": 0.55, "change": 0.45}, 0.1)
    assert row.best is not None
    assert row.best.what == "fastball"
    assert row.clear


def at_two_strikes_and_full(full: dict[str, int], *, clear: bool) -> list[str]:
    """What the glance says of a man with a slider at two strikes and these pitches at the full count."""
    counted = {"two strikes": {"slider": 40, "fastball": 20}, "full": full}
    rows = [
        {"bats": "L", "count": count, "pitch": pitch, "k": k, "n": (n := sum(tally.values())), "share": k / n,
         "low": k / n - 0.05, "high": k / n + 0.05}
        for count, tally in (counted | {"all": {"slider": 60, "fastball": 60}}).items() for pitch, k in tally.items()
    ]  # fmt: skip
    ever = [row | {"bats": "all"} for row in rows if row["count"] == "all"]
    look = [
        {"bats": "L", "count": count, "pitch": max(tally, key=lambda p: tally[p]),
         "second": min(tally, key=lambda p: tally[p]), "ahead_of_second": clear}
        for count, tally in counted.items()
    ]  # fmt: skip
    mix = usage_side("L", Thresholds(), usage=[*ever, *rows], look_for=look, bases=[], times_through=[])
    return [f"{row.label}: {row.best.what}" for row in mix.glance if row.best]


def test_the_full_count_is_told_where_he_surely_goes_to_another_pitch_there() -> None:
    two = "Two strikes: slider"
    assert at_two_strikes_and_full({"fastball": 30, "slider": 10}, clear=True) == [two, "Full count: fastball"]
    assert at_two_strikes_and_full({"fastball": 22, "slider": 18}, clear=False) == [two]
    assert at_two_strikes_and_full({"fastball": 10, "slider": 30}, clear=True) == [two]
