"""A project in a temporary folder, written as a test words it."""

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

import pytest

from scoutgen.records.problems import ProblemsFoundError
from scoutgen.records.season import Season, read_season

GAMES = "game,date,away,home,source\ng1,2026-03-06,harbor,ridge,video\n"
AS_OF = date(2026, 4, 1)

Files = Mapping[str, str | bytes]
Write = Callable[[Files], Path]


@pytest.fixture
def write(tmp_path: Path) -> Write:
    """Write files of a project; texts as UTF-8, line ends as they are."""

    def writing(files: Files) -> Path:
        for name, content in files.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content.encode("utf-8") if isinstance(content, str) else content)
        return tmp_path

    return writing


@pytest.fixture
def season(write: Write) -> Callable[..., Season]:
    """Read a project from the files given, with one game g1 unless they say otherwise."""

    def reading(files: Files, *, skip_bad_rows: bool = False) -> Season:
        return read_season(write({"data/games.csv": GAMES, **files}), as_of=AS_OF, skip_bad_rows=skip_bad_rows)

    return reading


@pytest.fixture
def complaints(season: Callable[..., Season]) -> Callable[..., list[str]]:
    """Every problem of a project as it is printed: of a project with errors all, of a good one its warnings."""

    def listing(files: Files) -> list[str]:
        try:
            return [str(problem) for problem in season(files).warnings]
        except ProblemsFoundError as error:
            return [str(problem) for problem in error.problems]

    return listing
