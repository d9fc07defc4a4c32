"""The pitcher's hand beside each pitch, and one table a question."""

from scoutgen.pages.hitter_tables import hitter_tables, with_hands
from scoutgen.records.season import Season


def test_hands_come_from_the_rosters_and_are_missing_where_none_says_them(demo_season: Season) -> None:
    pitches = with_hands(demo_season)
    assert len(pitches) == len(demo_season.pitches)
    assert set(pitches["throws"].cat.categories) == {"L", "R"}
    for team in ("harbor", "ridge"):
        mine = pitches[pitches["pitcher_team"].eq(team)]
        hands = {man.key: man.throws for man in demo_season.teams[team].roster}
        assert len(mine) > 100
        assert mine["throws"].astype(object).tolist() == [hands[key] for key in mine["pitcher"]]
    passing = pitches[pitches["pitcher_team"].eq("dunmere")]
    assert len(passing) > 100
    assert passing["throws"].isna().all()


def test_every_table_has_hitters_of_every_team_that_batted(demo_season: Season) -> None:
    batted = set(demo_season.pitches["batter_team"].dropna())
    for name, table in hitter_tables(with_hands(demo_season)).items():
        assert set(table["team"]) == batted, name
