"""Pages rendered before, kept by the hash of all that they come from: a build renders what is new.

A page comes from its own markdown and drawings, and from what all pages share: the menu, the project's settings and
pages written by hand, the theme and this program. The time of the build, which stands on every page, is put in anew.
"""

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.pages import Page as MkDocsPage

from scoutgen.pages.book import Page
from scoutgen.site.program import program
from scoutgen.site.scan import Scanned
from scoutgen.site.sealed import Sealed

# Whose new version may write a page otherwise.
_LIBRARIES = ("mkdocs", "mkdocs-material", "markdown", "jinja2", "pygments", "pymdown-extensions")
# All that may run on a page without being asked about here.
_KNOWN_PLUGINS = {"scoutgen", "material/search"}
# No page holds one: readers of YAML and CSV refuse it.
_MARK = "\0"


@dataclass(frozen=True)
class RenderedPage:
    """A finished page, and what was found on it in the last look."""

    html: str
    scanned: Scanned


class Rendered:
    """The pages of one edition that were rendered before.

    Args:
        folder: where they are.
        common: digest of what all pages share; None keeps and finds nothing.
        stamps: the texts that differ on every page from one build to the next, the longest first.
    """

    def __init__(self, folder: Path, common: str | None, stamps: Sequence[str]) -> None:
        self.kept = Sealed(folder)
        self._common, self._stamps = common, stamps

    @property
    def keeps(self) -> bool:
        """Whether pages can be kept at all: nothing has a hand in them that is not asked about."""
        return self._common is not None

    def key(self, page: Page, figures: Iterable[str]) -> str | None:
        """The name a page is kept under; None where it cannot be kept.

        Args:
            page: as the book has it.
            figures: the drawings that stand on it.
        """
        if self._common is None or _MARK in page.markdown:
            return None
        drawn = [hashlib.sha256(figure.encode()).hexdigest() for figure in figures]
        parts = [self._common, page.address, page.title, *page.menu, self._unstamped(page.markdown), *drawn]
        return hashlib.sha256(json.dumps(parts).encode()).hexdigest()

    def has(self, key: str | None) -> bool:
        """Whether a page is kept under this name; not whether it is whole."""
        return key is not None and self.kept.has(key)

    def find(self, key: str | None) -> RenderedPage | None:
        """A page kept under this name, None where there is none or it is not what was written."""
        text = self.kept.get(key) if key is not None else None
        if text is None:
            return None
        found, _, html = text.partition("\n")
        try:
            ids, links = (set(map(str, some)) for some in json.loads(found))
        except (ValueError, TypeError, RecursionError):
            return None
        return RenderedPage(self._stamped(html), Scanned(ids, links))

    def keep(self, key: str | None, page: RenderedPage) -> None:
        """Keep a finished page; one that cannot be written is rendered again next time."""
        if key is None or _MARK in page.html:
            return
        found = json.dumps([sorted(page.scanned.ids), sorted(page.scanned.links)])
        self.kept.put(key, f"{found}\n{self._unstamped(page.html)}")

    def _unstamped(self, text: str) -> str:
        for number, stamp in enumerate(self._stamps):
            text = text.replace(stamp, f"{_MARK}{number}{_MARK}")
        return text

    def _stamped(self, text: str) -> str:
        for number, stamp in enumerate(self._stamps):
            text = text.replace(f"{_MARK}{number}{_MARK}", stamp)
        return text


def leave_as_it_was(page: MkDocsPage) -> None:
    """Let MkDocs pass a page by, whose HTML is there: no Markdown, and a template that says nothing."""
    page.meta["template"] = "rendered-before.html"
    page.content = ""
    # Making a parser for nothing would take a third of what a page takes.
    vars(page)["render"] = lambda *_: None


def shared_by_all(config: MkDocsConfig, edition: str, hand_pages: Iterable[Path]) -> str | None:
    """Digest of what every generated page comes from; None where something else may have a hand in it.

    Args:
        config: with its menu made, before the first page is read.
        edition: for whom.
        hand_pages: pages written by hand, whose titles stand in the menu.
    """
    if set(config.plugins) - _KNOWN_PLUGINS or config.hooks or config.theme.custom_dir:
        return None
    own = Path(config.config_file_path)
    extra = {name: value for name, value in config.extra["scoutgen"].items() if not name.startswith("built")}
    settings = (config.nav, config.site_name, config.site_url, config.use_directory_urls, edition, extra)
    whole = hashlib.sha256(json.dumps(settings, default=str).encode())
    for place in (own, *sorted(hand_pages)):
        whole.update(b"\n" + hashlib.sha256(place.read_bytes()).digest())
    whole.update(program(("site",), _LIBRARIES).encode())
    return whole.hexdigest()
