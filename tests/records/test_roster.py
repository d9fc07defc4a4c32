"""A key, a name or a number means one man, or says why not."""

from datetime import date

import pytest

from scoutgen.records.roster import RosterPlayer, find_player

NUNEZ = RosterPlayer(key="ivan-nunez", number="27", name="Iván Núñez")
ELDER = RosterPlayer(key="ray-tolliver", number="12", name="Ray Tolliver", until_date=date(2026, 3, 1))
YOUNGER = RosterPlayer(key="sam-tolliver", number="12", name="Sam Tolliver", from_date=date(2026, 3, 2))
ZERO = RosterPlayer(key="zero", number="0", name="Lee Brandt")
DOUBLE_ZERO = RosterPlayer(key="double-zero", number="00", name="Lee Brandt")
TEAM = (NUNEZ, ELDER, YOUNGER, ZERO, DOUBLE_ZERO)


@pytest.mark.parametrize("text", ["ivan-nunez", "Iván Núñez", "ivan nunez", "IVAN NUNEZ", "27", "#27", " 27 "])
def test_one_man_in_many_ways(text: str) -> None:
    assert find_player(TEAM, text) == (NUNEZ, "")


def test_a_number_of_two_men_is_settled_by_the_day() -> None:
    assert find_player(TEAM, "12", date(2026, 3, 1)) == (ELDER, "")
    assert find_player(TEAM, "12", date(2026, 3, 2)) == (YOUNGER, "")
    assert find_player(TEAM, "12") == (None, '"12" could be ray-tolliver or sam-tolliver; write the key')


def test_zero_and_double_zero_are_two_numbers() -> None:
    assert find_player(TEAM, "0") == (ZERO, "")
    assert find_player(TEAM, "00") == (DOUBLE_ZERO, "")


def test_nobody_and_the_nearest() -> None:
    assert find_player(TEAM, "Ivan Nunes") == (None, '"Ivan Nunes" is not on the roster; did you mean "ivan-nunez"?')
    assert find_player(TEAM, "99") == (None, '"99" is not on the roster; give a key, a full name or a number')
    assert find_player((), "27") == (None, '"27" is not on the roster; there is nobody on it')
    assert find_player(TEAM, "Lee Brandt") == (None, '"Lee Brandt" could be zero or double-zero; write the key')
