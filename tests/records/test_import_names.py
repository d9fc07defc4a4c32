"""Men of foreign files found on rosters."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scoutgen.records.import_cells import CellError
from scoutgen.records.import_names import Names, Unmatched, meant, rosters_on_paper
from scoutgen.records.roster import RosterPlayer
from scoutgen.records.season import Season

MEN = [
    RosterPlayer(key="iker-nunez", number="27", name="Iker Núñez"),
    RosterPlayer(key="mats-lindqvist", number="21", name="Mats Lindqvist"),
    RosterPlayer(key="anders-lindqvist", number="3", name="Anders Lindqvist"),
    RosterPlayer(key="cormac-otierney", number="9", name="Cormac O'Tierney"),
    RosterPlayer(key="sol-frost", number="44", name="Sol van der Frost"),
]
TEAM = """
name: Gannet Harbor
roster:
  - {number: 27, name: Iker Núñez, positions: [P]}
  - {number: 31, name: Dov Arsenault, until_date: 2026-03-01}
  - {number: 31, name: Kenzo Marchetti, from_date: 2026-03-02}
"""
FILES = {"content/opponents/harbor/team.yml": TEAM, "content/program.yml": "key: ridge\nname: Kestrel Ridge\n"}


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("Núñez, Iker", ["iker-nunez"]),
        ("NUNEZ, IKER", ["iker-nunez"]),
        ("I. Nunez", ["iker-nunez"]),
        ("I Núñez", ["iker-nunez"]),
        ("Nunez, I.", ["iker-nunez"]),
        ("Nunez I", ["iker-nunez"]),
        ("Nunez", ["iker-nunez"]),
        ("OTierney", ["cormac-otierney"]),
        ("van der Frost, Sol", ["sol-frost"]),
        ("Frost", ["sol-frost"]),
        ("M. Lindqvist", ["mats-lindqvist"]),
        ("Lindqvist", ["mats-lindqvist", "anders-lindqvist"]),
        ("Nunez Iker", ["iker-nunez"]),
        ("van der Frost Sol", ["sol-frost"]),
        ("Frost Sol", []),
        ("K. Nunez", []),
        ("Smith", []),
        ("", []),
        (",", []),
    ],
)
def test_the_ways_to_write_a_man(text: str, keys: list[str]) -> None:
    assert [man.key for man in meant(MEN, text)] == keys


def test_no_cell_is_so_long_that_looking_for_him_takes_its_square() -> None:
    assert meant(MEN, f"Iker{' ' * 300_000}N") == []


def test_the_reader_s_own_ways_come_first(season: Callable[..., Season]) -> None:
    names = Names(season(FILES), frozenset({"harbor"}))
    for text in ("iker-nunez", "Iker Nunez", "27", "#27", "Núñez, I."):
        assert names.player(text, ("harbor",), "g1") == "iker-nunez"
    assert names.player("31", ("harbor",), "g1") == "kenzo-marchetti"


def test_nobody_on_a_whole_roster_is_an_error_and_elsewhere_is_listed(season: Callable[..., Season]) -> None:
    names = Names(season(FILES), frozenset({"harbor"}))
    with pytest.raises(CellError, match="not on the roster of Gannet Harbor; did you mean iker-nunez"):
        names.player("Iker Nunes", ("harbor",), "g1")
    with pytest.raises(CellError, match="did you mean iker-nunez"):
        names.player("Nunes, Iker", ("harbor",), "g1")
    assert names.player("Iker Nunes", ("ridge",), "g1") is None
    assert names.player("99", ("harbor", "ridge"), "g1") == "99"
    assert "on no roster (1 row)" in str(Unmatched("batter", "x", "a.csv:2", 1))


def test_a_man_of_the_other_team_makes_the_half_inning_doubtful(season: Callable[..., Season]) -> None:
    ours = "key: ridge\nname: Kestrel Ridge\nroster:\n  - {number: 5, name: Ada Rusk, positions: [SS]}\n"
    names = Names(season({**FILES, "content/program.yml": ours}), frozenset({"harbor", "ridge"}))
    for text in ("Nunez, Iker", "Iker Núñez", "Nunez Iker", "iker-nunez", "Nunez, Iker"):
        with pytest.raises(CellError, match=r"is on the roster of Gannet Harbor, not of Kestrel Ridge; see which half"):
            names.player(text, ("ridge",), "g1", by_half=True)
    with pytest.raises(CellError, match="not of Kestrel Ridge; see for which team he played"):
        Names(names.season, names.on_paper).player("Iker Nunez", ("ridge",), "g1")
    with pytest.raises(CellError, match="is not on the roster of Kestrel Ridge; did you mean ada-rusk"):
        names.player("Rsk, Ada", ("ridge",), "g1")


def test_a_roster_made_up_of_charted_men_is_none(season: Callable[..., Season], tmp_path: Path) -> None:
    pitches = "game,half,pitcher,batter,balls,strikes,pitch\ng1,top,Di,27,0,0,FB\n"
    here = season({**FILES, "data/pitches.csv": pitches})
    assert [man.name for man in here.teams["ridge"].roster] == ["Di"]
    assert rosters_on_paper(tmp_path, here) == {"harbor"}
    assert Names(here, rosters_on_paper(tmp_path, here)).player("Edo", ("ridge",), "g1") is None


def test_whose_roster_follows_from_half_and_game(season: Callable[..., Season]) -> None:
    names = Names(season(FILES), frozenset({"harbor"}))
    top = {"game": "g1", "half": "top"}
    assert names.teams_of("pitches", "pitcher", top, None) == ("ridge",)
    assert names.teams_of("pitches", "batter", top, None) == ("harbor",)
    assert names.teams_of("pitches", "batter", {"game": "g1"}, None) == ("harbor", "ridge")
    assert names.teams_of("habits", "player", {"game": "g1", "team": "Gannet Harbor"}, None) == ("harbor",)
    assert names.teams_of("times", "player", {}, None) == ()
    assert names.teams_of("times", "player", {}, "ridge") == ("ridge",)


def test_a_game_by_its_day(season: Callable[..., Season]) -> None:
    games = "game,date,away,home,source\ng1,2026-03-06,harbor,ridge,video\ng2,2026-03-07,harbor,ridge,video\n"
    games += "g3,2026-03-07,dunmere,ridge,video\n"
    names = Names(season({**FILES, "data/games.csv": games}), frozenset({"harbor"}))
    assert names.game_on("2026-03-06", None) == "g1"
    assert names.game_on("2026-03-07", "harbor") == "g2"
    with pytest.raises(CellError, match="several games on 2026-03-07: g2 and g3"):
        names.game_on("2026-03-07", None)
    with pytest.raises(CellError, match="no game of ridge on 2026-03-08"):
        names.game_on("2026-03-08", "ridge")
    with pytest.raises(CellError, match="no game on 2026-07-03, but one on 2026-03-07: is date: in the map right"):
        names.game_on("2026-07-03", None)
