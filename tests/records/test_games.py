"""Games: what must be filled, and what a day, a team and a source can be."""

from collections.abc import Callable

from scoutgen.records.games import Game
from scoutgen.records.season import Season

Complaints = Callable[..., list[str]]
Read = Callable[..., Season]


def test_a_day_after_the_build_names_the_way_out(complaints: Complaints) -> None:
    assert complaints({"data/games.csv": "game,date,source\ng1,2026-04-02,video\ng2,2026-04-01,video\n"}) == [
        (
            "data/games.csv:2: date: 2026-04-02 is after the day of this build, 2026-04-01; correct the date, "
            "or build with --as-of 2026-04-02 or later"
        )
    ]


def test_what_must_be_filled(complaints: Complaints) -> None:
    assert complaints({"data/games.csv": "game,date,source\n,,\n,2026-03-01,video\ng2,,film\n"}) == [
        "data/games.csv:3: game: is blank and must be filled in",
        "data/games.csv:4: date: is blank and must be filled in",
        'data/games.csv:4: source: "film" is not allowed; write video, own_game, same_site, on_campus or second_hand',
    ]


def test_any_number_of_files(season: Read) -> None:
    header = "game,date,source\n"
    read = season(
        {
            "data/games.csv": header + "b,2026-03-02,video\n",
            "data/games/1.csv": header + "c,2026-03-03,on_campus\n",
            "data/games/2.csv": header + "a,2026-03-01,same_site\n",
        }
    )
    assert read.games["game"].tolist() == ["a", "b", "c"]
    assert read.games["file"].tolist() == ["data/games/2.csv", "data/games.csv", "data/games/1.csv"]


def test_the_record_has_the_columns_of_the_charting_format() -> None:
    assert list(Game.model_fields) == ["game", "date", "away", "home", "source", "charted_by", "clip", "note"]
