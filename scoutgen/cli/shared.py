"""What commands share: their options, exit codes, and how they say what they did."""

import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import date
from functools import wraps
from pathlib import Path
from typing import Any, NoReturn, ParamSpec, TypeVar

import click

EXIT_PROBLEMS, EXIT_USAGE, EXIT_ENVIRONMENT = 1, 2, 3
EXIT_CODES = """\b
Exit codes:
  0  done
  1  problems in the input, or pages not fit to be shown; each is named
  2  a wrong option or argument
  3  the site could not be written, or this machine lacks something
"""
P = ParamSpec("P")
R = TypeVar("R")


class _Day(click.ParamType):  # type: ignore[type-arg]  # generic since click 8.3
    """A day as an argument."""

    name = "day"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> date:
        from scoutgen.site.edition_book import DateError, read_date  # noqa: PLC0415

        try:
            return value if isinstance(value, date) else read_date(str(value))
        except DateError as wrong:
            self.fail(str(wrong), param, ctx)


class _Place(click.Path):
    """A file or folder as an argument; nothing between quotes would be this folder."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:  # noqa: ANN401 - click's
        if not str(value).strip():
            self.fail("there is nothing between the quotes; name a place", param, ctx)
        return super().convert(value, param, ctx)


DAY = _Day()
PLACE = _Place(path_type=Path)
FOLDER = _Place(path_type=Path, file_okay=False)


def project_option(command: Callable[P, R]) -> Callable[P, R]:
    """Give a command its --project."""
    return click.option(
        "--project",
        type=click.Path(exists=True, file_okay=False, path_type=Path),
        default=".",
        show_default="this folder",
        help="Folder that holds content/ and data/.",
    )(command)


def build_options(command: Callable[P, R]) -> Callable[P, R]:
    """Give a command what every build is asked: project, day, edition, what to do with bad rows."""
    for option in (
        click.option("--skip-bad-rows", is_flag=True, help="Leave rows with errors out and list them on a page."),
        click.option(
            "--edition", help="For whom: staff, players or recruiting.  [default: that of mkdocs.yml, else staff]"
        ),
        click.option("--as-of", metavar="DATE", help="Build as of this day, like 2026-04-09.  [default: today]"),
    ):
        command = option(command)
    return project_option(command)


def require_project(project: Path) -> None:
    """End where there is nothing to read, and clear what a killed command left."""
    from scoutgen.records.scratch import sweep  # noqa: PLC0415

    sweep(project)
    if not any((project / name).exists() for name in ("content", "data", "mkdocs.yml")):
        fail(
            EXIT_PROBLEMS,
            f"scoutgen: {project.resolve()}: there is nothing here: no content/ and no data/; begin with: "
            "scoutgen init FOLDER, or name a project with --project",
        )


def fail(code: int, text: str) -> NoReturn:
    """Say why, and end with that exit code."""
    click.echo(text, err=True)
    sys.exit(code)


def with_exit_codes(command: Callable[P, R]) -> Callable[P, R]:
    """Turn every foreseen error into its one clear text and exit code."""

    @wraps(command)
    def run(*args: P.args, **kwargs: P.kwargs) -> R:
        from scoutgen.records.problems import ProblemsFoundError  # noqa: PLC0415
        from scoutgen.records.skeletons import SkeletonError  # noqa: PLC0415
        from scoutgen.site.cards import NoCardsError, PrintingError  # noqa: PLC0415
        from scoutgen.site.charts import DrawingError  # noqa: PLC0415
        from scoutgen.site.edition_book import DateError, TeamError  # noqa: PLC0415
        from scoutgen.site.editions import EditionError  # noqa: PLC0415
        from scoutgen.site.manuscript import ManuscriptError  # noqa: PLC0415
        from scoutgen.site.output import OutputError  # noqa: PLC0415
        from scoutgen.site.passphrase import PassphraseError  # noqa: PLC0415
        from scoutgen.site.settings import BuildFailedError  # noqa: PLC0415

        try:
            return command(*args, **kwargs)
        except ProblemsFoundError as found:
            errors = sum(problem.severity == "error" for problem in found.problems)
            fail(EXIT_PROBLEMS, f"{found}\n{count(errors, 'error')}; nothing was done")
        except (EditionError, DateError, TeamError, SkeletonError, NoCardsError, PassphraseError) as wrong:
            fail(EXIT_USAGE, f"scoutgen: {wrong}")
        except (BuildFailedError, ManuscriptError) as failed:
            fail(EXIT_PROBLEMS, f"scoutgen: {failed}")
        except (OutputError, DrawingError, PrintingError) as refused:
            fail(EXIT_ENVIRONMENT, f"scoutgen: {refused}")
        except BrokenPipeError:
            # Whoever listened has gone; click says nothing to nobody.
            raise
        except OSError as failed:
            if failed.filename is None:
                # No file of ours: what there is to say cannot be written, and what was done is done.
                fail(EXIT_ENVIRONMENT, f"scoutgen: {failed.strerror or failed}")
            place = f"{failed.filename}: "
            stands = (
                "the last site stands"
                if getattr(command, "__name__", "") in {"build", "serve"}
                else "what stood there stands"
            )
            fail(EXIT_ENVIRONMENT, f"scoutgen: {place}{failed.strerror or failed}; {stands}")

    return run


def written(files: Iterable[Path]) -> None:
    """Name every file a command has written."""
    for file in files:
        click.echo(f"wrote {file}")


def count(number: int, noun: str) -> str:
    """A number with its noun, which ends in s where there is more than one."""
    return f"{number:,} {noun}" if number == 1 else f"{number:,} {noun}s"


@contextmanager
def progress_bars() -> Iterator[Callable[[str, int, int], None] | None]:
    """A bar for pages and one for charts, where somebody watches."""
    if not sys.stderr.isatty():
        yield None
        return
    bars: dict[str, Any] = {}

    def step(what: str, done: int, everything: int) -> None:
        if what not in bars:
            bars[what] = click.progressbar(length=everything, label=what, file=sys.stderr)
            bars[what].__enter__()
        bars[what].update(done - bars[what].pos)
        if done >= everything:
            # Another edition begins with a bar of its own.
            bars.pop(what).__exit__(None, None, None)

    try:
        yield step
    finally:
        # A bar hides the cursor until it ends, and an error may come in the middle of one.
        for bar in bars.values():
            bar.__exit__(None, None, None)


@contextmanager
def said() -> Iterator[None]:
    """Show what MkDocs warns of, a line each."""
    import logging  # noqa: PLC0415

    from scoutgen.site.build import log_to  # noqa: PLC0415

    handler = logging.StreamHandler(sys.stderr)
    # Errors come back as exceptions and are shown once, by with_exit_codes; but those of mkdocs.yml only here.
    handler.addFilter(lambda record: record.levelno == logging.WARNING or record.name.startswith("mkdocs.config"))
    handler.setFormatter(logging.Formatter("%(levelname)s %(message)s"))
    undo = log_to(handler)
    try:
        yield
    finally:
        undo()
