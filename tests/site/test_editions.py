import pytest

from scoutgen.site.editions import EditionError, require_edition


def test_the_staff_edition_is_built() -> None:
    assert require_edition("staff") == "staff"


@pytest.mark.parametrize("name", ["players", "recruiting"])
def test_an_edition_not_built_yet_says_so(name: str) -> None:
    with pytest.raises(EditionError, match=f"the {name} edition cannot be built by this version"):
        require_edition(name)


@pytest.mark.parametrize("name", ["", "Staff", "coaches"])
def test_an_unknown_edition_names_those_there_are(name: str) -> None:
    with pytest.raises(EditionError, match="editions are staff, players, recruiting"):
        require_edition(name)
