"""What was thrown, to whom, in which count, and what came of it: one row a pitch."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from scoutgen.records.check import quoted
from scoutgen.records.program import Zone
from scoutgen.records.table import Mask, Rows, read_rows
from scoutgen.records.vocabulary import (
    PITCHES,
    AcrossFt,
    Balls,
    Bases,
    Bearing,
    Cell,
    Contact,
    FieldFifth,
    FieldFt,
    Half,
    Inning,
    Kph,
    Label,
    Lead,
    Mph,
    Names,
    Note,
    Outs,
    Pitched,
    Play,
    Position,
    Result,
    Row,
    Side,
    Strikes,
    UpFt,
)

KM_PER_MILE = 1.609344
# A ball is 9 to 9 1/4 in around (Official Baseball Rules 3.01).
BALL_RADIUS_FT = 9.125 / (2 * np.pi) / 12
# The middle of each fifth of the 90 degrees between the lines.
FIFTH_BEARINGS = {"left": -36.0, "left_center": -18.0, "center": 0.0, "right_center": 18.0, "right": 36.0}
BATTED = ("contact", "direction_deg", "field", "distance_ft", "fielder")
# Rows without a throw: nothing to name.
NO_THROW = ("clock_ball", "clock_strike", "intentional_ball")


DEFAULT_ZONE = Zone()


class Pitch(Row):
    """One pitch as charted."""

    game: Label
    inning: Inning | None = None
    half: Half | None = None
    outs: Outs | None = None
    bases: Bases | None = None
    lead: Lead | None = None
    pitcher: Label
    batter: Label | None = None
    catcher: Label | None = None
    bats: Side | None = None
    balls: Balls | None
    strikes: Strikes | None
    pitch: Pitched | None
    speed_mph: Mph | None = None
    speed_kph: Kph | None = None
    height: Cell | None = None
    side: Cell | None = None
    plate_x_ft: AcrossFt | None = None
    plate_z_ft: UpFt | None = None
    result: Result | None = None
    play: Play | None = None
    contact: Contact | None = None
    direction_deg: Bearing | None = None
    field: FieldFifth | None = None
    distance_ft: FieldFt | None = None
    fielder: Position | None = None
    clip: Note | None = None
    note: Note | None = None


def read_pitches(root: Path, *, pitches: Names = PITCHES, zone: Zone = DEFAULT_ZONE) -> Rows:
    """All pitches in the files of data/pitches, checked row by row.

    Args:
        root: the project's folder.
        pitches: the pitches' names and short forms.
        zone: the strike zone, for rows that give plate_x_ft and plate_z_ft.

    Returns:
        Rows with every column of the contract but the resolved ones; `speed_kph` and `field` are taken over into
        `speed_mph` and `direction_deg`, `plate_x_ft` and `plate_z_ft` also give `side` and `height`.
    """
    rows = read_rows(root, "pitches", Pitch, {"pitches": pitches})
    _check_count(rows)
    _check_two_notations(rows)
    frame = rows.frame
    frame["speed_mph"] = np.where(frame["speed_mph"].isna(), frame["speed_kph"] / KM_PER_MILE, frame["speed_mph"])
    bearings = frame["field"].astype("object").map(FIFTH_BEARINGS).astype(float)
    frame["direction_deg"] = np.where(frame["direction_deg"].isna(), bearings, frame["direction_deg"])
    frame["side"] = _measured_or_charted(frame["plate_x_ft"], side_edges_ft(zone), frame["side"])
    frame["height"] = _measured_or_charted(frame["plate_z_ft"], height_edges_ft(zone), frame["height"])
    rows.frame = frame.drop(columns=["speed_kph", "field"])
    return rows


def side_edges_ft(zone: Zone) -> tuple[float, float, float, float]:
    """Where the five sides part, feet from the plate's middle: the plate's thirds, the outer two wider by a ball.

    Any part of the ball over any part of the plate is over the plate (Official Baseball Rules, definition of a strike).
    """
    edge, third = zone.half_width_ft + BALL_RADIUS_FT, zone.half_width_ft / 3
    return -edge, -third, third, edge


def height_edges_ft(zone: Zone) -> tuple[float, float, float, float]:
    """Where the five heights part, feet above ground: the zone's thirds, by the middle of the ball."""
    third = (zone.top_ft - zone.bottom_ft) / 3
    return zone.bottom_ft, zone.bottom_ft + third, zone.top_ft - third, zone.top_ft


def _measured_or_charted(feet: "pd.Series[Any]", edges: Sequence[float], charted: "pd.Series[Any]") -> "pd.Series[Any]":
    """The cell 1-5 of a measured place, else the one charted; a place on an outer edge is inside."""
    values = feet.to_numpy(float)
    missing = np.isnan(values)
    if missing.all():
        return charted
    cell = np.searchsorted(edges, values, side="right") + 1 - (values == edges[-1])
    given = charted.array
    whole = np.where(missing, charted.to_numpy(np.int16, na_value=0), cell).astype(np.int16)
    return pd.Series(pd.arrays.IntegerArray(whole, missing & given.isna()), index=feet.index)


def _given(frame: pd.DataFrame, column: str) -> Mask:
    return frame[column].notna().to_numpy(bool)


def _check_count(rows: Rows) -> None:
    """Balls, strikes and pitch stand in every row but those of a batted ball alone."""
    frame = rows.frame
    result = frame["result"]
    batted = (result == "in_play").to_numpy(bool)
    for column in BATTED:
        batted = batted | _given(frame, column)
    balls, strikes, pitch = (_given(frame, name) for name in ("balls", "strikes", "pitch"))
    fine = ~rows.bad
    rows.flag(
        fine & ~balls & strikes, "balls", "is blank beside strikes; fill in both, 0 to 3 balls and 0 to 2 strikes"
    )
    rows.flag(
        fine & balls & ~strikes, "strikes", "is blank beside balls; fill in both, 0 to 3 balls and 0 to 2 strikes"
    )
    alone = f"; only a row that charts a batted ball alone ({', '.join(BATTED)}) may leave it blank"
    rows.flag(
        fine & ~balls & ~strikes & ~batted,
        "balls",
        f"balls and strikes are blank; fill in the count before the pitch{alone}",
    )
    thrown = ~result.isin(NO_THROW).to_numpy(bool)
    unnamed = fine & ~pitch & thrown & ((balls & strikes) | ~batted)
    rows.flag(unnamed, "pitch", f'is blank; write the pitch, or "other" when it is none of the usual{alone}')


def _check_two_notations(rows: Rows) -> None:
    """A thing given in two notations must be the same thing."""
    frame = rows.frame
    miles, km = frame["speed_mph"].to_numpy(float), frame["speed_kph"].to_numpy(float)
    rows.flag(
        np.abs(miles - km / KM_PER_MILE) > 1,
        "speed_kph",
        lambda row: (
            f"{km[row]:g} km/h is {km[row] / KM_PER_MILE:.1f} mph, but speed_mph says {miles[row]:g}; "
            "leave one of the two blank"
        ),
    )
    both = _given(frame, "field") & _given(frame, "direction_deg")
    if both.any():
        degrees = frame["direction_deg"].to_numpy(float)
        fifth = pd.cut(
            np.clip(degrees, -45, 45), [-45, -27, -9, 9, 27, 45], labels=list(FIFTH_BEARINGS), include_lowest=True
        )
        other = both & (np.asarray(fifth, dtype=object) != frame["field"].astype("object").to_numpy())
        rows.flag(
            other,
            "field",
            lambda row: (
                f"{quoted(rows.cell(row, 'field'))} is not where direction_deg {degrees[row]:g} lies; "
                "leave one of the two blank"
            ),
        )
