"""Pages rendered before, kept by the hash of all that they come from: a build renders what is new.

A page comes from its own markdown and drawings, and from what all pages share: the menu, the project's settings and
pages written by hand, the theme and this program. The time of the build, which stands on every page, is put in anew.
"""

import contextlib
import hashlib
import json
import shutil
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.metadata import version
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.pages import Page as MkDocsPage

from scoutgen.pages.book import Page
from scoutgen.site.scan import Scanned

_HERE = Path(__file__).parent
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
        self._folder, self._common, self._stamps = folder, common, stamps
        self._used: set[str] = set()

    @property
    def keeps(self) -> bool:
        """Whether pages can be kept at all: nothing has a hand in them that is not asked about."""
        return self._common is not None

    def has(self, key: str | None) -> bool:
        """Whether a page is kept under this name; not whether it is whole."""
        return key is not None and (self._folder / key).is_file()

    def use(self, key: str | None) -> None:
        """Hold what another process keeps under this name."""
        if key is not None:
            self._used.add(key)

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

    def find(self, key: str | None) -> RenderedPage | None:
        """A page kept under this name, None where there is none or it is not what was written."""
        if key is None:
            return None
        try:
            seal, _, rest = (self._folder / key).read_bytes().decode().partition("\n")
            found, _, html = rest.partition("\n")
            if seal != _seal(rest):
                return None
            ids, links = json.loads(found)
        except (OSError, ValueError):
            return None
        self._used.add(key)
        return RenderedPage(self._stamped(html), Scanned(set(ids), set(links)))

    def keep(self, key: str | None, page: RenderedPage) -> None:
        """Keep a finished page; one that cannot be written is rendered again next time."""
        if key is None or _MARK in page.html:
            return
        found = json.dumps([sorted(page.scanned.ids), sorted(page.scanned.links)])
        rest = f"{found}\n{self._unstamped(page.html)}"
        self._used.add(key)
        with contextlib.suppress(OSError):
            self._folder.mkdir(parents=True, exist_ok=True)
            half = self._folder / f"{key}.part"
            half.write_bytes(f"{_seal(rest)}\n{rest}".encode())
            half.replace(self._folder / key)

    def forget_others(self) -> None:
        """Delete what this build neither found nor kept."""
        with contextlib.suppress(OSError):
            for place in self._folder.iterdir() if self._folder.is_dir() else ():
                if place.name not in self._used:
                    shutil.rmtree(place) if place.is_dir() else place.unlink()

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
    whole.update(_program().encode())
    return whole.hexdigest()


@cache
def _program() -> str:
    """Digest of everything in this room, and the versions of what it stands on."""
    digest = hashlib.sha256("\n".join(f"{name} {version(name)}" for name in _LIBRARIES).encode())
    for place in sorted(_HERE.rglob("*")):
        if place.is_file() and place.suffix != ".pyc":
            digest.update(place.relative_to(_HERE).as_posix().encode() + b"\n" + place.read_bytes())
    return digest.hexdigest()


def _seal(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()
