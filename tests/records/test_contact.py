"""What looks like a way to reach somebody, and what a chart is full of that only looks a little like it."""

from datetime import date
from pathlib import Path

import pytest
from yaml_projects import said, write

from scoutgen.records.contact import contact_in
from scoutgen.records.hand_pages import read_hand_pages
from scoutgen.records.opponents import read_opponents


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Call 555-010-0199 after practice.", "a phone number"),
        ("(555) 010-0199", "a phone number"),
        ("555.010.0199", "a phone number"),
        ("5550100199", "a phone number"),
        ("1 555 010 0199", "a phone number"),
        ("+44 20 7946 0958", "a phone number"),
        ("+15550100199,", "a phone number"),
        ("His father is at pat.reyes@example.org", "an e-mail address"),
        ("mailto:a.b+c@mail.example.edu.", "an e-mail address"),
        ("Ask @ivannunez27 about it", "an account's name"),
    ],
)
def test_it_is_found(text: str, kind: str) -> None:
    assert contact_in(text) == kind


@pytest.mark.parametrize(
    "text",
    [
        "",
        "g0403-saltmarsh.mp4 1:21:05",
        "Times of 1.98, 2.01, 1.95 and 2.10 s on 2026-04-03",
        "90 to 93, 136 pitches; 11 of 102 swings; 20-80",
        "https://video.example.org/watch/5550100199?t=1234567890",
        "https://video.example.org/w?v=555-010-0199",
        "Seen at 5:30 @ Reedbank; 400 ft to center, 328-362-392-366-322 around",
        "20260403 20260404",
        "Weighs 212, stands 74 inches, class of 2027",
    ],
)
def test_what_a_staff_writes_is_left_alone(text: str) -> None:
    assert contact_in(text) == ""


@pytest.mark.parametrize("sign", ["x", "@", ".", "1", "+", "(1", "a@", "+1 ", "@a.", "x.y"])
def test_a_line_of_any_length_is_gone_through_once(sign: str) -> None:
    # By the square of its length it would take an hour.
    contact_in(sign * 300_000)


TEAM = """
    name: Gannet Harbor
    roster:
      - {number: 27, name: Ivan Nunez}
"""
ENTRY = """
    observations:
      - {about: x, text: Call 555-010-0199., seen: 2026-03-06, source: video, by: AB, confidence: sure}
      - {about: x, text: Call 555-010-0199., seen: 2026-03-06, source: video, by: AB, confidence: sure, for: recruiting}
    grades:
      seen: 2026-04-04
      by: CD
      body: Lean; pat@example.org
      tools:
        fastball: {now: 55, saw: "Ask @ivannunez27"}
"""
NO_CONTACT = "an evaluation holds no contact data: take it out, and ask the compliance staff who may be contacted"


def test_in_what_the_recruiting_edition_shows_it_is_refused_with_its_line_and_not_repeated(tmp_path: Path) -> None:
    place = "content/opponents/harbor/players/ivan-nunez.yml"
    files = {"content/opponents/harbor/team.yml": TEAM, place: ENTRY}
    write(tmp_path, files)
    _, problems = read_opponents(tmp_path, date(2026, 4, 9))
    assert said(problems) == [
        f"{place}:3: observations[2].text: looks to hold a phone number; {NO_CONTACT}",
        f"{place}:7: grades.body: looks to hold an e-mail address; {NO_CONTACT}",
        f"{place}:9: grades.tools.fastball.saw: looks to hold an account's name; {NO_CONTACT}",
    ]


def test_also_in_pages_written_by_hand_for_it(tmp_path: Path) -> None:
    text = "---\nfor: {mark}\n---\n\n# Trainers\n\nCall 555-010-0199.\n"
    write(
        tmp_path,
        {"content/pages/a.md": text.format(mark="[recruiting]"), "content/pages/b.md": text.format(mark="staff")},
    )
    pages, problems = read_hand_pages(tmp_path)
    assert [(page.address, page.editions) for page in pages] == [("a", ("recruiting",)), ("b", ("staff",))]
    assert said(problems) == [f"content/pages/a.md:7: looks to hold a phone number; {NO_CONTACT}"]
