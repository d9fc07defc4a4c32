"""Does a YAML file hold a record of the kind it should, and if not, what is wrong in which line?"""

import types
import typing
from collections.abc import Sequence
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from scoutgen.records.problems import Problem, Severity
from scoutgen.records.sentences import sentence
from scoutgen.records.textfile import relative
from scoutgen.records.yamlfile import KeyPath, Lines, Tree, read_yaml

ModelT = TypeVar("ModelT", bound=BaseModel)


# A file with more errors than this has one error, probably in the program that wrote it.
MOST_ERRORS = 200


class YamlSource:
    """A file that was read: where its keys stand, so that later checks can point at them.

    Attributes:
        file: the name problems use.
        left_out: keys of the first level that the record lacks because something under them is wrong.
    """

    def __init__(self, file: str, lines: Lines) -> None:
        self.file = file
        self.left_out: frozenset[str] = frozenset()
        self._lines = lines

    def line(self, path: Sequence[str | int]) -> int:
        """The line of a key, or of the nearest block around it that is written down."""
        key = tuple(path)
        while key and key not in self._lines:
            key = key[:-1]
        return self._lines.get(key, 1)

    def problem(self, path: Sequence[str | int], text: str, severity: Severity = "error") -> Problem:
        """A problem at a key."""
        return Problem(self.file, self.line(path), column(path), text, severity)


def column(path: Sequence[str | int]) -> str:
    """A key path as problems show it, list items counted from 1 as people count: `roster[3].bats`."""
    words = ""
    for step in path:
        words += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if words else step
    shown = "".join(c if c.isprintable() else "?" for c in words)
    return shown if len(shown) <= 100 else f"{shown[:99]}…"


def read_record(path: Path, root: Path, model: type[ModelT]) -> tuple[ModelT | None, YamlSource, list[Problem]]:
    """The record in a file, or None and every reason why it is none.

    Args:
        path: the YAML file.
        root: the project's folder, for names in problems.
        model: what the file should hold.

    Returns:
        The record; without the keys of the first level under which something is wrong, so that what is left can be
        checked further; None where nothing can be made of it. The source for later problems. The problems.
    """
    tree, lines, problems = read_yaml(path, root)
    source = YamlSource(relative(path, root), lines)
    if tree is None:
        return None, source, problems
    if not isinstance(tree, dict):
        what = "a list" if isinstance(tree, list) else "a text"
        known = ", ".join(_names(model)[:3])
        problems.append(source.problem((), f"the file is {what}; keys and values are meant here ({known}, ...)"))
        return None, source, problems
    record, more = record_of(tree, model, source)
    return record, source, problems + more


def record_of(tree: dict[str, Tree], model: type[ModelT], source: YamlSource) -> tuple[ModelT | None, list[Problem]]:
    """The record in a tree that was read, as read_record gives it."""
    problems: list[Problem] = []
    tree = {key: without_blanks(value) for key, value in tree.items() if value is not None}
    try:
        return _validated(tree, model), problems
    except ValidationError as error:
        entries = error.errors(include_url=False)
    for entry in entries[:MOST_ERRORS]:
        path_in_file, names = _place(tree, model, entry["loc"], missing=entry["type"] == "missing")
        problems.append(source.problem(path_in_file, sentence(entry, names)))
    if len(entries) > MOST_ERRORS:
        problems.append(Problem(source.file, 0, "", f"has {len(entries) - MOST_ERRORS:,} more errors like these"))
    source.left_out = frozenset(str(entry["loc"][0]) for entry in entries if entry["loc"])
    try:
        return _validated({k: v for k, v in tree.items() if k not in source.left_out}, model), problems
    except ValidationError:
        return None, problems


def _validated(tree: Tree, model: type[ModelT]) -> ModelT:
    return model.model_validate(tree, by_alias=True, by_name=False)


def without_blanks(tree: Tree) -> Tree:
    """The tree without keys that were left blank: a blank says nothing, so that the key might as well not be there."""
    if isinstance(tree, dict):
        return {key: without_blanks(value) for key, value in tree.items() if value is not None}
    if isinstance(tree, list):
        return [without_blanks(value) for value in tree]
    return tree


def _place(tree: Tree, model: type[BaseModel], loc: Sequence[str | int], *, missing: bool) -> tuple[KeyPath, list[str]]:
    """The key path an error means and the keys known there, without steps that pydantic adds for its own unions."""
    path: KeyPath = ()
    names = _names(model)
    inside: list[type[BaseModel]] = [model]
    for position, step in enumerate(loc):
        last = position == len(loc) - 1
        if isinstance(step, str) and isinstance(tree, dict) and (step in tree or (missing and last)):
            names = [name for m in inside for name in _names(m)]
            # A key of a mapping with free keys (a tool and its grade) leads to the record already found.
            if any(step in _names(m) for m in inside):
                inside = [found for m in inside for found in _models(_annotation(m, step))]
            tree = tree.get(step)
        elif isinstance(step, int) and isinstance(tree, list) and step < len(tree):
            tree = tree[step]
        else:
            continue
        path = (*path, step)
    return path, names


def _names(model: type[BaseModel]) -> list[str]:
    return [field.alias or name for name, field in model.model_fields.items()]


def _annotation(model: type[BaseModel], key: str) -> Any:  # noqa: ANN401 - a type as Python has it
    return next((f.annotation for name, f in model.model_fields.items() if (f.alias or name) == key), None)


def _models(annotation: Any) -> list[type[BaseModel]]:  # noqa: ANN401 - a type as Python has it
    """The records inside a type such as `tuple[Observation, ...] | None`."""
    if isinstance(annotation, type) and not isinstance(annotation, types.GenericAlias):
        return [annotation] if issubclass(annotation, BaseModel) else []
    return [found for part in typing.get_args(annotation) for found in _models(part)]
