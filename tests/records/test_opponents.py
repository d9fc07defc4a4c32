"""content/opponents: teams, parks, rosters and entries, and what a slip in them is answered."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

from datetime import date
from pathlib import Path

import pytest
from yaml_projects import said, write

from scoutgen.records.grades import Grade
from scoutgen.records.opponents import Opponents, read_opponents

AS_OF = date(2026, 4, 9)
TEAM = """
    name: Gannet Harbor
    park:
      name: Breakwater Park
      fences: [{bearing_deg: -45, distance_ft: 328, height_ft: 8}, {bearing_deg: 0, distance_ft: 392}]
      backstop_ft: 52
      surface: grass
      notes: [Wind comes in from right after sundown.]
    tendencies:
      - {about: bunting, text: Bunts early., seen: 2026-04-05, source: video, by: JD, confidence: likely}
    roster:
      - {key: ivan-nunez, number: 27, name: Iván Núñez, positions: P, bats: L, throws: L, class: Jr, role: starter}
      - {number: 12, name: Ray Tolliver, positions: [C]}
"""
ENTRY = """
    summary: Lives on the slider.
    observations:
      - about: delivery
        text: No slide step yet.
        seen: 2026-03-06
        source: own_game
        by: A.B.
        confidence: sure
        for: [staff]
        clip: game.mp4 12:30
        expires: 2026-05-01
      - {about: delivery, text: Slide step with two on., seen: 2026-04-04, source: video, by: CD, confidence: hunch}
    grades:
      seen: 2026-04-04
      by: CD
      tools: {fastball: {now: 55, later: 60}, control: 45}
      body: Lean.
      role: Starter.
"""


def opponents(tmp_path: Path, files: dict[str, str], own: str = "") -> tuple[Opponents, list[str]]:
    write(tmp_path, {f"content/opponents/{name}": text for name, text in files.items()})
    read, problems = read_opponents(tmp_path, AS_OF, own)
    return read, said(problems)


def test_everything_a_team_and_an_entry_may_say(tmp_path: Path) -> None:
    read, problems = opponents(tmp_path, {"harbor/team.yml": TEAM, "harbor/players/ivan-nunez.yml": ENTRY})
    assert problems == []
    team = read.teams["harbor"]
    assert (team.key, team.name, team.own, team.listed) == ("harbor", "Gannet Harbor", False, True)
    assert (team.park.name, team.park.backstop_ft, team.park.surface) == ("Breakwater Park", 52, "grass")
    assert [(f.bearing_deg, f.distance_ft, f.height_ft) for f in team.park.fences] == [(-45, 328, 8), (0, 392, None)]
    assert team.tendencies[0].text == "Bunts early."
    pitcher, catcher = team.roster
    assert (pitcher.number, pitcher.positions, pitcher.class_year, pitcher.role) == ("27", ("P",), "Jr", "starter")
    assert (catcher.key, catcher.bats) == ("ray-tolliver", None)
    assert team.player("ray-tolliver") is catcher
    assert team.player("nobody") is None
    entry = read.entries["harbor", "ivan-nunez"]
    assert entry.summary == "Lives on the slider."
    first, second = entry.observations
    assert (first.about, first.seen, first.source, first.by) == ("delivery", date(2026, 3, 6), "own_game", "A.B.")
    assert (first.editions, first.clip, first.expires) == (("staff",), "game.mp4 12:30", date(2026, 5, 1))
    assert (second.confidence, second.editions, second.clip, second.expires) == (
        "hunch",
        ("staff", "players"),
        None,
        None,
    )
    assert entry.grades is not None
    assert entry.grades.tools == {"fastball": Grade(now=55, later=60), "control": Grade(now=45)}


def test_a_project_without_opponents(tmp_path: Path) -> None:
    assert opponents(tmp_path, {}) == (Opponents({}, {}), [])


def test_every_slip_in_an_entry_at_once(tmp_path: Path) -> None:
    entry = """
        sumary: x
        observations:
          - {about: delivery, text: x, seen: 2026-03-06, source: vidoe, by: ABCDE, confidence: maybe, for: player}
          - {about: "<b>", text: x, seen: 2026-04-10, source: video, by: CD, confidence: sure}
          - {about: a, text: x, seen: 2026-04-01, source: video, by: CD, confidence: sure, expires: 2026-03-01}
          - {about: a, text: x, seen: 2026-04-01, source: video, by: CD, confidence: sure, for: []}
          - text only
        grades:
          seen: 2026-04-10
          by: CD
          tools: {fastbal: 55, control: 57, curve: 85, run: {now: 50, latr: 60}}
    """
    _, problems = opponents(tmp_path, {"harbor/team.yml": TEAM, "harbor/players/ivan-nunez.yml": entry})
    place = "content/opponents/harbor/players/ivan-nunez.yml"
    allowed = (
        "fastball, sinker, cutter, slider, sweeper, curve, change, splitter, knuckleball, control, command, delivery, "
        "pickoff, hit, power, eye, bunt, run, field, range, hands, arm, receive, block, …"
    )
    assert problems == [
        f'{place}:1: sumary: is not known here; did you mean "summary"?',
        f'{place}:3: observations[1].by: "ABCDE" is not somebody\'s initials; one to four letters are meant',
        f'{place}:3: observations[1].confidence: "maybe" is not allowed; write sure, likely or hunch',
        f'{place}:3: observations[1].for: "player" is not allowed; write staff, players or recruiting; did you mean "players"?',
        f'{place}:3: observations[1].source: "vidoe" is not allowed; write video, own_game, same_site, on_campus or second_hand; did you mean "video"?',
        f'{place}:4: observations[2].about: "<b>" holds <, which a name or title cannot; letters (accents too), digits, spaces, apostrophes, hyphens, periods and commas can',
        f"{place}:5: observations[3]: expires 2026-03-01 is before seen 2026-04-01",
        f"{place}:6: observations[4].for: is an empty list; fill it in or take it out",
        f"{place}:7: observations[5]: is \"text only\"; keys and values are meant here, e.g. 'name: ...' in lines of their own",
        f'{place}:11: grades.tools.control: "57" is not a multiple of 5',
        f'{place}:11: grades.tools.curve: "85" is too large; the most is 80',
        f'{place}:11: grades.tools.fastbal: "fastbal" is not allowed; write {allowed}; did you mean "fastball"?',
        f'{place}:11: grades.tools.run.latr: is not known here; did you mean "later"?',
    ]


def test_nothing_was_seen_after_the_day_the_site_is_made_for(tmp_path: Path) -> None:
    late = "is after 2026-04-09, the day the site is made for; correct the date, or build with a later --as-of"
    _, problems = opponents(
        tmp_path,
        {
            "harbor/team.yml": TEAM.replace("2026-04-05", "2026-04-10"),
            "harbor/players/ivan-nunez.yml": ENTRY.replace("2026-04-04", "2027-01-01"),
        },
    )
    assert problems == [
        f"content/opponents/harbor/players/ivan-nunez.yml:12: observations[2].seen: 2027-01-01 {late}",
        f"content/opponents/harbor/players/ivan-nunez.yml:14: grades.seen: 2027-01-01 {late}",
        f"content/opponents/harbor/team.yml:9: tendencies[1].seen: 2026-04-10 {late}",
    ]
    on_the_day, problems = opponents(tmp_path / "b", {"harbor/team.yml": TEAM.replace("2026-04-05", "2026-04-09")})
    assert (problems, len(on_the_day.teams["harbor"].tendencies)) == ([], 1)


def test_an_entry_needs_its_man_on_the_roster(tmp_path: Path) -> None:
    _, problems = opponents(
        tmp_path,
        {
            "harbor/team.yml": TEAM,
            "harbor/players/ivan-nunes.yml": "summary: x\n",
            "harbor/players/someone-else.yml": "summary: x\n",
            "harbor/players/ray-tolliver.yaml": "summary: x\n",
            "harbor/players/.ray-tolliver.yml.swp": "x",
        },
    )
    place = "content/opponents/harbor/players"
    assert problems == [
        f"{place}/ivan-nunes.yml: 'ivan-nunes' is not a key of Gannet Harbor's roster; did you mean \"ivan-nunez\"?",
        f"{place}/ray-tolliver.yaml: is not an entry; entries are files <key>.yml, <key> as in the team's roster",
        f"{place}/someone-else.yml: 'someone-else' is not a key of Gannet Harbor's roster; add him to content/opponents/harbor/team.yml or rename the file to a key that is there",
    ]


def test_a_broken_roster_does_not_blame_its_entries_but_theirs_are_still_read(tmp_path: Path) -> None:
    read, problems = opponents(
        tmp_path,
        {"harbor/team.yml": TEAM.replace("bats: L", "bats: X"), "harbor/players/ivan-nunez.yml": "colour: x\n"},
    )
    assert problems == [
        "content/opponents/harbor/players/ivan-nunez.yml:1: colour: is not known here; known are summary, observations, grades",
        'content/opponents/harbor/team.yml:11: roster[1].bats: "X" is not allowed; write L, R or S',
    ]
    assert read.unread == {"harbor"}


def test_a_broken_park_leaves_the_roster_standing(tmp_path: Path) -> None:
    read, problems = opponents(tmp_path, {"harbor/team.yml": TEAM.replace("surface: grass", "surface: sand")})
    assert problems == [
        'content/opponents/harbor/team.yml:6: park.surface: "sand" is not allowed; write grass, turf or mixed'
    ]
    assert len(read.teams["harbor"].roster) == 2
    assert read.unread == frozenset()


def test_folders_that_are_no_teams(tmp_path: Path) -> None:
    _, problems = opponents(
        tmp_path,
        {
            "Gannet Harbor/team.yml": TEAM,
            "empty/notes.txt": "x",
            "ridge/team.yml": TEAM,
            "team.yml": TEAM,
            ".DS_Store": "x",
        },
        own="ridge",
    )
    assert problems == [
        "content/opponents/Gannet Harbor: the folder's name is the team's key, and \"Gannet Harbor\" is not a key; lower-case letters, digits and hyphens can stand in one; write 'gannet-harbor'",
        "content/opponents/empty: has no team.yml; it names the team and its roster",
        "content/opponents/ridge: has our own team's key; our men stand in content/program.yml",
        "content/opponents/team.yml: stands beside the teams; each team has a folder with a team.yml in it",
    ]


@pytest.mark.parametrize("bytes_", [b"\xff\xfea", b"name: \xe9\n", b"name: a\x00\n"])
def test_a_team_file_that_is_no_text_is_one_problem(tmp_path: Path, bytes_: bytes) -> None:
    folder = tmp_path / "content" / "opponents" / "harbor"
    folder.mkdir(parents=True)
    (folder / "team.yml").write_bytes(bytes_)
    read, problems = read_opponents(tmp_path, AS_OF)
    assert [problem.file for problem in problems] == ["content/opponents/harbor/team.yml"]
    assert read.unread == {"harbor"}


def test_two_teams_of_one_name_cannot_be_told_apart(tmp_path: Path) -> None:
    write(tmp_path, {f"content/opponents/{key}/team.yml": "name: Gannet Harbor\n" for key in ("gannets", "harbor")})
    assert said(read_opponents(tmp_path, AS_OF)[1]) == [
        "content/opponents/harbor/team.yml:1: name: 'Gannet Harbor' is the name of gannets too; charts that write the name could mean either; tell them apart"
    ]
