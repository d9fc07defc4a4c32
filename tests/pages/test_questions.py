"""The questions a player or a coach must have answered within a minute, asked of the demo's pages."""

import html
import re

import pytest

from scoutgen.pages.book import Book, Page
from scoutgen.records.season import Season

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
    assert "| When | To a lefty | To a righty |" in tonight
    assert re.search(r"\| First pitch \| fastball \d+ % \d+ of \d+ \| fastball \d+ % \d+ of \d+ \|", tonight)


def test_what_a_runner_asks_of_each_probable_pitcher_stands_on_home_before_any_prose(
    demo_pages: dict[str, Page],
) -> None:
    tonight, saturday, sunday = plain(demo_pages["index"].markdown).split("## Their catcher")[0].split("\n### ")[1:]
    for card in (tonight, saturday, sunday):
        assert re.search(r"Throws to first: \d+ of \d+ with a man on first alone \(\d+ %\)", card)
        lines = [line for line in card.splitlines() if line.startswith("- ")]
        assert lines[-1].startswith("- In our words:")
    assert re.search(r"slide step 1\.21 s \(6 readings, frames\), used in 19 of 74 with a man on first alone", tonight)
    assert re.search(r"Looks, runner on second only: 2 most often \(18 of 23\), 2 at most", tonight)
    # Fifteen of forty-eight is no number to time a break by, and 255 sets without a slide step are an answer.
    assert "Looks, runner on second only: 0 to 3 in 48 sets, no pattern" in saturday
    assert "no slide step in 255 sets" in saturday
    assert "never timed" not in saturday


def test_the_answer_that_decides_about_their_catcher_stands_on_home(demo_pages: dict[str, Page]) -> None:
    catcher = plain(demo_pages["index"].markdown).split("## Their catcher")[1].split("\n## ")[0]
    first = next(line for line in catcher.splitlines() if line.startswith("- "))
    assert re.fullmatch(
        r"- With a runner on third, lobs it back to the mound: \d+ of \d+ looks; last \w+ \d+ Apr 2026\.", first
    )


@pytest.mark.parametrize("count", ["1-0", "2-1"])
def test_what_to_look_for_in_a_count(demo_pages: dict[str, Page], count: str) -> None:
    for letter in "LR":
        cells = row(side(demo_pages[STARTER], "Counts", letter), count)
        assert re.search(r"\d+ %|\d+ of \d+", cells)


def test_what_he_finishes_hitters_with(demo_pages: dict[str, Page]) -> None:
    righties = side(demo_pages[STARTER], "At a glance", "R")
    assert re.search(r"Strikeouts ended on: slider \d+ of \d+", righties)
    assert re.search(r"\| Two strikes \| slider [●◐○] \d+ %", righties)


def test_time_to_the_plate_from_the_slide_step_with_readings_and_method(demo_pages: dict[str, Page]) -> None:
    glance = plain(demo_pages[STARTER].markdown).split("## At a glance")[1].split("\n## ")[0]
    assert re.search(r"slide step 1\.\d\d s \(\d+ readings, (frames|watch)\)", glance)


def test_a_slide_step_never_seen_is_said_and_not_asked_for(demo_pages: dict[str, Page]) -> None:
    tran = plain(demo_pages["teams/harbor/players/bexley-tran"].markdown)
    assert re.search(r"; no slide step in 255 sets\.", tran)
    assert "Looks, runner on second only: 0 to 3 in 48 sets, no pattern" in tran
    assert "times to the plate from the slide step" not in tran


def test_whether_the_catcher_checks_the_runner_on_third_and_lobs_it(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages[CATCHER].markdown)
    looks = re.search(r"With a runner on third, returns the ball without a look[^:]+: (\d+) of (\d+) looks", text)
    lobs = re.search(r"With a runner on third, lobs it back to the mound: (\d+) of (\d+) looks", text)
    for found in (looks, lobs):
        assert found
        assert int(found[1]) > int(found[2]) / 2  # as the season was played


def test_each_count_of_the_lob_says_what_was_counted(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages[CATCHER].markdown)
    assert re.search(r"Back to the mound, timed throws, any runners: [^\n]*lob \d+ % \(38 of 53\)", text)
    assert re.search(r"The same, a runner on third: lob \d of 6; [^\n]* timed throws", text)
    assert "Lobs it back to the mound: 63 % (57 of 87 looks), with a runner on third 35 of 50" in text
    asked = text.split("## Not known yet")[1].split("\n## ")[0]
    assert "timed return throws with a runner on third: 6 of 8 wanted" in asked
    assert not re.search(r"^- (?!timed)return throws", asked, flags=re.MULTILINE)


def test_the_right_27_first(demo_book: Book) -> None:
    found = [e for page in demo_book.pages for e in page.search if "27" in e.title.split()]
    assert len(found) > 1
    first, second, *_ = sorted(found, key=lambda e: -e.boost)
    assert first.title == "27 Iker Núñez"
    assert first.boost > second.boost


def test_when_it_was_last_seen_and_from_where(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages[STARTER].markdown)
    assert "Last seen 3 Apr 2026" in text
    assert re.search(r"5 games \(by source: video \d, same site \d\)", text)


def test_thin_claims_avoid_percents(demo_pages: dict[str, Page]) -> None:
    nine = plain(demo_pages["teams/harbor/players/paulo-kealohanui"].markdown)
    assert "9 pitches" in nine
    said = nine.split("## At a glance")[1].split("## Holding runners")[0]
    assert not re.search(r"\d %", re.sub(r"(?i)middle 80 %|90 % interval", "", said))
    assert re.search(r"(mostly|often|sometimes) \w+", nine)


def test_what_to_change_the_second_time_through(demo_pages: dict[str, Page]) -> None:
    tran = plain(demo_pages["teams/harbor/players/bexley-tran"].markdown)
    assert re.search(r"(Second|Third) time through: curve up, \d+ of \d+ \(first \d+ of \d+\)", tran)


def test_where_the_corners_stand_with_a_runner_on_third(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["teams/harbor/infield"].markdown)
    corners = text.split("## Steal of third, steal of home")[1].split("\n## ")[0]
    assert re.search(
        r"Third base, runner on third: Mateo Quiroga-Lamb, 2\d ft off the bag \(\d+ to \d+ ft in \d+ looks\)", corners
    )


def test_the_infield_is_ordered_by_decision(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["teams/harbor/infield"].markdown)
    assert re.findall(r"^## (.+)$", text, flags=re.MULTILINE) == [
        "Bunt for a hit", "Steal of third, steal of home", "Double-play depth and the middle", "First and third",
        "Lead off first", "Where they stand", "Outfield", "Not known yet",
    ]  # fmt: skip
    middle = text.split("## Double-play depth and the middle")[1].split("\n## ")[0]
    assert re.search(
        r"Shortstop's depth: bases empty 1\d\d ft \(\d+ to \d+ ft in \d+ looks\); runner on first 1\d\d ft", middle
    )
    assert "Depth is feet from home plate" in text
    assert "Leans: toward the foul line or the middle" in text


def test_fewer_than_three_looks_make_no_claim_and_less_than_half_no_advice(
    demo_pages: dict[str, Page], demo_season: Season
) -> None:
    advice = [kind.gives for kind in demo_season.habit_kinds.values()]
    claims = []
    for page in demo_pages.values():
        if page.address.startswith("teams/"):
            text = html.unescape(plain(page.markdown))
            claims += re.findall(r"^- (?:[^\n]*?)(\d+) of (\d+) looks\)?(?:[;,.])([^\n]*)$", text, flags=re.MULTILINE)
    assert len(claims) > 100
    assert min(int(n) for _, n, _ in claims) >= demo_season.program.thresholds.few_looks == 3
    told = [(int(k), int(n), rest) for k, n, rest in claims if any(given in rest for given in advice)]
    assert len(told) > 20
    for k, n, rest in told:
        third = re.search(r"with a runner on third (\d+) of (\d+)", rest)
        seen, looked = (int(third[1]), int(third[2])) if third else (k, n)
        assert 2 * seen >= looked, rest


def test_habits_are_named_as_statements_and_what_was_not_seen_by_name(demo_pages: dict[str, Page]) -> None:
    nunez = plain(demo_pages[STARTER].markdown)
    assert "Goes home after his usual number of looks: 6 of 8 looks" in nunez
    assert "Looked for and not seen: delivers without a look at the runner on second, 0 of 5" in nunez
    for page in demo_pages.values():
        assert not re.search(r"^- \*\*[^*\n]*\?\*\*", page.markdown, flags=re.MULTILINE), page.address
        assert "opens a door" not in page.markdown


def test_every_page_says_what_is_not_known_also_when_nothing_is_missing(demo_pages: dict[str, Page]) -> None:
    for address, page in demo_pages.items():
        if address.startswith("teams/") and address != "teams/index":
            part = page.markdown.split("## Not known yet")[1].split("[box:built]")[0].split("\n## ")[0]
            said = "here; keep it fresh." in part or "infields and the likely lineup only" in part
            assert ("- " in part) != said, address
    assert "The charting list asks for nothing more here" in plain(demo_pages["teams/harbor/infield"].markdown)


def test_tonights_opponent_comes_first_and_a_team_without_a_file_has_a_name(demo_pages: dict[str, Page]) -> None:
    names = re.findall(r"^- \[([^\]]+)\]", plain(demo_pages["teams/index"].markdown), flags=re.MULTILINE)
    assert names == [
        "Gannet Harbor", "Slatefield State", "Saltmarsh Tech", "Cottersby", "Dunmere", "Fallowell", "Pinewold",
    ]  # fmt: skip
    assert demo_pages["teams/dunmere/index"].title == "Dunmere"
    assert [page.title for page in demo_pages.values() if page.menu[:1] == ("Opponents",)] == ["Teams", *names]


def test_a_past_series_says_that_its_numbers_are_of_today(demo_pages: dict[str, Page]) -> None:
    past = demo_pages["series/slatefield-march"].markdown
    assert "**as known today, Thu 9 Apr 2026**" in past.split("## ")[0]
    assert "as known today" not in demo_pages["index"].markdown


def test_how_to_read_says_what_a_pattern_is_and_when_a_habit_is_worth_advice(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["how-to-read"].markdown)
    assert "No pattern: no number of looks came in at least half of his sets" in text
    assert "only where it was seen in at least half of at least 3 looks" in text


def test_cautions_leave_the_last_word_to_the_rule_book(demo_pages: dict[str, Page]) -> None:
    home = plain(demo_pages["index"].markdown)
    assert "stays clear of a fielder who has the ball or is making a play" in home
    assert "The rule book, local rules and the umpires decide." in home
    assert "Steal of home](cautions.md#slides-and-collisions): only when the batter knows it is on" in home
    assert "a hand signal, answered" in home
    assert "whoever is called off gives way" in home


def test_a_switch_hitter_a_two_way_player_and_two_of_one_name_have_pages(demo_pages: dict[str, Page]) -> None:
    two_way = demo_pages["teams/harbor/players/solomon-adeyemi-frost"].markdown
    assert "right-handed starter, DH, bats left" in two_way
    assert "switch hitter" in demo_pages["teams/harbor/players/theo-okonjo"].markdown
    assert {"teams/harbor/players/anders-lindqvist", "teams/harbor/players/mats-lindqvist"} <= set(demo_pages)
