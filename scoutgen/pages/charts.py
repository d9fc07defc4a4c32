"""Charts: rows in, a Vega-Lite specification out. Ink is black and grey; the site turns it into the text's colour.

Nothing here depends on colour: shapes, sizes and labels carry the difference, so that a chart reads in light, in
dark and on a black-and-white printer. Each kind of chart is stated once in altair; the rows are put in by name, since
stating it anew for every player would cost more than all the rest of his page.
"""

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from statistics import median
from typing import TYPE_CHECKING, Any
from unicodedata import east_asian_width

from scoutgen.pages.book import Chart
from scoutgen.pages.rows import Rows

if TYPE_CHECKING:
    import altair as alt

INK = "#000"
FAINT = "#444"
# A phone of 360 px leaves 328 px between the margins.
WIDTH = 300
# Text is measured here with one font and shown in another: a wider one must not run out of the picture.
PADDING: Mapping[str, int] = {"left": 20, "right": 6, "top": 2, "bottom": 2}
# Grids side by side in a drawing of places, by how many letters the longest name over them may have: a longer one would
# meet its neighbour. Four only where there are exactly four with short names.
FOUR_ACROSS, SHORT_NAME = 4, 9
ROOM_FOR_NAME: Mapping[int, int] = {3: 13, 2: 20, 1: 40}
# Words inside a picture whose size is given move nothing, and to measure them takes longer than to draw all the rest:
# they are drawn of no size, a third of a line lower than their middle, and the site's styles give them one.
UNMEASURED: Mapping[str, Any] = {"fontSize": 0, "baseline": "alphabetic", "dy": 4, "color": INK}
# Pixels that a letter of such words takes at most on the average, and that stand between them and an axis.
_LETTER, _TICK = 7.2, 8
# From how many equal readings on a mark on a strip grows no more.
_MANY_ALIKE = 25
# Height of a grid with its two lines of text over it, where a place is 1.
ROW = 8.6


def chart_key(chart: Chart) -> str:
    """The name under which a chart stands in the markdown: equal charts share one."""
    return hashlib.sha256(chart.spec.encode()).hexdigest()[:16]


def clock_strip(readings: Iterable[tuple[str, float, str]], *, title: str, description: str) -> Chart:
    """Every reading of a watch as a mark on one line per style, so that spread and count are seen at once.

    Equal readings would hide one another: they are one mark, the larger the more there are.

    Args:
        readings: in the order of the lines: label (style, and method where it is frames: a line never mixes the two),
            seconds, method.
        title: the chart's name for screen readers.
        description: what it shows in one sentence.
    """
    lines: dict[str, list[float]] = {}
    times: Counter[tuple[str, float, str]] = Counter()
    for label, seconds, method in readings:
        lines.setdefault(label, []).append(seconds)
        times[label, seconds, method] += 1
    marks = [{"label": at[0], "seconds": at[1], "method": at[2], "times": n} for at, n in times.items()]
    medians = [{"label": label, "seconds": median(seconds)} for label, seconds in lines.items()]
    spec = _strip(max(map(len, lines), default=0))
    return finished(spec, {"readings": marks, "medians": medians}, title, description)


def location_grid(cells: Rows, *, title: str, description: str) -> Chart:
    """Where each pitch goes, five by five as the catcher sees it: one small grid a pitch, squares sized by count.

    Args:
        cells: one row a pitch, height and side, pitches in the order shown: `pitch`, `height` (1-5), `side` (1-5), `k`,
            `n` pitches of that name located.
        title: the chart's name for screen readers.
        description: what it shows in one sentence.
    """
    # One plane with a place for each pitch: a faceted chart repeats axes and weighs three times as much.
    located = {cell["pitch"]: cell["n"] for cell in cells}
    across, longest = _side_by_side(list(located))
    place = {pitch: (6 * (i % across), -ROW * (i // across)) for i, pitch in enumerate(located)}
    most: dict[str, int] = {}
    for cell in cells:
        most[cell["pitch"]] = max(most.get(cell["pitch"], 0), cell["k"])
    squares = [
        {
            "x": place[cell["pitch"]][0] + cell["side"],
            "y": place[cell["pitch"]][1] + cell["height"],
            "part": round(1000 * (cell["k"] / most[cell["pitch"]])) / 1000,
        }
        for cell in cells
        if cell["k"]
    ]
    frames = [
        {
            "x": x + 1.5,
            "x2": x + 4.5,
            "y": y + 1.5,
            "y2": y + 4.5,
            "middle": x + 3,
            "top": y + 7.4,
            "under": y + 6.1,
            "pitch": pitch,
            "n": f"n {located[pitch]}",
        }
        for pitch, (x, y) in place.items()
    ]
    spec = _grids((len(place) - 1) // across + 1, across, measured=longest > max(ROOM_FOR_NAME.values()))
    return finished(spec, {"squares": squares, "frames": frames}, title, description)


def _side_by_side(names: Sequence[str]) -> tuple[int, int]:
    """How many grids stand side by side, and how many letters their longest name has; a wide letter counts as two."""
    longest = max((sum(1 + (east_asian_width(letter) in "WF") for letter in name) for name in names), default=0)
    if len(names) == FOUR_ACROSS and longest <= SHORT_NAME:
        return FOUR_ACROSS, longest
    return next((across for across, room in ROOM_FOR_NAME.items() if longest <= room), 1), longest


@cache
def _strip(longest: int) -> Mapping[str, Any]:
    import altair as alt  # noqa: PLC0415 - slow, and not needed where every page is kept

    base = alt.Chart(alt.NamedData("readings"))
    x = alt.X(
        "seconds:Q",
        title="seconds",
        # Half a large mark of room, so that none lies on the other axis.
        scale=alt.Scale(zero=False, nice=True, padding=10),
        axis=alt.Axis(tickCount=6, labelFlush=False),
    )
    y = alt.Y(
        "label:N",
        title=None,
        sort=None,
        axis=alt.Axis(labelFontSize=0, labelBaseline=UNMEASURED["baseline"], labelOffset=UNMEASURED["dy"]),
    )
    shape = alt.Scale(domain=["watch", "frames"], range=["circle", "triangle-up"])
    size = alt.Scale(type="sqrt", domain=[1, _MANY_ALIKE], range=[60, 360], clamp=True)
    marks = base.mark_point(filled=False, stroke=INK, opacity=0.75, strokeWidth=1.5).encode(
        x=x,
        y=y,
        shape=alt.Shape("method:N", scale=shape, legend=None),
        size=alt.Size("times:Q", scale=size, legend=None),
    )
    tick = alt.MarkDef(type="tick", color=INK, opacity=1, thickness=2.5, size=26)
    medians = alt.Chart(alt.NamedData("medians"), mark=tick).encode(x=x, y=y)
    padding = {**PADDING, "left": _TICK + round(_LETTER * longest)}
    return spec_of(alt.layer(marks, medians).properties(width=WIDTH - 145, height=alt.Step(34)), padding)


@cache
def _grids(rows: int, across: int, *, measured: bool) -> Mapping[str, Any]:
    import altair as alt  # noqa: PLC0415 - as above

    # A grid alone is as large as one of two, with room for its name on both sides.
    start, end = (0.4, 6 * across - 0.4) if across > 1 else (-2.6, 8.6)
    x = alt.X("x:Q", axis=None, scale=alt.Scale(domain=[start, end], nice=False, zero=False))
    y = alt.Y("y:Q", axis=None, scale=alt.Scale(domain=[0.4 - ROW * (rows - 1), ROW - 0.6], nice=False, zero=False))
    frames = alt.Chart(alt.NamedData("frames"))
    zone = frames.mark_rect(fill=None, stroke=FAINT, strokeWidth=1.5).encode(x=x, x2="x2:Q", y=y, y2="y2:Q")
    middle = alt.X("middle:Q", axis=None)
    name = {"fontSize": 13, "color": INK} if measured else UNMEASURED
    names = frames.mark_text(**name).encode(x=middle, y=alt.Y("top:Q", axis=None), text="pitch:N")
    counts = frames.mark_text(**UNMEASURED).encode(x=middle, y=alt.Y("under:Q", axis=None), text="n:N")
    unit = WIDTH / (end - start)
    size = alt.Size("part:Q", scale=alt.Scale(domain=[0, 1], range=[0, (0.86 * unit) ** 2]), legend=None)
    squares = alt.Chart(alt.NamedData("squares")).mark_square(color=INK, opacity=1).encode(x=x, y=y, size=size)
    height = round(unit * (ROW * rows - 1))
    padding = {**PADDING, "left": 30, "right": 30} if measured else PADDING
    return spec_of(alt.layer(zone, names, counts, squares).properties(width=WIDTH, height=height), padding)


def spec_of(chart: "alt.LayerChart | alt.FacetChart", padding: Mapping[str, int] = PADDING) -> Mapping[str, Any]:
    """A stated chart as Vega-Lite with the ink and type all drawings share.

    Args:
        chart: as altair has it.
        padding: pixels on each side of all that is measured.
    """
    import altair as alt  # noqa: PLC0415 - as above

    # Labels are short words of ours: to look for where to cut them takes half the time of the drawing.
    axis = alt.AxisConfig(grid=False, labelFontSize=12, titleFontSize=12, titleFontWeight="normal", labelLimit=0)
    config = alt.Config(
        # Who cannot see a drawing is told what the figure says, not mark by mark.
        aria=False,
        axis=axis,
        background="transparent",
        font="sans-serif",
        padding=dict(padding),
        view=alt.ViewConfig(stroke=None),
    )
    return {**chart.to_dict(), "config": config.to_dict()}


def finished(spec: Mapping[str, Any], rows: Mapping[str, Any], title: str, description: str) -> Chart:
    """A specification with its rows put in, ready to draw."""
    text = json.dumps({**spec, "datasets": rows}, sort_keys=True, separators=(",", ":"))
    return Chart(spec=text, title=title, description=description)
