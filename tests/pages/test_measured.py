"""What was measured of a man, against the charts themselves, and each thing with its sample."""

import pytest

from scoutgen.pages.findings import Findings
from scoutgen.pages.measured import find_measured, measured
from scoutgen.records.editions import for_edition
from scoutgen.records.season import Season

FRIDAY = ("harbor", "iker-nunez")


@pytest.fixture(scope="module")
def scouts(demo_season: Season) -> Season:
    return for_edition(demo_season, "recruiting")


@pytest.fixture(scope="module")
def found(scouts: Season) -> Findings:
    return find_measured(scouts)


def test_a_pitch_has_the_median_and_number_of_its_speeds(scouts: Season, found: Findings) -> None:
    (speed,) = [m for m in measured(found, *FRIDAY, few_readings=5) if m.key == "speed slider"]
    thrown = scouts.pitches[(scouts.pitches["pitcher"] == FRIDAY[1]) & (scouts.pitches["pitch"] == "slider")]
    speeds = thrown["speed_mph"].dropna()
    assert (speed.n, speed.median, speed.unit, speed.tool) == (len(speeds), speeds.median(), "mph", "slider")
    assert (speed.low, speed.high) == (speeds.quantile(0.1), speeds.quantile(0.9))
    assert not speed.few


def test_misses_are_k_of_the_swings(scouts: Season, found: Findings) -> None:
    (missed,) = [m for m in measured(found, *FRIDAY, few_readings=5) if m.key == "whiff slider"]
    thrown = scouts.pitches[(scouts.pitches["pitcher"] == FRIDAY[1]) & (scouts.pitches["pitch"] == "slider")]
    missing = thrown["result"].isin(["swinging_strike", "foul_tip"])
    swung = missing | thrown["result"].isin(["foul", "foul_bunt", "in_play"])
    assert (missed.k, missed.n, missed.among) == (missing.sum(), swung.sum(), "swings")
    assert missed.median is None


def test_a_runner_has_his_full_swings_by_the_method_known_best(scouts: Season, found: Findings) -> None:
    (run,) = [m for m in measured(found, "harbor", "kofi-brathwaite", few_readings=5) if m.key == "home_first full"]
    times = scouts.times[(scouts.times["player"] == "kofi-brathwaite") & (scouts.times["measure"] == "home_first")]
    mine = times[(times["style"] == "full") & (times["method"] == run.among.split(", ")[1])]
    assert (run.n, run.tool, run.unit) == (len(mine), "run", "s")
    assert run.median == pytest.approx(mine["seconds"].median())


def test_warm_ups_are_left_out(scouts: Season, found: Findings) -> None:
    pops = scouts.throws[(scouts.throws["catcher"] == "haru-winterbourne") & scouts.throws["pop_seconds"].notna()]
    assert pops["warmup"].fillna(False).sum() > 5
    keys = {m.key for m in measured(found, "harbor", "haru-winterbourne", few_readings=5)}
    assert "pop 2" not in keys
    assert "home_first full" in keys


def test_every_thing_measured_has_its_sample_and_its_day(scouts: Season, found: Findings) -> None:
    everything = [
        m
        for team in ("harbor", "slatefield", "saltmarsh")
        for man in scouts.teams[team].roster
        for m in measured(found, team, man.key, few_readings=5)
    ]
    assert len(everything) > 300
    for m in everything:
        assert m.n > 0
        assert m.among
        assert m.last_seen is not None
        assert (m.k is None) != (m.median is None)
        assert m.k is None or 0 <= m.k <= m.n
        assert m.unit != "mph" or m.few == (m.n < 5)
    assert any(m.few for m in everything)
    assert measured(found, "harbor", "nobody", few_readings=5) == ()
