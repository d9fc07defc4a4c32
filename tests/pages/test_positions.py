"""Where they stand as a page shows it: nothing from too few looks, and each side and man by himself."""

from measures.rows import frame

from scoutgen.measures.positions import off_bag as off_bag_table
from scoutgen.measures.positions import shades, stood
from scoutgen.pages.positions import Asked, OffBag, Stand, distances, off_bag, stands
from scoutgen.pages.rows import Rows, plain_rows
from scoutgen.records.opponents import Team
from scoutgen.records.program import Thresholds
from scoutgen.records.roster import RosterPlayer

LIMITS = Thresholds()
FEW = LIMITS.few_looks
TEAM = Team("harbor", "Harbor State", roster=(RosterPlayer(key="cole", name="Ben Cole"),))
LOOK = {"position": 5, "bats": "R", "bases": ""}


def where(*looks: dict[str, object]) -> Rows:
    return plain_rows(stood(frame("positions", *looks, team="harbor")))


def stood_against(side: str, *looks: dict[str, object]) -> dict[tuple[str, str], Stand]:
    charted = frame("positions", *looks, team="harbor")
    found = stands(plain_rows(stood(charted)), plain_rows(shades(charted)), side, LIMITS)
    return {(stand.where, stand.bases): stand for stand in found}


def test_a_depth_is_said_from_enough_looks_and_not_before() -> None:
    enough = stood_against("R", *[{**LOOK, "depth_ft": feet} for feet in (90, 95, 100)])
    assert enough["third base", "bases empty"].depth == 95
    assert stood_against("R", *[{**LOOK, "depth_ft": 90}] * (FEW - 1)) == {}


def test_looks_at_one_thing_are_no_looks_at_another() -> None:
    deep, near = {**LOOK, "depth_ft": 90}, {**LOOK, "off_bag_ft": 6}
    stand = stood_against("R", *[deep] * FEW, near)["third base", "bases empty"]
    assert (stand.depth, stand.depth_n, stand.off_bag, stand.off_bag_n) == (90, FEW, None, 1)
    stand = stood_against("R", deep, *[near] * FEW)["third base", "bases empty"]
    assert (stand.depth, stand.depth_n, stand.off_bag, stand.off_bag_n) == (None, 1, 6, FEW)


def test_hitters_of_the_two_sides_are_told_apart() -> None:
    looks = [{**LOOK, "depth_ft": 90}] * FEW + [{**LOOK, "bats": "L", "depth_ft": 120}] * FEW
    assert stood_against("R", *looks)["third base", "bases empty"].depth == 90
    assert stood_against("L", *looks)["third base", "bases empty"].depth == 120


def test_which_way_he_leans_is_the_commoner_of_enough_looks() -> None:
    def leaning(*toward: str) -> str | None:
        looks = [{**LOOK, "depth_ft": 90, "toward": word} for word in toward]
        shade = stood_against("R", *looks, *[{**LOOK, "depth_ft": 90}] * FEW)["third base", "bases empty"].shade
        return shade and shade.what

    assert leaning("line", "middle", "line") == "line"
    assert leaning("middle", "middle", "line") == "middle"
    assert leaning("line", "line") is None


def test_a_decision_gets_the_feet_it_asks_for_in_the_order_it_asks() -> None:
    rows = where(
        *[{**LOOK, "bats": "L", "depth_ft": feet} for feet in (110, 120, 130)],
        *[{**LOOK, "depth_ft": feet} for feet in (80, 90, 100)],
        *[{**LOOK, "bases": "2", "off_bag_ft": feet} for feet in (4, 6, 9)],
    )
    depth, bag, nobody = distances(
        [
            Asked(5, "depth", (("R", "all"), ("L", "all"))),
            Asked(5, "off_bag", (("all", "2"), ("all", "12"))),
            Asked(3, "depth", (("R", "all"),)),
        ],
        rows,
        FEW,
    )
    assert depth.what == "third baseman's depth"
    assert [(part.words, part.median) for part in depth.parts] == [
        ("right-handed hitters", 90), ("left-handed hitters", 120),
    ]  # fmt: skip
    assert [(part.words, part.least, part.median, part.most) for part in bag.parts] == [("runner on second", 4, 6, 9)]
    assert nobody.parts == ()
    assert nobody.last_seen is None


def test_whoever_plays_there_stands_beside_the_man_himself() -> None:
    def at(**look: object) -> dict[str, object]:
        return {"position": 3, "bases": "1", **look}

    looks = frame(
        "positions", at(off_bag_ft=4, player="cole"), at(off_bag_ft=6, player="cole"), at(off_bag_ft=11), team="harbor"
    )
    found = off_bag(plain_rows(off_bag_table(looks, frame("habits"))), TEAM)
    by_name: dict[str, OffBag] = {corner.name: corner for corner in found}
    assert set(by_name) == {"whoever plays there", "Ben Cole"}
    assert (by_name["whoever plays there"].n, by_name["whoever plays there"].most) == (3, 11)
    assert (by_name["Ben Cole"].n, by_name["Ben Cole"].median, by_name["Ben Cole"].runner_on) == (2, 5, "first")
