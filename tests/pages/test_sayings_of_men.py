"""What one man's page says, thing by thing, against his facts and his page."""

import json

import pytest
from pages.demo import plain

from scoutgen.pages.book import Book, Page
from scoutgen.pages.said import Saying

STARTER, CATCHER = "harbor|iker-nunez", "harbor|ruben-castellane"


@pytest.fixture(scope="module")
def said(demo_book: Book) -> dict[str, Saying]:
    return dict(demo_book.said)


def test_a_share_is_the_one_among_the_facts(said: dict[str, Saying], demo_book: Book) -> None:
    facts = json.loads(demo_book.facts["facts/harbor/iker-nunez.json"])
    rows = [r for r in facts["usage"] if (r["bats"], r["count"]) == ("L", "first pitch") and r["n"]]
    assert len(rows) > 2
    told = 0
    for row in rows:
        one = said.get(f"number|{STARTER}|first pitch, lefties, {row['pitch']}")
        if one is None:
            assert not row["k"]
            continue
        told += 1
        assert (one.k, one.n) == (row["k"], row["n"])
        assert (one.value, one.low, one.high) == pytest.approx((row["share"], row["low"], row["high"]), rel=1e-5)
    assert told > 2


def test_what_to_look_for_is_what_his_page_says(said: dict[str, Saying], demo_pages: dict[str, Page]) -> None:
    home = plain(demo_pages["index"].markdown).split("### ")[1]
    one = said[f"look_for|{STARTER}|two strikes, righties"]
    assert one.said == one.who == "slider"
    assert f"slider {one.value:.0%}".replace("%", " %") in home
    assert f"{one.k} of {one.n}" in home
    # Two that cannot be told apart are the same two in either order.
    tran = said["look_for|harbor|bexley-tran|first pitch, lefties"]
    assert tran.said == "curve or fastball"
    assert (tran.who, tran.detail) == ("curve", "fastball")


def test_a_clock_has_the_interval_of_its_mean(said: dict[str, Saying]) -> None:
    one = said[f"clock|{STARTER}|to the plate, from the stretch"]
    assert (one.value, one.n, one.said, one.unit, one.sure) == (1.45, 30, "frames", "s", "usable")
    assert one.low is not None
    assert one.high is not None
    assert one.low < 1.45 < one.high
    assert one.high - one.low < 0.1
    assert said[f"clock|{CATCHER}|pop to third"].sure == "thin"


def test_how_he_holds_runners(said: dict[str, Saying]) -> None:
    assert said[f"looks|{STARTER}|looks, runner on second"].said == "2 most often"
    assert said["looks|harbor|bexley-tran|looks, runner on second"].said == "no pattern"
    over = said[f"number|{STARTER}|throws to first, with a man on first alone"]
    assert (over.k, over.n) == (12, 87)


def test_what_changes_later_is_said_with_how_sure(said: dict[str, Saying]) -> None:
    curve = said["turn|harbor|bexley-tran|Third time through|curve"]
    assert curve.what.startswith("third time through")
    assert curve.said == "up"
    assert curve.k is not None
    assert 0 < curve.k < curve.n


def test_a_habit_is_counted_with_the_runners_its_decision_needs(said: dict[str, Saying]) -> None:
    lob = said[f"habit|{CATCHER}|2|lobs-return"]
    assert (lob.said, lob.k, lob.n, lob.detail) == ("recurs", 35, 50, "steal of home")
    steps = {one.said for one in said.values() if one.kind == "habit"}
    assert steps >= {"recurs", "seen", "looked for"}


def test_a_hitter_says_where_he_hits_it_and_whether_he_swings(said: dict[str, Saying]) -> None:
    mine = [key for key in said if key.startswith("number|harbor|theo-okonjo|")]
    # A switch hitter, by each side he stands on.
    assert "number|harbor|theo-okonjo|swings at the first pitch, batting left" in mine
    assert "number|harbor|theo-okonjo|pulls ground balls, batting right" in mine


def test_notes_carry_who_saw_it_and_a_summary_is_said_once(said: dict[str, Saying]) -> None:
    notes = [one for key, one in said.items() if key.startswith(f"note|{STARTER}|")]
    assert len(notes) > 3
    assert all(one.address.endswith("/iker-nunez#notes") and one.detail for one in notes)
    assert [one.what for key, one in said.items() if key.startswith(f"summary|{STARTER}|")] == ["in our words"]


def test_names_are_short(said: dict[str, Saying]) -> None:
    assert said[f"clock|{STARTER}|to the plate, from the stretch"].about == "27 Núñez"
    assert {one.about for key, one in said.items() if key.startswith("number|pinewold|")} >= {"No. 41", "No. 45"}
