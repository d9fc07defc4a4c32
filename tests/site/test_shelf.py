"""Opponents' shares of the book on disk: those of another edition or program are not found."""

from pathlib import Path

import pytest

from scoutgen.site import shelf as module
from scoutgen.site.shelf import BookShelf


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
