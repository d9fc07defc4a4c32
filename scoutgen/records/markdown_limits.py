"""Can a page written by hand become HTML in good time, and without swallowing what comes after it?

Markdown's parser takes time by the square of the brackets and tags in a row, and goes down a level of the machine's
stack for each level of a list: a page that would keep it busy for minutes, or end it, is refused here with its line.
So is HTML that makes a browser take the rest of the page for something other than text, and what only pages that are
made may hold.
"""

import re
from bisect import bisect_right
from collections import Counter
from collections.abc import Iterator

MOST_CHARACTERS = 300_000
MOST_LEVELS = 20
MOST_HEADINGS = 1_000
# Between two blank lines, and on the whole page: 500 in a row take some hundredths of a second.
MOST_IN_A_BLOCK = 500
MOST_ON_A_PAGE = 3_000
# The marks that pages are made with (site/marks.py says what each stands for), and what can be left of them.
MARKS = ("chart", "table", "side", "box", "fold", "part")
LEFT_OVER = (*MARKS, "slot")
_COUNTED = {"[": "opening brackets", "<": "signs <"}
# Markers of lists and quotes at the beginning of a line, each a level.
_MARKERS = re.compile(r"[ \t]*(?:>|(?:[-+*]|\d{1,9}[.)])(?=[ \t]|$))")
_INDENT = re.compile(r"[ \t]*")
_FENCE = re.compile(r"(`{3,}|~{3,})")
_BACKQUOTES = re.compile(r"(?<!\\)`+")
# What follows one of these is not shown as text of the page until it is closed, or at all.
_SWALLOWS = (
    "textarea", "title", "style", "script", "xmp", "plaintext", "noscript", "noembed", "noframes", "iframe", "template",
    "select", "dialog", "frameset", "html", "head", "body", "main", "article",
)  # fmt: skip
_SWALLOWING = re.compile(rf"</?({'|'.join(_SWALLOWS)})(?=[\s/>]|$)|<!\[|<!--", re.IGNORECASE)
# What made pages hold while they are made: on a finished page it means that something was left undone, and the site is
# refused. A link may be called so.
_OF_MADE_PAGES = re.compile(rf"\[(?:{'|'.join(LEFT_OVER)}):(?![^\]\n]*\][(\[:])|\{{\{{|\{{%")
# Fine as long as each is closed.
_PAIRED = re.compile(r"<(/?)(details|svg|math|video|audio|object|canvas)(?=[\s/>])[^<>]*?(/?)>", re.IGNORECASE)


def unfit_markdown(text: str) -> list[tuple[int, str]]:
    """Everything that keeps a text from becoming a page, each with its line, from 1.

    Args:
        text: markdown with line ends of one character.
    """
    if len(text) > MOST_CHARACTERS:
        return [(0, f"is {len(text):,} characters long; at most {MOST_CHARACTERS:,} are read; split the page")]
    # What there is too much of is not looked at closer.
    return sorted([*_too_deep(text), *_too_many(text)]) or sorted([*_swallowing(text), *_of_made_pages(text)])


def _too_deep(text: str) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(text.split("\n"), start=1):
        levels, at = 0, 0
        while mark := _MARKERS.match(line, at):
            levels, at = levels + 1, mark.end()
            if levels > MOST_LEVELS:
                break
        indent = _INDENT.match(line)
        width = len(indent.group().expandtabs(4)) if indent else 0
        if levels and width // 4 + levels > MOST_LEVELS:
            yield (
                number,
                f"is a list or quote nested deeper than {MOST_LEVELS} levels, which cannot be shown; flatten it",
            )
            return


def _too_many(text: str) -> Iterator[tuple[int, str]]:
    total: Counter[str] = Counter()
    block: Counter[str] = Counter()
    told: set[str] = set()
    headings = 0
    for number, line in enumerate(text.split("\n"), start=1):
        if not line.strip():
            block.clear()
        headings += line.startswith("#") or bool(_FENCE.match(line))
        if headings > MOST_HEADINGS:
            yield (
                number,
                f"is heading or code block number {headings:,}; at most {MOST_HEADINGS:,} are read; split the page",
            )
            return
        for sign, name in _COUNTED.items():
            count = line.count(sign)
            block[sign] += count
            total[sign] += count
            if sign in told:
                continue
            if block[sign] > MOST_IN_A_BLOCK:
                told.add(sign)
                yield (
                    number,
                    f"more than {MOST_IN_A_BLOCK} {name} without a blank line between them; at most that many are read",
                )
            elif total[sign] > MOST_ON_A_PAGE:
                told.add(sign)
                yield number, f"more than {MOST_ON_A_PAGE:,} {name} on one page; split the page"


def _swallowing(text: str) -> Iterator[tuple[int, str]]:
    """HTML outside of code after which a browser would not show the rest of the page."""
    text = _without_comments(_without_code(text))
    # An end that belongs to what was named already says nothing more.
    told: set[str] = set()
    for tag in _SWALLOWING.finditer(text):
        line = text.count("\n", 0, tag.start()) + 1
        if tag.group() == "<!--":
            yield (
                line,
                "a comment begins that is not closed: the rest of the page is part of it; write --> where it ends",
            )
        elif not (tag.group()[1] == "/" and (tag[1] or "").lower() in told):
            told.add((tag[1] or "").lower())
            written = f"{tag.group()}>" if tag[1] else tag.group()
            way = f"take it out, or put it in backquotes to show it: `{written}`"
            yield line, f"{written} is HTML that can swallow the rest of the page; {way}"
    open_: dict[str, list[int]] = {}
    for tag in _PAIRED.finditer(text):
        lines = open_.setdefault(tag[2].lower(), [])
        if tag[1]:
            del lines[-1:]
        elif not tag[3]:
            lines.append(text.count("\n", 0, tag.start()) + 1)
    for name, lines in open_.items():
        for line in lines:
            yield line, f"<{name}> is not closed: the rest of the page is part of it; write </{name}> where it ends"


def _of_made_pages(text: str) -> Iterator[tuple[int, str]]:
    text = _without_comments(_without_code(text))
    for mark in _OF_MADE_PAGES.finditer(text):
        line = text.count("\n", 0, mark.start()) + 1
        yield line, f"{mark.group()} is kept for the pages that are made; put it in backquotes to show it"


def _without_code(text: str) -> str:
    """The text with code taken out and its lines left standing: fenced, indented, and between backquotes."""
    lines = text.split("\n")
    closing: dict[str, list[int]] = {}
    for number, line in enumerate(lines):
        bare = line.rstrip()
        if _FENCE.fullmatch(bare):
            closing.setdefault(bare, []).append(number)
    kept: list[str] = []
    end, indented = -1, False
    for number, line in enumerate(lines):
        fence = _FENCE.match(line)
        if number > end and fence:
            # Only a fence that is closed is one.
            later = closing.get(fence.group(), [])
            place = bisect_right(later, number)
            end = later[place] if place < len(later) else end
        after_blank = not kept or not lines[number - 1].strip()
        indented = line.startswith(("    ", "\t")) and (indented or after_blank)
        kept.append("" if number <= end or indented else line)
    return "\n\n".join(_without_spans(block) for block in "\n".join(kept).split("\n\n"))


def _without_spans(block: str) -> str:
    """A block without what stands between backquotes of the same number."""
    runs = list(_BACKQUOTES.finditer(block))
    later: dict[int, list[int]] = {}
    for place, run in enumerate(runs):
        later.setdefault(len(run.group()), []).append(place)
    out, done, place = "", 0, 0
    while place < len(runs):
        same = later[len(runs[place].group())]
        closer = bisect_right(same, place)
        if closer == len(same):
            place += 1
            continue
        last = runs[same[closer]]
        out += block[done : runs[place].start()] + "\n" * block.count("\n", runs[place].start(), last.end())
        done, place = last.end(), same[closer] + 1
    return out + block[done:]


def _without_comments(text: str) -> str:
    """The text without comments that are closed, their lines left standing."""
    out, done = [], 0
    while (begin := text.find("<!--", done)) >= 0 and (end := text.find("-->", begin + 4)) >= 0:
        out += [text[done:begin], "\n" * text.count("\n", begin, end)]
        done = end + 3
    return "".join(out) + text[done:]
