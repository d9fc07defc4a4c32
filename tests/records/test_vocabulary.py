"""What a cell may say, and the answer to one that says something else."""

from datetime import date
from typing import Any

import pytest

from scoutgen.records.check import FieldCheck, field_checks
from scoutgen.records.games import Game
from scoutgen.records.pitches import Pitch
from scoutgen.records.times import TimeReading
from scoutgen.records.vocabulary import DEFAULT_PITCHES, Names

PITCH = field_checks(Pitch)
GAME = field_checks(Game)
TIME = field_checks(TimeReading)
PITCHES = Names.of("pitch", {**DEFAULT_PITCHES, "gyro": ("GY",)}, "content/program.yml")


def read(check: FieldCheck, text: str) -> Any:  # noqa: ANN401 - a value or a sentence
    values, wrong = check.values([text], {"pitches": PITCHES})
    return wrong.get(0, values[0])


@pytest.mark.parametrize(
    ("written", "pitch"),
    [
        ("FB", "fastball"),
        ("fb", "fastball"),
        ("Fastball", "fastball"),
        ("SI", "sinker"),
        ("CT", "cutter"),
        ("SL", "slider"),
        ("CB", "curve"),
        ("CH", "change"),
        ("SPL", "splitter"),
        ("sweeper", "sweeper"),
        ("GY", "gyro"),
        ("Gyro", "gyro"),
    ],
)
def test_pitches_by_name_and_alias_whatever_the_capitals(written: str, pitch: str) -> None:
    assert read(PITCH["pitch"], written) == pitch


def test_the_answer_to_a_pitch_nobody_knows() -> None:
    known = "fastball, sinker, cutter, slider, sweeper, curve, change, splitter, knuckleball, other and gyro"
    assert read(PITCH["pitch"], "FBB") == f'"FBB" is not a pitch; did you mean "FB" (fastball)? Known are {known}'
    assert read(PITCH["pitch"], "slidr") == f'"slidr" is not a pitch; did you mean "slider"? Known are {known}'
    assert read(PITCH["pitch"], "qqq") == f'"qqq" is not a pitch; known are {known}; add others in content/program.yml'


@pytest.mark.parametrize(
    ("written", "bases"),
    [("", ""), ("-", ""), ("1", "1"), ("1-3", "13"), ("13", "13"), ("31", "13"), ("1-2-3", "123"), ("1, 3", "13")],
)
def test_occupied_bases_in_both_notations(written: str, bases: str) -> None:
    assert read(PITCH["bases"], written) == bases


@pytest.mark.parametrize("written", ["11", "4", "0", "1B", "loaded", "1234", "--"])
def test_no_such_bases(written: str) -> None:
    assert read(PITCH["bases"], written) == (
        f'"{written}" is not a set of occupied bases; write 1, 2, 3, 12, 13, 23, 123, or - for empty'
    )


@pytest.mark.parametrize(
    ("column", "written", "answer"),
    [
        ("outs", "2", 2),
        ("outs", "", None),
        ("lead", "-3", -3),
        ("lead", "+3", 3),
        ("speed_mph", "91.5", 91.5),
        ("speed_mph", "40", 40.0),
        ("speed_mph", "110", 110.0),
        ("plate_x_ft", ".5", 0.5),
        ("outs", "3", '"3" is too large; allowed are 0 to 2; leave the cell blank if it was not charted'),
        ("outs", "-1", '"-1" is too small; allowed are 0 to 2; leave the cell blank if it was not charted'),
        ("balls", "4", '"4" is too large; allowed are 0 to 3'),
        (
            "speed_mph",
            "110.1",
            '"110.1" is too large; allowed are 40 to 110; leave the cell blank if it was not charted',
        ),
        ("outs", "1.0", '"1.0" is not a whole number; write 1'),
        ("outs", "1.5", '"1.5" is not a whole number; write 1 or 2'),
        ("outs", "1,5", '"1,5" is not a whole number; write 1 or 2'),
        ("outs", "2,0", '"2,0" is not a whole number; write 2'),
        ("outs", "0.5", '"0.5" is not a whole number; write 0 or 1'),
        ("lead", "-1.5", '"-1.5" is not a whole number; write -2 or -1'),
        ("lead", "-0,5", '"-0,5" is not a whole number; write -1 or 0'),
        ("lead", "1,000", '"1,000" is not a whole number; write 1000'),
        ("outs", "one", '"one" is not a whole number'),
        ("outs", "٢", '"٢" is not a whole number'),
        ("speed_mph", "91,5", '"91,5" is not a number; write 91.5'),
        ("distance_ft", "1,000", '"1,000" is not a number; write 1000 without commas, or 1.000 if a decimal was meant'),
        ("speed_mph", "92 mph", '"92 mph" is not a number; write 92 alone'),
        ("speed_mph", "9e1", '"9e1" is not a number; write it out in plain digits, e.g. 1000 for 1e3'),
        ("speed_mph", "nan", '"nan" is not a number; leave the cell blank when there is no number'),
        ("speed_mph", "-inf", '"-inf" is not a number; leave the cell blank when there is no number'),
        ("speed_mph", "N/A", '"N/A" is not a number; leave the cell blank when there is no number'),
        ("plate_x_ft", "−0.5", '"−0.5" is not a number; write -0.5'),
        ("plate_x_ft", "0x1p3", '"0x1p3" is not a number'),
        ("plate_x_ft", "1_0", '"1_0" is not a number'),
        ("plate_x_ft", "9" * 400, f'"{"9" * 40}…" is not a number'),
    ],
)
def test_numbers(column: str, written: str, answer: object) -> None:
    assert read(PITCH[column], written) == answer


@pytest.mark.parametrize(
    ("written", "answer"),
    [
        ("2026-03-06", date(2026, 3, 6)),
        ("2028-02-29", date(2028, 2, 29)),
        ("2026-02-29", '"2026-02-29" is not a day of the calendar'),
        (
            "3/6/2026",
            '"3/6/2026" is not a date; write year-month-day, i.e. 2026-03-06 (2026-06-03 if the day was written first)',
        ),
        ("3/3/2026", '"3/3/2026" is not a date; write year-month-day, i.e. 2026-03-03'),
        ("13.6.2026", '"13.6.2026" is not a date; write year-month-day, i.e. 2026-06-13'),
        ("2026/3/6", '"2026/3/6" is not a date; write year-month-day, i.e. 2026-03-06'),
        ("20260306", '"20260306" is not a date; write year-month-day, i.e. 2026-03-06'),
        ("0026-03-06", '"0026-03-06" is before 1950; correct the year'),
        ("6 March", '"6 March" is not a date; write year-month-day, e.g. 2026-03-06'),
        ("2026-03-06T19:00", '"2026-03-06T19:00" is not a date; write year-month-day, i.e. 2026-03-06'),
    ],
)
def test_dates(written: str, answer: object) -> None:
    assert read(GAME["date"], written) == answer


@pytest.mark.parametrize(
    ("column", "written", "answer"),
    [
        ("half", "Top", "top"),
        ("bats", "l", "L"),
        ("result", "Called_Strike", "called_strike"),
        ("half", "tpo", '"tpo" is not allowed; did you mean "top"? Write top or bottom'),
        ("bats", "S", '"S" is not allowed; write L or R'),
        (
            "contact",
            "grounder",
            '"grounder" is not allowed; did you mean "ground"? Write ground, line, fly, popup or bunt',
        ),
        ("note", "a" * 2_000, "a" * 2_000),
        ("note", "a" * 2_001, "is too long (2,001 characters); at most 2,000 are read"),
        ("note", "a\r\nb\rc", "a\nb\nc"),
        ("note", "a\u2028b", "holds the control character U+2028; take it out"),
        ("note", "a\0b", "holds the control character U+0000; take it out"),
        ("note", 'two\nlines, "quoted" and a\ttab', 'two\nlines, "quoted" and a\ttab'),
        ("pitcher", "a" * 201, f'"{"a" * 40}…" is 201 characters long; at most 200 are read; shorten it'),
    ],
)
def test_words(column: str, written: str, answer: object) -> None:
    assert read(PITCH[column], written) == answer


@pytest.mark.parametrize(
    ("column", "written", "answer"),
    [
        ("result", "cas", "called_strike"),
        ("result", "B", "ball"),
        ("result", "fob", "foul_bunt"),
        ("result", "FB", "not allowed"),
        ("result", "cb", "not allowed"),
        ("result", "cs", '"cs" may be called_strike or clock_strike; write it out'),
        ("result", "c", "not allowed"),
        ("play", "S", '"S" may be strikeout, single or sacrifice; write it out'),
        ("play", "hbp", "hit_by_pitch"),
        ("play", "k", "not allowed"),
        ("half", "t", "top"),
    ],
)
def test_words_as_short_as_the_sheets_have_them(column: str, written: str, answer: str) -> None:
    found = read(PITCH[column], written)
    assert found == answer or answer in found


def test_no_short_form_counts_where_words_are_asked_for_in_full() -> None:
    assert "not allowed" in read(PITCH["result"].in_full, "cas")
    assert read(PITCH["result"].in_full, "ball") == "ball"


def test_a_short_form_of_a_name_that_a_project_adds() -> None:
    names = Names.of("habit", {"lobs-return": (), "slow-relay": (), "soft-return": ()}, "x.yml", shortened=True)
    assert names.read("LR") == "lobs-return"
    with pytest.raises(ValueError, match='"sr" may be slow-relay or soft-return; write it out'):
        names.read("sr")
    with pytest.raises(ValueError, match="is not a pitch"):
        PITCHES.read("fa")


def test_markup_cannot_be_a_name_because_names_become_headings() -> None:
    assert "holds <, which a name or title cannot" in read(PITCH["pitcher"], "<b>Ada</b>")


def test_control_characters_are_not_echoed() -> None:
    answer = str(read(PITCH["outs"], "\x1b[31m2"))
    assert "\x1b" not in answer
    assert "\\x1b" in answer


def test_yes_and_no() -> None:
    assert read(TIME["warmup"], "Yes") is True
    assert read(TIME["warmup"], "no") is False
    assert read(TIME["warmup"], "x") == '"x" is neither yes nor no; write yes or no'


def test_every_column_of_every_table_has_a_type_that_says_its_limits() -> None:
    for check in (*PITCH.values(), *TIME.values(), *GAME.values()):
        if check.kind == "whole":
            assert check.low is not None
            assert check.high is not None
            assert check.high <= 32_767, "frames keep whole numbers in 16 bits"
        assert check.kind != "text" or check.allowed or check.required or check.values([""], {}) == ([None], {})
