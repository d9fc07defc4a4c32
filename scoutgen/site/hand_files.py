"""What stands in content/pages beside the made pages, as far as one edition may have it."""

import html
import re
from collections.abc import Iterable
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files

from scoutgen.records.hand_pages import HandPage
from scoutgen.site.manuscript import ManuscriptError

# Targets of links, images and references in markdown, and of HTML beside it.
_TARGETS = (
    re.compile(r"\]\(\s*<?([^)\s>]+)"),
    re.compile(r"^ {0,3}\[[^\]\n]+\]:\s*<?([^\s>]+)", re.MULTILINE),
    re.compile(r"\b(?:src|href|poster|srcset|data)\s*=\s*[\"']?([^\"'\s>]+)", re.IGNORECASE),
)


def leave_out(
    files: Files, config: MkDocsConfig, *, kept: Iterable[HandPage], others: Iterable[HandPage], every_file: bool
) -> None:
    """Take out of MkDocs' hands what this edition must not have: pages, files no page of it shows, ways in the menu.

    Args:
        files: all that MkDocs found.
        config: its docs_dir holds the hand-written pages; its nav loses ways to what is left out.
        kept: the pages of this edition.
        others: the pages of other editions alone.
        every_file: the edition also has files that no page of any edition links to.

    Raises:
        ManuscriptError: a page of this edition links to one that is left out.
    """
    pages = {f"{page.address}.md": page for page in kept}
    linked = {target for page in pages.values() for target in linked_from(page)}
    elsewhere = {target for page in others for target in linked_from(page)}
    named = {*config.extra_css, *(str(script) for script in config.extra_javascript)}
    gone: set[str] = set()
    for file in list(files):
        if file.src_dir != config.docs_dir:
            continue
        if file.is_documentation_page():
            known = file.src_uri in pages
        else:
            known = file.src_uri in linked | named or (every_file and file.src_uri not in elsewhere)
        if not known:
            files.remove(file)
            gone.add(file.src_uri)
    for source, page in sorted(pages.items()):
        for target in linked_from(page):
            if target in gone:
                # Named is the page that can be mended; what it leads to is known to whoever builds.
                raise ManuscriptError(
                    f"{page.file}: links to {target}, which is not in this edition; mark {source} and {target} alike "
                    "with for:, or take the link out"
                )
    if config.nav is not None:
        config.nav = _without(config.nav, {_meant(source) for source in gone}, config.site_url or "")


def linked_from(page: HandPage) -> set[str]:
    """Paths within content/pages that a page leads to or shows."""
    found = set()
    for pattern in _TARGETS:
        for match in pattern.finditer(page.text):
            target = unquote(html.unescape(match[1])).partition("#")[0].partition("?")[0]
            if target and ":" not in target and not target.startswith("/"):
                found.add(normpath(join(dirname(page.address), target)))
    return found


def _meant(way: str, root: str = "") -> str:
    """What a way in the menu leads to, however it is spelt: ./a.md, b/../a.md, /a/, a.html, the whole address."""
    path = unquote(way.removeprefix(root) if root else way).partition("#")[0].partition("?")[0]
    path = normpath(path.replace("\\", "/").lstrip("/")).casefold()
    stem, _, suffix = path.rpartition(".")
    path = stem if suffix in {"md", "markdown", "html"} else path
    return path.removesuffix("/index").removesuffix("/readme")


def _without(nav: list[object], gone: set[str], root: str) -> list[object]:
    """The menu of mkdocs.yml without ways to files left out, and without sections that would be empty."""
    left: list[object] = []
    for item in nav:
        if isinstance(item, str):
            left += [] if _meant(item, root) in gone else [item]
        elif isinstance(item, dict):
            pruned = {
                title: _without(below, gone, root) if isinstance(below, list) else below
                for title, below in item.items()
                if isinstance(below, list) or not (isinstance(below, str) and _meant(below, root) in gone)
            }
            pruned = {title: below for title, below in pruned.items() if below != []}
            left += [pruned] if pruned else []
    return left
