"""What happens to pages after MkDocs: the policy, the last look, the search index."""

import re
from collections.abc import Iterable
from pathlib import Path

from scoutgen.site.policy import PolicyError, with_policy
from scoutgen.site.rendered import RenderedPage
from scoutgen.site.scan import Scanned, dead_links, files_of, scan_page
from scoutgen.site.search import Found, index

_BLANK = re.compile(r"\n\s*")
_KEEPS_SPACE = re.compile(r"<(?:pre|textarea)\b", re.IGNORECASE)


class Finished:
    """The finished pages of one build, as far as they must be looked at together."""

    def __init__(self) -> None:
        self.scanned: dict[str, Scanned] = {}
        self._wrong: list[tuple[str, str]] = []
        self._sources: dict[str, str] = {}

    def page(self, html: str, address: str, source: str = "") -> str:
        """One page made final; what is wrong with it is kept for `problems`.

        Args:
            html: the page.
            address: its file in the site.
            source: the project's file it was made from, for whoever has to mend it.
        """
        self._sources[address] = source
        if not _KEEPS_SPACE.search(html):
            html = _without_blanks(html)
        if 'id="__toc"' not in html:
            # The theme labels a checkbox that it leaves out on pages outside the menu.
            html = html.replace(' for="__toc"', "")
        try:
            html = with_policy(html)
        except PolicyError as problem:
            self._wrong.append((address, str(problem)))
        self.scanned[address], wrong = scan_page(html)
        self._wrong += [(address, what) for what in wrong]
        return html

    def take(self, page: RenderedPage, address: str, source: str) -> str:
        """A page that was made final by an earlier build."""
        self._sources[address] = source
        self.scanned[address] = page.scanned
        return page.html

    def is_fit(self, address: str) -> bool:
        """Whether nothing is wrong with a page by itself."""
        return all(where != address for where, _ in self._wrong)

    def missing_anchor(self, address: str, anchor: str) -> None:
        """Remember that search would lead to a heading that is not there."""
        self._wrong.append((address, f"search leads to #{anchor}, which is not on the page"))

    def problems(self, site: Path, root: str) -> list[str]:
        """`file: what` for everything wrong with the site as a whole, in the order of files.

        Named is the file a page was made from, and the page itself behind it.
        """
        everything = [*self._wrong, *dead_links(self.scanned, files_of(site), root)]
        return sorted(self._named(address, what) for address, what in everything)

    def _named(self, address: str, what: str) -> str:
        source = self._sources.get(address)
        return f"{source}: {what} (in {address})" if source else f"{address}: {what}"


def _without_blanks(html: str) -> str:
    """Text without empty lines and without space at either end of a line."""
    # One expression for all of it would start at every space, which takes five times as long.
    *lines, last = _BLANK.sub("\n", html).split("\n")
    return "\n".join([*(line.rstrip(" \t") for line in lines), last])


def write_search(site: Path, entries: Iterable[Found], *, for_disk: bool) -> None:
    """Write the index where the theme's worker looks for it.

    Args:
        site: folder of the finished site.
        entries: what can be found.
        for_disk: also as a script, since pages opened from a folder cannot fetch.
    """
    folder = site / "search"
    folder.mkdir(exist_ok=True)
    text = index(entries)
    (folder / "search_index.json").write_text(text, encoding="utf-8", newline="\n")
    if for_disk:
        (folder / "search_index.js").write_text(f"var __index = {text}", encoding="utf-8", newline="\n")
