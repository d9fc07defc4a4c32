"""Extra bases read off charts: by hand, and off the plays of a big-league season whose advancement is known."""

from pathlib import Path
from typing import Any

import pandas as pd
import pytest

from scoutgen.measures.extra_bases import EXTRA_COLUMNS, extra_bases
from scoutgen.measures.run_chain import BASE_STATES

HERE = Path(__file__).parents[1] / "published"


def chart(*rows: dict[str, Any]) -> pd.DataFrame:
    """Pitches as `records` reads them, as far as they are asked for here."""
    usual = {
        "game": "g1", "date": pd.Timestamp("2026-04-01"), "inning": 1, "half": "top", "outs": 0, "bases": "", "lead": 0,
        "pitcher_team": "harbor", "play": pd.NA, "fielder": pd.NA,
    }  # fmt: skip
    frame = pd.DataFrame([usual | row for row in rows])
    return frame.astype(
        {
            "game": "category", "half": "category", "bases": "category", "pitcher_team": "category", "play": "category",
            "inning": "Int16", "outs": "Int16", "lead": "Int16", "fielder": "Int16",
        }
    )  # fmt: skip


def found(frame: pd.DataFrame) -> dict[tuple[int, str], tuple[int, int, int]]:
    table = extra_bases(frame)
    assert list(table.columns) == EXTRA_COLUMNS
    return {(r.position, r.play): (r.k, r.n, r.out) for r in table.itertuples()}


def single(**row: object) -> dict[str, Any]:
    return {"play": "single", "fielder": 9, **row}


@pytest.mark.parametrize(
    ("hit", "then", "expected"),
    [
        (single(bases="1"), {"bases": "13"}, {(9, "first_third"): (1, 1, 0)}),
        (single(bases="1"), {"bases": "12"}, {(9, "first_third"): (0, 1, 0)}),
        (single(bases="1"), {"bases": "1", "outs": 1}, {(9, "first_third"): (0, 1, 1)}),
        # Home from second, and the man from first takes third behind him.
        (
            single(bases="12"),
            {"bases": "13", "lead": -1},
            {(9, "first_third"): (1, 1, 0), (9, "second_home"): (1, 1, 0)},
        ),
        # The man from second stops at third: nothing was there to take for the man from first.
        (single(bases="12"), {"bases": "123"}, {(9, "second_home"): (0, 1, 0)}),
        # The man on third scores first.
        (single(bases="23"), {"bases": "13", "lead": -1}, {(9, "second_home"): (0, 1, 0)}),
        (single(bases="23"), {"bases": "1", "lead": -2}, {(9, "second_home"): (1, 1, 0)}),
        # The third out on the bases: the next half reads the lead from the other side.
        (
            single(bases="2", outs=2, lead=3),
            {"half": "bottom", "lead": -3, "pitcher_team": "ridge"},
            {(9, "second_home"): (0, 1, 1)},
        ),
        (
            single(bases="2", outs=2, lead=3),
            {"half": "bottom", "lead": -2, "pitcher_team": "ridge"},
            {(9, "second_home"): (1, 1, 0)},
        ),
        # Out at third, the batter to second on the throw; out at home, the trailer no farther than second.
        (single(bases="1"), {"bases": "2", "outs": 1}, {(9, "first_third"): (0, 1, 1)}),
        (single(bases="12"), {"bases": "12", "outs": 1}, {(9, "second_home"): (0, 1, 1)}),
        # The batter is put out behind a man who stopped at third.
        (single(bases="2"), {"bases": "3", "outs": 1}, {(9, "second_home"): (0, 1, 0)}),
        ({"play": "double", "fielder": 7, "bases": "1"}, {"bases": "2", "outs": 1}, {(7, "first_home"): (0, 1, 1)}),
        ({"play": "double", "fielder": 7, "bases": "1"}, {"bases": "23"}, {(7, "first_home"): (0, 1, 0)}),
        ({"play": "double", "fielder": 7, "bases": "12"}, {"bases": "2", "lead": -2}, {(7, "first_home"): (1, 1, 0)}),
        ({"play": "double", "fielder": 7, "bases": "13"}, {"bases": "23", "lead": -1}, {(7, "first_home"): (0, 1, 0)}),
    ],
)
def test_what_became_of_the_runner(
    hit: dict[str, Any], then: dict[str, Any], expected: dict[tuple[int, str], tuple[int, int, int]]
) -> None:
    assert found(chart(hit, then)) == expected


@pytest.mark.parametrize(
    "rows",
    [
        # The last pitch of a game, another game after it, no bases charted, an infield single, an impossible score.
        (single(bases="1"),),
        (single(bases="1"), {"game": "g2", "bases": "13"}),
        (single(bases=pd.NA), {"bases": "13"}),
        (single(bases="1"), {"bases": pd.NA}),
        (single(bases="1"), {"bases": "13", "lead": pd.NA}),
        (single(bases="1", fielder=6), {"bases": "13"}),
        (single(bases="1"), {"bases": "13", "lead": 2}),
        (single(bases="1"), {"half": "bottom"}),
        # Two men may be the one put out: at home or the one behind him; the man from first or the batter.
        (single(bases="12"), {"bases": "13", "outs": 1}),
        (single(bases="12", outs=2), {"half": "bottom", "pitcher_team": "ridge"}),
        (single(bases="1"), {"bases": "12", "outs": 1}),
        ({"play": "double", "fielder": 7, "bases": "1"}, {"bases": "3", "outs": 1}),
    ],
)
def test_what_a_chart_cannot_tell_is_left_out(rows: tuple[dict[str, Any], ...]) -> None:
    assert not found(chart(*rows))


def test_shares_lean_on_other_outfields_and_hold_their_interval() -> None:
    rows = []
    for team, took in (("harbor", 1), ("ridge", 9)):
        for each in range(10):
            bases = "13" if each < took else "12"
            rows += [single(bases="1", pitcher_team=team), {"bases": bases, "pitcher_team": team}]
    table = extra_bases(chart(*rows)).set_index("team")
    assert table.loc["harbor", "k"] == 1
    assert 0.1 < table.loc["harbor", "share"] < table.loc["ridge", "share"] < 0.9
    assert (table["low"] < table["share"]).all()
    assert (table["share"] < table["high"]).all()


# Big leagues 2019, innings one to eight (Retrosheet, tests/published/README.md): runners from first took third on a
# single 28 % of the time (33 % with two out), scored from second 49 % (77 %), from first on a double 33 % (49 %).
@pytest.mark.parametrize(
    ("play", "two_out", "published"),
    [
        ("first_third", False, 0.28),
        ("first_third", True, 0.33),
        ("second_home", False, 0.49),
        ("second_home", True, 0.77),
        ("first_home", False, 0.33),
        ("first_home", True, 0.49),
    ],
)
def test_a_whole_season_gives_its_advancement(play: str, two_out: bool, published: float) -> None:
    plays = pd.read_csv(HERE / "transitions_2019_inn1_8.csv")
    base = {"first_third": 1, "second_home": 2, "first_home": 1}[play]
    category = "2B" if play == "first_home" else "1B"
    of = plays["cat"].eq(category) & plays["o"].eq(2).eq(two_out) & plays["b"].eq(base)
    took = chances = 0
    for at in plays[of].itertuples():
        hit = single(bases=BASE_STATES[at.b], outs=at.o, play="single" if category == "1B" else "double")
        if at.o2 < 3:
            then = {"bases": BASE_STATES[at.b2], "outs": at.o2, "lead": -at.R}
        else:
            then = {"half": "bottom", "lead": at.R, "pitcher_team": "ridge"}
        for k, n, _ in found(chart(hit, then)).values():
            took, chances = took + k * at.n, chances + n * at.n
    assert chances > 500
    assert took / chances == pytest.approx(published, abs=0.02)
