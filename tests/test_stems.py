"""One stem goes through all rooms, so that `ls scoutgen/*/usage* tests/*/*usage*` shows all there is of usage."""

from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
# Questions whose input is a table of their own.
WITH_A_TABLE = ["times", "holds", "throws", "habits", "positions"]
# Questions asked of the pitches.
OF_PITCHES = ["usage", "results", "locations", "sequence", "times_through"]


@pytest.mark.parametrize("stem", WITH_A_TABLE)
def test_a_table_has_its_record_and_a_test_of_it(stem: str) -> None:
    assert (ROOT / "scoutgen" / "records" / f"{stem}.py").is_file()
    assert (ROOT / "tests" / "records" / f"test_{stem}.py").is_file()


@pytest.mark.parametrize("stem", [*WITH_A_TABLE, *OF_PITCHES])
def test_a_question_has_the_same_name_in_every_room(stem: str) -> None:
    for room in ("measures", "pages"):
        assert (ROOT / "scoutgen" / room / f"{stem}.py").is_file(), room
    blocks = ROOT / "scoutgen" / "pages" / "templates" / "blocks"
    assert (blocks / f"{stem}.md.j2").is_file()


@pytest.mark.parametrize("stem", [*WITH_A_TABLE, *OF_PITCHES])
def test_a_measure_has_a_test(stem: str) -> None:
    assert list((ROOT / "tests" / "measures").glob(f"test_{stem}*.py"))
