"""Where a hitter's balls went, drawn on a field with its fences: shapes by kind of contact, filled for a hit."""

from collections.abc import Mapping, Sequence
from functools import cache
from math import cos, radians, sin
from typing import Any

from scoutgen.pages.book import Chart
from scoutgen.pages.charts import FAINT, INK, UNMEASURED, WIDTH, finished, spec_of
from scoutgen.pages.rows import Rows
from scoutgen.records.opponents import Fence

# Feet shown to the left and right of second base, behind home plate and out to centre field.
_ACROSS, _BEHIND, _OUT = 262, 25, 425
# Feet of a deep fence are written at the very edge, and half of them beyond it.
_PADDING: Mapping[str, int] = {"left": 14, "right": 14, "top": 8, "bottom": 2}
# How far the foul lines are drawn where the park's fences are not known.
_NO_FENCE_FT = 320
_RING_FT = 300
# Feet to the side, and up and down, within which a mark lies on a number of three digits.
_MEETS = (30, 16)
_BASE_FT = 90
_HITS = ("single", "double", "triple", "home_run")
# Told apart by shape, so that they read in grey.
SHAPES: Mapping[str, str] = {
    "ground": "circle", "line": "triangle-up", "fly": "square", "popup": "diamond", "bunt": "cross",
}  # fmt: skip


def spray_chart(balls: Rows, fences: Sequence[Fence], *, title: str, description: str) -> Chart:
    """Every ball with a place as a mark on the field, as seen from above with home plate below.

    Args:
        balls: rows of `batted_balls`: contact, direction_deg, distance_ft, play.
        fences: points of the fence from left to right; none known: a ring at 300 ft instead.
        title: the chart's name for screen readers.
        description: what it shows in one sentence.
    """
    marks = [
        {"kind": ball["contact"], "hit": ball["play"] in _HITS, **_spot(ball["direction_deg"], ball["distance_ft"])}
        for ball in balls
    ]
    # Outs below hits, so that a full mark is never hidden by an empty one.
    marks.sort(key=lambda mark: bool(mark["hit"]))
    line, words = _outfield(fences, marks)
    rows = {
        "marks": marks,
        "lines": line,
        "words": words,
    }
    return finished(_field(), rows, title, description)


def _spot(direction_deg: float, distance_ft: float) -> dict[str, float]:
    bearing = radians(direction_deg)
    return {"x": round(distance_ft * sin(bearing)), "y": round(distance_ft * cos(bearing))}


def _outfield(fences: Sequence[Fence], marks: Rows) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Foul lines, infield and fence as lines of points, and the fence's feet where they are written."""
    points = [(fence.bearing_deg, fence.distance_ft) for fence in sorted(fences, key=lambda fence: fence.bearing_deg)]
    known = len(points) > 1
    if not known:
        points = [(float(bearing), float(_RING_FT)) for bearing in range(-45, 46, 5)]
    left, right = (points[0][1], points[-1][1]) if known else (_NO_FENCE_FT, _NO_FENCE_FT)
    paths = {
        "foul": [_spot(-45, left), _spot(0, 0), _spot(45, right)],
        "infield": [_spot(-45, _BASE_FT), _spot(0, _BASE_FT * 2**0.5), _spot(45, _BASE_FT)],
        "fence": [_spot(bearing, feet) for bearing, feet in points],
    }
    lines = [{"path": path, "at": at, **spot} for path, spots in paths.items() for at, spot in enumerate(spots)]
    said = points if known else [(0.0, float(_RING_FT))]
    shown = _written(said)
    words = [{**_beside(bearing, feet, marks), "feet": f"{feet:.0f}"} for bearing, feet in said if bearing in shown]
    return lines, words


def _beside(bearing: float, feet: float, marks: Rows) -> dict[str, float]:
    """Behind the fence, or before it where fewer marks lie; in a corner below its end, where none over it lands."""
    behind, before = _spot(bearing, feet + 14), _spot(bearing, feet - 14)
    if bearing:
        return {"x": behind["x"], "y": round(behind["y"] - abs(bearing) * 0.8)}

    def met(spot: dict[str, float]) -> int:
        return sum(abs(mark["x"] - spot["x"]) < _MEETS[0] and abs(mark["y"] - spot["y"]) < _MEETS[1] for mark in marks)

    return min(behind, before, key=met)


def _written(points: Sequence[tuple[float, float]]) -> set[float]:
    """The ends and the middle of the fence: more numbers would run into one another."""
    bearings = [bearing for bearing, _ in points]
    return {bearings[0], min(bearings, key=abs), bearings[-1]}


@cache
def _field() -> Mapping[str, Any]:
    import altair as alt  # noqa: PLC0415 - slow, and not needed where every page is kept

    x = alt.X("x:Q", axis=None, scale=alt.Scale(domain=[-_ACROSS, _ACROSS], nice=False, clamp=True))
    y = alt.Y("y:Q", axis=None, scale=alt.Scale(domain=[-_BEHIND, _OUT], nice=False, clamp=True))
    lines = (
        alt.Chart(alt.NamedData("lines"))
        .mark_line(color=FAINT, strokeWidth=1.2)
        .encode(x=x, y=y, detail="path:N", order="at:Q")
    )
    feet = alt.Chart(alt.NamedData("words")).mark_text(**UNMEASURED).encode(x=x, y=y, text="feet:N")
    shape = alt.Shape("kind:N", scale=alt.Scale(domain=list(SHAPES), range=list(SHAPES.values())), legend=None)
    balls = alt.Chart(alt.NamedData("marks"))
    outs = (
        balls.transform_filter("!datum.hit")
        .mark_point(filled=False, stroke=INK, size=42, strokeWidth=1.3, opacity=0.85)
        .encode(x=x, y=y, shape=shape)
    )
    hits = (
        balls.transform_filter("datum.hit")
        .mark_point(filled=True, fill=INK, size=48, opacity=0.85)
        .encode(x=x, y=y, shape=shape)
    )
    height = round(WIDTH * (_OUT + _BEHIND) / (2 * _ACROSS))
    return spec_of(alt.layer(lines, feet, outs, hits).properties(width=WIDTH, height=height), _PADDING)
