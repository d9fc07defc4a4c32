"""The marks a page's markdown may hold on lines of their own, and the HTML they stand for.

    [chart:KEY]                 a drawing
    [table:KIND Its name]       the pipe table that follows, as table_html makes it
    [side:L] … [side:end]       what concerns left-handed hitters; R the right-handed ones
    [box:KIND] … [box:end]      a box; its kind is a class
    [fold:Words] … [fold:end]   a part that opens on a tap, and is not printed; a link to #at-words opens it
    [part:Words] … [part:end]   the same, printed whole

Markdown never sees any of it: each mark becomes a slot, and the slot's HTML is put into the finished page. What
stands between two marks is ordinary markdown.
"""

import re
from collections.abc import Callable, Mapping

from scoutgen.pages.markdown import anchor
from scoutgen.records.markdown_limits import MARKS
from scoutgen.site.tables import TableError, inline, table_html

_MARK = re.compile(rf"^\[({'|'.join(MARKS)}):([^\[\]\n]*)\][ \t]*$", re.MULTILINE)
_SLOT = re.compile(r"<p>\[slot:(\d+)\]</p>")
_TABLE_ROWS = re.compile(r"\s*((?:^\|.*\|[ \t]*(?:\n|\Z))+)", re.MULTILINE)
_KIND = re.compile(r"[a-z][a-z0-9-]*$")
_TAG = re.compile(r"<[^>]*>")
_SIDES = {"L": "Left-handed hitters", "R": "Right-handed hitters"}


class MarkError(ValueError):
    """A mark that cannot be followed; the text says which and why."""


def charts_on(markdown: str) -> list[str]:
    """Keys of the drawings that a page's text asks for."""
    return [mark[2].strip() for mark in _MARK.finditer(markdown) if mark[1] == "chart"]


def to_slots(markdown: str, charts: Mapping[str, str], link: Callable[[str], str]) -> tuple[str, list[str]]:
    """Markdown with slots in place of marks, and the HTML of each slot.

    Args:
        markdown: a page's text.
        charts: HTML of each chart by key.
        link: from a link's target as written to one as it stands in the page.

    Raises:
        MarkError: an unknown chart, kind or side, a table that cannot be read, a part not closed.
    """
    out: list[str] = []
    slots: list[str] = []
    opened: list[str] = []
    labels: dict[str, int] = {}
    done = 0
    for mark in _MARK.finditer(markdown):
        if mark.start() < done:
            continue
        out.append(markdown[done : mark.start()])
        done = mark.end()
        name, value = mark[1], mark[2].strip()
        if name == "chart":
            slots.append(_chart(value, charts))
        elif name == "table":
            rows = _TABLE_ROWS.match(markdown, done)
            if not rows:
                raise MarkError(f"no table follows {mark.group().strip()}")
            slots.append(_table(value, rows[1], link, labels))
            done = rows.end()
        else:
            slots.append(_part(name, value, opened, link, labels))
        out.append(f"\n\n[slot:{len(slots) - 1}]\n\n")
    if opened:
        raise MarkError(f"[{opened[-1]}:…] is not closed with [{opened[-1]}:end]")
    out.append(markdown[done:])
    return "".join(out), slots


def fill(page: str, slots: list[str]) -> str:
    """The finished page with every slot's HTML in its place."""
    return _SLOT.sub(lambda slot: slots[int(slot[1])], page) if slots else page


def _chart(key: str, charts: Mapping[str, str]) -> str:
    try:
        return charts[key]
    except KeyError:
        raise MarkError(f"there is no chart {key!r}") from None


def _table(value: str, rows: str, link: Callable[[str], str], labels: dict[str, int]) -> str:
    kind, _, label = value.partition(" ")
    label = label.strip() or "Table"
    # Two regions of one page must not have the same name for a screen reader.
    labels[label] = labels.get(label, 0) + 1
    name = label if labels[label] == 1 else f"{label} ({labels[label]})"
    if not _KIND.match(kind):
        raise MarkError(f"[table:{value}]: a kind is lower-case letters, digits and hyphens")
    try:
        return table_html(rows.splitlines(), kind=kind, label=name, link=link)
    except TableError as problem:
        raise MarkError(f"[table:{value}]: {problem}") from problem


def _part(name: str, value: str, opened: list[str], link: Callable[[str], str], labels: dict[str, int]) -> str:
    if value == "end":
        if not opened or opened[-1] != name:
            raise MarkError(f"[{name}:end] closes nothing")
        opened.pop()
        return {"side": "</div>", "box": "</div>", "fold": "</div></details>", "part": "</div></details>"}[name]
    opened.append(name)
    if name == "side":
        if value not in _SIDES:
            raise MarkError(f"[side:{value}]: sides are L and R")
        return f'<div class="side" data-side="{value}"><p class="side-name">{_SIDES[value]}</p>'
    if name == "box":
        if not _KIND.match(value):
            raise MarkError(f"[box:{value}]: a kind is lower-case letters, digits and hyphens")
        return f'<div class="box box-{value}">'
    words = inline(value, link)
    place = f"at-{anchor(_TAG.sub('', words))}"
    # Two parts of one name on a page: the first is the one that is linked to.
    labels[place] = labels.get(place, 0) + 1
    own = f' id="{place}"' if labels[place] == 1 else ""
    kind = "fold" if name == "fold" else "fold fold-printed"
    return f'<details class="{kind}"{own}><summary><span>{words}</span></summary><div>'
