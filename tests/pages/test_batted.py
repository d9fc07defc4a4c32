"""Thirds of the field, contact and bunts as a page has them."""

from datetime import date

from scoutgen.pages.batted import ENOUGH_TO_DRAW, bunts, contact, drawing, ways
from scoutgen.records.opponents import Fence, Park, Team
from scoutgen.records.program import Thresholds

LIMITS = Thresholds()
ENDS = {"share": 0.33, "low": 0.25, "high": 0.41}


def third(kind: str, split: str, value: str, where: str, k: int) -> dict[str, object]:
    return {"kind": kind, "split": split, "value": value, "where": where, "k": k, "n": 12, "held": 0.7, **ENDS}


def test_ways_are_all_balls_first_then_by_hand_and_strikes() -> None:
    keys = [("strikes", "two"), ("hand", "R"), ("all", "all")]
    rows = [third("ground", *key, where, k) for key in keys for k, where in enumerate(("other", "middle", "pull"))]
    found = ways([*rows, third("air", "all", "all", "pull", 9)], "ground", LIMITS)
    assert [way.label for way in found] == ["All", "RHP", "2 strikes"]
    assert [(way.pull.k, way.middle.k, way.other.k, way.n, way.held) for way in found] == [(2, 1, 0, 12, 0.7)] * 3


def test_kinds_of_contact_stand_in_the_order_of_the_table() -> None:
    rows = [
        {"split": "all", "value": value, "contact": kind, "k": k, "n": 40, **ENDS}
        for value in ("early", "all")
        for k, kind in enumerate(("fly", "ground", "line", "popup"))
    ]
    found = contact(rows, LIMITS)
    assert [label for label, _ in found] == ["All", "No or one strike"]
    assert [claim.k for claim in found[0][1]] == [1, 2, 0, 3]


def test_bunts_name_only_the_places_bunted_to() -> None:
    row = {
        "k": 3, "n": 50, **ENDS, "fouled": 1, "third": 2, "middle": 0, "first": 1, "hits": 2, "sacrifices": 0,
        "nobody_on": 3, "last_bunt": date(2026, 3, 21), "games": 9, "last_seen": date(2026, 4, 1),
    }  # fmt: skip
    found = bunts([row], LIMITS)
    assert found is not None
    assert found.where == (("to third", 2), ("to first", 1))
    assert (found.claim.k, found.claim.n, found.fouled, found.last) == (3, 50, 1, date(2026, 3, 21))
    assert bunts([], LIMITS) is None


def team(park: Park) -> Team:
    return Team("harbor", "Harbor", own=False, listed=True, park=park)


def test_few_balls_are_not_drawn_and_the_park_is_named_where_its_fences_are_known() -> None:
    ball = {"contact": "fly", "direction_deg": 3.0, "distance_ft": 310.0, "play": "out"}
    assert drawing([ball] * (ENOUGH_TO_DRAW - 1), team(Park()), "8 X", "") is None
    fences = (Fence(bearing_deg=-45, distance_ft=320), Fence(bearing_deg=45, distance_ft=330))
    known = drawing([ball] * ENOUGH_TO_DRAW, team(Park(name="Low Park", fences=fences)), "8 X", "batting left")
    assert known is not None
    assert known.title == "8 X: where his balls went, batting left"
    assert "on the fences of Low Park. 8 balls: flies 8." in known.description
    unknown = drawing([ball] * ENOUGH_TO_DRAW, team(Park()), "8 X", "")
    assert unknown is not None
    assert "fences" not in unknown.description
