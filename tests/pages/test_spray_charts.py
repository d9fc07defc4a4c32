"""The drawing of a hitter's balls: where marks and fences lie, and that shapes tell the kinds apart."""

import json
from typing import Any

import pytest

from scoutgen.pages.spray_charts import SHAPES, spray_chart
from scoutgen.records.opponents import Fence

FENCES = [Fence(bearing_deg=b, distance_ft=d) for b, d in ((45, 325), (-45, 320), (0, 400))]  # as one may write them


def drawn(*balls: tuple[str, float, float, str], fences: list[Fence] | None = None) -> dict[str, Any]:
    rows = [
        {"contact": kind, "direction_deg": degrees, "distance_ft": feet, "play": play}
        for kind, degrees, feet, play in balls
    ]
    chart = spray_chart(rows, FENCES if fences is None else fences, title="t", description="d")
    found: dict[str, Any] = json.loads(chart.spec)
    return found


def test_left_field_is_left_and_center_is_up() -> None:
    marks = drawn(("fly", -45, 100, "out"), ("line", 0, 200, "out"), ("ground", 45, 100, "out"))["datasets"]["marks"]
    assert [(mark["x"], mark["y"]) for mark in marks] == [(-71, 71), (0, 200), (71, 71)]


def test_hits_lie_over_outs_and_are_marked() -> None:
    marks = drawn(("fly", 0, 300, "double"), ("fly", 1, 300, "out"), ("fly", 2, 300, "error"))["datasets"]["marks"]
    assert [mark["hit"] for mark in marks] == [False, False, True]


def test_the_fence_goes_from_left_to_right_and_its_ends_and_middle_are_written() -> None:
    rows = drawn(("fly", 0, 300, "out"))["datasets"]
    fence = [spot for spot in rows["lines"] if spot["path"] == "fence"]
    assert [spot["x"] for spot in fence] == sorted(spot["x"] for spot in fence)
    assert (fence[1]["x"], fence[1]["y"]) == (0, 400)
    assert [word["feet"] for word in rows["words"]] == ["320", "400", "325"]


@pytest.mark.parametrize("fences", [[], FENCES[:1]])
def test_without_a_fence_a_ring_says_how_far_out_a_ball_was(fences: list[Fence]) -> None:
    rows = drawn(("fly", 0, 300, "out"), fences=fences)["datasets"]
    ring = [spot for spot in rows["lines"] if spot["path"] == "fence"]
    assert all((spot["x"] ** 2 + spot["y"] ** 2) ** 0.5 == pytest.approx(300, abs=1) for spot in ring)
    assert [word["feet"] for word in rows["words"]] == ["300"]


def test_kinds_differ_in_shape_and_nothing_depends_on_colour() -> None:
    assert len(set(SHAPES.values())) == len(SHAPES)
    spec = drawn(("fly", 0, 300, "out"))
    text = json.dumps({name: part for name, part in spec.items() if name != "datasets"})
    assert '"color": {' not in text
    assert '"legend": null' in text


def test_a_ball_hit_out_of_the_picture_is_kept_at_its_edge() -> None:
    scales = [layer["encoding"][axis]["scale"] for layer in drawn(("fly", 0, 480, "out"))["layer"] for axis in "xy"]
    assert scales
    assert all(scale["clamp"] for scale in scales)


def test_the_feet_in_center_field_give_way_to_a_ball_that_lies_there() -> None:
    def written(distance: float) -> tuple[float, float]:
        word = drawn(("fly", 2, distance, "home_run"))["datasets"]["words"][1]
        return word["x"], word["y"]

    assert written(350) == (0, 414)
    assert written(412) == (0, 386)
