"""A pitch's row: two notations of place, speed and bases, and what must be filled."""

import math
from collections.abc import Callable

import pandas as pd
import pytest

from scoutgen.records.pitches import BALL_RADIUS_FT, Pitch, height_edges_ft, side_edges_ft
from scoutgen.records.program import Zone
from scoutgen.records.season import Season

Complaints = Callable[..., list[str]]
Read = Callable[..., Season]


def pitches(header: str, *rows: str) -> dict[str, str]:
    lines = "".join(f"g1,A,{row}\n" for row in rows)
    return {"data/pitches.csv": f"game,pitcher,{header}\n{lines}"}


def test_the_plates_edges() -> None:
    # Official Baseball Rules 2.02: the plate is 17 inches wide; 3.01: a ball is 9 to 9 1/4 inches around.
    left, left_third, right_third, right = side_edges_ft(Zone())
    assert right == -left == pytest.approx((17 / 2 + 9.125 / (2 * math.pi)) / 12)
    assert right_third == -left_third == pytest.approx(17 / 6 / 12)
    assert 9 / (2 * math.pi) / 12 < BALL_RADIUS_FT < 9.25 / (2 * math.pi) / 12
    assert height_edges_ft(Zone(bottom_ft=1.5, top_ft=3.6)) == pytest.approx((1.5, 2.2, 2.9, 3.6))


@pytest.mark.parametrize(
    ("x", "z", "side", "height"),
    [
        ("-2", "0", 1, 1),
        ("-0.83", "1.49", 1, 1),
        ("-0.82", "1.5", 2, 2),
        ("-0.24", "2.1", 2, 2),
        ("-0.23", "2.2", 3, 3),
        ("0", "2.5", 3, 3),
        ("0.23", "2.8", 3, 3),
        ("0.24", "2.9", 4, 4),
        ("0.82", "3.5", 4, 4),
        ("0.83", "3.51", 5, 5),
        ("9", "9", 5, 5),
        ("", "2.5", None, 3),
        ("0", "", 3, None),
        ("", "", None, None),
    ],
)
def test_feet_become_sides_and_heights(season: Read, x: str, z: str, side: int | None, height: int | None) -> None:
    row = season(pitches("balls,strikes,pitch,plate_x_ft,plate_z_ft", f"0,0,FB,{x},{z}")).pitches.iloc[0]
    assert (None if pd.isna(row["side"]) else row["side"]) == side
    assert (None if pd.isna(row["height"]) else row["height"]) == height


def test_rows_of_both_notations_stand_side_by_side(season: Read) -> None:
    read = season(pitches("balls,strikes,pitch,plate_x_ft,plate_z_ft,side,height", "0,0,FB,0,2.5,,", "0,0,FB,,,1,5"))
    assert read.pitches[["side", "height"]].to_numpy().tolist() == [[3, 3], [1, 5]]


def test_the_zone_of_the_program_counts(season: Read) -> None:
    files = pitches("balls,strikes,pitch,plate_x_ft,plate_z_ft", "0,0,FB,0,3.7")
    assert season({**files, "content/program.yml": "zone:\n  top_ft: 4\n"}).pitches["height"].tolist() == [4]
    assert season({**files, "content/program.yml": "zone:\n  top_ft: 3.5\n"}).pitches["height"].tolist() == [5]


def test_kilometres_become_miles(season: Read) -> None:
    read = season(pitches("balls,strikes,pitch,speed_kph,speed_mph", "0,0,FB,144.84096,", "0,0,FB,,88", "0,0,FB,,"))
    # A mile is 1.609344 km.
    assert read.pitches["speed_mph"].tolist()[:2] == pytest.approx([90.0, 88.0])
    assert read.pitches["speed_mph"].isna().tolist() == [False, False, True]


def test_fifths_of_the_field_become_bearings(season: Read) -> None:
    fields = ["left", "left_center", "center", "right_center", "right", ""]
    read = season(pitches("balls,strikes,pitch,result,field", *(f"0,0,FB,in_play,{field}" for field in fields)))
    assert read.pitches["direction_deg"].tolist()[:5] == [-36.0, -18.0, 0.0, 18.0, 36.0]
    assert read.pitches["direction_deg"].isna().tolist()[5]


def test_blank_bases_are_empty_where_the_file_charts_bases_and_unknown_where_it_does_not(season: Read) -> None:
    read = season(
        {
            "data/pitches/a.csv": "game,pitcher,balls,strikes,pitch,bases\n"
            "g1,A,0,0,FB,\ng1,A,0,0,FB,-\ng1,A,0,0,FB,1-3\n",
            "data/pitches/b.csv": "game,pitcher,balls,strikes,pitch\ng1,A,0,0,FB\n",
        }
    )
    bases = read.pitches["bases"].astype("object")
    assert bases.where(bases.notna(), None).tolist() == ["", "", "13", None]


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("0,,FB,,,", "strikes: is blank beside balls; fill in both, 0 to 3 balls and 0 to 2 strikes"),
        (",0,FB,,,", "balls: is blank beside strikes; fill in both, 0 to 3 balls and 0 to 2 strikes"),
        (
            ",,FB,,,",
            (
                "balls: balls and strikes are blank; fill in the count before the pitch; only a row "
                "that charts a batted ball "
                "alone (contact, direction_deg, field, distance_ft, fielder) may leave it blank"
            ),
        ),
        (
            "0,0,,ball,,",
            (
                'pitch: is blank; write the pitch, or "other" when it is none of the usual; only a '
                "row that charts a batted "
                "ball alone (contact, direction_deg, field, distance_ft, fielder) may leave it blank"
            ),
        ),
        (
            "0,0,,in_play,ground,",
            (
                'pitch: is blank; write the pitch, or "other" when it is none of the usual; only a row that charts '
                "a batted ball alone (contact, direction_deg, field, distance_ft, fielder) may leave it blank"
            ),
        ),
    ],
)
def test_what_must_be_filled(complaints: Complaints, row: str, words: str) -> None:
    assert complaints(pitches("balls,strikes,pitch,result,contact,field", row)) == [f"data/pitches.csv:2: {words}"]


@pytest.mark.parametrize(
    "row", [",,,in_play,,", ",,,,ground,", ",,,,,left", "0,0,,clock_ball,,", "3,1,,intentional_ball,,"]
)
def test_what_may_be_blank(complaints: Complaints, row: str) -> None:
    assert complaints(pitches("balls,strikes,pitch,result,contact,field", row)) == []


def test_two_notations_that_contradict_each_other(complaints: Complaints) -> None:
    header = "balls,strikes,pitch,result,speed_mph,speed_kph,field,direction_deg"
    assert complaints(pitches(header, "0,0,FB,in_play,90,145,left,-30", "0,0,FB,in_play,90,150,left,30")) == [
        'data/pitches.csv:3: field: "left" is not where direction_deg 30 lies; leave one of the two blank',
        "data/pitches.csv:3: speed_kph: 150 km/h is 93.2 mph, but speed_mph says 90; leave one of the two blank",
    ]


def test_the_record_has_the_columns_of_the_charting_format() -> None:
    # Charting format, version 1.
    columns = (
        "game inning half outs bases lead pitcher batter catcher bats balls strikes pitch speed_mph "
        "speed_kph height side plate_x_ft "
        "plate_z_ft result play contact direction_deg field distance_ft fielder clip note"
    )
    assert list(Pitch.model_fields) == columns.split()
    needed = [name for name, field in Pitch.model_fields.items() if field.is_required()]
    assert needed == ["game", "pitcher", "balls", "strikes", "pitch"]
