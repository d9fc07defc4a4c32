"""Which program this is hangs on every file of the rooms asked about, and on the libraries."""

from pathlib import Path

import pytest

from scoutgen.site import program as module
from scoutgen.site.program import program

ROOMS, LIBRARIES = ("records", "pages"), ("jinja2", "numpy")


@pytest.fixture(autouse=True)
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("records/a.py", "pages/b.py", "pages/templates/c.md.j2", "site/d.py"):
        place = tmp_path / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(name)
    monkeypatch.setattr(module, "_PACKAGE", tmp_path)
    return tmp_path


def asked() -> str:
    return program.__wrapped__(ROOMS, LIBRARIES)


def test_the_same_program_is_the_same(package: Path) -> None:
    before = asked()
    # What other rooms hold is not asked about, nor what is made of a module in running it.
    (package / "site/d.py").write_text("other")
    (package / "records/__pycache__").mkdir()
    (package / "records/__pycache__/a.pyc").write_text("made")
    (package / "records/__pycache__/template-1-2").write_text("made")
    assert asked() == before
    assert len(before) == 64


@pytest.mark.parametrize("name", ["records/a.py", "pages/templates/c.md.j2", "pages/new.py"])
def test_another_file_is_another_program(package: Path, name: str) -> None:
    before = asked()
    (package / name).write_text("other")
    assert asked() != before


def test_a_file_of_another_name_is_another_program(package: Path) -> None:
    before = asked()
    (package / "records/a.py").rename(package / "records/b.py")
    assert asked() != before


def test_another_version_of_a_library_is_another_program(monkeypatch: pytest.MonkeyPatch) -> None:
    before = asked()
    monkeypatch.setattr(module, "version", lambda name: "9" if name == "numpy" else "1")
    one = asked()
    monkeypatch.setattr(module, "version", lambda name: "9" if name == "jinja2" else "1")
    assert len({before, one, asked()}) == 3
