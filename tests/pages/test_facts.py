import json
from datetime import date
from typing import Any

import numpy as np
import pandas as pd
import pytest

from scoutgen.measures.counts import COUNT_LABELS, COUNTS
from scoutgen.measures.usage import usage
from scoutgen.pages.book import Book
from scoutgen.pages.facts import LISTS, TEAM_LISTS
from scoutgen.pages.rows import plain_rows
from scoutgen.pages.write import write_book
from scoutgen.records.season import Season


@pytest.fixture(scope="module")
def starter(demo_book: Book) -> dict[str, Any]:
    return json.loads(demo_book.facts["facts/harbor/iker-nunez.json"])


def test_usage_holds_what_the_charting_format_promises(starter: dict[str, Any]) -> None:
    rows = starter["usage"]
    assert {"bats", "count", "pitch", "k", "n", "share", "low", "high", "tonight_low", "tonight_high"} <= set(rows[0])
    assert {row["bats"] for row in rows} == {"L", "R", "all"}
    assert {row["count"] for row in rows} == set(COUNT_LABELS)
    assert set(COUNTS) < set(COUNT_LABELS)


def test_shares_of_a_cell_sum_to_one_and_none_is_impossible(starter: dict[str, Any]) -> None:
    rows = pd.DataFrame(starter["usage"])
    np.testing.assert_allclose(rows.groupby(["bats", "count"])["share"].sum(), 1.0, atol=1e-4)
    assert (rows["share"] > 0).all()
    assert (rows["k"] <= rows["n"]).all()
    assert (rows["low"] <= rows["share"] + 1e-9).all()
    assert (rows["share"] <= rows["high"] + 1e-9).all()


def test_times_hold_what_the_charting_format_promises(starter: dict[str, Any]) -> None:
    promised = {"measure", "style", "bases", "method", "n", "median", "mean", "sd", "low", "high", "last_seen"}
    assert promised <= set(starter["times"][0])
    assert {row["method"] for row in starter["times"]} == {"watch", "frames"}


def test_steals_hold_what_the_charting_format_promises(starter: dict[str, Any]) -> None:
    rows = starter["steals"]
    promised = {"runner", "pitcher", "catcher", "base", "style", "p_safe", "low", "high", "margin_s", "break_even"}
    assert promised <= set(rows[0])
    assert {row["pitcher"] for row in rows} == {"iker-nunez"}
    assert {row["style"] for row in rows if row["base"] == "2"} == {"stretch", "slide_step", "mixed"}
    for row in rows:
        assert 0 <= row["low"] <= row["p_safe"] <= row["high"] <= 1
        assert set(row["break_even"]) == {"0", "1", "2"}


@pytest.mark.parametrize("name", ["holds", "throws", "habits"])
def test_claims_are_k_of_n_with_share_interval_and_date(demo_book: Book, name: str) -> None:
    rows = [row for text in demo_book.facts.values() for row in json.loads(text).get(name, ())]
    assert rows
    assert {"k", "n", "share", "low", "high", "last_seen"} <= set(rows[0])


def test_facts_are_the_measures_own_rows(demo_season: Season, starter: dict[str, Any]) -> None:
    names = tuple(demo_season.program.pitch_names())
    table = usage(demo_season.pitches, vocabulary=names)
    mine = table[(table["team"] == "harbor") & (table["player"] == "iker-nunez")]
    assert len(mine) == len(starter["usage"])
    np.testing.assert_allclose(mine["share"], [row["share"] for row in starter["usage"]], rtol=1e-5)


def test_k_of_n_is_what_was_charted(demo_season: Season, starter: dict[str, Any]) -> None:
    pitches = demo_season.pitches
    mine = pitches[(pitches["pitcher_team"] == "harbor") & (pitches["pitcher"] == "iker-nunez")]
    first = mine[(mine["bats"] == "L") & (mine["balls"] == 0) & (mine["strikes"] == 0)]
    row = next(r for r in starter["usage"] if (r["bats"], r["count"], r["pitch"]) == ("L", "first pitch", "curve"))
    assert (row["k"], row["n"]) == (int((first["pitch"] == "curve").sum()), len(first))


def test_every_player_of_a_team_we_play_has_facts_beside_his_page(demo_book: Book) -> None:
    players = {p.address for p in demo_book.pages if "/players/" in p.address}
    beside = {f"facts/{a.split('/')[1]}/{a.split('/')[3]}.json" for a in players}
    assert beside == set(demo_book.facts)
    for text in demo_book.facts.values():
        found = json.loads(text)
        assert set(LISTS) < set(found)
        assert found["as_of"] == "2026-04-09"


def test_missing_is_null_and_a_small_share_is_not_zero() -> None:
    frame = pd.DataFrame(
        {
            "share": [1e-9, float("nan")],
            "n": pd.array([1, None], dtype="Int16"),
            "last_seen": pd.to_datetime(["2026-04-03", None]),
        }
    )
    assert plain_rows(frame) == [
        {"share": 1e-9, "n": 1, "last_seen": date(2026, 4, 3)},
        {"share": None, "n": None, "last_seen": None},
    ]


def test_a_team_s_facts_are_the_numbers_of_its_own_pages(demo_season: Season, demo_book: Book) -> None:
    book = write_book(demo_season, edition="staff", built="now", of_teams=True)
    assert set(book.facts) - set(demo_book.facts) == {
        f"facts/{key}.json" for key, team in demo_season.teams.items() if not team.own
    }
    harbor = json.loads(book.facts["facts/harbor.json"])
    assert [harbor[name] for name in ("format", "team", "name")] == [1, "harbor", demo_season.teams["harbor"].name]
    assert all(harbor[name] for name in TEAM_LISTS)
    third = next(r for r in harbor["off_bag"] if r["position"] == 5 and r["player"] == "mateo-quiroga-lamb")
    page = next(page for page in demo_book.pages if page.address == "teams/harbor/infield")
    assert f"{third['min_ft']:.0f} to {third['max_ft']:.0f}" in page.markdown
    assert {row["call"] for row in harbor["calls"]} <= {"go", "only_if", "no", "unknown"}
