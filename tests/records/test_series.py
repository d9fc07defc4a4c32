"""content/series: who plays when, given by key, name or number, and what a slip is answered."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

from datetime import date
from pathlib import Path

import pytest
from yaml_projects import said, write

from scoutgen.records.opponents import Opponents, Team
from scoutgen.records.roster import RosterPlayer
from scoutgen.records.series import Series, read_series

AS_OF = date(2026, 4, 9)
ROSTER = (
    RosterPlayer(key="ivan-nunez", number="27", name="Iván Núñez"),
    RosterPlayer(key="ray-tolliver", number="12", name="Ray Tolliver", until_date=date(2026, 4, 10)),
    RosterPlayer(key="sam-tolliver", number="12", name="Sam Tolliver", from_date=date(2026, 4, 11)),
    RosterPlayer(key="lee-brandt", number="3", name="Lee Brandt"),
)
HARBOR = Team("harbor", "Gannet Harbor", roster=ROSTER, file="content/opponents/harbor/team.yml")
TEAMS = Opponents({"harbor": HARBOR, "slate": Team("slate", "Slatefield")}, {}, frozenset({"slate"}))


def series(tmp_path: Path, files: dict[str, str]) -> tuple[tuple[Series, ...], list[str]]:
    write(tmp_path, {f"content/series/{name}": text for name, text in files.items()})
    read, problems = read_series(tmp_path, TEAMS, AS_OF)
    return read, said(problems)


def test_everything_a_series_may_say(tmp_path: Path) -> None:
    text = """
        title: At Gannet Harbor
        opponent: harbor
        start: 2026-04-10
        end: 2026-04-12
        where: away
        probables:
          - {game: Friday, date: 2026-04-10, pitcher: 27}
          - {game: Saturday, date: 2026-04-11, pitcher: "#12"}
          - {game: Sunday, pitcher: Lee Brandt}
        catcher: 12
        lineup: [lee-brandt, ivan nunez]
        plan:
          - Sit on the fastball.
          - {text: Watch the lob., about: running, for: staff}
        bullpen:
          - {player: 3, state: limited, as_of: 2026-04-08}
    """
    (read,), problems = series(tmp_path, {"harbor-april.yml": text})
    assert problems == []
    assert (read.name, read.title, read.opponent, read.where) == ("harbor-april", "At Gannet Harbor", "harbor", "away")
    assert (read.start, read.end) == (date(2026, 4, 10), date(2026, 4, 12))
    # The number 12 changes hands on Saturday.
    assert [(p.game, p.date, p.pitcher) for p in read.probables] == [
        ("Friday", date(2026, 4, 10), "ivan-nunez"),
        ("Saturday", date(2026, 4, 11), "sam-tolliver"),
        ("Sunday", None, "lee-brandt"),
    ]
    assert (read.catcher, read.lineup) == ("ray-tolliver", ("lee-brandt", "ivan-nunez"))
    assert [(line.text, line.about, line.editions) for line in read.plan] == [
        ("Sit on the fastball.", None, ("staff", "players")),
        ("Watch the lob.", "running", ("staff",)),
    ]
    assert [(b.player, b.state, b.as_of) for b in read.bullpen] == [("lee-brandt", "limited", date(2026, 4, 8))]


def test_series_come_in_order_of_their_days_and_get_a_title(tmp_path: Path) -> None:
    read, problems = series(
        tmp_path,
        {
            "a.yml": "opponent: harbor\nstart: 2026-04-10\n",
            "b.yml": "opponent: slate\nstart: 2026-03-06\nend: 2026-03-08\n",
        },
    )
    assert problems == []
    assert [(s.name, s.title) for s in read] == [
        ("b", "Slatefield, 6 to 8 Mar"),
        ("a", "Gannet Harbor, 10 Apr"),
    ]


def test_every_slip_at_once_even_beside_errors_in_other_keys(tmp_path: Path) -> None:
    text = """
        opponent: harbr
        start: 2026-04-10
        plan:
          - {text: x, for: recruiting}
        bullpen:
          - {player: 3, state: tired, as_of: 2026-04-08}
    """
    _, problems = series(tmp_path, {"a.yml": text})
    assert problems == [
        'content/series/a.yml:1: opponent: "harbr" is not a team; there are harbor and slate; did you mean "harbor"?',
        'content/series/a.yml:4: plan[1].for: "recruiting" is not allowed; write staff or players',
        'content/series/a.yml:6: bullpen[1].state: "tired" is not allowed; write available, limited or no',
    ]


def test_men_and_days_that_do_not_fit(tmp_path: Path) -> None:
    text = """
        opponent: harbor
        start: 2026-04-10
        end: 2026-04-12
        probables:
          - {game: Friday, date: 2026-04-13, pitcher: Ivan Nunes}
        catcher: 99
        lineup:
          - lee-brandt
          - 3
        bullpen:
          - {player: nobody, state: no, as_of: 2026-04-10}
    """
    _, problems = series(tmp_path, {"a.yml": text})
    team = "(content/opponents/harbor/team.yml)"
    assert problems == [
        "content/series/a.yml:5: probables[1].date: 2026-04-13 is not within the series (2026-04-10 to 2026-04-12)",
        f'content/series/a.yml:5: probables[1].pitcher: "Ivan Nunes" is not on the roster; did you mean "ivan-nunez"? {team}',
        f'content/series/a.yml:6: catcher: "99" is not on the roster; give a key, a full name or a number {team}',
        "content/series/a.yml:9: lineup[2]: 'lee-brandt' stands in the lineup twice (first in line 8)",
        "content/series/a.yml:11: bullpen[1].as_of: 2026-04-10 is after 2026-04-09, the day the site is made for",
        f'content/series/a.yml:11: bullpen[1].player: "nobody" is not on the roster; give a key, a full name or a number {team}',
    ]


def test_a_roster_that_could_not_be_read_blames_nobody(tmp_path: Path) -> None:
    (read,), problems = series(tmp_path, {"a.yml": "opponent: slate\nstart: 2026-04-10\ncatcher: 99\n"})
    assert (problems, read.catcher) == ([], "99")


@pytest.mark.parametrize(
    ("name", "text", "answer"),
    [
        ("a.yml", "opponent: harbor\nstart: 2026-04-10\nend: 2026-04-09\n", "a.yml:1: end 2026-04-09 is before start 2026-04-10"),
        ("a.yml", "start: 2026-04-10\n", "a.yml:1: opponent: is missing; it must be filled in"),
        ("a.yml", "opponent: harbor\nstart: April 10\n", 'a.yml:2: start: "April 10" is not a date; write year-month-day, e.g. 2026-03-06'),
        ("a.yml", "opponent: harbor\nstart: 2026-04-10\nlineup: [3,3,3,3,3,3,3,3,3,3,3]\n", "a.yml:3: lineup: has 11 items; at most 10 are read"),
        ("April.yml", "opponent: harbor\nstart: 2026-04-10\n", "April.yml: the file's name is the series' address, and \"April\" is not a key; lower-case letters, digits and hyphens can stand in one; write 'april'"),
        ("notes.txt", "x", "notes.txt: is not a series; series are files <name>.yml"),
    ],
)  # fmt: skip
def test_other_slips(tmp_path: Path, name: str, text: str, answer: str) -> None:
    assert series(tmp_path, {name: text})[1] == [f"content/series/{answer}"]


def test_without_teams_it_says_so(tmp_path: Path) -> None:
    write(tmp_path, {"content/series/a.yml": "opponent: harbor\nstart: 2026-04-10\n"})
    _, problems = read_series(tmp_path, Opponents({}, {}), AS_OF)
    assert said(problems) == [
        'content/series/a.yml:1: opponent: "harbor" is not a team; there are none in content/opponents yet'
    ]
