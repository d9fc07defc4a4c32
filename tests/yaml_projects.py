"""Small projects for tests of the readers: files by their paths, problems as people see them."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from textwrap import dedent

from scoutgen.records.problems import Problem


def write(root: Path, files: Mapping[str, str]) -> Path:
    """Write files, their common indentation taken off, and give the project's folder back."""
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(dedent(text).removeprefix("\n"), encoding="utf-8")
    return root


def said(problems: Iterable[Problem]) -> list[str]:
    """The problems as they are printed, in the order of files and lines."""
    return [str(problem) for problem in sorted(problems)]
