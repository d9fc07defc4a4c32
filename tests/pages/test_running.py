"""What a base coach and a runner must have answered within a minute, asked of the demo's running page."""

import re
from dataclasses import replace
from datetime import date

import pytest
from pages.demo import findings_of, plain, running_page_of, section

from scoutgen.measures.stakes import Moment, stake
from scoutgen.pages.book import Page
from scoutgen.pages.findings import Findings
from scoutgen.pages.markdown import anchor, render
from scoutgen.pages.people import people
from scoutgen.pages.run_values import win_values
from scoutgen.pages.running import RunningPage
from scoutgen.pages.series import series_pages
from scoutgen.records.season import Season


@pytest.fixture(scope="module")
def page(demo_season: Season, demo_findings: Findings) -> RunningPage:
    return running_page_of(demo_season, demo_findings)


def test_our_fastest_man_finds_himself_and_his_answer_on_friday(demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["running"].markdown)
    first = next(line for line in text.splitlines() if line.startswith("| ["))
    assert re.match(r"\| \[1 Wrenfield\]\(#at-1-jabari-wrenfield\) \| ▲ go 9\d % \|", first)
    mine = section(demo_pages["running"], "1 Jabari Wrenfield")
    assert re.search(r"\| Núñez, second \| ▲ go \+0\.\d\d s \| 9\d % \d\d to \d\d % \| 8\d % \+0\.\d\d s \|", mine)
    assert "His time: 3.18 s (our roster)" in mine


def test_from_which_count_and_what_if_the_slide_step(
    demo_season: Season, demo_findings: Findings, demo_pages: dict[str, Page]
) -> None:
    friday = section(demo_pages["running"], "Friday: 27 Iker Núñez")
    assert re.search(r"Count to go in: \d-\d \(something slow \d+ %, \d+ of \d+\)", friday)
    # What stands there is what the answers rest on: a man on first alone, not all sets with runners on.
    plate = r"man on first: mean (1\.\d\d) s \((\d+) timed\) from the stretch; slide step mean (1\.\d\d) s"
    said = re.search(plate, friday)
    assert said
    row = next(r for r in demo_findings.of("calls", "harbor", "iker-nunez") if r["base"] == "2")
    assert (float(said[1]), int(said[2])) == (round(row["stretch_plate_s"], 2), row["stretch_plate_n"])
    assert float(said[3]) == round(row["slide_plate_s"], 2)
    holds = demo_season.holds[demo_season.holds["pitcher"].eq("iker-nunez") & demo_season.holds["bases"].eq("1")]
    pitched = holds[holds["then"].eq("pitch")]
    assert f"used in {pitched['style'].eq('slide_step').sum()} of {len(pitched)} sets" in friday
    assert f"Throws to first: {holds['then'].eq('pickoff_1').sum()} of {len(holds)} sets" in friday
    throws = demo_season.throws[demo_season.throws["catcher"].eq("ruben-castellane") & demo_season.throws["to"].eq("2")]
    live = throws.loc[~throws["warmup"], "accuracy"].dropna()
    wide = live.isin(["field_side", "high", "short_hop"]).sum()
    # The same for every game: said once, before them.
    same = plain(demo_pages["running"].markdown).split("## Friday")[0]
    assert f"{wide} of {len(live)} throws there to the field side, high or short" in same
    assert re.search(r"Needed to go, second: \d+ % with none out, \d+ % with one, \d+ % with two; third: \d+ %", same)


def test_the_next_game_is_read_and_the_others_open(page: RunningPage, demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["running"].markdown)
    assert re.findall(r"^## (\w+day): ", text, flags=re.MULTILINE) == ["Friday"]
    assert re.findall(r"^\[part:(\w+day): ", text, flags=re.MULTILINE) == ["Saturday", "Sunday"]
    on_sunday, after = (replace(page, as_of=date(2026, 4, day)).tonight for day in (12, 30))
    assert (on_sunday, after) == (page.batteries[2], page.batteries[0])


def test_the_way_home_is_answered_by_name_before_its_table(page: RunningPage, demo_pages: dict[str, Page]) -> None:
    text = plain(demo_pages["running"].markdown)
    before, table = text.split("## Home on the return throw")[1].split("[table:home")
    table = table.split("[part:end]")[0]
    assert page.home is not None
    for words, ways in page.home.answers:
        assert f"- {words}: " in before
        assert table.count(f" | {words} ") == len(ways)
    assert sum(len(ways) for _, ways in page.home.answers) == len(page.home.ways)


def test_a_slide_step_that_was_seen_but_never_timed_says_so(page: RunningPage) -> None:
    friday = page.batteries[0]
    calls = {key: replace(call, slide_plate_n=0) for key, call in friday.calls.items()}
    text = render("running.md.j2", page=replace(page, batteries=(replace(friday, calls=calls),)))
    assert re.search(r"from the stretch; slide step in \d+ of \d+ sets \(\d+.%\), never timed\.", text)
    rows = [line for line in text.splitlines() if line.startswith("| Núñez, second")]
    assert rows
    assert all(row.endswith("<br>not timed |") for row in rows)
    never = {
        key: replace(call, stretch_plate_n=0, slide_p_safe=None, slide_plate_n=None)
        for key, call in friday.calls.items()
    }
    bare = replace(friday, calls=never, slides=None, over_to_first=None, wide=None)
    text = render("running.md.j2", page=replace(page, batteries=(bare,)))
    assert "never timed from the stretch; slide step" in text
    assert "not charted with a man on first alone" in text


def test_up_two_in_the_eighth_the_same_odds_are_needed_and_a_third_is_to_win(
    demo_season: Season, demo_pages: dict[str, Page]
) -> None:
    risk = plain(demo_pages["risk"].markdown)
    said = re.search(
        r"Up 2 in the 8th, one out, steal of second: break-even (\d+) %, in a tied game (\d+) %; "
        r"there is (\d+) % as much to win as in a tied game",
        risk,
    )
    assert said
    values = win_values(demo_season.program.run_environment)
    up, tied = (stake(values, "2", Moment(8, "top", lead, 1)) for lead in (2, 0))
    assert int(said[1]) == round(100 * up.break_even)
    assert int(said[2]) == round(100 * tied.break_even)
    assert int(said[3]) == round(100 * up.gain / tied.gain)
    assert abs(int(said[1]) - int(said[2])) <= 3
    assert 25 <= int(said[3]) <= 45


def test_every_runner_of_the_table_has_his_part(page: RunningPage, demo_pages: dict[str, Page]) -> None:
    text = demo_pages["running"].markdown
    links = re.findall(r"\]\(#([a-z0-9-]+)\)", text)
    parts = {f"at-{anchor(words)}" for words in re.findall(r"^\[fold:(.+)\]$", text, re.MULTILINE)}
    assert len(links) == len(page.runners) > 10
    assert set(links) <= parts
    seconds = [page.batteries[0].calls[man.key, "2"].run_s for man in page.runners]
    assert seconds == sorted(seconds)


def test_words_and_shapes_say_it_without_colour(demo_pages: dict[str, Page]) -> None:
    text = demo_pages["running"].markdown
    for call in ("▲ go", "◆ only if", "✕ no"):
        assert call in text


def test_a_series_without_a_starter_with_a_page_says_so(demo_season: Season, demo_findings: Findings) -> None:
    nobody = replace(demo_season, series=tuple(replace(s, probables=()) for s in demo_season.series))
    text = render("running.md.j2", page=running_page_of(nobody, demo_findings))
    assert "No probable pitcher and catcher with a page" in text


def test_runners_without_a_time_are_named_and_asked_for(demo_season: Season) -> None:
    roster = tuple(man.model_copy(update={"times": None}) for man in demo_season.program.roster)
    untimed = replace(
        demo_season,
        program=demo_season.program.model_copy(update={"roster": roster}),
        times=demo_season.times[demo_season.times["team"].ne(demo_season.program.key)],
        # What pitches say is no part of it.
        pitches=demo_season.pitches[:500],
    )
    assert "write `times` on our roster" in render("running.md.j2", page=running_page_of(untimed, findings_of(untimed)))


def test_a_series_that_is_over_has_no_running_page(demo_season: Season, demo_findings: Findings) -> None:
    late = replace(demo_season, as_of=date(2026, 5, 1))
    fronts = series_pages(people(late), demo_findings, late, edition="staff", built="now")
    assert [front.running_address for front in fronts] == ["", ""]
    players = series_pages(people(demo_season), demo_findings, demo_season, edition="players", built="now")[0]
    assert players.running_address
    assert players.risk_address == ""


def test_counts_of_men_are_never_read_as_numbers_on_backs(demo_pages: dict[str, Page]) -> None:
    answers = [line for line in demo_pages["running"].markdown.splitlines() if "◆ only if:" in line]
    assert answers
    assert [line for line in answers if re.search(r"(?:only if|no|known yet): \d+(?! m[ae]n)", line)] == []


def test_nothing_is_made_of_throws_to_first_that_nobody_looked_for(demo_season: Season) -> None:
    season = replace(demo_season, holds=demo_season.holds.iloc[:0])
    text = render("running.md.j2", page=running_page_of(season, findings_of(season)))
    assert "not charted with a man on first alone" in text
    assert "picked off about" not in text
