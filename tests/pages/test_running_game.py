"""Which batteries are worked out, and who plays third."""

import pandas as pd

from scoutgen.pages.findings import Findings
from scoutgen.records.season import Season


def test_every_pitcher_of_a_team_with_a_file_meets_each_of_its_catchers(
    demo_season: Season, demo_findings: Findings
) -> None:
    rows = pd.DataFrame(demo_findings.of_team("steals", "harbor"))
    pitchers = {man.key for man in demo_season.teams["harbor"].roster if "P" in man.positions}
    assert set(rows["player"]) == pitchers
    assert set(rows["catcher"]) == {"ruben-castellane", "haru-winterbourne"}
    timed = {man.key for man in demo_season.program.roster if man.times}
    assert set(rows["runner"]) == timed
    assert not demo_findings.of_team("steals", "cottersby")


def test_break_evens_stand_by_outs(demo_findings: Findings) -> None:
    rows = pd.DataFrame(demo_findings.of_team("steals", "harbor"))
    second = rows.loc[rows["base"] == "2", ["even_0", "even_1", "even_2"]].drop_duplicates()
    assert len(second) == 1
    assert second.iloc[0].between(0.6, 0.9).all()


def test_third_base_is_played_by_the_man_of_the_lineup(demo_findings: Findings) -> None:
    rows = pd.DataFrame(demo_findings.of("home", "harbor", "iker-nunez"))
    assert set(rows["third_baseman"]) == {"mateo-quiroga-lamb"}
    assert not demo_findings.of_team("home", "saltmarsh")


def test_pitches_of_the_last_days_are_those_before_the_day_of_the_site(
    demo_season: Season, demo_findings: Findings
) -> None:
    rows = {row["player"]: row for row in demo_findings.of_team("workload", "harbor")}
    pitches = demo_season.pitches
    thrown = pitches[pitches["pitcher"].eq("wendell-achterberg") & pitches["pitch"].notna()]
    thrown = thrown[~thrown["result"].isin(["clock_ball", "clock_strike"])]
    last = thrown["date"].max()
    assert rows["wendell-achterberg"]["last_day"] == last.date()
    assert rows["wendell-achterberg"]["last_pitches"] == (thrown["date"] == last).sum()
