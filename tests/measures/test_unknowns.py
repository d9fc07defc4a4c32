"""The charting to-do: what is wanted, what is there, the most urgent first."""

import pytest
from measures.rows import COLUMNS, frame

from scoutgen.measures.intervals import wilson
from scoutgen.measures.positions import off_bag_looks
from scoutgen.measures.unknowns import ROLES, UNKNOWN_COLUMNS, WANTS, Want, unknowns

REYES = ("harbor", "reyes", "pitcher")


def texts(frames: dict[str, object], *people: tuple[str, str | None, str]) -> list[str]:
    return unknowns(frames, people)["text"].tolist()  # type: ignore[arg-type]


def test_a_man_never_charted_wants_everything() -> None:
    table = unknowns({}, [REYES])
    assert list(table.columns) == UNKNOWN_COLUMNS
    assert len(table) == sum(want.role == "pitcher" for want in WANTS)
    assert (table["have"] == 0).all()
    assert "times to the plate from the slide step: none" in table["text"].tolist()
    assert table["priority"].is_monotonic_increasing


def test_counts_are_of_the_rows_that_answer() -> None:
    two_strikes = [{"bats": "L", "strikes": 2, "balls": b} for b in (0, 1, 3)]
    pitches = frame(
        "pitches", *two_strikes, {"bats": "R", "strikes": 2, "balls": 0}, {"bats": "L", "strikes": 1, "balls": 0},
        {"bats": "L", "strikes": 2, "balls": 0, "pitcher_team": "valley"},
        {"bats": "L", "strikes": 2, "balls": 0, "pitch": None},
        pitcher="reyes", pitcher_team="harbor", pitch="slider",
    )  # fmt: skip
    found = texts({"pitches": pitches}, REYES)
    assert "two-strike pitches to left-handers: 3 of 20 wanted" in found
    assert "pitches to left-handers: 4 of 40 wanted" in found
    assert "first pitches to left-handers: none" in found


def test_what_is_there_is_not_asked_for_and_warmups_do_not_count() -> None:
    row = {"team": "harbor", "player": "reyes", "measure": "plate", "style": "slide_step", "seconds": 1.2}
    four = frame("times", *[row] * 4, {**row, "warmup": True})
    five = frame("times", *[row] * 5)
    assert "times to the plate from the slide step: 4 of 5 wanted" in texts({"times": four}, REYES)
    assert not [t for t in texts({"times": five}, REYES) if "slide step" in t]


def test_a_hitter_is_asked_about_by_his_own_times_at_the_plate() -> None:
    ball = {"contact": "ground", "direction_deg": -20.0, "play": "out", "batter": "reyes", "batter_team": "harbor"}
    rows = [ball, {**ball, "play": None}, {**ball, "contact": "fly", "direction_deg": None}, {**ball, "batter": "cruz"}]
    pitches = frame("pitches", *rows, pitcher="reyes", pitcher_team="valley")
    found = texts({"pitches": pitches}, ("harbor", "reyes", "hitter"))
    assert found == [
        "plate appearances: 2 of 20 wanted", "ground balls with a direction: 2 of 20 wanted",
        "line drives and flies with a direction: none", "times to first after a full swing: none",
    ]  # fmt: skip
    assert len(texts({"pitches": pitches}, ("valley", "reyes", "hitter"))) == 4


@pytest.mark.parametrize(("sets", "asked"), [(29, True), (30, False)])
def test_a_slide_step_not_seen_in_many_sets_is_not_asked_for(sets: int, asked: bool) -> None:
    kick = {"bases": "1", "then": "pitch", "style": "stretch", "team": "harbor", "pitcher": "reyes"}
    not_a_look = [{**kick, "style": None}, {**kick, "then": "pickoff_1"}, {**kick, "bases": ""}]
    holds = frame("holds", *[kick] * sets, *not_a_look)
    assert bool([t for t in texts({"holds": holds}, REYES) if "slide step" in t]) is asked


def test_a_slide_step_seen_once_is_still_to_be_timed() -> None:
    kick = {"bases": "1", "then": "pitch", "style": "stretch", "team": "harbor", "pitcher": "reyes"}
    holds = frame("holds", *[kick] * 200, {**kick, "style": "slide_step"})
    assert "times to the plate from the slide step: none" in texts({"holds": holds}, REYES)


def test_looks_at_the_return_throw_and_timed_ones_are_wanted_apart() -> None:
    who = ("harbor", "castle", "catcher")
    lob = {"habit": "lobs-return", "bases": "13", "seen": True, "team": "harbor", "player": "castle"}
    timed = {"measure": "return_throw", "bases": "3", "style": "lob", "team": "harbor", "player": "castle"}
    frames = {
        "habits": frame("habits", *[lob] * 50, {**lob, "bases": "1"}),
        "times": frame("times", *[{**timed, "seconds": 1.2}] * 6, timed),
    }
    found = texts(frames, who)
    assert "timed return throws with a runner on third: 6 of 8 wanted" in found
    assert not [t for t in found if "lobs" in t]
    assert "looks at whether he checks the runner on third before he returns it: none" in found


def test_looks_with_a_runner_on_second() -> None:
    holds = frame("holds", {"bases": "1", "looks": 1}, {"bases": "12", "looks": 2}, team="harbor", pitcher="reyes")
    assert "looks counted with a runner on second: 1 of 10 wanted" in texts({"holds": holds}, REYES)


def test_the_infield_is_the_teams() -> None:
    positions = frame("positions", {"bases": "3", "off_bag_ft": 10.0}, team="harbor", position=5, player="vance")
    habits = frame("habits", {"feet": 12.0, "habit": "third-off-bag"}, team="harbor")
    table = unknowns({"positions": positions, "habits": habits}, [("harbor", None, "infield")])
    first = table.iloc[0]
    assert first["text"] == "third baseman's feet off the bag with a runner on third: 2 of 3 wanted"
    assert first["position"] == 5
    assert table["player"].isna().all()


def test_nobody_asked_after() -> None:
    assert unknowns({}, []).empty
    assert list(unknowns({}, []).columns) == UNKNOWN_COLUMNS


@pytest.mark.parametrize("want", WANTS, ids=lambda w: f"{w.role}: {w.what}")
def test_each_want_can_be_counted(want: Want) -> None:
    table = "pitches" if want.table == "at_bat" else want.table.removeprefix("infield_")
    columns = {*COLUMNS.get(table, "").split()} or {*off_bag_looks(frame("positions"), frame("habits")).columns}
    assert {*want.where, *want.filled} <= columns
    assert want.role in ROLES
    assert want.what[0].islower()
    assert want.want > 0


@pytest.mark.parametrize(("n", "half"), [(40, 0.15), (20, 0.20)])
def test_forty_and_twenty_pitches_are_what_the_words_usable_and_lean_ask_for(n: int, half: float) -> None:
    low, high = wilson(n / 2, n)
    assert float(high - low) / 2 <= half


def test_looks_at_first_and_third_are_asked_of_the_infield_as_a_whole() -> None:
    looks = [{"player": man, "position": at, "bases": "13", "seen": True} for man, at in (("vance", 5), ("ito", 6))]
    behind = {"player": "cho", "position": 2, "bases": "13", "seen": True}
    habits = frame("habits", *looks, behind, {**looks[0], "bases": "3"}, team="harbor", habit="turns-back")
    asked = unknowns({"habits": habits}, [("harbor", None, "infield")]).set_index("what")["text"]
    what = "looks at the infielders with runners on first and third"
    assert asked[what] == f"{what}: 2 of 8 wanted"
