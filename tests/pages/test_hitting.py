"""What a pitcher and a fielder ask of a hitter, asked of the demo's pages."""

import json
import re
from dataclasses import replace

import pandas as pd
import pytest
from league.bats import hitters
from pages.demo import findings_of, plain, section

from scoutgen.pages.book import Book, Page
from scoutgen.pages.charts import chart_key
from scoutgen.pages.findings import Findings
from scoutgen.pages.hitting import Batting, hitting
from scoutgen.pages.markdown import render
from scoutgen.pages.people import people
from scoutgen.pages.player import player_page
from scoutgen.records.season import Season

FIRST = ("all", "first pitch", "all")
PLAYERS = "teams/harbor/players"
BUNTER, SWITCH, NEW, CATCHER = (
    f"{PLAYERS}/{key}" for key in ("kofi-brathwaite", "theo-okonjo", "nikhil-varghese", "ruben-castellane")
)


def first_screen(page: Page) -> str:
    """What stands over the links to the parts of the page."""
    return plain(page.markdown).split("[box:jump]")[0]


def line(page: Page, words: str) -> str:
    return next(text for text in first_screen(page).splitlines() if text.startswith(f"- {words}:"))


def batting(season: Season, findings: Findings, team: str, key: str) -> list[Batting]:
    found = hitting(season.teams[team], key, "name", findings, season.program.thresholds)
    assert found is not None
    return list(found.sides)


@pytest.fixture
def of_his(demo_season: Season) -> pd.DataFrame:
    """The bunter's pitches as charted."""
    pitches = demo_season.pitches
    return pitches[pitches["batter_team"].eq("harbor") & pitches["batter"].eq("kofi-brathwaite")]


def test_what_a_pitcher_and_a_fielder_ask_stands_on_the_first_screen(demo_pages: dict[str, Page]) -> None:
    page = demo_pages[BUNTER]
    assert re.search(r"swings \d+ % \(\d+ of \d+\); LHP \d+ of \d+, RHP \d+ of \d+\.$", line(page, "First pitch"))
    assert re.search(r"swings \d+ % \(\d+ of \d+\), before \d+ % ", line(page, "Two strikes"))
    # He bats left: the right side is his pull side.
    assert re.search(r"right \(pull\) \d+ % \(\d+ of \d+\), middle .*, left ", line(page, "Ground balls"))
    assert re.search(r"right \(pull\) ", line(page, "In the air"))
    assert re.search(r"3\.97 s \(6 readings, watch\), full swing", line(page, "Home to first"))


def test_first_pitches_and_bunts_are_what_was_charted(demo_pages: dict[str, Page], of_his: pd.DataFrame) -> None:
    first = of_his[of_his["balls"].eq(0) & of_his["strikes"].eq(0)]
    swung = first["result"].isin(["swinging_strike", "foul", "foul_tip", "in_play"]) & first["contact"].ne("bunt")
    taken = first["result"].isin(["ball", "called_strike"])
    assert f"({swung.sum()} of {swung.sum() + taken.sum()})" in line(demo_pages[BUNTER], "First pitch")
    down = of_his["contact"].eq("bunt") & of_his["result"].eq("in_play")
    said = line(demo_pages[BUNTER], "Bunts")
    assert f"{down.sum()} in {of_his['play'].notna().sum()} plate appearances" in said
    third = (of_his.loc[down, "direction_deg"] < -15).sum()
    assert f"(to third {third}, to first {down.sum() - third})" in said
    assert f"{of_his['result'].eq('foul_bunt').sum()} fouled" in said


def test_ground_balls_by_thirds_are_what_was_charted(
    demo_season: Season, demo_findings: Findings, of_his: pd.DataFrame
) -> None:
    degrees = of_his.loc[of_his["contact"].eq("ground"), "direction_deg"].dropna()
    (side,) = batting(demo_season, demo_findings, "harbor", "kofi-brathwaite")
    assert side.ground is not None
    assert side.ground.n == len(degrees)
    found = [side.ground.pull.k, side.ground.middle.k, side.ground.other.k]
    assert found == [(degrees > 15).sum(), degrees.between(-15, 15).sum(), (degrees < -15).sum()]


def test_a_man_who_goes_the_other_way_with_two_strikes_is_said_to(demo_pages: dict[str, Page]) -> None:
    assert line(demo_pages[BUNTER], "Other way with two strikes").endswith(": more than before.")
    pull_hitter = demo_pages[f"{PLAYERS}/bram-vandersloot"]
    assert line(pull_hitter, "Other way with two strikes").endswith("no change the data can tell.")


def test_of_the_men_told_to_go_the_other_way_with_two_strikes_each_was_made_to(demo_findings: Findings) -> None:
    # How the demo's hitters were made: tests/league/bats.py; the lower, the more they change.
    truth = hitters()
    rows = [
        r for team in ("harbor", "ridge", "slatefield", "saltmarsh") for r in demo_findings.of_team("two_strikes", team)
    ]
    told = [r for r in rows if (r["bats"], r["measure"]) == ("all", "other way") and r["told"]]
    assert len(told) >= 3
    assert all(truth[r["team"], r["player"]].two_strike_pull < -0.45 for r in told)
    assert ("harbor", "anders-lindqvist") in {(r["team"], r["player"]) for r in told}


def test_the_man_made_to_swing_first_does_so_the_most(demo_findings: Findings) -> None:
    rows = [r for r in demo_findings.of_team("hitting", "harbor") if (r["bats"], r["split"], r["value"]) == FIRST]
    assert max((r for r in rows if r["n"] >= 40), key=lambda r: r["share"])["player"] == "jun-ho-paik"


def test_a_switch_hitters_sides_stand_side_by_side(
    demo_pages: dict[str, Page], demo_season: Season, demo_findings: Findings
) -> None:
    text = first_screen(demo_pages[SWITCH])
    assert "| What | Batting left | Batting right |" in text
    assert re.search(r"^\| Ground \| right \(pull\) \d+ of \d+.* \| left \(pull\) \d+ of \d+", text, flags=re.MULTILINE)
    left, right = batting(demo_season, demo_findings, "harbor", "theo-okonjo")
    assert (left.side, right.side) == ("L", "R")
    whole = [row for row in demo_findings.of("appearances", "harbor", "theo-okonjo") if row["bats"] == "all"]
    assert left.n + right.n == whole[0]["n"]
    assert len(batting(demo_season, demo_findings, "harbor", "kofi-brathwaite")) == 1


def test_few_plate_appearances_say_little_and_no_percent(demo_pages: dict[str, Page]) -> None:
    text = first_screen(demo_pages[NEW])
    assert "- 5 plate appearances say little." in text
    assert "%" not in text
    plate = section(demo_pages[NEW], "At the plate").split("[box:legend]")[0]
    assert "5 plate appearances in 1 game" in plate
    assert "%" not in plate


def test_fewer_looks_than_the_program_asks_for_make_no_percent(
    demo_season: Season, demo_pages: dict[str, Page]
) -> None:
    few = demo_season.program.thresholds.few_pitches
    seen = 0
    for address, page in demo_pages.items():
        if "/players/" not in address or "## At the plate" not in page.markdown:
            continue
        part = plain(page.markdown).split("## Where he hits it")[1].split("\n## Notes")[0]
        for n in re.findall(r"\d+ % \d+ of (\d+) \|", part):
            seen += 1
            assert int(n) >= few, address
    assert seen > 200


def test_the_drawing_has_a_mark_for_each_ball_with_a_place_and_the_fences_of_their_park(
    demo_season: Season, demo_findings: Findings, of_his: pd.DataFrame
) -> None:
    (side,) = batting(demo_season, demo_findings, "harbor", "kofi-brathwaite")
    assert side.chart is not None
    rows = json.loads(side.chart.spec)["datasets"]
    placed = of_his["direction_deg"].notna() & of_his["distance_ft"].notna() & of_his["contact"].notna()
    assert len(rows["marks"]) == placed.sum() == side.drawn
    assert [word["feet"] for word in rows["words"]] == ["328", "392", "322"]
    assert "Breakwater Park" in side.chart.description
    assert f"{side.drawn} balls" in side.chart.description


def test_a_catcher_and_a_two_way_man_hit_too_and_a_pitcher_does_not(demo_pages: dict[str, Page]) -> None:
    catcher = demo_pages[CATCHER].markdown
    assert catcher.index("## Behind the plate") < catcher.index("## Batting at a glance") < catcher.index("## Notes")
    both = demo_pages[f"{PLAYERS}/solomon-adeyemi-frost"].markdown
    assert both.index("## At a glance") < both.index("## Batting at a glance")
    assert "## At the plate" not in demo_pages[f"{PLAYERS}/iker-nunez"].markdown


def test_a_hitter_is_found_by_what_fielders_type(demo_pages: dict[str, Page]) -> None:
    (entry,) = demo_pages[BUNTER].search
    assert re.search(r"First pitch: swings \d+ of \d+", entry.text)
    assert re.search(r"Bunts: 5 in 71 plate appearances", entry.text)
    assert re.search(r"Spray, ground balls: pulls \d+ of \d+", entry.text)


def test_facts_of_a_hitter_are_the_measures_rows(demo_book: Book, demo_findings: Findings) -> None:
    found = json.loads(demo_book.facts["facts/harbor/kofi-brathwaite.json"])
    for name, table in (
        ("hitting", "hitting"),
        ("two_strike_change", "two_strikes"),
        ("spray", "spray"),
        ("bunts", "bunts"),
    ):
        rows = demo_findings.of(table, "harbor", "kofi-brathwaite")
        assert rows
        assert [row["k"] for row in found[name]] == [row["k"] for row in rows]
    first = next(r for r in found["hitting"] if (r["bats"], r["split"], r["value"]) == ("all", "first pitch", "all"))
    assert {"k", "n", "share", "low", "high", "games", "last_seen"} <= set(first)


def test_a_man_never_charted_at_the_plate_has_no_part(demo_season: Season, demo_findings: Findings) -> None:
    team, limits = demo_season.teams["harbor"], demo_season.program.thresholds
    assert hitting(team, "iker-nunez", "name", demo_findings, limits) is None


def test_a_fielder_never_charted_at_the_plate_is_said_to_be_so(small_season: Season) -> None:
    # Nobody's batting is charted there; one man was timed.
    times = small_season.times[:6].assign(
        team="cedarholm", player="dov-cedarholm", measure="home_first", style="full", seconds=3.97, bases=pd.NA
    )
    season = replace(small_season, times=times, pitches=small_season.pitches[:20])
    man = next(person for person in people(season)["cedarholm"] if person.man.key == "dov-cedarholm")
    page = player_page(man, findings_of(season), season, built="now")
    text = plain(render("player.md.j2", page=page, chart_key=chart_key))
    assert "- At the plate: never charted.\n- Home to first: 3.97 s" in text
    assert "## Where he hits it" not in text
