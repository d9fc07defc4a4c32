"""Data walks one way: records, measures, pages, site. Nobody imports a later room."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "scoutgen"
ROOMS = ["records", "measures", "pages", "site", "cli"]


def imported_rooms(file: Path) -> set[str]:
    """The rooms a module imports, wherever in the module the import stands."""
    names: list[str] = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file}: write absolute imports, so that the arrow can be read"
            names += [f"{node.module}.{alias.name}" for alias in node.names]
    parts = [name.split(".") for name in names if name.startswith("scoutgen.")]
    return {p[1] for p in parts if p[1] in ROOMS}


def modules() -> list[Path]:
    return sorted(p for room in ROOMS[:-1] for p in (PACKAGE / room).rglob("*.py"))


@pytest.mark.parametrize("file", modules(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_a_room_imports_only_rooms_before_it(file: Path) -> None:
    own = ROOMS.index(file.relative_to(PACKAGE).parts[0])
    late = {room for room in imported_rooms(file) if ROOMS.index(room) > own}
    assert not late, f"{file.relative_to(PACKAGE)} imports from later rooms: {late}"


@pytest.mark.parametrize("file", modules(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_only_the_site_room_knows_mkdocs(file: Path) -> None:
    if file.relative_to(PACKAGE).parts[0] == "site":
        return
    text = file.read_text(encoding="utf-8")
    assert "import mkdocs" not in text
    assert "from mkdocs" not in text


def test_there_are_modules_to_look_at() -> None:
    assert len(modules()) > 4
