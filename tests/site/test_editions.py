"""Which editions there are, what stands around their pages, and that the rooms agree on their names."""

from typing import get_args

import pytest

from scoutgen.records.editions import READS, SHOWS
from scoutgen.records.fields import Edition
from scoutgen.site.editions import EDITIONS, KNOWN, EditionError, require_cards, require_edition, scripts_of_others


def test_every_room_knows_the_same_editions() -> None:
    assert KNOWN == tuple(EDITIONS) == tuple(SHOWS) == tuple(READS) == get_args(Edition)


@pytest.mark.parametrize("name", KNOWN)
def test_every_edition_is_built(name: str) -> None:
    assert require_edition(name) == name


@pytest.mark.parametrize("name", ["", "Staff", "player", "public"])
def test_an_unknown_edition_names_those_there_are(name: str) -> None:
    with pytest.raises(EditionError, match="editions are staff, players, recruiting"):
        require_edition(name)


def test_an_edition_has_cards_where_it_has_a_game_plan() -> None:
    assert [name for name, frame in EDITIONS.items() if frame.cards] == [
        name for name, shows in SHOWS.items() if shows.game_plan
    ]
    assert require_cards("players") == "players"
    with pytest.raises(EditionError, match="recruiting edition holds no game plan and has no cards; staff and players"):
        require_cards("recruiting")


def test_the_script_of_the_list_is_in_the_editions_with_a_list_alone() -> None:
    assert scripts_of_others("recruiting") == scripts_of_others("staff") == frozenset()
    assert scripts_of_others("players") == {"evaluations.js"}
