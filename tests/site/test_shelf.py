"""What builds keep of a season on disk: another edition or program does not find it; whoever mends a note does."""

import shutil
from pathlib import Path

import pytest
from small_builds import BUILT, files
from small_season import note

from scoutgen.pages import kept_findings
from scoutgen.site import shelf as module
from scoutgen.site.build import build_site
from scoutgen.site.shelf import BookShelf, TableShelf


def test_what_was_put_there_is_found_by_its_name_and_edition(tmp_path: Path) -> None:
    BookShelf(tmp_path, "staff").put("all it comes from", "the book")
    assert BookShelf(tmp_path, "staff").get("all it comes from") == "the book"
    assert BookShelf(tmp_path, "staff").get("something else") is None
    assert BookShelf(tmp_path, "players").get("all it comes from") is None
    [place] = (tmp_path / ".scoutgen/books/staff").iterdir()
    # Nothing of it in the file's name, which anybody may see.
    assert len(place.name) == 64


def test_another_program_does_not_find_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    BookShelf(tmp_path, "staff").put("name", "the book")
    asked: list[tuple[tuple[str, ...], tuple[str, ...]]] = []

    def other(*which: tuple[str, ...]) -> str:
        asked.append(which)  # type: ignore[arg-type]
        return "another program"

    monkeypatch.setattr(module, "program", other)
    assert BookShelf(tmp_path, "staff").get("name") is None
    [(rooms, libraries)] = asked
    # All that a book comes from: how it is shown is asked about by those who keep finished pages.
    assert rooms == ("records", "measures", "pages")
    assert {"numpy", "pandas", "scipy", "jinja2", "pydantic"} <= set(libraries)


def test_what_a_copy_has_put_there_is_not_forgotten(tmp_path: Path) -> None:
    BookShelf(tmp_path, "staff").put("a", "a")
    BookShelf(tmp_path, "staff").put("b", "b")
    shelf = BookShelf(tmp_path, "staff")
    shelf.use("a")
    shelf.kept.forget_others()
    assert (shelf.get("a"), shelf.get("b")) == ("a", None)


def test_tables_are_found_by_their_name_and_edition_and_damaged_ones_are_not(tmp_path: Path) -> None:
    TableShelf(tmp_path, "staff").put("all they come from", b"\xff tables\n")
    assert TableShelf(tmp_path, "staff").get("all they come from") == b"\xff tables\n"
    assert TableShelf(tmp_path, "players").get("all they come from") is None
    [place] = (tmp_path / ".scoutgen/tables/staff").iterdir()
    place.write_bytes(place.read_bytes().replace(b"tables", b"tablet"))
    assert TableShelf(tmp_path, "staff").get("all they come from") is None


def test_a_mended_note_is_built_without_measuring_anything_and_stands_as_in_a_build_of_everything(
    small_site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", BUILT)
    project = tmp_path / "project"
    shutil.copytree(small_site.parent, project)
    (project / "content/opponents/lowmarsh/players/ada-lowmarsh.yml").write_text(note("Shakes off the catcher."))

    def find(*_: object) -> None:
        raise AssertionError("measured anew")

    with monkeypatch.context() as patch:
        patch.setattr(kept_findings, "find", find)
        quick = files(build_site(project, memory="read").out)
    assert b"Shakes off the catcher" in quick["teams/lowmarsh/players/ada-lowmarsh/index.html"]
    for kept in ("tables", "books", "rendered"):
        shutil.rmtree(project / ".scoutgen" / kept)
    assert files(build_site(project, memory="read").out) == quick
