"""The explaining pages: what they say of the project is what the project set, and the words are in order."""

import re
from dataclasses import replace

import pytest
from pages.demo import plain

from scoutgen.measures import batted, directions, hitting, intervals, times_through
from scoutgen.measures.counts import COUNT_GROUPS
from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.guide import GuidePage, cautions_page, glossary_entries, guide_pages
from scoutgen.pages.markdown import render
from scoutgen.pages.people import people
from scoutgen.records.program import Policy, Thresholds
from scoutgen.records.season import Season

SOURCES = ("nsga.org", "baseballrulesacademy.com", "kstp.com", "13.1.1.4", "mlb.com/pitch-smart", "42:43")


def guide(season: Season, findings: Findings, edition: str = "staff") -> dict[str, Page]:
    men = [person for team in people(season).values() for person in team]
    return {page.address: page for page in guide_pages(men, findings, season, edition=edition)}


def test_the_staff_has_the_method_and_players_have_the_rest(demo_season: Season, demo_findings: Findings) -> None:
    assert set(guide(demo_season, demo_findings)) == {"cautions", "how-to-read", "glossary", "method"}
    players = guide(demo_season, demo_findings, "players")
    assert set(players) == {"cautions", "how-to-read", "glossary"}
    assert not any("method.md" in page.markdown for page in players.values())


def test_the_evaluations_have_the_cautions_without_the_way_to_the_cards(demo_season: Season) -> None:
    page = cautions_page(demo_season, edition="recruiting")
    assert "Recruiting contact" in page.markdown
    assert "cards" not in page.markdown
    assert cautions_page(demo_season, edition="staff").markdown != page.markdown


def test_settings_of_the_program_are_what_the_pages_say(demo_season: Season, demo_findings: Findings) -> None:
    limits = Thresholds(firm=0.07, usable=0.13, lean=0.19, few_pitches=23, few_readings=7, stale_days=17)
    policy = Policy(banner="Phones stay on the bus. Ask the coach.")
    program = demo_season.program.model_copy(update={"thresholds": limits, "policy": policy, "watch_error_s": 0.17})
    pages = guide(replace(demo_season, program=program), demo_findings)
    for address in ("how-to-read", "glossary", "method"):
        text = plain(pages[address].markdown)
        for set_by_us in ("7 %", "13 %", "19 %", "23 times", "0.17 s"):
            assert set_by_us in text, (address, set_by_us)
    assert "fewer than 7 readings" in plain(pages["glossary"].markdown).lower()
    assert "17 days" in plain(pages["glossary"].markdown)
    assert "Phones stay on the bus." in plain(pages["cautions"].markdown)


def test_the_policy_has_the_place_that_the_line_over_every_page_leads_to(demo_pages: dict[str, Page]) -> None:
    cautions = demo_pages["cautions"]
    first = cautions.markdown.split("## ")[1]
    assert first.startswith("Phones and electronics\n")
    assert "No phones or tablets in the dugout during play." in plain(first)
    assert cautions.menu == ("Cautions",)
    assert "phones" in cautions.search[0].text


def test_cautions_have_their_sources_and_leave_the_last_word_to_others(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["cautions"].markdown)
    for source in SOURCES:
        assert source in text
    for last_word in ("rule book", "conference", "umpires", "compliance staff", "athletic trainer", "physicians"):
        assert last_word in text
    assert "who may be contacted, watched and graded on another roster is for the compliance staff" in text.lower()
    assert len(text.split()) < 900, "short cautions on one page"


@pytest.mark.parametrize("address", ["index", "running", "levels", "teams/harbor/index", "teams/harbor/infield"])
def test_a_caution_where_it_applies_leads_to_its_page(demo_pages: dict[str, Page], address: str) -> None:
    assert re.search(
        r"\((?:\.\./)*cautions\.md#(?:slides-and-collisions|two-under-one-ball)\)", demo_pages[address].markdown
    )


def test_the_glossary_is_in_order_and_each_letter_names_the_words_it_opens(demo_pages: dict[str, Page]) -> None:
    text = demo_pages["glossary"].markdown
    terms = re.findall(r"^### (.+)$", text, re.MULTILINE)
    keys = [re.sub(r"[^a-z0-9 ]", "", term.lower()) for term in terms]
    assert keys == sorted(keys)
    assert len(terms) == len(set(terms)) > 60
    parts = re.findall(r"^\[part:(.): ([^\]\n]+)\]\n(.*?)^\[part:end\]$", text, re.MULTILINE | re.DOTALL)
    assert [letter for letter, _, _ in parts] == sorted({term[0].upper() for term in terms})
    for _, named, words in parts:
        assert named.split(" · ") == re.findall(r"^### (.+)$", words, re.MULTILINE)


def test_the_glossary_has_the_words_of_the_trade_and_of_the_pages(demo_pages: dict[str, Page]) -> None:
    terms = set(re.findall(r"^### (.+)$", demo_pages["glossary"].markdown, re.MULTILINE))
    asked = """Pop|Hold|Slide step|Look|Looks|Lob|Level|Firm|Usable|Lean|Thin|Ahead|Behind|Even|Full|Times through
        |Break-even|Exchange|To the plate|First move|Throws over|Pull|Go|Only if|Safe|To spare|Interval|k of n"""
    assert {word.strip() for word in asked.split("|")} <= terms
    text = plain(demo_pages["glossary"].markdown)
    for group in ("ahead", "behind"):
        assert ", ".join(COUNT_GROUPS[group]) in text


def test_search_finds_every_word_at_its_place(demo_pages: dict[str, Page]) -> None:
    entries = demo_pages["glossary"].search
    lob = next(entry for entry in entries if entry.title == "Lob")
    assert lob.anchor == "lob"
    assert lob.text.startswith("A slow return throw of the catcher")
    assert lob.boost < 1, "never before the pages of men who lob"
    assert list(glossary_entries("### In, away\n\n**The** [batter's](x.md).\n"))[1].text == "The batter's."


def test_words_for_shares_say_what_the_measures_use() -> None:
    """The guide says "nine times in ten" and "nineteen in twenty" in words."""
    assert intervals.LEVEL == times_through.LIKELY == pytest.approx(0.9)
    assert pytest.approx(0.95) == times_through.PROVEN


def test_constants_of_the_measures_are_what_the_guide_says(
    demo_season: Season, demo_findings: Findings, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(directions, "BIN_DEG", 6.0)
    text = plain(guide(demo_season, demo_findings)["method"].markdown)
    assert "bins of 6 degrees" in text
    shown = plain(render("how-to-read.md.j2", page=GuidePage("how-to-read", "staff", demo_season.program,
                                                             middle_deg=12.0, hard_ft=310.0, level=0.8)))  # fmt: skip
    assert "12 degrees to either side of second base" in shown
    assert "a line drive or fly of 310 ft" in shown
    assert shown.count("80 % interval") == 4
    assert "90 %" not in shown
    default = GuidePage("how-to-read", "staff", demo_season.program)
    assert (default.middle_deg, default.hard_ft, default.level) == (
        batted.MIDDLE_DEG, hitting.HARD_HIT_FT, intervals.LEVEL,
    )  # fmt: skip


def test_the_method_has_its_formulas_and_the_constants_in_use(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["method"].markdown)
    for formula in ("exp η(i, c, g)", "Beta(M μ, M (1 − μ))", "mean ± t · sd · √(1 + 1 / n)", "cost / (gain + cost)"):
        assert formula in text
    for source in ("MacKay", "Christiansen and Morris", "Smyth", "Lindsey", "Efron and Tibshirani", "Zimmerman"):
        assert source in text
    assert "6.3 a team and game" in text or "a team and game" in text
