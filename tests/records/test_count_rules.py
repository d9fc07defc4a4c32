"""Counts against the Official Baseball Rules (2019 edition; the rules' numbers are from memory)."""

import itertools
from collections.abc import Callable

import pytest

from scoutgen.records.count_rules import BALLS, STRIKES

Complaints = Callable[..., list[str]]
HEADER = "game,inning,half,pitcher,batter,balls,strikes,pitch,result,play\n"


def next_count(balls: int, strikes: int, result: str) -> tuple[int, int] | None:
    """The rule as one reads it, against which the warnings on whole tables are held."""
    if result in BALLS:
        balls += 1
    elif result in STRIKES or (result == "foul" and strikes < 2):
        strikes += 1
    elif result != "foul":
        return None
    return (balls, strikes) if balls < 4 and strikes < 3 else None


@pytest.mark.parametrize(
    ("balls", "strikes", "result", "after"),
    [
        (0, 0, "ball", (1, 0)),
        (3, 2, "ball", None),  # base on balls: definitions of terms, 5.05(b)(1)
        (0, 0, "called_strike", (0, 1)),
        (1, 2, "called_strike", None),  # strikeout: 5.09(a)(2)
        (1, 2, "swinging_strike", None),
        (1, 1, "foul", (1, 2)),
        (1, 2, "foul", (1, 2)),  # definition of a strike: a foul with less than two strikes
        (1, 2, "foul_bunt", None),  # 5.09(a)(4): bunts foul on the third strike
        (1, 2, "foul_tip", None),  # definition of a foul tip: a strike, and the ball is in play
        (1, 1, "foul_tip", (1, 2)),
        (2, 0, "pitchout", (3, 0)),
        (0, 0, "intentional_ball", (1, 0)),
        (0, 0, "clock_ball", (1, 0)),  # pitch-timer violations: a ball to the batter, a strike on him
        (0, 1, "clock_strike", (0, 2)),
        (0, 0, "in_play", None),
        (3, 2, "hit_by_pitch", None),
    ],
)
def test_the_count_after_a_pitch(balls: int, strikes: int, result: str, after: tuple[int, int] | None) -> None:
    assert next_count(balls, strikes, result) == after


def pitches(*rows: str, start: str = "g1,1,top,Ada,Bo,") -> dict[str, str]:
    return {"data/pitches.csv": HEADER + "".join(f"{start}{row}\n" for row in rows)}


@pytest.mark.parametrize("result", ["ball", "called_strike", "foul", "foul_bunt", "clock_strike", "in_play"])
def test_warnings_agree_with_the_rule_for_every_pair_of_counts(complaints: Complaints, result: str) -> None:
    counts = list(itertools.product(range(4), range(3)))
    rows, wrong = [], []
    for number, ((balls, strikes), (b, s)) in enumerate(itertools.product(counts, counts)):
        rows += [f"Bo{number},{balls},{strikes},FB,{result},", f"Bo{number},{b},{s},SL,,"]
        if next_count(balls, strikes, result) not in (None, (b, s)):
            wrong.append(2 * number + 3)
    said = complaints(pitches(*rows, start="g1,1,top,Ada,"))
    assert [int(line.split(":")[1]) for line in said if " bats: " not in line] == wrong


def test_the_warning_names_both_lines(complaints: Complaints) -> None:
    assert complaints(pitches("0,0,FB,ball,", "0,1,FB,,")) == [
        (
            "data/pitches.csv:3: warning: balls: 0-1 cannot follow: line 2 has 0-0 and ball, so the count is 1-0; "
            "is a pitch missing or a count wrong?"
        )
    ]


@pytest.mark.parametrize(
    "files",
    [
        {"data/pitches.csv": HEADER + "g1,1,top,Ada,Bo,0,0,FB,ball,\ng1,1,top,Ada,Cy,0,0,FB,ball,\n"},  # another batter
        {"data/pitches.csv": HEADER + "g1,1,top,Ada,Bo,0,0,FB,ball,\ng1,3,top,Ada,Bo,0,0,FB,ball,\n"},  # another inning
        {"data/pitches.csv": HEADER + "g1,1,top,Ada,,0,0,FB,ball,\ng1,1,top,Ada,,0,0,FB,ball,\n"},  # batter not charted
        pitches("0,0,FB,,", "2,1,FB,,"),  # result not charted
        pitches("0,0,FB,ball,", ",,,in_play,single"),  # count not charted
        pitches("0,0,FB,in_play,single", "0,0,SL,ball,"),  # a new plate appearance
    ],
)
def test_rows_that_say_too_little_are_not_warned_of(complaints: Complaints, files: dict[str, str]) -> None:
    assert complaints(files) == []


def test_nothing_is_concluded_across_a_row_with_an_error(complaints: Complaints) -> None:
    said = complaints(pitches("0,0,FB,ball,", "1,0,FBB,ball,", "2,0,FB,ball,"))
    assert [line.split(": ")[1] for line in said] == ["pitch"]


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("0,0,FB,ball,single", "single cannot come of a pitch that is ball; it comes of in_play"),
        (
            "0,0,FB,hit_by_pitch,walk",
            (
                "walk cannot come of a pitch that is hit_by_pitch; it comes of ball or pitchout or "
                "intentional_ball or clock_ball"
            ),
        ),
        ("2,2,FB,ball,walk", "a walk comes with 3 balls, but this row has 2; correct one of the two"),
        (
            "2,1,FB,swinging_strike,strikeout",
            "a strikeout comes with 2 strikes, but this row has 1; correct one of the two",
        ),
        ("0,0,FB,foul,out", "out cannot come of a pitch that is foul; it comes of in_play"),
    ],
)
def test_plays_that_their_pitch_cannot_bring_about(complaints: Complaints, row: str, words: str) -> None:
    assert complaints(pitches(row)) == [f"data/pitches.csv:2: warning: play: {words}"]


@pytest.mark.parametrize(
    "row",
    [
        "3,2,FB,ball,walk",
        "3,1,,clock_ball,walk",
        "0,0,,intentional_ball,walk",
        "1,2,FB,foul_bunt,strikeout",
        "1,2,FB,foul_tip,strikeout",
        "0,2,,clock_strike,strikeout",
        "0,0,FB,in_play,double_play",
        "0,0,FB,hit_by_pitch,hit_by_pitch",
        "0,0,FB,,single",
        ",,,in_play,home_run",
    ],
)
def test_plays_that_it_can(complaints: Complaints, row: str) -> None:
    assert complaints(pitches(row)) == []
