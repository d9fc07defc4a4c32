"""A text in a chart means a team and a man on it, or it is said why not."""

import pytest

from scoutgen.records.directory import Directory, folded, key_of
from scoutgen.records.opponents import Team
from scoutgen.records.roster import RosterPlayer


@pytest.fixture
def directory() -> Directory:
    men = (RosterPlayer(key="ivan-nunez", number="27", name="Iván Núñez"), RosterPlayer(key="bo-dale", name="Bo Dale"))
    return Directory({"harbor": Team("harbor", "Gannet Harbor", roster=men)})


def test_spellings_of_one_name() -> None:
    assert folded("#Iván  NÚÑEZ ") == folded("ivan nunez") == "ivan nunez"
    assert key_of("Iván Núñez") == "ivan-nunez"
    assert key_of("佐藤") == key_of(" 佐藤 ") != key_of("鈴木")


@pytest.mark.parametrize("text", ["harbor", "Gannet Harbor", "gannet harbor"])
def test_a_team_is_meant_by_key_or_name(directory: Directory, text: str) -> None:
    assert directory.team(text).team == "harbor"


def test_a_team_nobody_wrote_down_is_one_of_its_own_but_a_slip_is_remarked(directory: Directory) -> None:
    assert directory.team("Habor").team == "habor"
    assert 'did you mean "harbor"?' in directory.warn_of("Habor")
    assert directory.warn_of("oakum") == ""


@pytest.mark.parametrize("text", ["ivan-nunez", "Ivan Nunez", "27", "#27"])
def test_a_man_is_meant_by_key_name_or_number(directory: Directory, text: str) -> None:
    answer = directory.player("harbor", text, None)
    assert (answer.team, answer.player, answer.why_not) == ("harbor", "ivan-nunez", "")


def test_nobody_on_the_roster_is_said_with_who_comes_near(directory: Directory) -> None:
    answer = directory.player("harbor", "Ivan Nunes", None)
    assert answer.player == ""
    assert (
        '"Ivan Nunes" is not on the roster of Gannet Harbor; did you mean "ivan-nunez" (Iván Núñez)?' in answer.why_not
    )


def test_without_a_roster_a_man_is_who_the_chart_says_in_one_spelling(directory: Directory) -> None:
    directory.team("oakum")
    assert directory.player("oakum", "Al Reyes", None).player == "al-reyes"
    assert directory.player("oakum", "AL REYES", None).player == "al-reyes"
    assert "would share the address" in directory.player("oakum", "Al-Reyes!", None).why_not
