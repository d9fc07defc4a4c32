"""Which pages did the staff write by hand, and under which address and title do they join the site?"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from scoutgen.records.contact import NO_CONTACT, contact_in
from scoutgen.records.fields import why_not_a_key, why_not_a_name
from scoutgen.records.folder import walked
from scoutgen.records.front_matter import split_page
from scoutgen.records.markdown_limits import unfit_markdown
from scoutgen.records.problems import Problem
from scoutgen.records.textfile import read_text, relative

PAGES_FOLDER = "content/pages"
# Addresses the generated pages and the theme stand at.
TAKEN = frozenset(
    {
        "index", "404", "how-to-read", "glossary", "cautions", "method", "data-quality", "teams", "series",
        "evaluations", "facts", "charts", "assets", "search", "sitemap",
    }
)  # fmt: skip
# MkDocs copies every other file in content/pages into the site: what a browser would run there no scan has seen, and
# what MkDocs takes for a page under another suffix nobody has checked.
RUNS = frozenset({".html", ".htm", ".xhtml", ".xht", ".shtml", ".xml", ".js", ".mjs", ".svg", ".wasm"})
OTHER_MARKDOWN = frozenset({".md", ".markdown", ".mdown", ".mkdn", ".mkd"})
FENCE = re.compile(r"^ {0,3}(```+|~~~+)")
HEADING = re.compile(r" {0,3}#[ \t](.*)")


@dataclass(frozen=True)
class HandPage:
    """A page as it was written; its text is markdown and is never read as a template.

    Attributes:
        address: where it stands in the site without suffix: the file's path in content/pages.
        title: as its settings say, else the first heading, else the file's name in words.
        text: the markdown, unchanged but for line ends.
        editions: those that show it.
    """

    address: str
    title: str
    text: str
    file: str = ""
    editions: tuple[str, ...] = ("staff", "players")


def read_hand_pages(root: Path) -> tuple[tuple[HandPage, ...], list[Problem]]:
    """Every markdown file in content/pages, in order of address, and what keeps it or its neighbours from the site."""
    base = root / PAGES_FOLDER
    pages: list[HandPage] = []
    paths, problems = walked(base, root) if base.is_dir() else ([], [])
    problems += _unfit_files(paths, root)
    for path in paths:
        if path.suffix != ".md":
            continue
        parts = path.relative_to(base).with_suffix("").parts
        file = relative(path, root)
        unfit = next((why for part in parts if (why := why_not_a_key(part))), "")
        if unfit:
            problems.append(
                Problem(file, 0, "", f"the path in content/pages is the page's address, and {unfit}; rename it")
            )
        elif parts[0] in TAKEN:
            problems.append(
                Problem(
                    file, 0, "", f"the address '{parts[0]}' belongs to the pages that are made; choose another name"
                )
            )
        text, more = read_text(path, root)
        problems += more
        if text is None:
            continue
        text = text.replace("\r\n", "\n").replace("\r", "\n")
        settings, begins, more = split_page(text, file)
        problems += more
        before = text.count("\n", 0, begins)
        problems += [Problem(file, line and line + before, "", why) for line, why in unfit_markdown(text[begins:])]
        line, title = first_heading(text[begins:])
        line += before
        if title and (why := why_not_a_name(title)):
            it = f"it {why}" if why.startswith("is ") else why
            problems.append(Problem(file, line, "", f"the first heading is the page's title, and {it}"))
        if "recruiting" in settings.editions:
            problems += _contact_in_lines(text, file)
        name = settings.title or title or parts[-1].replace("-", " ").capitalize()
        pages.append(HandPage("/".join(parts), name, text, file, settings.editions))
    return tuple(pages), problems


def _contact_in_lines(text: str, file: str) -> list[Problem]:
    """Lines of a page of the recruiting edition that tell how to reach somebody."""
    return [
        Problem(file, number, "", f"looks to hold {kind}; {NO_CONTACT}")
        for number, line in enumerate(text.split("\n"), start=1)
        if (kind := contact_in(line))
    ]


def _unfit_files(paths: Iterable[Path], root: Path) -> list[Problem]:
    """Files beside the pages that must not be copied into the site, or would be taken for pages unread."""
    problems = []
    for path in paths:
        suffix, why = path.suffix.lower(), ""
        if path.suffix == ".md":
            continue
        if path.is_symlink():
            # MkDocs follows it wherever it leads, in circles too.
            why = "is a link, and what it leads to would be copied into the site; copy the file itself here"
        elif suffix in OTHER_MARKDOWN:
            why = "is not read as a page; pages are files <address>.md; rename it"
        elif suffix in RUNS:
            why = "would run in the reader's browser as it is; write a page in markdown, or save a drawing as PNG"
        if why and (path.is_file() or path.is_symlink()):
            problems.append(Problem(relative(path, root), 0, "", why))
    return problems


def first_heading(text: str) -> tuple[int, str]:
    """The first `# heading` outside code blocks and its line; 0 and nothing where there is none."""
    fence = ""
    for number, line in enumerate(text.split("\n"), start=1):
        mark = FENCE.match(line)
        if mark and (not fence or line.strip().startswith(fence)):
            fence = "" if fence else mark.group(1)
        elif not fence and (heading := HEADING.fullmatch(line)):
            # Signs # at the end close a heading where a blank stands before them; by hand, since a pattern for it
            # takes the square of a line's time.
            words = heading.group(1).strip(" \t")
            bare = words.rstrip("#")
            return number, (bare if bare[-1:] in ("", " ", "\t") else words).strip()
    return 0, ""
