"""Pipe tables to accessible HTML, without the price of a whole Markdown parser."""

import html
import re
from collections.abc import Callable, Iterable
from itertools import count

_ROW_END = re.compile(r"^\||\|$")
_RULE = re.compile(r"^:?-+:?$")
_REFERENCE = r"&#(?:\d{1,7}|x[0-9a-fA-F]{1,6});"
_INLINE = re.compile(
    rf"(?P<reference>{_REFERENCE})|(?P<break><br ?/?>)|\*\*(?P<bold>[^*]+)\*\*"
    r"|\[(?P<words>[^\[\]]*)\]\((?P<target>[^()\s]*)\)|(?P<other>[&<>\"])"
)
_SPECIAL = re.compile(r"[&<>\"*\[]")
# A share and its counts are read at one glance: a line never ends inside them.
_TOGETHER = re.compile(r"(?<=\d) (?=%|of \d|mph\b|ft\b|s\b)|(?<=\d of) (?=\d)")
_UNSEEN = re.compile(r"\*\*|\[|\]\([^)]*\)|&#\w+;")
# By keyboard too a wide table can be scrolled, and a screen reader says what it is in.
_FRAME = '<div class="table-scroll" role="region" aria-label="{}" tabindex="0">'
# Cells longer than this are sentences, and their column is given room to be read.
_SENTENCE = 24
_TAG = re.compile(r"<[^>]*>")
# A name followed by a colon, or two slashes: anything that could lead out of the site.
_LEADS_OUT = re.compile(r"^\s*(?:[a-zA-Z][a-zA-Z0-9+.-]*:|//|\\)")


# Markdown's own tables, as pages written by hand have them.
_PLAIN_TABLE = re.compile(r"<table>((?:(?!<table).)*?)</table>", re.DOTALL)


class TableError(ValueError):
    """A table that cannot be read; the text says why."""


def table_html(lines: list[str], *, kind: str, label: str, link: Callable[[str], str]) -> str:
    """A pipe table as a scrollable, labelled region whose first column holds the rows' names.

    Args:
        lines: header, rule and rows, each `| a | b |`.
        kind: class of the table.
        label: its name for screen readers; inline syntax as in cells.
        link: from a target as written to one as it stands in the page.

    Raises:
        TableError: rows of different lengths, a header without its rule, a link out of the site.
    """
    lines = _TOGETHER.sub("\N{NO-BREAK SPACE}", "\n".join(lines)).split("\n")
    rows = [_cells(line) for line in lines]
    if len(rows) < 2 or not all(_RULE.match(cell) for cell in rows[1]):
        raise TableError(f"no rule of dashes under the header: {lines[0]}")
    header, align = rows[0], [_alignment(cell) for cell in rows[1]]
    uneven = [line for line, row in zip(lines, rows, strict=True) if len(row) != len(header)]
    if uneven:
        raise TableError(f"a row has not {len(header)} cells as its header has: {uneven[0]}")
    names = [inline(cell, link) for cell in header]
    plain = [_TAG.sub("", name) for name in names]
    align = [place or ("txt" if _says(row[column] for row in rows[2:]) else "") for column, place in enumerate(align)]
    align = [f' class="{name}"' if name else "" for name in align]
    head = "".join(f'<th scope="col"{a}>{name}</th>' for a, name in zip(align, names, strict=True))
    body = "".join(_row(row, align, plain, link) for row in rows[2:])
    region = _TAG.sub("", inline(label, link))
    table = f'<table class="tbl tbl-{kind}"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'
    return f"{_FRAME.format(region)}{table}</div>"


def framed(page: str) -> str:
    """A page in which every table without a class stands in a frame as ours do.

    Left as they are, the theme's script would frame them after the first paint, and what is below would move.
    """
    numbers = count(1)

    def frame(table: re.Match[str]) -> str:
        name = f"Table {next(numbers)} of this page"
        return f'{_FRAME.format(name)}<table class="tbl tbl-plain">{table[1]}</table></div>'

    return _PLAIN_TABLE.sub(frame, page)


def inline(text: str, link: Callable[[str], str]) -> str:
    """A cell's text as HTML: references, `**bold**`, `[words](relative link)` and `<br>`; all else is text."""

    def replaced(match: re.Match[str]) -> str:
        if match["reference"]:
            return match["reference"]
        if match["break"]:
            return "<br>"
        if match["bold"] is not None:
            return f"<strong>{inline(match['bold'], link)}</strong>"
        if match["words"] is not None:
            target = html.unescape(match["target"])
            if _LEADS_OUT.match(target):
                raise TableError(f"a link leads out of the site: {match['target']}")
            return f'<a href="{html.escape(link(target))}">{inline(match["words"], link)}</a>'
        return html.escape(match["other"])

    return _INLINE.sub(replaced, text) if _SPECIAL.search(text) else text


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in _ROW_END.sub("", line.strip()).split("|")]


def _alignment(rule: str) -> str:
    if rule.endswith(":"):
        return "mid" if rule.startswith(":") else "num"
    return ""


def _says(cells: Iterable[str]) -> bool:
    """Whether one of the cells has a line as long as a sentence, as a reader sees it, near enough."""
    # What is short as it is written is no longer as it is read.
    long = (cell for cell in cells if len(cell) > _SENTENCE)
    return any(len(_UNSEEN.sub("", line)) > _SENTENCE for cell in long for line in cell.split("<br>"))


def _row(cells: list[str], align: list[str], names: list[str], link: Callable[[str], str]) -> str:
    first, *rest = cells
    tds = "".join(
        f'<td data-label="{name}"{a}>{inline(cell, link)}</td>'
        for cell, a, name in zip(rest, align[1:], names[1:], strict=True)
    )
    return f'<tr><th scope="row">{inline(first, link)}</th>{tds}</tr>'
