"""The MkDocs plugin: reads, computes and writes the pages before MkDocs begins, and finishes what MkDocs has made."""

import logging
from collections.abc import Callable, Collection
from dataclasses import replace
from functools import partial
from pathlib import Path
from urllib.parse import urlsplit

import jinja2
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import CountHandler

from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.site import finish, installable, memory, offline, theme
from scoutgen.site.building import Building
from scoutgen.site.charts import DrawingError, Drawings, draw_all
from scoutgen.site.edition_book import DateError, EditionBook, TeamError, read_book
from scoutgen.site.editions import EditionError, require_edition
from scoutgen.site.hand_files import leave_out
from scoutgen.site.locked_site import Locked, lock_site
from scoutgen.site.manuscript import Manuscript, ManuscriptError
from scoutgen.site.options import ScoutgenConfig
from scoutgen.site.output import OutputError
from scoutgen.site.passphrase import PassphraseError, refuse_weak
from scoutgen.site.plain import plain
from scoutgen.site.press import PartMade, Press
from scoutgen.site.rendered import Rendered, shared_by_all
from scoutgen.site.salts import kept_salt, refuse_shared, remember_check
from scoutgen.site.search import Found
from scoutgen.site.shelf import BookShelf, TableShelf

log = logging.getLogger("mkdocs.plugins.scoutgen")
_ON_THIS_PHONE = Found(
    "on-this-phone/",
    "On this phone",
    "Everything opens in airplane mode, without a signal: pages, links and search. Keep it, or remove it.",
    also="offline app install home screen plane bus",
)


class ScoutgenPlugin(BasePlugin[ScoutgenConfig]):  # type: ignore[no-untyped-call]  # as above
    """One build of one edition."""

    edition_book: EditionBook
    manuscript: Manuscript
    progress: Callable[[str, int, int], None] | None = None
    drawings: Drawings
    # Of the call, not of the project: whether this build is compared with earlier ones, and is remembered itself.
    compares = True
    remembers = True
    # Only ever in memory: no option of mkdocs.yml, which is logged and committed.
    passphrase: str | None = None
    # Teams whose pages alone are made, for a part of a site.
    only: Collection[str] | None = None
    locked: Locked | None = None

    def __init__(self) -> None:
        self._building: Building | None = None
        self._memory = memory.Memory()
        self._warnings = CountHandler(level=logging.WARNING)
        self._finished: finish.Finished
        self._rendered: Rendered
        self._press: Press
        self._shelf: BookShelf
        self._tables: TableShelf
        self._kept = False
        self._salt = b""

    @event_priority(100)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Everything that can fail on the input happens here: MkDocs clears the output right after."""
        project = self._project(config)
        self._warnings = CountHandler(level=logging.WARNING)
        try:
            require_edition(self.config.edition)
            # Where a link leads, so that the lock and the swap are beside the site itself.
            building = Building(project, Path(config.site_dir).resolve(), locked=bool(self.passphrase))
            with building.begun():
                self._prepare(config, project)
        except ProblemsFoundError as refused:
            raise PluginError(f"The input has errors; the last site stands as it was.\n{refused}") from refused
        except (
            *(EditionError, DateError, TeamError, PassphraseError),
            *(OutputError, ManuscriptError, DrawingError),
        ) as refused:
            raise PluginError(str(refused)) from refused
        # MkDocs writes beside, or out of sight what is to be locked; on_post_build swaps the finished site in.
        self._building = building
        config.site_dir = str(building.place)
        logging.getLogger("mkdocs").addHandler(self._warnings)
        return config

    def _project(self, config: MkDocsConfig) -> Path:
        if self.config.project:
            return Path(self.config.project)
        return Path(config.config_file_path).resolve().parent if config.config_file_path else Path.cwd()

    def _prepare(self, config: MkDocsConfig, project: Path) -> None:
        self._memory = memory.recall(project, self.config.edition)
        self._shelf = BookShelf(project, self.config.edition)
        self._tables = TableShelf(project, self.config.edition)
        made = read_book(
            project,
            as_of=self.config.as_of,
            edition=self.config.edition,
            skip_bad_rows=self.config.skip_bad_rows,
            memory=self._memory if self.compares else None,
            tables=self._tables,
            shelf=self._shelf,
            only=self.only,
            progress=self._step("Writing pages"),
        )
        for problem in made.warnings:
            log.info(str(problem))
        self.edition_book = made
        if self.passphrase:
            self._check_lock(config, self.passphrase)
        self.drawings = draw_all(made.book.charts, project / ".scoutgen" / "charts", self._step("Drawing charts"))
        self._kept = config.use_directory_urls and not _is_served(config)
        theme.impose(config, made.edition, kept=self._kept)
        config.extra["scoutgen"] |= {"built": made.built_line, "built_at": made.built}
        config.extra["scoutgen"] |= {"teams": "", "policy": plain(made.book.policy), "cautions": ""}
        self.manuscript = Manuscript(made.book, self.drawings.svg, project, made.edition)
        self.manuscript.write()

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Join generated pages, facts and assets to what the project wrote by hand."""

        def add(address: str, content: bytes) -> File:
            return File.generated(config, address, content=content)

        made = self.edition_book
        try:
            if made.hand_pages is not None:
                leave_out(files, config, kept=made.hand_pages, others=made.other_pages, every_file=made.every_file)
            self.manuscript.join(files, config)
        except ManuscriptError as problem:
            raise PluginError(str(problem)) from problem
        theme.join_assets(files, add, made.edition, for_disk=not config.use_directory_urls)
        if self._kept:
            text = installable.manifest(config.site_name, theme.asset_address)
            files.append(add(installable.MANIFEST, text.encode()))
        for address, text in made.book.facts.items():
            files.append(add(address, text.encode()))
        self._finished = finish.Finished()
        common = shared_by_all(config, made.edition, map(_place, self.manuscript.hand_files(files)))
        self._rendered = Rendered(_rendered_folder(self._project(config), config, made.edition), common, made.stamps)
        self._press = Press(self.manuscript, self._finished, self._rendered, made.built_line)
        return files

    @event_priority(-100)
    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Make pages ahead, now that the menu is known that stands on all of them; of a part, these are all."""
        self._press.ahead(nav, config, files, only=self.edition_book.book.asked)
        if self.only is not None:
            raise PartMade(
                self.edition_book, (self._shelf.kept, self._tables.shared, self._rendered.kept, self.drawings.kept)
            )
        return nav

    def on_page_markdown(self, markdown: str, *, page: Page, files: Files, **_: object) -> str:
        """Take charts, tables and parts out before Markdown parses the page; one that was rendered before is left."""
        try:
            return self._press.markdown(markdown, page, files)
        except ManuscriptError as problem:
            raise PluginError(str(problem)) from problem

    def on_env(self, env: jinja2.Environment, **_: object) -> jinja2.Environment:
        """Go on with the templates that are read already."""
        return self._press.env or self._press.quick(env)

    @event_priority(-100)
    def on_post_page(self, html: str, *, page: Page, **_: object) -> str:
        """Put the parts in, the policy on top, and look the page over."""
        return self._press.finish(html, page)

    @event_priority(-100)
    def on_post_template(self, html: str, *, template_name: str, **_: object) -> str:
        """The page for unknown addresses is a page like all others."""
        return self._finished.page(html, template_name) if template_name.endswith(".html") else html

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Write the search index, scan, list what phones keep, and only then put the site in its place."""
        site = Path(config.site_dir)
        root = urlsplit(config.site_url or "/").path or "/"
        try:
            entries = [*self.manuscript.search_entries(self._finished), *([_ON_THIS_PHONE] if self._kept else [])]
            finish.write_search(site, entries, for_disk=not config.use_directory_urls)
            wrong = self._finished.problems(site, root)
            if wrong:
                listed = "\n".join(wrong)
                raise PluginError(f"The finished pages are not fit to be shown; the last site stands.\n{listed}")
            if config.strict and self._warnings.get_counts():
                return  # MkDocs ends the build with its own sentence; the last site stands
            assert self._building is not None  # noqa: S101 - on_config set it
            made = self.edition_book
            if self.passphrase:
                self.locked = lock_site(
                    *(site, self._building.next_site, self.passphrase, self._salt),
                    built=made.built,
                    stamps=made.stamps,
                    root=root,
                )
            elif self._kept:
                offline.keep_offline(site, built=made.built, stamps=made.stamps, root=root)
            elif config.use_directory_urls:
                offline.retire(site)
            self._building.swap_in(made.seal)
            self._remember(self._project(config))
            for one in (self._rendered, self._shelf, self._tables):
                one.kept.forget_others()
        finally:
            self._end()

    def _remember(self, project: Path) -> None:
        """Keep what the next build asks for, now that the site stands; where that fails, the site is none the worse."""
        made, edition = self.edition_book, self.config.edition
        if self.passphrase:
            try:
                remember_check(project, edition, self.passphrase)
            except OSError as failed:
                said = f"the check of the passphrase is not kept ({failed.strerror}); another edition may be given it"
                self._warn(Problem(f".scoutgen/checks/{edition}", 0, "", said, "warning"))
        # An edition that tells nothing has nothing to remember, but for a file that was damaged.
        if not self.remembers or not (made.book.said or self._memory != memory.Memory()):
            return
        after = self._memory.after(memory.State(made.built, made.as_of, made.book.said))
        if after is self._memory:
            return  # it stands there
        try:
            memory.remember(project, edition, after)
        except OSError as failed:
            said = f"what this build said is not kept ({failed.strerror}); the next one is compared with an older one"
            self._warn(Problem(f".scoutgen/said/{edition}.json", 0, "", said, "warning"))

    def _warn(self, problem: Problem) -> None:
        self.edition_book = replace(self.edition_book, warnings=(*self.edition_book.warnings, problem))

    def on_build_error(self, **_: object) -> None:
        """Let the next build begin."""
        self._end()

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, **_: object) -> LiveReloadServer:
        """Build again when charts or entries change."""
        project = self._project(config)
        for folder in ("content", "data"):
            if (project / folder).is_dir():
                server.watch(str(project / folder))
        return server

    def _step(self, what: str) -> Callable[[int, int], None] | None:
        return partial(self.progress, what) if self.progress else None

    def _end(self) -> None:
        if self._building is not None:
            self._building.end()
        self._building = None
        logging.getLogger("mkdocs").removeHandler(self._warnings)

    def _check_lock(self, config: MkDocsConfig, passphrase: str) -> None:
        if not config.use_directory_urls:
            raise PassphraseError("a locked site is opened by its worker: take use_directory_urls out of mkdocs.yml")
        made = self.edition_book
        refuse_weak(passphrase, [config.site_name, *(page.title for page in made.book.pages)])
        project = self._project(config)
        warned = refuse_shared(project, made.edition, passphrase)
        # Before anything is built, since without a salt that is kept there would be no use in it.
        self._salt, more = kept_salt(project, made.edition)
        for problem in (*warned, *more):
            self._warn(problem)


def _rendered_folder(project: Path, config: MkDocsConfig, edition: str) -> Path:
    """Where an edition's rendered pages are kept; those that open from a folder are other pages."""
    return project.resolve() / ".scoutgen" / "rendered" / (edition if config.use_directory_urls else f"{edition}-disk")


def _place(file: File) -> Path:
    return Path(str(file.abs_src_path))


def _is_served(config: MkDocsConfig) -> bool:
    """Whether MkDocs serves the site while it is worked on: a copy kept by the browser would hide what changes."""
    host, port = config.dev_addr
    return (config.site_url or "").startswith(f"http://{host}:{port}/")
