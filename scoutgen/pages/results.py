"""His pitches one by one: how often, how hard, how often a strike, a miss, put in play."""

from dataclasses import dataclass

from scoutgen.pages.claims import Claim, claims
from scoutgen.pages.rows import Rows
from scoutgen.records.program import Thresholds


@dataclass(frozen=True)
class PitchLine:
    """One pitch of his to hitters of one side.

    Attributes:
        pitch: its name.
        use: its share of all pitches to them.
        speed: median and middle 80 % in miles an hour to all hitters, with n; None where never timed.
        strike, whiff, in_play, zone: claims; None where no result or place was charted.
    """

    pitch: str
    use: Claim
    speed: tuple[float, float, float, int] | None
    strike: Claim | None
    whiff: Claim | None
    in_play: Claim | None
    zone: Claim | None


def arsenal(
    uses: tuple[Claim, ...], side: str, limits: Thresholds, *, bands: Rows, results: Rows, places: Rows
) -> tuple[PitchLine, ...]:
    """What he has, in the order of use.

    Args:
        uses: share of each pitch to hitters of `side`.
        side: "L" or "R".
        limits: how sure a percent must be.
        bands: his rows of `speed_bands`.
        results: his rows of `results`.
        places: his rows of `location_places`.
    """
    speeds = {r["pitch"]: (r["median_mph"], r["p10_mph"], r["p90_mph"], r["n"]) for r in bands}
    mine = [r for r in results if r["bats"] == side]
    by_measure = {(r["pitch"], c.what): c for r, c in zip(mine, claims(mine, "measure", limits), strict=True)}
    zone = [r for r in places if r["bats"] == side and r["where"] == "in zone"]
    in_zone = {r["pitch"]: c for r, c in zip(zone, claims(zone, "where", limits), strict=True)}
    return tuple(
        PitchLine(
            pitch=use.what,
            use=use,
            speed=speeds.get(use.what),
            strike=by_measure.get((use.what, "strike")),
            whiff=by_measure.get((use.what, "whiff")),
            in_play=by_measure.get((use.what, "in_play")),
            zone=in_zone.get(use.what),
        )
        for use in uses
        if use.k
    )


@dataclass(frozen=True)
class SpeedDrop:
    """Whether his hard pitch loses speed from the fifth inning on; there only where both parts have enough pitches."""

    pitch: str
    drop_mph: float
    low: float
    high: float
    n_early: int
    n_late: int

    @property
    def lost(self) -> bool:
        """The whole interval lies on the slower side."""
        return self.low > 0


def speed_drop(rows: Rows) -> SpeedDrop | None:
    """His row of `speed_drop`, where it says something."""
    for r in rows:
        if r["known"] and r["low"] is not None:
            return SpeedDrop(r["pitch"], r["drop_mph"], r["low"], r["high"], r["n_early"], r["n_late"])
    return None
