"""The staff's page of risk says what the measures say."""

import re

from scoutgen.measures.risk import innings_shown
from scoutgen.measures.stakes import Moment, stake
from scoutgen.pages.book import Page
from scoutgen.pages.run_values import win_values
from scoutgen.records.season import Season


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ").replace("<br>", " ").replace("**", "")


def test_cells_are_the_stakes(demo_season: Season, demo_pages: dict[str, Page]) -> None:
    table = plain(demo_pages["risk"].markdown).split("[table:risk Steal of second, one out]")[1]
    row = next(line for line in table.splitlines() if line.startswith("| tied |"))
    cells = re.findall(r"(\d+) % \+(\d+\.\d) −(\d+\.\d)", row)
    values = win_values(demo_season.program.run_environment)
    expected = [stake(values, "2", Moment(inning, "top", 0, 1)) for inning in innings_shown(values.rules)]
    assert [(int(even), float(gain), float(cost)) for even, gain, cost in cells] == [
        (round(100 * s.break_even), round(100 * s.gain, 1), round(100 * s.cost, 1)) for s in expected
    ]


def test_it_says_what_it_is_made_of_and_who_decides(demo_season: Season, demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["risk"].markdown)
    assert f"at {demo_season.program.run_environment.runs_per_team_game:.1f} runs a team-game" in text
    assert "the coach decides" in text
    assert "A column is an inning; we bat in its top" in text
