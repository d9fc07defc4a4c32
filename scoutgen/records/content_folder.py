"""Does anything stand in content/ that nobody reads, most likely under a wrong name?"""

from collections.abc import Callable, Iterator
from pathlib import Path

from scoutgen.records.check import listed, nearest
from scoutgen.records.problems import Problem
from scoutgen.records.textfile import relative

CONTENT = ("program.yml", "habits.yml", "opponents", "series", "pages")
TEAM = ("team.yml", "players")


def stray_content(root: Path) -> list[Problem]:
    """Files and folders in content/ and in the teams' folders that are not read.

    Where the name is close to one that is read (program.yaml, player/) it is an error, since somebody's work would be
    missing from the site without a word; anything else is a warning.
    """
    content = root / "content"
    problems = [_stray(path, root, CONTENT) for path in _strays(content, lambda path: path.name in CONTENT)]
    teams = content / "opponents"
    for team in sorted(teams.iterdir()) if teams.is_dir() else ():
        problems += [_stray(path, root, TEAM) for path in _strays(team, lambda path: path.name in TEAM)]
    return problems


def _strays(folder: Path, is_read: Callable[[Path], bool]) -> Iterator[Path]:
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        if not path.name.startswith((".", "~")) and not path.name.endswith("~") and not is_read(path):
            yield path


def _stray(path: Path, root: Path, known: tuple[str, ...]) -> Problem:
    close = nearest(path.name, known)
    if close:
        return Problem(relative(path, root), 0, "", f"is not read; did you mean {close[0]}?")
    text = f"is not read; what is read here are {listed(known, 'and')}"
    return Problem(relative(path, root), 0, "", text, "warning")
