"""Where to stand for each hitter, traced to balls, a number and a sentence."""

import re
from dataclasses import replace

import pandas as pd
import pytest
from pages.demo import level_card_of, plain, section

from scoutgen.measures.standing import FEW_BALLS
from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.level_card import LevelCard
from scoutgen.pages.markdown import render
from scoutgen.pages.rows import Table
from scoutgen.records.positioning import Levels
from scoutgen.records.season import Season


@pytest.fixture(scope="module")
def card(demo_season: Season, demo_findings: Findings) -> LevelCard:
    return level_card_of(demo_season, demo_findings)


def fixed(findings: Findings, rows: list[dict[str, object]]) -> Findings:
    """Findings whose infield rows are given, every hitter's alike; everything else is the demo's."""
    return with_rows(findings, "infield_levels", rows)


def with_rows(findings: Findings, table: str, rows: list[dict[str, object]]) -> Findings:
    """Findings in which every man of a table has the same rows."""
    men = [(team, man) for team, men in findings.tables[table]._places.items() for man in men]
    alike = pd.DataFrame([{"team": team, "player": man, **row} for team, man in men for row in rows])
    return Findings({**findings.tables, table: Table(alike)})


def row(bats: str, split: str, value: str, level: int, **other: object) -> dict[str, object]:
    usual = {"side": "pull" if level > 1 else "", "n": 40, "because": "gains" if level > 1 else "no gain", "outs": 0.80,
             "straight": 0.76, "gain_low": 0.01, "gain_high": 0.07, "next_gain": 0.01, "next_low": -0.02,
             "next_high": 0.04}  # fmt: skip
    return {"bats": bats, "split": split, "value": value, "level": level, **usual, **other}


def test_hitters_stand_in_lineup_order(card: LevelCard, demo_season: Season) -> None:
    lineup = next(series.lineup for series in demo_season.series if series.name == "gannet-harbor")
    assert [hitter.person.man.key for hitter in card.hitters] == list(lineup)
    assert [hitter.place for hitter in card.hitters] == list(range(1, 10))


def test_every_level_has_its_balls_and_its_sentence(card: LevelCard, demo_pages: dict[str, Page]) -> None:
    why = section(demo_pages["levels"], "What each level rests on")
    lines = [line for line in why.splitlines() if line.startswith("- ")]
    assert len(lines) == len(card.hitters) == 9
    for hitter, line in zip(card.hitters, lines, strict=True):
        level = hitter.infield["R"]
        assert level is not None
        assert f"{level.n} ground balls" in line
        if level.because == "few":
            assert level.n < FEW_BALLS
            assert "too few to move for: straight up" in line
        else:
            end = r"[−+]?\d+\.\d"
            assert re.search(rf"outs in 100 \({end} to {end}\)", line)


def test_a_level_by_the_pitchers_hand_stands_only_on_enough_balls(demo_season: Season, demo_findings: Findings) -> None:
    rows = [
        row(bats, split, value, level, because="few" if few else "gains")
        for bats in ("L", "R")
        for split, value, level, few in (("all", "all", 2, False), ("hand", "R", 3, False), ("hand", "L", 1, True))
    ]
    made = level_card_of(demo_season, fixed(demo_findings, rows))
    first = made.hitters[0]
    right, left = first.infield["R"], first.infield["L"]
    assert right
    assert left
    assert (right.level, right.by_hand) == (3, True)
    assert (left.level, left.by_hand) == (2, False)
    text = plain(render("levels.md.j2", page=made))
    assert "40 ground balls against his hand; +4.0 outs in 100 (+1.0 to +7.0) over straight up; level 4: +1.0" in text


def test_a_switch_hitter_is_met_on_the_other_side(demo_season: Season, demo_findings: Findings) -> None:
    rows = [row("L", "all", "all", 3), row("R", "all", "all", 2)]
    made = level_card_of(demo_season, fixed(demo_findings, rows))
    switch = next(hitter for hitter in made.hitters if hitter.person.man.bats == "S")
    assert {hand: level.level for hand, level in switch.infield.items() if level} == {"R": 3, "L": 2}


def test_two_strikes_stand_where_they_differ_and_are_known(demo_season: Season, demo_findings: Findings) -> None:
    for because, shown in (("no gain", True), ("few", False)):
        rows = [
            row(bats, split, value, level, because=why)
            for bats in ("L", "R")
            for split, value, level, why in (("all", "all", 3, "gains"), ("strikes", "two", 1, because))
        ]
        made = level_card_of(demo_season, fixed(demo_findings, rows))
        assert (made.hitters[0].two_strikes is not None) is shown
        # What stands on the card has its balls and its sentence here.
        text = plain(render("levels.md.j2", page=made))
        assert ("With two strikes, infield 1: 40 ground balls with two strikes; " in text) is shown


def test_whose_ball_is_said_for_every_level_used(demo_season: Season, demo_findings: Findings) -> None:
    rows = [row("L", "all", "all", 3), row("R", "all", "all", 3)]
    made = level_card_of(demo_season, fixed(demo_findings, rows))
    assert {(seam.level, seam.bats) for seam in made.seams} == {(1, "R"), (3, "L"), (3, "R")}
    assert {len(seam.pairs) for seam in made.seams} == {3}
    text = plain(render("levels.md.j2", page=made))
    assert "Level 3, left-handed hitter: between third base and shortstop: third base" in text
    assert "whoever is called off gives way at once" in text


def test_a_level_that_would_cost_outs_is_not_said_to_add_them(demo_season: Season, demo_findings: Findings) -> None:
    worse = {"next_gain": -0.03, "next_low": -0.05, "next_high": -0.01}
    rows = [row(bats, "all", "all", 1, **worse) for bats in ("L", "R")]
    text = plain(render("levels.md.j2", page=level_card_of(demo_season, fixed(demo_findings, rows))))
    assert "40 ground balls; level 2 would cost 3.0 outs in 100 (1.0 to 5.0): straight up" in text


def test_the_outfield_moves_with_two_strikes_too(demo_season: Season, demo_findings: Findings) -> None:
    rows = [
        row(bats, split, value, level)
        for bats in ("L", "R")
        for split, value, level in (("all", "all", 2), ("strikes", "two", 1))
    ]
    made = level_card_of(demo_season, with_rows(demo_findings, "outfield_levels", rows))
    assert [hitter.two_strikes_out.level for hitter in made.hitters if hitter.two_strikes_out] == [1] * 9
    assert "out 1 |" in plain(render("levels.md.j2", page=made))


def test_where_each_level_stands_is_what_the_outs_were_counted_at(card: LevelCard, demo_season: Season) -> None:
    own = demo_season.program.levels
    assert card.own_stands
    for stands, stated in zip(card.stands, own.infield_stands, strict=True):
        assert [steps for steps, _ in stands.steps] == pytest.approx(stated.steps)
    assert [s.outfield_steps for s in card.stands[:3]] == pytest.approx(own.outfield_steps)
    assert card.stands[3].outfield_steps is None


def test_the_legend_is_the_programs_own_or_ours(demo_season: Season, demo_findings: Findings) -> None:
    program = demo_season.program.model_copy(update={"levels": Levels()})
    made = level_card_of(replace(demo_season, program=program), demo_findings)
    assert made.infield_legend[0] == "straight up"
    assert len(made.infield_legend) == 4
    own = demo_season.program.levels.infield_legend
    assert level_card_of(demo_season, demo_findings).infield_legend == own
