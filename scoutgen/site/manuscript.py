"""The generated pages on their way through MkDocs: on disk as markdown, in the menu, in slots, in search."""

import re
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from scoutgen.pages.book import Book
from scoutgen.pages.book import Page as BookPage
from scoutgen.site.charts import figure
from scoutgen.site.editions import DEFAULT
from scoutgen.site.finish import Finished
from scoutgen.site.marks import MarkError, charts_on, fill, to_slots
from scoutgen.site.plain import plain
from scoutgen.site.rendered import Rendered
from scoutgen.site.search import Found, sentences
from scoutgen.site.tables import framed

_ADDRESS = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*(?:/[a-z0-9]+(?:-[a-z0-9]+)*)*$")
_SWITCH = '<div class="side-slot"></div>'
_FIRST_HEADING_END = re.compile(r"</h1>")
# Where the policy on devices stands in full.
_CAUTIONS = "cautions.md"
# The page that lists all opponents, for the bar under the thumb.
_TEAMS = ("teams", "teams/index", "opponents", "opponents/index")


class ManuscriptError(ValueError):
    """Generated pages that cannot become a site; the text names page and reason."""


class Manuscript:
    """The pages of a book between markdown and HTML.

    Args:
        book: what to show.
        drawings: SVG by chart key.
        project: the project's folder; the markdown is written to .scoutgen/markdown in it, so that it can be read.
        edition: each but the staff's has a folder of its own beside that, as .scoutgen/markdown-players.
    """

    def __init__(self, book: Book, drawings: Mapping[str, str], project: Path, edition: str = DEFAULT) -> None:
        self._book = book
        self._charts = {key: figure(svg, book.charts[key]) for key, svg in drawings.items()}
        self._project = project.resolve()
        self._folder = self._project / ".scoutgen" / markdown_folder(edition)
        self._pages = {f"{page.address}.md": page for page in book.pages}
        self._slots: dict[str, list[str]] = {}
        self._hand_written: list[Page] = []
        self._files: dict[str, File] = {}
        self._theme_folders: list[str] = []
        odd = [page.address for page in book.pages if not _ADDRESS.match(page.address)]
        if odd:
            raise ManuscriptError(f"{odd[0]}: an address is lower-case letters, digits, hyphens and slashes")
        times = Counter(page.address for page in book.pages)
        twice = sorted(address for address, count in times.items() if count > 1)
        if twice:
            raise ManuscriptError(f"{twice[0]}: two pages have this address")

    def write(self) -> None:
        """Write every page's markdown to disk, only where it has changed, and remove pages that are no more.

        Of a part the pages asked for are written, and all others left as they are.
        """
        asked = self._book.asked
        for name, page in self._pages.items():
            if asked is not None and page.address not in asked:
                continue
            place = self._folder / name
            place.parent.mkdir(parents=True, exist_ok=True)
            text = page.markdown.encode()
            if not place.is_file() or place.read_bytes() != text:
                place.write_bytes(text)
        for place in sorted(self._folder.rglob("*"), reverse=True) if asked is None else ():
            if place.is_file() and place.relative_to(self._folder).as_posix() not in self._pages:
                place.unlink()
            elif place.is_dir() and not any(place.iterdir()):
                place.rmdir()

    def join(self, files: Files, config: MkDocsConfig) -> None:
        """Add the pages to what the project wrote by hand, and make the menu.

        Raises:
            ManuscriptError: a hand-written page or file stands at a generated address.
        """
        self._theme_folders = list(config.theme.dirs)
        by_hand = {file.dest_uri.casefold(): self.source(file) for file in files if file.src_dir == config.docs_dir}
        for name, page in self._pages.items():
            level = InclusionLevel.INCLUDED if page.menu else InclusionLevel.NOT_IN_NAV
            file = File.generated(config, name, abs_src_path=str(self._folder / name), inclusion=level)
            taken = by_hand.get(file.dest_uri.casefold()) or by_hand.get(name.casefold())
            if taken:
                raise ManuscriptError(f"{taken}: its address is that of a generated page; give it another name")
            files.append(file)
            self._files[name] = file
        hand_pages = [f.src_uri for f in files if f.is_documentation_page() and f.src_uri not in self._pages]
        own: list[object] = [*_menu(self._book.pages)]
        config.nav = own + (config.nav if config.nav is not None else list(hand_pages))
        if _CAUTIONS in self._pages:
            config.extra["scoutgen"]["cautions"] = files.src_uris[_CAUTIONS].url
        teams = next((f"{name}.md" for name in _TEAMS if f"{name}.md" in self._pages), None)
        if teams:
            config.extra["scoutgen"]["teams"] = files.src_uris[teams].url

    def files(self, only: Collection[str] | None = None) -> list[File]:
        """The generated pages' files, in the order of the menu, perhaps only some; known once they are joined."""
        return [file for name, file in self._files.items() if only is None or name.removesuffix(".md") in only]

    def size(self, page: Page) -> int:
        """How long a generated page's markdown is, in characters."""
        return len(self._pages[page.file.src_uri].markdown)

    def source(self, file: File) -> str:
        """The file of the project that a page comes from, as problems name it."""
        place = Path(file.abs_src_path or file.src_uri)
        return place.relative_to(self._project).as_posix() if place.is_relative_to(self._project) else place.as_posix()

    def hand_files(self, files: Files) -> list[File]:
        """The pages written by hand."""
        return [file for file in files.documentation_pages() if file.src_uri not in self._pages]

    def key(self, page: Page, rendered: Rendered) -> str | None:
        """The name a finished page is kept under; None for one written by hand."""
        made = self._pages.get(page.file.src_uri)
        if made is None:
            return None
        return rendered.key(made, [self._charts[key] for key in charts_on(made.markdown) if key in self._charts])

    def name(self, page: Page) -> None:
        """Give a made page its title; the theme writes titles as they are.

        A menu's label stays what the menu calls the page.
        """
        made = self._pages.get(page.file.src_uri)
        if made is not None:
            page.meta["title"] = plain(made.title)
            if not made.menu:
                page.title = page.meta["title"]

    def slotted(self, markdown: str, page: Page, files: Files) -> str:
        """A made page's markdown without charts, tables and parts; they come back in `filled`.

        A page written by hand has none: what looks like a mark there is what somebody wrote.
        """
        source = page.file.src_uri
        self.name(page)
        if source not in self._pages:
            self._hand_written.append(page)
            icon = page.meta.get("icon")
            if icon and not any((Path(place) / ".icons" / f"{icon}.svg").is_file() for place in self._theme_folders):
                raise ManuscriptError(f"{self.source(page.file)}: icon: there is no icon {icon!r} in the theme")
            return markdown
        folder = dirname(source)

        def link(target: str) -> str:
            path, _, anchor = target.partition("#")
            if not path:
                return target
            file = files.get_file_from_path(normpath(join(folder, unquote(path))))
            if file is None:
                raise MarkError(f"a link leads nowhere: {target}")
            url = get_relative_url(file.url, page.file.url)
            return f"{url}#{anchor}" if anchor else url

        try:
            text, self._slots[source] = to_slots(markdown, self._charts, link)
        except MarkError as problem:
            raise ManuscriptError(f"{self.source(page.file)}: {problem}") from problem
        return text

    def has_sides(self, page: Page) -> bool:
        """Whether the page has parts for left- and right-handed hitters."""
        return any(slot.startswith('<div class="side"') for slot in self._slots.get(page.file.src_uri, ()))

    def filled(self, page_html: str, page: Page) -> str:
        """The finished page with its parts in place, and the switch under its first heading."""
        if self.has_sides(page):
            page_html = _FIRST_HEADING_END.sub(f"</h1>{_SWITCH}", page_html, count=1)
        if page.file.src_uri not in self._pages:
            return framed(page_html)
        return fill(page_html, self._slots.get(page.file.src_uri, []))

    def search_entries(self, finished: Finished) -> Iterator[Found]:
        """What search finds: as generated pages say, and hand-written ones whole."""
        for name, page in self._pages.items():
            file = self._files[name]
            for entry in page.search:
                if entry.anchor and entry.anchor not in finished.scanned[file.dest_uri].ids:
                    finished.missing_anchor(file.dest_uri, entry.anchor)
                anchor = f"#{entry.anchor}" if entry.anchor else ""
                yield Found(_location(file.url) + anchor, entry.title, entry.text, entry.boost, keys=entry.keys)
        for hand in self._hand_written:
            text, tables = sentences(hand.content or "")
            yield Found(_location(hand.url), str(hand.title), text, also=tables)


def markdown_folder(edition: str) -> str:
    """Where in .scoutgen/ the pages of an edition are written."""
    return "markdown" if edition == DEFAULT else f"markdown-{edition}"


def _location(url: str) -> str:
    """A page's address as search results link to it, from the site's root."""
    return "" if url in {".", "./"} else url


def _menu(pages: tuple[BookPage, ...]) -> list[dict[str, object]]:
    """MkDocs' menu from the ways the pages name; a page whose way is also a section opens that section."""
    sections = {page.menu[:depth] for page in pages for depth in range(1, len(page.menu))}
    top: list[dict[str, object]] = []
    lists: dict[tuple[str, ...], list[dict[str, object]]] = {(): top}

    def section(way: tuple[str, ...]) -> list[dict[str, object]]:
        if way not in lists:
            lists[way] = []
            section(way[:-1]).append({plain(way[-1]): lists[way]})
        return lists[way]

    for page in pages:
        if not page.menu:
            continue
        source = f"{page.address}.md"
        if page.menu in sections:
            section(page.menu).insert(0, {"Overview": source})
        else:
            section(page.menu[:-1]).append({plain(page.menu[-1]): source})
    return top
