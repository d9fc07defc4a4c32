"""The questions a player or a coach must have answered within a minute, asked of the demo's pages."""

import re

import pytest

from scoutgen.pages.book import Book, Page

STARTER = "teams/harbor/players/iker-nunez"
CATCHER = "teams/harbor/players/ruben-castellane"


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ").replace("<br>", " ").replace("**", "")


def side(page: Page, part: str, letter: str) -> str:
    """What a section says of hitters of one side."""
    section = plain(page.markdown).split(f"## {part}\n")[1].split("\n## ")[0]
    return section.split(f"[side:{letter}]")[1].split("[side:end]")[0]


def row(table: str, name: str) -> str:
    return next(line for line in table.splitlines() if line.startswith(f"| {name}"))


def test_who_pitches_tonight_and_what_he_throws_first_pitch_to_a_lefty(demo_pages: dict[str, Page]) -> None:
    home = plain(demo_pages["index"].markdown)
    tonight = home.split("### ")[1]
    assert tonight.startswith("Fri 10 Apr 2026: [27 Iker Núñez]")
    assert re.search(r"First pitch to a lefty: \w+ \d+ % \(\d+ of \d+\)", tonight)


@pytest.mark.parametrize("count", ["1-0", "2-1"])
def test_what_to_look_for_in_a_count(demo_pages: dict[str, Page], count: str) -> None:
    for letter in "LR":
        cells = row(side(demo_pages[STARTER], "Counts", letter), count)
        assert re.search(r"\d+ %|\d+ of \d+", cells)


def test_what_he_finishes_hitters_with(demo_pages: dict[str, Page]) -> None:
    glance = plain(demo_pages[STARTER].markdown).split("## At a glance")[1].split("\n## ")[0]
    assert re.search(r"Strikeouts ended on: slider \d+ of \d+", glance)
    assert re.search(r"\| Two strikes \| slider \d+ %", side(demo_pages[STARTER], "At a glance", "R"))


def test_time_to_the_plate_from_the_slide_step_with_readings_and_method(demo_pages: dict[str, Page]) -> None:
    glance = plain(demo_pages[STARTER].markdown).split("## At a glance")[1].split("\n## ")[0]
    assert re.search(r"slide step 1\.\d\d s \(\d+ readings, (frames|watch)\)", glance)


def test_a_slide_step_never_seen_is_said_and_stands_in_the_to_do(demo_pages: dict[str, Page]) -> None:
    tran = plain(demo_pages["teams/harbor/players/bexley-tran"].markdown)
    assert re.search(r"slide step not in \d{3}, so under about \d %", tran)
    assert "times to the plate from the slide step: none (whether to steal)" in tran


def test_whether_the_catcher_checks_the_runner_on_third_and_lobs_it(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages[CATCHER].markdown)
    looks = re.search(r"without a look at the runner\? With a runner on third: (\d+) of (\d+) looks", text)
    lobs = re.search(r"lob it back to the mound\? With a runner on third: (\d+) of (\d+) looks", text)
    for found in (looks, lobs):
        assert found
        assert int(found[1]) > int(found[2]) / 2  # as the season was played


def test_the_right_27_first(demo_book: Book) -> None:
    found = [e for page in demo_book.pages for e in page.search if "27" in e.title.split()]
    assert len(found) > 1
    first, second, *_ = sorted(found, key=lambda e: -e.boost)
    assert first.title == "27 Iker Núñez"
    assert first.boost > second.boost


def test_when_it_was_last_seen_and_from_where(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages[STARTER].markdown)
    assert "Last seen Fri 3 Apr 2026" in text
    assert re.search(r"5 games \(by source: video \d, same site \d\)", text)


def test_thin_claims_avoid_percents(demo_pages: dict[str, Page]) -> None:
    nine = plain(demo_pages["teams/harbor/players/paulo-kealohanui"].markdown)
    assert "9 pitches" in nine
    said = nine.split("## At a glance")[1].split("## Holding runners")[0]
    assert not re.search(r"\d %", re.sub(r"(?i)middle 80 %|90 % interval", "", said))
    assert re.search(r"(mostly|often|sometimes) \w+", nine)


def test_what_to_change_the_second_time_through(demo_pages: dict[str, Page]) -> None:
    tran = plain(demo_pages["teams/harbor/players/bexley-tran"].markdown)
    assert re.search(r"Second time through: curve up, \d+ of \d+ after \d+ of \d+ the first time", tran)


def test_where_the_corners_stand_with_a_runner_on_third(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["teams/harbor/infield"].markdown)
    corners = text.split("## Corners with a runner on")[1].split("\n## ")[0]
    assert re.search(
        r"Third base, runner on third: 2\d ft off – Mateo Quiroga-Lamb; \d+ to \d+ ft in \d+ looks", corners
    )


def test_a_switch_hitter_a_two_way_player_and_two_of_one_name_have_pages(demo_pages: dict[str, Page]) -> None:
    two_way = demo_pages["teams/harbor/players/solomon-adeyemi-frost"].markdown
    assert "right-handed pitcher, DH, bats left" in two_way
    assert "switch hitter" in demo_pages["teams/harbor/players/theo-okonjo"].markdown
    assert {"teams/harbor/players/anders-lindqvist", "teams/harbor/players/mats-lindqvist"} <= set(demo_pages)
