"""New, charted already, or contradicting."""

from collections.abc import Callable

import pandas as pd

from scoutgen.records.import_conflicts import KEYS, NOT_COMPARED, sort_out
from scoutgen.records.import_map import RECORDS
from scoutgen.records.season import Season

HEAD = "game,inning,half,outs,pitcher,batter,balls,strikes,pitch,speed_mph,result\n"
ROWS = [
    "g1,1,top,0,Ada,Bo,0,0,FB,91,ball",
    "g1,1,top,0,Ada,Bo,1,0,FB,91,called_strike",
    "g1,1,top,0,Ada,Bo,1,1,SL,80,foul",
]


def frames(season: Callable[..., Season], *rows: str) -> pd.DataFrame:
    frame: pd.DataFrame = season({"data/pitches.csv": HEAD + "\n".join(rows) + "\n"}).pitches
    return frame


def test_the_same_row_is_charted_already_though_rounded_or_blanker(season: Callable[..., Season]) -> None:
    charted = frames(season, *ROWS)
    imported = frames(season, ROWS[0].replace("91", "91.004"), ROWS[1].replace("91", ""))
    found = sort_out("pitches", imported, charted)
    assert (found.new, found.charted, found.conflicts) == ([], [0, 1], [])


def test_another_value_is_a_conflict_that_names_the_charted_row(season: Callable[..., Season]) -> None:
    charted = frames(season, *ROWS)
    imported = frames(season, ROWS[0], ROWS[1], ROWS[2].replace("SL", "CB"))
    found = sort_out("pitches", imported, charted)
    (one,) = found.conflicts
    assert (one.row, one.file, one.line, one.column) == (2, "data/pitches.csv", 4, "pitch")
    assert one.text == '"curve", but "slider" is charted in'
    assert found.charted == [0, 1]
    assert found.new == []


def test_what_nobody_charted_is_new(season: Callable[..., Season]) -> None:
    charted = frames(season, *ROWS[:1])
    found = sort_out("pitches", frames(season, *ROWS), charted)
    assert found.new == [1, 2]


def test_two_fouls_in_one_count_are_two_rows(season: Callable[..., Season]) -> None:
    foul = "g1,1,top,0,Ada,Bo,0,2,FB,91,foul"
    before = ["g1,1,top,0,Ada,Bo,0,0,FB,91,called_strike", "g1,1,top,0,Ada,Bo,0,1,FB,91,called_strike"]
    charted = frames(season, *before, foul, foul.replace("91", "92"))
    imported = frames(season, *before, foul.replace("91", "92"), foul)
    assert sort_out("pitches", imported, charted).charted == [0, 1, 2, 3]


def test_rows_that_cannot_be_told_apart_never_conflict(season: Callable[..., Season]) -> None:
    charted = frames(season, "g1,,,,Ada,,0,0,FB,91,")
    imported = frames(season, "g1,,,,Ada,,0,0,SL,80,", "g1,,,,Ada,,0,0,FB,91,")
    found = sort_out("pitches", imported, charted)
    assert (found.new, found.charted, found.conflicts) == ([0], [1], [])


def test_keys_are_columns() -> None:
    for table, key in KEYS.items():
        assert set(key) <= set(RECORDS[table].model_fields)
    assert {"clip", "note"} <= NOT_COMPARED
