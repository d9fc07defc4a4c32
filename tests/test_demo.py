"""The demo is what the simulator writes, is read without a word of complaint, and holds every case it promises."""

from collections import Counter
from datetime import date
from pathlib import Path

import pytest
from league.arms import pitchers
from league.charting import height_cell, side_cell
from league.season import AS_OF, CUT_OFF
from league.write_demo import ROOT, demo_files

from scoutgen.measures.times_through import times_through_changes
from scoutgen.records.season import Season, read_season

FRIDAY = "iker-nunez"
TEAMS = ("harbor", "saltmarsh", "slatefield")


@pytest.fixture(scope="module")
def season() -> Season:
    return read_season(ROOT, as_of=AS_OF)


def test_repository_holds_what_the_simulator_writes_byte_for_byte() -> None:
    on_disk = {
        path.relative_to(ROOT).as_posix(): path.read_bytes()
        for folder in ("data", "content")
        for path in sorted((ROOT / folder).rglob("*"))
        if path.is_file()
    }
    assert sorted(on_disk) == sorted(demo_files())
    assert [path for path, content in demo_files().items() if on_disk[path] != content] == []


def test_the_demo_stays_small() -> None:
    assert sum(map(len, demo_files().values())) < 2_500_000


def test_nothing_to_complain_of(season: Season) -> None:
    assert season.warnings == ()
    assert season.skipped == ()


def test_a_season_of_some_thirty_games_and_all_ways_of_seeing_one(season: Season) -> None:
    assert 25 <= len(season.games) <= 35
    assert 9_000 <= len(season.pitches) <= 12_000
    assert set(season.games["source"]) == {"video", "own_game", "same_site", "on_campus", "second_hand"}


def test_three_opponents_in_full(season: Season) -> None:
    assert sorted(key for key, team in season.teams.items() if team.listed and not team.own) == sorted(TEAMS)
    for key in TEAMS:
        roster = season.teams[key].roster
        positions = Counter(position for man in roster for position in man.positions)
        assert positions["P"] >= 8
        assert positions["C"] == 2
        assert sum(not {"P", "C"} & set(man.positions) for man in roster) == 12
        assert min(positions[position] for position in ("1B", "2B", "3B", "SS", "LF", "CF", "RF")) >= 1
        assert season.teams[key].park.fences


def test_uneven_samples(season: Season) -> None:
    charted = season.pitches["pitcher"].value_counts()
    assert 380 <= charted[FRIDAY] <= 420
    assert charted[CUT_OFF[2]] == 9


def test_the_coming_series(season: Season) -> None:
    coming = next(one for one in season.series if one.start >= AS_OF)
    assert (coming.start, coming.end, coming.opponent) == (date(2026, 4, 10), date(2026, 4, 12), "harbor")
    assert coming.probables[0].pitcher == FRIDAY
    assert len(coming.probables) == 3
    assert len(coming.lineup) == 9
    assert coming.catcher
    assert coming.plan
    assert coming.bullpen


def test_number_27_is_worn_on_every_team_and_by_the_friday_starter(season: Season) -> None:
    worn = {key: [man.key for man in team.roster if man.number == "27"] for key, team in season.teams.items()}
    assert worn["harbor"] == [FRIDAY]
    assert [len(worn[key]) for key in (*TEAMS, "ridge")] == [1, 1, 1, 1]


def test_one_number_two_men_and_the_day_decides(season: Season) -> None:
    first, second = (man for man in season.teams["harbor"].roster if man.number == "31")
    assert first.until_date < second.from_date
    days = season.pitches.groupby("pitcher", observed=True)["date"].agg(["min", "max"])
    assert days.loc[first.key, "max"].date() <= first.until_date
    assert days.loc[second.key, "min"].date() >= second.from_date
    by_number = [
        path.name
        for path in sorted((ROOT / "data/pitches").glob("*.csv"))
        if ",31," in path.read_text(encoding="utf-8")
    ]
    assert {"0221-ridge.csv", "0407-harbor.csv"} <= set(by_number)


def test_people_of_every_kind(season: Season) -> None:
    harbor = season.teams["harbor"].roster
    names = [man.name for man in harbor]
    assert any(not name.isascii() for name in names)
    assert any("'" in name for name in names)
    assert sum(name.split()[-1] == "Lindqvist" for name in names) == 2
    assert any(man.bats == "S" for man in harbor)
    assert any("P" in man.positions and man.throws == "L" for man in harbor)
    assert any("idearm" in (entry.summary or "") for entry in season.entries.values())
    two_way = [man.key for man in harbor if "P" in man.positions and len(man.positions) > 1]
    batting = season.pitches[season.pitches["batter_team"] == "harbor"]["batter"]
    assert two_way
    assert all((season.pitches["pitcher"] == key).any() and (batting == key).any() for key in two_way)
    switch = next(man.key for man in harbor if man.bats == "S")
    assert set(season.pitches.loc[season.pitches["batter"] == switch, "bats"]) == {"L", "R"}


def test_observations_that_disagree_one_that_is_old_one_for_the_staff_and_grades(season: Season) -> None:
    seen = {key: entry.observations for key, entry in season.entries.items()}
    apart = [
        key
        for key, observations in seen.items()
        for about in {one.about for one in observations}
        if len({one.by for one in observations if one.about == about}) > 1
    ]
    assert ("harbor", FRIDAY) in apart
    every = [one for observations in seen.values() for one in observations]
    assert any(one.expires and one.expires < AS_OF for one in every)
    assert any(one.editions == ("staff",) for one in every)
    assert sum(entry.grades is not None for entry in season.entries.values()) >= 3
    assert {one.confidence for one in every} == {"sure", "likely", "hunch"}


def test_what_nobody_has_seen_is_not_in_the_charts(season: Season) -> None:
    times = season.times
    saturday = times[(times["player"] == "bexley-tran") & (times["measure"] == "plate")]
    assert (saturday["style"] == "stretch").sum() > 20
    assert (saturday["style"] == "slide_step").sum() == 0
    closer = season.holds[season.holds["pitcher"] == "cormac-otierney"]
    assert len(closer) > 10
    assert not closer["bases"].astype(str).str.contains("2").any()


def test_hearsay_holds_no_hard_numbers(season: Season) -> None:
    told = season.pitches[season.pitches["source"] == "second_hand"]
    assert len(told) > 200
    assert told[["speed_mph", "distance_ft", "plate_x_ft", "plate_z_ft"]].isna().all(axis=None)
    for frame in (season.times, season.holds, season.throws, season.habits, season.positions):
        assert not (frame["source"] == "second_hand").any()


def test_every_spelling_of_the_format_is_used(season: Season) -> None:
    heads = {
        path.name: path.read_text(encoding="utf-8").split("\n", 1)[0]
        for path in Path(ROOT / "data/pitches").glob("*.csv")
    }
    used = {column for head in heads.values() for column in head.split(",")}
    assert {"speed_mph", "speed_kph", "height", "side", "plate_x_ft", "plate_z_ft", "direction_deg", "field"} <= used
    assert {"watch", "frames"} == set(season.times["method"])
    assert season.times["warmup"].any()
    assert season.throws["warmup"].any()


def test_habits_that_open_a_door_show(season: Season) -> None:
    habits = season.habits
    castellane = habits[(habits["player"] == "ruben-castellane")]
    for habit, least in (("lobs-return", 0.5), ("returns-without-look", 0.6)):
        looks = castellane[castellane["habit"] == habit]["seen"]
        assert len(looks) >= 20
        assert looks.mean() > least
    off = habits[(habits["team"] == "harbor") & (habits["habit"] == "third-off-bag")]["feet"]
    assert off.median() > 17


def test_cells_are_charted_as_the_reader_works_them_out_from_feet(season: Season) -> None:
    measured = season.pitches.dropna(subset=["plate_x_ft", "plate_z_ft"])
    assert len(measured) > 200
    near = (measured["plate_x_ft"].abs().sub(0.83).abs() > 0.06) & (measured["plate_x_ft"].abs().sub(0.28).abs() > 0.06)
    across = measured[near]
    assert list(across["side"]) == [int(side_cell(x)) for x in across["plate_x_ft"]]
    clear = measured[[all(abs(z - edge) > 0.01 for edge in (1.6, 2.2, 2.8, 3.4)) for z in measured["plate_z_ft"]]]
    assert list(clear["height"]) == [int(height_cell(z)) for z in clear["plate_z_ft"]]


def test_a_man_was_on_the_field_the_day_somebody_saw_something(season: Season) -> None:
    pitches = season.pitches
    played = {
        (str(man), day.date(), str(source))
        for column in ("pitcher", "batter", "catcher")
        for man, day, source in pitches[[column, "date", "source"]].dropna().drop_duplicates().itertuples(index=False)
    }
    played |= {
        (str(man), day.date(), str(source))
        for man, day, source in season.positions[["player", "date", "source"]].drop_duplicates().itertuples(index=False)
    }
    adrift = [
        (key, one.about, str(one.seen))
        for (_, key), entry in season.entries.items()
        for one in entry.observations
        if (key, one.seen, one.source) not in played
    ]
    assert adrift == []
    days = {(man, day) for man, day, _ in played}
    graded = [(key, entry.grades.seen) for (_, key), entry in season.entries.items() if entry.grades]
    assert [one for one in graded if one not in days] == []


# The Friday and the Saturday starter are planted to change with the order; nobody else of their team is.
def test_planted_changes_through_the_order_are_told_and_no_others(season: Season) -> None:
    found = times_through_changes(season.pitches).set_index(["team", "player", "bats", "times", "pitch"])
    slider = found.loc["harbor", FRIDAY, "R", "3rd+", "slider"]
    assert (slider["first_k"], slider["first_n"], slider["k"], slider["n"]) == (23, 88, 32, 55)
    assert slider["verdict"] in {"likely", "proven"}
    assert slider["change"] > 0.12
    curve = found.loc["harbor", "bexley-tran", "R", "3rd+", "curve"]
    assert (curve["first_k"], curve["first_n"], curve["k"], curve["n"]) == (10, 94, 33, 91)
    assert curve["verdict"] == "proven"
    assert curve["low"] > 0.05
    planted = [(team, key) for (team, key), truth in pitchers().items() if truth.later]
    others = found[~found.index.droplevel(["bats", "times", "pitch"]).isin(planted)]
    assert len(others) > 100
    assert (others["verdict"] == "open").mean() > 0.98
