"""Where nobody charted a hitter's side, his roster tells it; what neither tells is said once, and not guessed."""

from collections.abc import Callable

import pytest

from scoutgen.records.season import Season

ReadSeason = Callable[..., Season]
GAMES = "game,date,away,home,source\ng1,2026-03-06,harbor,ridge,video\n"
ROSTER = """\
name: Gannet Harbor
roster:
  - {key: ada-left, name: Ada Left, number: 1, bats: L, positions: [CF]}
  - {key: bo-right, name: Bo Right, number: 2, bats: R, positions: [SS]}
  - {key: cy-both, name: Cy Both, number: 3, bats: S, positions: [C]}
  - {key: di-unsaid, name: Di Unsaid, number: 4, positions: [LF]}
"""
HEAD = "game,inning,half,pitcher,batter,bats,balls,strikes,pitch\n"


def pitch(batter: str, bats: str = "", at: int = 1) -> str:
    return f"g1,{at},top,Ada,{batter},{bats},0,0,fastball\n"


def read(season: ReadSeason, *rows: str) -> Season:
    return season(
        {
            "content/opponents/harbor/team.yml": ROSTER,
            "data/games.csv": GAMES,
            "data/pitches.csv": HEAD + "".join(rows),
        }
    )


def sides(found: Season) -> list[str | None]:
    return [side if isinstance(side, str) else None for side in found.pitches["bats"]]


def test_a_blank_side_is_the_only_one_a_man_has(season: ReadSeason) -> None:
    found = read(season, pitch("1"), pitch("Bo Right", at=2), pitch("2", at=3))
    assert sides(found) == ["L", "R", "R"]
    assert not any(problem.column == "bats" for problem in found.warnings)


def test_what_was_charted_stands(season: ReadSeason) -> None:
    assert sides(read(season, pitch("1", "R"))) == ["R"]


@pytest.mark.parametrize("batter", ["3", "4", ""])
def test_of_a_switch_hitter_and_of_nobody_no_side_is_made_up(season: ReadSeason, batter: str) -> None:
    found = read(season, *(pitch(batter, at=inning) for inning in range(1, 21)), pitch("1", at=21))
    assert sides(found) == [None] * 20 + ["L"]
    [warning] = [str(problem) for problem in found.warnings if problem.column == "bats"]
    assert warning.startswith("data/pitches: warning: bats: 20 of 21 pitches do not say on which side the hitter stood")


def test_a_man_charted_on_the_other_side_is_not_filled_in_and_named(season: ReadSeason) -> None:
    found = read(season, pitch("1", "R"), pitch("1", at=2), pitch("2", at=3))
    assert sides(found) == ["R", None, "R"]
    [warning] = [problem.text for problem in found.warnings if problem.column == "bats"]
    assert warning.startswith("charted on another side than the roster has: harbor ada-left (L); mend")


def test_a_few_pitches_without_a_side_are_no_matter(season: ReadSeason) -> None:
    few = [pitch("3", at=inning) for inning in range(1, 20)]
    assert not any(problem.column == "bats" for problem in read(season, *few).warnings)
