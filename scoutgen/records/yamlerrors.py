"""What does the YAML parser's complaint mean to somebody who wrote the file by hand, and where should he look?"""

import re
from dataclasses import dataclass

import yaml


@dataclass(frozen=True)
class Saying:
    """One of the parser's complaints (PyYAML 6).

    Attributes:
        pattern: found in the parser's words.
        words: what they usually mean; `{}` stands for the character the parser names, `{start}` for the line where
            the construct began.
        at_start: whether the place where the construct began helps more than the place where the parser gave up.
    """

    pattern: str
    words: str
    at_start: bool = False


SAYINGS = (
    Saying(r"found character '\\t'|found a tab", "a tab stands where only spaces may; replace it by spaces"),
    Saying("unexpected end of stream", "a quote that opens here is never closed; add the closing quote", at_start=True),
    Saying(
        "unexpected document separator",
        "a quote that opens here is not closed before the next '---'; add the closing quote",
        at_start=True,
    ),
    Saying("<stream end>", "a [ or { that opens here is never closed; add the closing bracket", at_start=True),
    Saying(
        "expected ',' or",
        "the [ or { that opens in line {start} is not closed before this, a comma is missing, or a text in it needs "
        "quotes",
    ),
    Saying(
        "mapping values are not allowed",
        "a colon stands where none can; put quotes around a text that holds ': ', and start keys of one level in the "
        "same column",
    ),
    Saying("could not find expected ':'", "this line has no 'key: value'; add the colon and a space", at_start=True),
    Saying(
        "expected <block end>",
        "this line does not fit the ones above it; keys and list items of one level start in the same column, and a "
        "list is not mixed with keys",
    ),
    Saying(
        "expected '<document start>'",
        "this line does not fit the ones above it; start the file's keys in the first column",
    ),
    Saying("found character '", "a text cannot begin with {}; put the text in quotes"),
    Saying("escape", "in double quotes a backslash begins a code; use single quotes", at_start=True),
    Saying("chomping or indentation indicators", "after | or > the text starts in the next line, indented"),
    Saying(
        "sequence entries are not allowed",
        "a list item ('- ') cannot stand here; put it in a line of its own under its key",
    ),
    Saying("expected the node content", "a value is missing here, or a text needs quotes"),
    Saying(
        "expected alphabetic|expected URI|expected '!'|expected ' '",
        "a text that begins with &, *, ! or % needs quotes",
    ),
)


def plain_yaml_error(error: yaml.MarkedYAMLError) -> tuple[int, str]:
    """The line as an editor counts it (0 where the parser names none) and the complaint in plain words."""
    problem = str(error.problem or "")
    mark, start = error.problem_mark, error.context_mark
    saying = next((s for s in SAYINGS if re.search(s.pattern, problem)), None)
    if saying is None:
        return (mark.line + 1 if mark else 0), f"cannot be read as YAML here ({problem or 'unknown reason'})"
    place = start if saying.at_start and start is not None else mark
    character = re.search(r"found character '(.+?)'", problem)
    words = saying.words.replace("{start}", str(start.line + 1 if start else 0))
    return (place.line + 1 if place else 0), words.replace("{}", character.group(1) if character else "this")
