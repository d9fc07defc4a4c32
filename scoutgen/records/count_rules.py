"""Can this count follow from the pitch before, and can this pitch end the plate appearance so?

Official Baseball Rules (2019 edition): a walk is four balls and a strikeout three strikes (definitions of terms;
5.05(b)(1), 5.09(a)(2)-(4)); a foul not caught is a strike unless there are two (definition of a strike, (d)); a foul
tip and a foul bunt are strikes with two strikes too (definition of a foul tip; 5.09(a)(4)). The rule numbers are from
memory.
"""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt
import pandas as pd

from scoutgen.records.table import Mask, Rows

BALLS = ("ball", "pitchout", "intentional_ball", "clock_ball")
STRIKES = ("called_strike", "swinging_strike", "foul_tip", "foul_bunt", "clock_strike")
# What a pitch can be for a plate appearance to end so. A caught foul fly is charted as a ball in play.
PLAY_NEEDS = {
    "walk": BALLS,
    "strikeout": STRIKES,
    "hit_by_pitch": ("hit_by_pitch",),
    **dict.fromkeys(
        ("out", "single", "double", "triple", "home_run", "error", "fielders_choice", "sacrifice", "double_play"),
        ("in_play",),
    ),
}


def _texts(frame: pd.DataFrame, column: str) -> npt.NDArray[np.object_]:
    return frame[column].astype("object").to_numpy()


def _same_as_before(frame: pd.DataFrame, column: str, *, filled: bool) -> Mask:
    """Rows whose cell says the same as the row before; with `filled`, blanks are not the same."""
    codes = (
        frame[column].cat.codes.to_numpy()
        if frame[column].dtype == "category"
        else frame[column].to_numpy(float, na_value=-1)
    )
    same = np.zeros(len(codes), bool)
    same[1:] = codes[1:] == codes[:-1]
    return same & (codes >= 0) if filled else same


def check_counts(rows: Rows) -> None:
    """Warn of a count that cannot follow from the row before of the same plate appearance.

    Two rows are of one plate appearance where they stand one after the other and name the same game, inning, half,
    pitcher and batter; a blank inning or half must be blank in both, a blank batter says too little.
    """
    frame = rows.frame
    if len(frame) < 2:
        return
    fine = ~rows.bad & frame["balls"].notna().to_numpy(bool) & frame["strikes"].notna().to_numpy(bool)
    same = fine & np.concatenate([[False], fine[:-1]])
    for column in ("file", "game", "batter", "pitcher"):
        same &= _same_as_before(frame, column, filled=True)
    for column in ("inning", "half"):
        same &= _same_as_before(frame, column, filled=False)
    balls, strikes = (frame[name].to_numpy(float, na_value=np.nan) for name in ("balls", "strikes"))
    result, play = frame["result"].cat, frame["play"].cat.codes.to_numpy()
    names = [*result.categories, ""]
    kind = {name: 1 if name in BALLS else 2 if name in STRIKES else 3 if name == "foul" else 0 for name in names}
    kinds = np.array([kind[name] for name in names])[result.codes.to_numpy()]
    b, s, k = balls[:-1], strikes[:-1], kinds[:-1]
    after_balls = b + (k == 1)
    after_strikes = s + ((k == 2) | ((k == 3) & (s < 2)))
    goes_on = (k > 0) & (after_balls < 4) & (after_strikes < 3) & (play[:-1] < 0)
    wrong = np.zeros(len(frame), bool)
    wrong[1:] = same[1:] & goes_on & ((after_balls != balls[1:]) | (after_strikes != strikes[1:]))

    def text(row: int) -> str:
        before = f"{balls[row - 1]:.0f}-{strikes[row - 1]:.0f}"
        return (
            f"{balls[row]:.0f}-{strikes[row]:.0f} cannot follow: line {rows.cell(row - 1, 'line')} has {before} and "
            f"{rows.cell(row - 1, 'result')}, so the count is {after_balls[row - 1]:.0f}-{after_strikes[row - 1]:.0f}; "
            "is a pitch missing or a count wrong?"
        )

    rows.flag(wrong, "balls", text, "warning")


def check_plays(rows: Rows) -> None:
    """Warn of a play that its pitch cannot have brought about."""
    frame = rows.frame
    both = (frame["play"].notna() & ~rows.bad).to_numpy(bool)
    if not both.any():
        return
    places = np.flatnonzero(both)
    part = frame.iloc[places]
    play, result = _texts(part, "play"), _texts(part, "result")
    balls, strikes = (part[name].to_numpy(float, na_value=np.nan) for name in ("balls", "strikes"))
    charted = pd.notna(result)
    fits = np.array([not c or r in PLAY_NEEDS[p] for p, r, c in zip(play, result, charted, strict=True)])

    def contradiction(row: int) -> str:
        needs = " or ".join(PLAY_NEEDS[rows.cell(row, "play")])
        return (
            f"{rows.cell(row, 'play')} cannot come of a pitch that is {rows.cell(row, 'result')}; it comes of {needs}"
        )

    def too_early(row: int) -> str:
        return f"a walk comes with 3 balls, but this row has {rows.cell(row, 'balls')}; correct one of the two"

    def too_soon(row: int) -> str:
        return f"a strikeout comes with 2 strikes, but this row has {rows.cell(row, 'strikes')}; correct one of the two"

    _warn(rows, places[~fits], contradiction)
    # A walk given from the bench may come at any count.
    _warn(rows, places[fits & (play == "walk") & (balls < 3) & (result != "intentional_ball")], too_early)
    _warn(rows, places[fits & (play == "strikeout") & (strikes < 2)], too_soon)


def _warn(rows: Rows, places: npt.NDArray[np.int64], text: Callable[[int], str]) -> None:
    where = np.zeros(len(rows.frame), bool)
    where[places] = True
    rows.flag(where, "play", text, "warning")
