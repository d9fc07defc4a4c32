"""Does anything stand in content/ that nobody reads, most likely under a wrong name?"""

import os
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
    problems = _wrong_kinds(root, root, ("content",)) + _wrong_kinds(content, root, CONTENT)
    problems += [_stray(path, root, CONTENT) for path in _strays(content, lambda path: path.name in CONTENT)]
    teams = content / "opponents"
    for team in sorted(teams.iterdir()) if teams.is_dir() else ():
        problems += _wrong_kinds(team, root, TEAM)
        problems += [_stray(path, root, TEAM) for path in _strays(team, lambda path: path.name in TEAM)]
    return problems


def _wrong_kinds(folder: Path, root: Path, known: tuple[str, ...]) -> list[Problem]:
    """What bears a name that is read but is a file for a folder, or a link to nothing: it would be passed over."""
    problems = []
    for path in (folder / name for name in known):
        is_file = path.suffix == ".yml"
        if os.path.lexists(path) and not (path.exists() if is_file else path.is_dir()):
            what = "a link to nothing; copy the file itself here" if is_file else "not a folder; one is meant here"
            problems.append(Problem(relative(path, root), 0, "", f"is {what}"))
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
