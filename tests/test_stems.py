"""One stem goes through all rooms, so that `ls scoutgen/*/usage* tests/*/*usage*` shows all there is of usage."""

from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
# Questions whose input is a table of their own.
WITH_A_TABLE = ["times", "holds", "throws", "habits", "positions"]
# Questions asked of the pitches.
OF_PITCHES = ["usage", "results", "locations", "sequence", "times_through"]
MODULES = sorted(
    path.relative_to(ROOT / "scoutgen").with_suffix("").as_posix()
    for room in ("records", "measures", "pages", "site")
    for path in (ROOT / "scoutgen" / room).glob("*.py")
    if path.stem != "__init__"
)
# Without a test of their own: parts of the mix, whose every figure test_mix_* and test_usage* ask for...
PARTS_OF_THE_MIX = {"measures/mix", "measures/outings", "measures/readings", "measures/share_ends"}
# ...and view models, which test_snapshots, test_questions and test_claims read off the finished pages.
# Nothing may be added here: a new module has its test.
READ_OFF_THE_PAGES = {
    f"pages/{stem}"
    for stem in (
        *("book", "charts", "findings", "freshness", "infield", "locations", "opponent", "people"),
        *("results", "sequence", "series"),
    )
}


def own_tests(module: str) -> list[Path]:
    """In its room, or with the publications where it is held against published values."""
    room, stem = module.split("/")
    places = [ROOT / "tests" / folder / f"test_{stem}.py" for folder in (room, "published")]
    return [place for place in places if place.is_file()]


def test_there_are_modules_to_ask_about() -> None:
    assert len(MODULES) > 100


@pytest.mark.parametrize("module", [m for m in MODULES if m not in PARTS_OF_THE_MIX | READ_OFF_THE_PAGES])
def test_a_module_has_the_test_of_its_name(module: str) -> None:
    assert own_tests(module)


@pytest.mark.parametrize("module", sorted(PARTS_OF_THE_MIX | READ_OFF_THE_PAGES))
def test_an_exception_is_one(module: str) -> None:
    assert module in MODULES
    assert not own_tests(module), "it has a test now: take it off the list"


@pytest.mark.parametrize("stem", WITH_A_TABLE)
def test_a_table_has_its_record(stem: str) -> None:
    assert f"records/{stem}" in MODULES


@pytest.mark.parametrize("stem", [*WITH_A_TABLE, *OF_PITCHES])
def test_a_question_has_the_same_name_in_every_room(stem: str) -> None:
    assert f"measures/{stem}" in MODULES
    assert f"pages/{stem}" in MODULES
    assert (ROOT / "scoutgen" / "pages" / "templates" / "blocks" / f"{stem}.md.j2").is_file()
