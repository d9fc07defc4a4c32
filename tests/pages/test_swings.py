"""Rates of swings as lines of a table, and what two strikes change."""

from scoutgen.pages.swings import changes, lines, pitch_lines, swings
from scoutgen.records.program import Thresholds

LIMITS = Thresholds()


def rate(split: str, value: str, measure: str = "swing", k: int = 20, n: int = 40) -> dict[str, object]:
    return {"split": split, "value": value, "measure": measure, "k": k, "n": n, "share": 0.5, "low": 0.4, "high": 0.6}


def test_a_kind_of_several_pitches_stands_over_them_the_commonest_first_and_one_of_a_single_pitch_is_that_pitch() -> (
    None
):
    rows = [
        rate("family", "fastballs"), rate("family", "off-speed"), rate("family", "other", n=60),
        rate("pitch", "change"), rate("pitch", "cutter", n=30), rate("pitch", "fastball", n=70),
        rate("pitch", "gyro", n=35), rate("pitch", "other", n=25),
    ]  # fmt: skip
    found = pitch_lines(swings(rows, LIMITS))
    assert [(line.label, line.family) for line in found] == [
        ("All fastballs", True), ("fastball", False), ("cutter", False), ("Change", True),
        ("Other", True), ("gyro", False), ("other", False),
    ]  # fmt: skip


def test_what_was_not_charted_has_no_line_and_a_measure_without_a_look_none() -> None:
    found = swings([rate("side", "in"), rate("side", "away"), rate("side", "away", "miss")], LIMITS)
    shown = lines(found, [("side", value) for value in ("in", "middle", "away")])
    assert [line.label for line in shown] == ["In", "Away"]
    assert shown[0].miss is None
    assert shown[1].miss is not None
    assert all(line.hard is None for line in shown)


def test_few_looks_are_thin_however_narrow_the_interval() -> None:
    (line,) = lines(swings([rate("side", "in", n=19, k=10)], LIMITS), [("side", "in")])
    assert line.swing is not None
    assert line.swing.sure == "thin"


def test_a_change_has_now_and_before_each_as_sure_as_its_own_looks() -> None:
    row = {
        "measure": "other way", "k": 8, "n": 17, "share": 0.38, "low": 0.24, "high": 0.53, "early_k": 2, "early_n": 27,
        "early_share": 0.13, "early_low": 0.06, "early_high": 0.22, "change": 0.25, "told": True,
    }  # fmt: skip
    found = changes([row], LIMITS)
    assert found.swing is None
    assert found.other is not None
    assert (found.other.two.k, found.other.two.sure) == (8, "thin")
    assert (found.other.early.k, found.other.early.sure) == (2, "firm")
    assert (found.other.told, found.other.more) == (True, True)
