"""content/program.yml: our team, its settings, and what a slip in it is answered."""
# ruff: noqa: E501 - messages stand as they are printed, on one line

from pathlib import Path

import pytest
from yaml_projects import said, write

from scoutgen.records.positioning import Levels
from scoutgen.records.program import Policy, Program, RunEnvironment, Thresholds, Zone, read_program

FULL = """
    key: ridge
    name: Kestrel Ridge
    run_environment:
      runs_per_team_game: 5.3
      rates: {walk: .12, single: 0.17, double: 0.05, triple: 0.005, home_run: 0.03}
    policy: {devices_in_dugout: yes, banner: Only the coaches.}
    pitches:
      - {name: gyro, aliases: [GY, G]}
      - name: sweeper
        aliases: SW
    zone: {bottom_ft: 1.6, top_ft: 3.4}
    thresholds: {firm: 0.08, few_readings: 7}
    levels: {infield: 2, infield_legend: [straight, pull]}
    watch_error_s: 0.08
    roster:
      - name: Iván Núñez
        number: 07
        positions: P, OF
        bats: S
        throws: L
        class: Jr
        role: starter
        times: {first_second: 3.31}
        leads: {first_ft: 12, secondary_ft: 10}
"""


def program(tmp_path: Path, text: str) -> tuple[Program, list[str]]:
    read, problems = read_program(write(tmp_path, {"content/program.yml": text}))
    return read, said(problems)


def test_everything_a_program_may_say(tmp_path: Path) -> None:
    read, problems = program(tmp_path, FULL)
    assert problems == []
    assert (read.key, read.name, read.watch_error_s) == ("ridge", "Kestrel Ridge", 0.08)
    assert read.run_environment.rates is not None
    assert (read.run_environment.runs_per_team_game, read.run_environment.rates.walk) == (5.3, 0.12)
    assert read.policy == Policy(devices_in_dugout=True, banner="Only the coaches.")
    assert read.policy.sentence == "Only the coaches."
    assert read.policy.short == "Only the coaches"
    assert read.zone == Zone(bottom_ft=1.6, top_ft=3.4)
    assert read.thresholds == Thresholds(firm=0.08, few_readings=7)
    assert (read.levels.infield, read.levels.infield_legend, read.levels.outfield) == (2, ("straight", "pull"), 3)
    assert read.pitch_names()["gyro"] == ("GY", "G")
    assert read.pitch_names()["sweeper"] == ("SW",)
    assert read.pitch_names()["fastball"] == ("FB",)
    man = read.player("ivan-nunez")
    assert man is not None
    assert (man.number, man.positions, man.bats, man.throws, man.class_year) == ("07", ("P", "OF"), "S", "L", "Jr")
    assert man.times is not None
    assert man.leads is not None
    assert (man.times.first_second, man.times.home_first, man.leads.first_ft) == (3.31, None, 12)
    assert read.player("nobody") is None


def test_without_a_file_the_defaults_hold(tmp_path: Path) -> None:
    read, problems = read_program(tmp_path)
    assert problems == []
    assert (read.key, read.roster, read.watch_error_s) == ("", (), 0.10)
    assert (read.thresholds.firm, read.thresholds.usable, read.thresholds.lean) == (0.10, 0.15, 0.20)
    assert read.run_environment == RunEnvironment(runs_per_team_game=6.0)
    assert read.levels == Levels()
    # The plate is 17 in wide: Official Baseball Rules, rule 2.02 (memory, widely published).
    assert read.zone.half_width_ft * 2 * 12 == pytest.approx(17)


def test_devices_are_off_unless_said(tmp_path: Path) -> None:
    off, _ = read_program(tmp_path)
    assert off.policy.devices_in_dugout is False
    assert off.policy.sentence.startswith("No phones or tablets in the dugout during play.")
    assert off.policy.short == "No phones in the dugout during play"
    on, _ = program(tmp_path, "key: a\npolicy: {devices_in_dugout: yes}\n")
    assert on.policy.sentence.startswith("Devices in the dugout only as our conference allows them")
    assert on.policy.short == "Devices in the dugout only as our conference allows"


def test_every_slip_is_named_at_once_with_the_line_of_its_key(tmp_path: Path) -> None:
    _, problems = program(
        tmp_path,
        """
        key: Ridge
        policy:
          devices_in_dugot: no
        thresholds:
          firm: 0.3
        zone: {bottom_ft: 3, top_ft: 2.6}
        watch_error_s: a tenth
        run_environment: {runs_per_team_game: 40}
        roster:
          - name: Iván Núñez
            bats: r
            positions: [P, X]
            times: {first_second: 9}
          - number: 7
            naem: Dane
        color: blue
        """,
    )
    assert problems == [
        "content/program.yml:1: key: \"Ridge\" is not a key; lower-case letters, digits and hyphens can stand in one; write 'ridge'",
        'content/program.yml:3: policy.devices_in_dugot: is not known here; did you mean "devices_in_dugout"?',
        "content/program.yml:4: thresholds: firm 0.3, usable 0.15, lean 0.2 must not fall from one to the next",
        "content/program.yml:6: zone: top_ft 2.6 is not over bottom_ft 3",
        'content/program.yml:7: watch_error_s: "a tenth" is not a number',
        'content/program.yml:8: run_environment.runs_per_team_game: "40" is too large; the most is 15.0',
        'content/program.yml:11: roster[1].bats: "r" is not allowed; write L, R or S; did you mean "R"?',
        'content/program.yml:12: roster[1].positions[2]: "X" is not allowed; write P, C, 1B, 2B, 3B, SS, LF, CF, RF, DH, IF, OF or UT',
        'content/program.yml:13: roster[1].times.first_second: "9" is too large; the most is 5.0',
        "content/program.yml:14: roster[2].name: is missing; it must be filled in",
        'content/program.yml:15: roster[2].naem: is not known here; did you mean "name"?',
        "content/program.yml:16: color: is not known here; known are key, name, run_environment, policy, pitches, zone, thresholds, levels, graded_level, watch_error_s, roster",
    ]


def test_a_file_with_errors_gives_what_is_right_in_it(tmp_path: Path) -> None:
    read, problems = program(tmp_path, "key: ridge\nname: <b>\nwatch_error_s: 0.2\n")
    assert len(problems) == 1
    assert (read.key, read.name, read.watch_error_s) == ("ridge", "Our team", 0.2)


def test_a_short_form_means_one_pitch(tmp_path: Path) -> None:
    _, problems = program(
        tmp_path,
        """
        key: ridge
        pitches:
          - {name: gyro, aliases: [fb, GY]}
          - {name: screwball, aliases: [GY]}
          - {name: sl}
        """,
    )
    assert problems == [
        "content/program.yml:3: pitches[1].aliases[1]: 'fb' already means fastball; choose another short form",
        "content/program.yml:4: pitches[2].aliases[1]: 'GY' already means gyro; choose another short form",
        "content/program.yml:5: pitches[3].name: 'sl' already means slider; add to that pitch instead",
    ]


def test_numbers_and_keys_that_two_men_share(tmp_path: Path) -> None:
    _, problems = program(
        tmp_path,
        """
        key: ridge
        roster:
          - {name: Dane Okafor, number: 27}
          - {name: Dané Okafor, number: 3}
          - {name: Lee Brandt, number: 27}
          - {name: Ray Tolliver, number: 12, until_date: 2026-03-01}
          - {name: Sam Tolliver, number: 12, from_date: 2026-03-02}
          - {name: Cal Tolliver, number: 00}
          - {name: Hal Tolliver, number: 0}
        """,
    )
    assert problems == [
        "content/program.yml:4: roster[2].key: two men have the key 'dane-okafor' (the other in line 3); give one of them a key of his own",
        "content/program.yml:5: roster[3].number: number 27 is worn by Dane Okafor too (line 3); where they wore it one after the other, say so with from_date and until_date",
    ]


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("[a]\n", "content/program.yml:1: the file is a list; keys and values are meant here (key, name, run_environment, ...)"),
        ("words\n", "content/program.yml:1: the file is a text; keys and values are meant here (key, name, run_environment, ...)"),
        ("name: A\nroster: [{name: B}]\n", "content/program.yml:1: key: is missing; a roster needs the team's key as the games table writes it"),
        ("key: a\nroster:\n  - Dane Okafor\n", 'content/program.yml:3: roster[1]: is "Dane Okafor"; keys and values are meant here, e.g. \'name: ...\' in lines of their own'),
        ("key: a\nroster: Dane\n", 'content/program.yml:2: roster: is "Dane"; a list is meant here, each item in a line of its own after \'- \''),
        ("key: a\nroster:\n  - \n", "content/program.yml:3: roster[1]: is blank; fill it in or take it out"),
        ("key: a\nroster:\n  - {name: 山田}\n", 'content/program.yml:3: roster[1].key: is missing, and none can be made from "山田"; write one'),
        ("key: a\nroster:\n  - {name: A, from_date: 2026-03-02, until_date: 2026-03-01}\n", "content/program.yml:3: roster[1]: until_date 2026-03-01 is before from_date 2026-03-02"),
        ("key: a\nrun_environment:\n  rates: {walk: 0.9, single: 0.2, double: 0, triple: 0, home_run: 0}\n",
         "content/program.yml:3: run_environment.rates: the rates add up to 1.100; together they can be 1 at most"),
        ("key: a\nrun_environment:\n  rates: {walk: 0.4, single: 0.2, double: 0.1, triple: 0, home_run: 0, strikeout: 0.2}\n",
         "content/program.yml:3: run_environment.rates: 0.700 of the plate appearances reach base; 0.6 at most, since innings must end"),
        ("key: a\nrun_environment: {innings: 12}\n", 'content/program.yml:2: run_environment.innings: "12" is too large; the most is 9'),
        ("key: a\nlevels:\n  infield_legend: [one]\n", "content/program.yml:2: levels: infield_legend explains 1 level, but infield has 4"),
    ],
)  # fmt: skip
def test_other_slips(tmp_path: Path, text: str, answer: str) -> None:
    path = tmp_path / "content" / "program.yml"
    path.parent.mkdir()
    path.write_text(text, encoding="utf-8")
    assert said(read_program(tmp_path)[1]) == [answer]


def test_thousands_of_errors_are_told_briefly(tmp_path: Path) -> None:
    text = "key: a\nroster:\n" + "  - {name: A, bats: X}\n" * 250
    _, problems = program(tmp_path, text)
    assert len(problems) == 201
    assert problems[0] == "content/program.yml: has 50 more errors like these"
