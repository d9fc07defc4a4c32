"""One call from a project's folder to a finished site, or to a server that rebuilds it."""

import gc
import logging
import os
import tempfile
from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from scoutgen.records.scratch import scratch
from scoutgen.records.writing import naming
from scoutgen.site.edition_book import EditionBook
from scoutgen.site.editions import KNOWN, require_edition
from scoutgen.site.locked_site import Locked
from scoutgen.site.output import check_out, edition_at
from scoutgen.site.passphrase import read_passphrase
from scoutgen.site.settings import BuildFailedError, settings_of

if TYPE_CHECKING:
    from scoutgen.site.press import PartMade


@dataclass(frozen=True)
class Built:
    """What a build made: for whom, where and what it says, counts, and whose edition stood there before, if any."""

    edition: str
    out: Path
    edition_book: EditionBook
    site_name: str
    pages: int
    charts: int
    drawn: int
    warnings: tuple[str, ...]
    rows_left_out: int
    files_left_out: int
    replaced: str = ""
    locked: Locked | None = None


def build_site(
    project: Path,
    out: Path | None = None,
    *,
    as_of: str | None = None,
    edition: str | None = None,
    skip_bad_rows: bool = False,
    strict: bool = True,
    memory: Literal["keep", "read", "none"] = "keep",
    for_disk: bool = False,
    progress: Callable[[str, int, int], None] | None = None,
    passphrase_file: Path | None = None,
) -> Built:
    """Build a project's site.

    Args:
        project: folder with content/ and data/; mkdocs.yml and content/pages/ may be absent.
        out: where the site goes, by default `site_dir` of mkdocs.yml, else `site`.
        as_of: ISO date the site is made for; by default that of mkdocs.yml, else today.
        edition: which edition; by default that of mkdocs.yml, else the staff's.
        skip_bad_rows: leave rows with errors out instead of refusing.
        strict: warnings of MkDocs end the build.
        memory: "keep" compares with what the last build of the edition said and remembers what this one says; "read"
            compares alone; "none" does neither.
        for_disk: pages that open from a folder without a host, search included.
        progress: called with what is done (pages, charts), the number done and the number of all.
        passphrase_file: its first line locks the site.

    Raises:
        ProblemsFoundError: the input has errors.
        EditionError, DateError, PassphraseError: an option that cannot be followed.
        OutputError: the site cannot be written there.
        BuildFailedError: anything else MkDocs or the last look refused.
        OSError: the disk is full or cannot be written.
    """
    with _quiet_theme():
        if edition is not None:
            require_edition(edition)
        if out is not None:
            check_out(out, project, locked=passphrase_file is not None)
        passphrase, careless = read_passphrase(passphrase_file, out, project) if passphrase_file else (None, [])
        settings = settings_of(project, out, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)
        if for_disk:
            settings["use_directory_urls"] = False
        with _failing_well():
            config = _load(settings, strict=strict)
            plugin: Any = config.plugins["scoutgen"]
            plugin.progress = progress
            plugin.compares, plugin.remembers = memory != "none", memory == "keep"
            plugin.passphrase = passphrase
            place = Path(config.site_dir)
            before = edition_at(place)
            _build(config)
        made = plugin.edition_book
        return Built(
            edition=made.edition,
            out=place,
            edition_book=made,
            site_name=config.site_name,
            pages=len(made.book.pages),
            charts=len(made.book.charts),
            drawn=plugin.drawings.drawn,
            warnings=(*careless, *map(str, made.warnings)),
            rows_left_out=made.rows_left_out,
            files_left_out=made.files_left_out,
            replaced=before,
            locked=plugin.locked,
        )


def build_part(
    project: Path,
    out: Path,
    teams: Collection[str],
    *,
    as_of: str | None = None,
    edition: str | None = None,
    skip_bad_rows: bool = False,
    progress: Callable[[str, int, int], None] | None = None,
) -> "PartMade":
    """Make some opponents' pages and keep them in .scoutgen/, where the whole site's build finds them.

    Args:
        project: as in build_site.
        out: where the site would go; nothing is written there.
        teams: the opponents, by key.
        as_of: as in build_site, as are those below.
        edition: see there.
        skip_bad_rows: see there.
        progress: see there.

    Raises:
        TeamError: nobody we play has that key.
        Exception: whatever build_site raises.
    """
    with _quiet_theme():
        from scoutgen.site.press import PartMade  # noqa: PLC0415 - MkDocs is slow to read

        if edition is not None:
            require_edition(edition)
        settings = settings_of(project, out, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)
        with _failing_well():
            config = _load(settings, strict=True)
            plugin: Any = config.plugins["scoutgen"]
            plugin.progress, plugin.compares, plugin.only = progress, False, frozenset(teams)
            try:
                _build(config)
            except PartMade as made:
                return made
        raise AssertionError("a part ends the build")


def build_all(project: Path, out: Path, **options: Any) -> Iterator[Built]:  # noqa: ANN401 - as build_site
    """Build every edition into a folder of its own, each swapped in as soon as it is whole.

    Args:
        project: as in build_site.
        out: the folder over them; an edition goes into the folder of its name.
        options: as in build_site.

    Yields:
        What was built, edition by edition. What is raised leaves those before it built, and the sites of the others
        as they were.

    Raises:
        OutputError: one of the folders cannot be written to; none is built.
        Exception: whatever build_site raises.
    """
    # Before the first is built, so that none is new where another cannot be.
    for edition in KNOWN:
        check_out(out / edition, project)
    for edition in KNOWN:
        yield build_site(project, out / edition, edition=edition, **options)


def serve_site(project: Path, *, address: str = "127.0.0.1:8000", **options: Any) -> None:  # noqa: ANN401 - as build_site
    """Serve a project's site and rebuild it whenever its input changes, until interrupted.

    Args:
        project: as in build_site.
        address: host and port.
        options: as_of, edition, skip_bad_rows as in build_site.
    """
    with _quiet_theme():
        from mkdocs.commands.serve import serve  # noqa: PLC0415
        from mkdocs.exceptions import Abort  # noqa: PLC0415

        if options.get("edition") is not None:
            require_edition(options["edition"])
        settings = settings_of(project, None, **options)
        settings.pop("site_dir", None)
        # MkDocs shows a copy of the site in the system's folder for such things, where a kill would leave it.
        before = tempfile.tempdir
        try:
            with scratch(project, "serve") as place:
                tempfile.tempdir = str(place)
                serve(**settings, dev_addr=address)
        except Abort as stop:
            raise _reason(stop) from None
        finally:
            tempfile.tempdir = before


def _load(settings: dict[str, Any], *, strict: bool) -> Any:  # noqa: ANN401 - MkDocs' own
    from mkdocs.config import load_config  # noqa: PLC0415 - the theme's notice is silenced first

    return load_config(**settings, strict=strict)


def _build(config: Any) -> None:  # noqa: ANN401 - as above
    from mkdocs.commands.build import build  # noqa: PLC0415 - as above

    with naming(Path(config.site_dir)), _seldom_collecting():
        try:
            build(config)
        except (KeyboardInterrupt, SystemExit):
            # MkDocs tells its plugins of errors alone.
            config.plugins["scoutgen"].on_build_error()
            raise


@contextmanager
def _seldom_collecting() -> Iterator[None]:
    """Look seldom for rings of things that nobody needs: a build makes millions of things and few rings."""
    before = gc.get_threshold()
    gc.set_threshold(100_000, 20, 50)
    try:
        yield
    finally:
        gc.set_threshold(*before)


@contextmanager
def _failing_well() -> Iterator[None]:
    """Turn what MkDocs raises into what `build_site` does."""
    from mkdocs.exceptions import Abort, MkDocsException  # noqa: PLC0415 - as above

    try:
        yield
    except Abort as stop:
        raise _reason(stop) from None
    except MkDocsException as stop:
        raise BuildFailedError(str(stop)) from stop
    except RecursionError as stop:
        # Pages are measured when they are read; this is for what a Markdown extension of the project makes of them.
        raise BuildFailedError("a page is nested deeper than Markdown can follow; flatten it") from stop


def _reason(stop: BaseException) -> BaseException:
    """What to raise for MkDocs' Abort: our own error behind it, else its text."""
    from mkdocs.exceptions import PluginError  # noqa: PLC0415

    error: BaseException | None = stop
    while error is not None:
        if isinstance(error, PluginError):
            return error.__cause__ or BuildFailedError(str(error))
        error = error.__cause__ or error.__context__
    return BuildFailedError(str(stop))


@contextmanager
def _quiet_theme() -> Iterator[None]:
    """Material prints a long notice about its own end at every import; we have read it (pyproject.toml pins it)."""
    before = os.environ.get("NO_MKDOCS_2_WARNING")
    os.environ["NO_MKDOCS_2_WARNING"] = "1"
    try:
        yield
    finally:
        if before is None:
            os.environ.pop("NO_MKDOCS_2_WARNING", None)
        else:
            os.environ["NO_MKDOCS_2_WARNING"] = before


def log_to(handler: logging.Handler) -> Callable[[], None]:
    """Send what MkDocs and the plugin say to a handler; returns what undoes it."""
    logger = logging.getLogger("mkdocs")
    logger.addHandler(handler)
    logger.setLevel(logging.INFO)
    return lambda: logger.removeHandler(handler)
