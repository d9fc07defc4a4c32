"""What does one YAML file say, as text, and in which line does it say it?

YAML's own idea of types is left out on purpose: the usual loader reads a jersey number 012 as 10, `no` as False and a
watch reading 1:30 as 90. Here every scalar stays the text that was written, and the record that wants a number parses
it. The parser's events are read one by one and counted, so that a file that would explode in memory is refused first.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeAlias

import yaml

from scoutgen.records.check import quoted
from scoutgen.records.problems import Problem
from scoutgen.records.textfile import read_text, relative
from scoutgen.records.yamlerrors import plain_yaml_error

MOST_DEPTH = 20
MOST_NODES = 50_000
MOST_PROBLEMS = 20

Tree: TypeAlias = "str | list[Tree] | dict[str, Tree] | None"
KeyPath: TypeAlias = tuple[str | int, ...]
Lines: TypeAlias = dict[KeyPath, int]

# libyaml's parser where PyYAML was built with it, as its wheels are: some fifteen times as fast.
FAST = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
# What YAML 1.2 calls null; only where it stands without quotes.
BLANK = frozenset({"", "~", "null", "Null", "NULL"})
LONE_SURROGATE = re.compile(r"[\ud800-\udfff]")


def read_yaml(path: Path, root: Path) -> tuple[Tree, Lines, list[Problem]]:
    """What does the file say, where, and what keeps it from being read?

    Args:
        path: the file; it must be there.
        root: the project's folder, for the names in problems.

    Returns:
        The tree of mappings, lists and texts (None for a blank; an empty file is an empty mapping; None as a whole
        when the file cannot be read to its end), the line of every key and list item by its path of keys and
        positions (from 0; `()` is the file's first line), and the problems, each with its line.
    """
    file = relative(path, root)
    text, problems = read_text(path, root)
    if text is None:
        return None, {(): 1}, problems
    return yaml_text(text, file)


def yaml_text(text: str, file: str) -> tuple[Tree, Lines, list[Problem]]:
    """As read_yaml, of a text that was read already."""
    try:
        return _built(text, file, FAST)
    except (yaml.YAMLError, ValueError, OverflowError):
        # The slow parser says better what is wrong and where; it also takes a few texts the fast one does not.
        return _built_or_told(text, file)


def _built(text: str, file: str, loader: Any) -> tuple[Tree, Lines, list[Problem]]:  # noqa: ANN401 - a class of PyYAML
    builder = _Builder(file)
    try:
        tree = builder.build(iter(yaml.parse(text, Loader=loader)))
    except _StopReadingError:
        tree = None
    return tree, builder.lines, builder.problems


def _built_or_told(text: str, file: str) -> tuple[Tree, Lines, list[Problem]]:
    try:
        return _built(text, file, yaml.BaseLoader)
    except yaml.MarkedYAMLError as error:
        line, sentence = plain_yaml_error(error)
    except (yaml.YAMLError, ValueError, OverflowError):
        # The parser's own arithmetic on an impossible escape (\UFFFFFFFF) or version number.
        line, sentence = 0, "cannot be read as YAML: it holds an impossible escape or directive"
    return None, {(): 1}, [Problem(file, line, "", sentence)]


class _StopReadingError(Exception):
    """The rest of the file is not worth or not safe reading; the reason is among the problems."""


@dataclass
class _Open:
    """A mapping or list whose end has not come yet."""

    value: "dict[str, Tree] | list[Tree]"
    path: KeyPath
    key: str | None = None


@dataclass
class _Builder:
    """Puts the tree together from the parser's events and counts them."""

    file: str
    lines: Lines = field(default_factory=lambda: {(): 1})
    problems: list[Problem] = field(default_factory=list)
    nodes: int = 0

    def say(self, line: int, text: str) -> None:
        self.problems.append(Problem(self.file, line, "", text))
        if len(self.problems) >= MOST_PROBLEMS:
            raise _StopReadingError

    def stop(self, line: int, text: str) -> None:
        self.say(line, text)
        raise _StopReadingError

    def build(self, events: Iterator[yaml.Event]) -> Tree:
        tree: Tree = {}
        open_: list[_Open] = []
        documents = 0
        for event in events:
            line = event.start_mark.line + 1 if event.start_mark else 0
            if isinstance(event, yaml.NodeEvent):
                self.count(len(open_), line)
                value = self.value_of(event, line)
                path = self.place(open_[-1], event, value, line) if open_ else ()
                if not open_:
                    tree = {} if value is None else value
                if path is not None and isinstance(value, (dict, list)):
                    open_.append(_Open(value, path))
            elif isinstance(event, yaml.CollectionEndEvent):
                open_.pop()
            elif isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self.stop(line, "a second document begins here ('---'); keep one document in a file")
        return tree

    def count(self, depth: int, line: int) -> None:
        self.nodes += 1
        if self.nodes > MOST_NODES:
            self.stop(line, f"more than {MOST_NODES:,} entries in one file; split it or cut it down")
        if depth > MOST_DEPTH:
            self.stop(line, f"nested deeper than {MOST_DEPTH} levels; no file of this project needs that")

    def value_of(self, event: yaml.NodeEvent, line: int) -> Tree:
        """What the event says by itself; anchors, aliases and tags are refused in words and otherwise passed over."""
        quotes = "put quotes around a text that begins with"
        if isinstance(event, yaml.AliasEvent):
            self.say(
                line,
                f"{quoted(f'*{event.anchor}')} repeats another place, which is refused; write it out, or {quotes} *",
            )
            return None
        if event.anchor is not None:
            self.say(
                line,
                f"{quoted(f'&{event.anchor}')} marks a place to repeat, which is refused; take it out, or {quotes} &",
            )
        if isinstance(event, (yaml.ScalarEvent, yaml.CollectionStartEvent)) and event.tag is not None:
            self.say(
                line,
                f"the tag {quoted(event.tag)} asks for a special type, which is refused; take it out, or {quotes} !",
            )
        if isinstance(event, yaml.MappingStartEvent):
            return {}
        if isinstance(event, yaml.SequenceStartEvent):
            return []
        assert isinstance(event, yaml.ScalarEvent)  # noqa: S101 - the four kinds of node there are
        if LONE_SURROGATE.search(event.value):
            self.say(line, "an escape stands for half a character; write the character itself")
            return None
        return None if event.style in (None, "") and event.value in BLANK else event.value

    def place(self, parent: _Open, event: yaml.NodeEvent, value: Tree, line: int) -> KeyPath | None:
        """Put a value where it belongs; its path, or None where it was only a key."""
        if isinstance(parent.value, list):
            path = (*parent.path, len(parent.value))
            parent.value.append(value)
            self.lines[path] = line
            return path
        if parent.key is None:
            if not isinstance(event, yaml.ScalarEvent):
                self.stop(line, "a key must be a plain word; a list or mapping cannot be one")
            parent.key = value if isinstance(value, str) else ""
            path = (*parent.path, parent.key)
            if path in self.lines:
                first = self.lines[path]
                self.say(line, f"the key {quoted(parent.key)} stands twice (first in line {first}); keep one of them")
            self.lines.setdefault(path, line)
            return None
        path = (*parent.path, parent.key)
        parent.value[parent.key] = value
        parent.key = None
        return path
