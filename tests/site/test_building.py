"""The place of one build: held by one, given up by all that fails, and left as it was by those who never had it."""

from pathlib import Path

import pytest

from scoutgen.site.building import Building
from scoutgen.site.output import OutputError, building_place


def hidden(folder: Path) -> list[str]:
    return sorted(place.relative_to(folder).as_posix() for place in folder.rglob("*") if place.is_file())


def begin(project: Path, *, locked: bool = False) -> Building:
    building = Building(project, project / "site", locked=locked)
    with building.begun():
        pass
    return building


def test_a_second_build_of_the_same_place_is_refused_and_harms_nothing_of_the_first(tmp_path: Path) -> None:
    first = begin(tmp_path)
    first.place.mkdir()
    (first.place / "index.html").write_text("half")
    with pytest.raises(OutputError, match="another build of this project"):
        # As another process would, whose number the lock has not.
        _of_another_process(tmp_path, first)
    assert (first.place / "index.html").read_text() == "half"


def _of_another_process(project: Path, first: Building) -> None:
    lock = project / ".scoutgen" / "lock"
    # The first process there is: it always runs, and is not this one.
    lock.write_text(lock.read_text().replace(lock.read_text().partition("\n")[0], "1", 1))
    begin(project)
    first.end()


def test_what_fails_while_it_begins_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="odd"), Building(tmp_path, tmp_path / "site", locked=True).begun():
        raise ValueError("odd")
    assert hidden(tmp_path) == []


def test_a_site_to_be_locked_grows_where_only_its_owner_can_look(tmp_path: Path) -> None:
    building = begin(tmp_path, locked=True)
    assert building.place != building_place(tmp_path / "site")
    assert building.place.stat().st_mode & 0o077 == 0
    (building.place / "index.html").write_text("plain")
    building.end()
    assert hidden(tmp_path) == []


def test_the_finished_site_is_sealed_and_swapped_in_and_ending_twice_is_ending_once(tmp_path: Path) -> None:
    building = begin(tmp_path)
    building.place.mkdir()
    (building.place / "index.html").write_text("whole")
    building.swap_in({"edition": "staff"})
    building.end()
    building.end()
    assert hidden(tmp_path) == ["site/.scoutgen-site", "site/index.html"]
