"""Pages on their way from markdown to their last bytes: kept ones are taken, the others made, side by side."""

import logging
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import cache, partial

import jinja2
import mkdocs
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import CountHandler
from mkdocs.utils.templates import TemplateContext

from scoutgen.pages.compiled import Compiled
from scoutgen.records.side_by_side import RUNS_EACH, shares, side_by_side
from scoutgen.site.edition_book import EditionBook
from scoutgen.site.finish import Finished
from scoutgen.site.manuscript import Manuscript
from scoutgen.site.rendered import Rendered, RenderedPage, leave_as_it_was
from scoutgen.site.sealed import Sealed
from scoutgen.site.sheets import with_sheet_lines

# Below this many pages to make, a copy of the process costs more than it saves.
_WORTH_A_COPY = 20


class Press:
    """The pages of one build.

    MkDocs goes through all pages on one processor. What is made of a generated page hangs on nothing that another
    page's making changes, so that several processors can make them ahead; MkDocs then passes them by as it does the
    pages of an earlier build. A page that cannot be made ahead without a word of complaint is left to MkDocs, which
    complains again where it is heard.

    Args:
        manuscript: the generated pages.
        finished: takes in what must be looked at together.
        rendered: the pages of earlier builds.
        foot: the line at the foot of every page.
    """

    def __init__(self, manuscript: Manuscript, finished: Finished, rendered: Rendered, foot: str) -> None:
        self._manuscript, self._finished, self._rendered, self._foot = manuscript, finished, rendered, foot
        self._ready: dict[str, RenderedPage] = {}
        #: What fills in the theme's templates; none before a page was made ahead.
        self.env: jinja2.Environment | None = None

    def ahead(
        self, nav: Navigation, config: MkDocsConfig, files: Files, *, only: Collection[str] | None = None
    ) -> None:
        """Make the pages that no earlier build has made, on all processors; none where nobody could share the work.

        Args:
            nav: the menu, whole.
            config: of this build.
            files: all of them.
            only: addresses of the pages to make, which are made in any case; None for all.
        """
        if not self._rendered.keeps:
            return
        pages = [file.page or Page(None, file, config) for file in self._manuscript.files(only)]
        keys = {page.file.dest_uri: self._manuscript.key(page, self._rendered) for page in pages}
        # What is made for another machine is looked at, and held; a damaged page of this one is made when it is met.
        there = self._rendered.has if only is None else self._rendered.find
        missing = [page for page in pages if not there(keys[page.file.dest_uri])]
        runs = shares(missing, self._manuscript.size, each=RUNS_EACH)
        if only is None and (len(runs) == 1 or len(missing) < _WORTH_A_COPY):
            return
        self._name_hand_pages(config, files)
        self.env = self.quick(config.theme.get_env())
        for made in side_by_side([partial(self._make, run, nav, config, files) for run in runs]):
            for address, page in made:
                self._ready[address] = page
                if (key := keys[address]) is not None:
                    self._rendered.kept.use(key)

    def quick(self, env: jinja2.Environment) -> jinja2.Environment:
        """An environment that takes templates as they were compiled before, where only the theme has a hand in them."""
        if self._rendered.keeps:
            env.bytecode_cache = _compiled_theme(" ".join(sorted(env.extensions)))
        return env

    def markdown(self, markdown: str, page: Page, files: Files) -> str:
        """A page's markdown without charts, tables and parts; nothing where the page is there already.

        Raises:
            ManuscriptError: a mark or a link of it is wrong.
        """
        address = page.file.dest_uri
        if address not in self._ready:
            found = self._rendered.find(self._manuscript.key(page, self._rendered))
            if found is None:
                return self._manuscript.slotted(markdown, page, files)
            self._ready[address] = found
        self._manuscript.name(page)
        leave_as_it_was(page)
        return ""

    def finish(self, html: str, page: Page) -> str:
        """The page as it will stand in the site, looked over."""
        address, source = page.file.dest_uri, self._manuscript.source(page.file)
        if address in self._ready:
            return self._finished.take(self._ready.pop(address), address, source)
        html = self._finished.page(self._filled(html, page), address, source)
        if self._finished.is_fit(address):
            made = RenderedPage(html, self._finished.scanned[address])
            self._rendered.keep(self._manuscript.key(page, self._rendered), made)
        return html

    def _name_hand_pages(self, config: MkDocsConfig, files: Files) -> None:
        """Give pages written by hand the titles under which the menu has them: some stand in their text."""
        for file in self._manuscript.hand_files(files):
            page = file.page or Page(None, file, config)
            # One with an error is MkDocs' to complain of.
            with _unheard(), suppress(Exception):
                page.read_source(config)
                page.render(config, files)

    def _filled(self, html: str, page: Page) -> str:
        who = str(page.meta.get("title") or page.title or "")
        return with_sheet_lines(self._manuscript.filled(html, page), who=who, edition=self._foot)

    def _make(
        self, pages: Sequence[Page], nav: Navigation, config: MkDocsConfig, files: Files
    ) -> list[tuple[str, RenderedPage]]:
        """Pages by their address, without those of which there is anything to say."""
        made = []
        # Asked for once: MkDocs looks through all files for them.
        listed = files.documentation_pages()
        for page in pages:
            with _unheard() as said:
                try:
                    html = self._made(page, config, files, partial(get_context, nav, listed, config, page))
                except Exception:  # noqa: BLE001, S112 - MkDocs meets the same and says it
                    continue
            finished = Finished()
            html = finished.page(html, page.file.dest_uri)
            if said.get_counts() or not finished.is_fit(page.file.dest_uri):
                continue
            ready = RenderedPage(html, finished.scanned[page.file.dest_uri])
            self._rendered.keep(self._manuscript.key(page, self._rendered), ready)
            made.append((page.file.dest_uri, ready))
        return made

    def _made(self, page: Page, config: MkDocsConfig, files: Files, context: Callable[[], TemplateContext]) -> str:
        """As MkDocs makes a page (mkdocs.commands.build), with this plugin alone."""
        assert self.env is not None  # noqa: S101 - `ahead` set it
        page.read_source(config)
        page.markdown = self._manuscript.slotted(str(page.markdown), page, files)
        page.render(config, files)
        page.active = True
        try:
            html = self.env.get_template("main.html").render(context())
        finally:
            page.active = False
        return self._filled(html, page)


class PartMade(Exception):  # noqa: N818 - no error: MkDocs knows no other way to end a build
    """A part of a site is made: what it is of, and what was kept of it."""

    def __init__(self, edition_book: EditionBook, kept: tuple[Sealed, ...]) -> None:
        super().__init__("a part is made")
        self.edition_book, self.kept = edition_book, kept

    @property
    def pages(self) -> int:
        """How many pages are in the part."""
        return len(self.edition_book.book.asked or ())


@cache
def _compiled_theme(options: str) -> Compiled:
    return Compiled(f"{mkdocs.__version__} {options}")


@contextmanager
def _unheard() -> Iterator[CountHandler]:
    """Let nobody hear what MkDocs says meanwhile; counted are its warnings and errors."""
    logger, counted = logging.getLogger("mkdocs"), CountHandler(level=logging.WARNING)
    handlers, heard_above = logger.handlers, logger.propagate
    logger.handlers, logger.propagate = [counted], False
    try:
        yield counted
    finally:
        logger.handlers, logger.propagate = handlers, heard_above
