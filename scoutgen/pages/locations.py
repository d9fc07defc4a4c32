"""Where his pitches go: a drawing of the five by five grid and the same in rows."""

from dataclasses import dataclass

from scoutgen.pages.book import Chart
from scoutgen.pages.charts import location_grid
from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.rows import Rows
from scoutgen.pages.usage import UsageSide
from scoutgen.records.program import Thresholds

# Fewer located pitches than this make a picture of chance.
ENOUGH_TO_DRAW = 12


@dataclass(frozen=True)
class PlaceLine:
    """Where one pitch goes to hitters of one side: in, middle, away; up, centre, down; n located."""

    pitch: str
    n: int
    across: tuple[Claim, ...]
    height: tuple[Claim, ...]


@dataclass(frozen=True)
class LocationSide:
    """One side's places; `chart` is None where too few pitches were located to draw."""

    lines: tuple[PlaceLine, ...]
    chart: Chart | None


def location_side(mix: UsageSide, name: str, limits: Thresholds, *, grid: Rows, places: Rows) -> LocationSide:
    """Where he throws to hitters of one side.

    Args:
        mix: what he throws to them: the side and the page's order of pitches.
        name: his name, for the drawing's title.
        limits: how sure a percent must be.
        grid: his rows of `location_grid`.
        places: his rows of `location_places`.
    """
    side, pitches = mix.side, mix.pitches
    mine = [r for r in places if r["bats"] == side and r["pitch"] in pitches]
    found: dict[str, dict[str, Claim]] = {}
    for row, claim in zip(mine, claims(mine, "where", limits), strict=True):
        found.setdefault(row["pitch"], {})[claim.what] = claim
    lines = tuple(
        PlaceLine(
            pitch=p,
            n=max(c.n for c in found[p].values()),
            across=tuple(found[p][w] for w in ("in", "middle", "away") if w in found[p]),
            height=tuple(found[p][w] for w in ("up", "center", "down") if w in found[p]),
        )
        for p in pitches
        if p in found
    )
    drawn = [r for p in pitches for r in grid if r["pitch"] == p and r["bats"] == side and r["n"] >= ENOUGH_TO_DRAW]
    if not drawn:
        return LocationSide(lines, None)
    chart = location_grid(
        drawn,
        title=f"{name}: where each pitch goes to {mix.words}",
        description="As the catcher sees it, five by five; the frame is the strike zone, and the larger a square, the "
        "more of that pitch went there. The table under it has the numbers.",
    )
    return LocationSide(lines, chart)
