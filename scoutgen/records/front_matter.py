"""What does a hand-written page say of itself between two lines of --- at its head, and may it?"""

import re
from typing import Annotated, Any, Literal, TypeAlias

import yaml
from pydantic import AfterValidator, Field

from scoutgen.records.fields import Edition, Name, Record, in_one_line, one_of
from scoutgen.records.problems import Problem
from scoutgen.records.sentences import said, shown
from scoutgen.records.yamlfile import Tree, yaml_text
from scoutgen.records.yamlrecord import YamlSource, record_of

# As MkDocs finds it (mkdocs.utils.meta), so that nothing is a setting there and text here.
_BLOCK = re.compile(r"-{3}[ \t]*\n(.*?\n)(?:\.{3}|-{3})[ \t]*\n", re.DOTALL)
_BARE = re.compile(r"[ ]{0,3}([A-Za-z0-9_-]+):")
_ICON = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*(?:/[a-z0-9]+(?:-[a-z0-9]+)*)+")


def _icon(text: str) -> str:
    if _ICON.fullmatch(text) and len(text) <= 80:
        return text
    raise said(f"{shown(text)} is not an icon; write its set and name, like material/baseball")


Icon: TypeAlias = Annotated[str, AfterValidator(_icon)]


class FrontMatter(Record):
    """The settings a page may have. The theme writes them into the page as they are, hence the narrow alphabet."""

    title: Name | None = None
    description: Name | None = None
    tags: tuple[Name, ...] = ()
    icon: Icon | None = None
    hide: tuple[Literal["navigation", "toc", "footer", "path", "tags"], ...] = ()
    editions: Annotated[tuple[Edition, ...], in_one_line(Edition, one_of(Edition), fewest=1)] = Field(
        ("staff", "players"), alias="for"
    )


def split_page(text: str, file: str) -> tuple[FrontMatter, int, list[Problem]]:
    """A page's settings, where its own text begins, and what is wrong with them.

    Args:
        text: the page with line ends of one character.
        file: its name in problems.

    Returns:
        The settings (as far as they can be read), the position of the first character after them, the problems.
    """
    block = _BLOCK.match(text)
    if block is None:
        return FrontMatter(), 0, _not_a_block(text, file)
    # The line of --- left blank, so that lines are counted as in the page.
    tree, lines, problems = yaml_text(f"\n{block[1]}", file)
    source = YamlSource(file, lines)
    if isinstance(tree, (str, list)) or (tree == {} and not problems):
        # Two rules with text between them; MkDocs shows it so, too.
        return FrontMatter(), 0, problems
    made: FrontMatter | None = None
    if isinstance(tree, dict):
        made, more = record_of(tree, FrontMatter, source)
        problems += more or ([] if problems else _otherwise_read(block[1], tree, source))
    return made or FrontMatter(), block.end(), problems


def _not_a_block(text: str, file: str) -> list[Problem]:
    first, _, rest = text.partition("\n")
    if bare := _BARE.match(first):
        known = bare[1].lower() in {field.alias or name for name, field in FrontMatter.model_fields.items()}
        how = "write it between two lines of ---" if known else "begin the page with a # heading or a blank line"
        return [
            Problem(
                file, 1, "", f"{shown(bare[1] + ':')} in the first line is taken for a setting, not for text; {how}"
            )
        ]
    if re.fullmatch(r"-{3}[ \t]*", first) and _BARE.match(rest):
        return [Problem(file, 1, "", "the settings that begin here are not closed; write a line --- after them")]
    return []


def _otherwise_read(block: str, tree: dict[str, Tree], source: YamlSource) -> list[Problem]:
    """Words that the site's own reader of YAML takes for a number, a date or a yes."""
    try:
        typed: Any = yaml.safe_load(block)
    except (yaml.YAMLError, ValueError, OverflowError):
        return [source.problem((), "the settings cannot be read as YAML; put quotes around every value")]
    problems = []
    for name, value in tree.items():
        words = typed.get(name) if isinstance(typed, dict) else None
        pairs = (
            zip(value, words, strict=False) if isinstance(value, list) and isinstance(words, list) else [(value, words)]
        )
        for written, read in pairs:
            if isinstance(written, str) and not isinstance(read, str):
                text = f"{shown(written)} is read as a number, a date or yes and no here; put quotes around it"
                problems.append(source.problem((name,), text))
    return problems
