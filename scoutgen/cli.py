"""The command line. Each command calls one function; everything heavy is imported inside it."""

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from pathlib import Path
from typing import Any, NoReturn, ParamSpec, TypeVar

import click

from scoutgen import __version__

EXIT_PROBLEMS, EXIT_USAGE, EXIT_ENVIRONMENT = 1, 2, 3
_EXIT_CODES = """\b
Exit codes:
  0  done
  1  problems in the input, or pages not fit to be shown; each is named
  2  a wrong option or argument
  3  the site could not be written, or this machine lacks something
"""
P = ParamSpec("P")
R = TypeVar("R")


@click.group(context_settings={"help_option_names": ["-h", "--help"]}, epilog=_EXIT_CODES)
@click.version_option(__version__, prog_name="scoutgen")
def main() -> None:
    """Charted games and scouting notes in; an honest, private scouting site out."""


def _project_option(command: Callable[P, R]) -> Callable[P, R]:
    return click.option(
        "--project",
        type=click.Path(exists=True, file_okay=False, path_type=Path),
        default=".",
        show_default="this folder",
        help="Folder that holds content/ and data/.",
    )(command)


def _build_options(command: Callable[P, R]) -> Callable[P, R]:
    for option in (
        click.option("--skip-bad-rows", is_flag=True, help="Leave rows with errors out and list them on a page."),
        click.option("--edition", default="staff", show_default=True, help="staff, players or recruiting."),
        click.option("--as-of", metavar="DATE", help="Build as of this day, like 2026-04-09.  [default: today]"),
    ):
        command = option(command)
    return _project_option(command)


def _fail(code: int, text: str) -> NoReturn:
    click.echo(text, err=True)
    sys.exit(code)


def _with_exit_codes(command: Callable[P, R]) -> Callable[P, R]:
    """Turn every foreseen error into its one clear text and exit code."""

    @wraps(command)
    def run(*args: P.args, **kwargs: P.kwargs) -> R:
        from scoutgen.records.problems import ProblemsFoundError  # noqa: PLC0415
        from scoutgen.site.build import BuildFailedError  # noqa: PLC0415
        from scoutgen.site.edition_book import DateError  # noqa: PLC0415
        from scoutgen.site.editions import EditionError  # noqa: PLC0415
        from scoutgen.site.output import OutputError  # noqa: PLC0415

        try:
            return command(*args, **kwargs)
        except ProblemsFoundError as found:
            errors = sum(problem.severity == "error" for problem in found.problems)
            _fail(EXIT_PROBLEMS, f"{found}\n{_count(errors, 'error')}; nothing was built, the last site stands")
        except (EditionError, DateError) as wrong:
            _fail(EXIT_USAGE, f"scoutgen: {wrong}")
        except BuildFailedError as failed:
            _fail(EXIT_PROBLEMS, f"scoutgen: {failed}")
        except OutputError as refused:
            _fail(EXIT_ENVIRONMENT, f"scoutgen: {refused}")
        except OSError as failed:
            place = f"{failed.filename}: " if failed.filename else ""
            _fail(EXIT_ENVIRONMENT, f"scoutgen: {place}{failed.strerror or failed}; the last site stands")

    return run


@main.command(epilog=_EXIT_CODES)
@_build_options
@click.option("--out", type=click.Path(path_type=Path), help="Folder for the site.  [default: site in the project]")
@click.option("--strict/--no-strict", default=True, show_default=True, help="Warnings of MkDocs end the build.")
@_with_exit_codes
def build(
    *, project: Path, as_of: str | None, edition: str, skip_bad_rows: bool, out: Path | None, strict: bool
) -> None:
    """Build the site; with errors in the input, list them all and leave the last site as it is."""
    from scoutgen.site.build import build_site  # noqa: PLC0415

    with _said(), _progress() as progress:
        built = build_site(
            project,
            out,
            as_of=as_of,
            edition=edition,
            skip_bad_rows=skip_bad_rows,
            strict=strict,
            progress=progress,
        )
    for warning in built.warnings:
        click.echo(warning, err=True)
    skipped = f", {_count(built.skipped, 'row')} skipped" if built.skipped else ""
    click.echo(
        f"{_count(built.pages, 'page')}, {_count(built.charts, 'chart')} ({built.drawn} drawn anew), "
        f"{_count(len(built.warnings), 'warning')}{skipped}"
    )
    click.echo(f"Open {(built.out / 'index.html').as_uri()}")
    click.echo("or run `scoutgen serve`, which search needs until a build for handing over by cable exists.")


@main.command(epilog=_EXIT_CODES)
@_build_options
@click.option("--address", default="127.0.0.1:8000", show_default=True, help="Host and port to serve at.")
@_with_exit_codes
def serve(*, project: Path, as_of: str | None, edition: str, skip_bad_rows: bool, address: str) -> None:
    """Serve the site on this machine and rebuild it when charts or entries change."""
    from scoutgen.site.build import serve_site  # noqa: PLC0415

    with _said():
        serve_site(project, address=address, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)


@main.command(epilog=_EXIT_CODES)
@_project_option
@click.option("--as-of", metavar="DATE", help="Check as of this day.  [default: today]")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@_with_exit_codes
def check(*, project: Path, as_of: str | None, form: str) -> None:
    """Read everything and list every problem, without building."""
    from scoutgen.records.problems import ProblemsFoundError  # noqa: PLC0415
    from scoutgen.records.season import read_season  # noqa: PLC0415
    from scoutgen.site.edition_book import read_date  # noqa: PLC0415

    day = read_date(as_of)
    try:
        problems = read_season(project, as_of=day, skip_bad_rows=False).warnings
    except ProblemsFoundError as found:
        problems = found.problems
    errors = sum(problem.severity == "error" for problem in problems)
    if form == "json":
        click.echo(json.dumps([vars(problem) for problem in problems], indent=1, ensure_ascii=False))
    else:
        for problem in problems:
            click.echo(str(problem))
        click.echo(f"{_count(errors, 'error')}, {_count(len(problems) - errors, 'warning')}")
    if errors:
        sys.exit(EXIT_PROBLEMS)


def _count(number: int, noun: str) -> str:
    return f"{number:,} {noun}" if number == 1 else f"{number:,} {noun}s"


@contextmanager
def _progress() -> Iterator[Callable[[int, int], None] | None]:
    """A bar while charts are drawn, where somebody watches."""
    if not sys.stderr.isatty():
        yield None
        return
    bars: list[Any] = []

    def step(done: int, everything: int) -> None:
        if not bars:
            bars.append(click.progressbar(length=everything, label="Drawing charts", file=sys.stderr))
            bars[0].__enter__()
        bars[0].update(done - bars[0].pos)

    try:
        yield step
    finally:
        for bar in bars:
            bar.__exit__(None, None, None)


@contextmanager
def _said() -> Iterator[None]:
    """Show what MkDocs warns of, a line each."""
    import logging  # noqa: PLC0415

    from scoutgen.site.build import log_to  # noqa: PLC0415

    handler = logging.StreamHandler(sys.stderr)
    # Errors come back as exceptions and are shown once, by _with_exit_codes; but those of mkdocs.yml only here.
    handler.addFilter(lambda record: record.levelno == logging.WARNING or record.name.startswith("mkdocs.config"))
    handler.setFormatter(logging.Formatter("%(levelname)s %(message)s"))
    undo = log_to(handler)
    try:
        yield
    finally:
        undo()
