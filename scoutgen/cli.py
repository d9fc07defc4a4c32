"""The command line. Each command calls one function; everything heavy is imported inside it."""

import json
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import date
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
# As records/fields.py has them, which is not loaded for help.
SOURCES = ("video", "own_game", "same_site", "on_campus", "second_hand")
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


_DAY = _Day()


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


def _require_project(project: Path) -> None:
    """End where there is nothing to read."""
    if not any((project / name).exists() for name in ("content", "data", "mkdocs.yml")):
        _fail(
            EXIT_PROBLEMS,
            f"scoutgen: {project.resolve()}: there is nothing here: no content/ and no data/; begin with: "
            "scoutgen init FOLDER, or name a project with --project",
        )


def _fail(code: int, text: str) -> NoReturn:
    click.echo(text, err=True)
    sys.exit(code)


def _with_exit_codes(command: Callable[P, R]) -> Callable[P, R]:
    """Turn every foreseen error into its one clear text and exit code."""

    @wraps(command)
    def run(*args: P.args, **kwargs: P.kwargs) -> R:
        from scoutgen.records.problems import ProblemsFoundError  # noqa: PLC0415
        from scoutgen.records.skeletons import SkeletonError  # noqa: PLC0415
        from scoutgen.site.build import BuildFailedError  # noqa: PLC0415
        from scoutgen.site.cards import NoCardsError, PrintingError  # noqa: PLC0415
        from scoutgen.site.charts import DrawingError  # noqa: PLC0415
        from scoutgen.site.edition_book import DateError  # noqa: PLC0415
        from scoutgen.site.editions import EditionError  # noqa: PLC0415
        from scoutgen.site.manuscript import ManuscriptError  # noqa: PLC0415
        from scoutgen.site.output import OutputError  # noqa: PLC0415

        try:
            return command(*args, **kwargs)
        except ProblemsFoundError as found:
            errors = sum(problem.severity == "error" for problem in found.problems)
            _fail(EXIT_PROBLEMS, f"{found}\n{_count(errors, 'error')}; nothing was done")
        except (EditionError, DateError, SkeletonError, NoCardsError) as wrong:
            _fail(EXIT_USAGE, f"scoutgen: {wrong}")
        except (BuildFailedError, ManuscriptError) as failed:
            _fail(EXIT_PROBLEMS, f"scoutgen: {failed}")
        except (OutputError, DrawingError, PrintingError) as refused:
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

    _require_project(project)
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
    lost = [(built.rows_left_out, "row"), (built.files_left_out, "file")]
    without = " and ".join(_count(number, noun) for number, noun in lost if number)
    skipped = f", {without} left out (see Data quality)" if without else ""
    click.echo(
        f"{_count(built.pages, 'page')}, {_count(built.charts, 'chart')} ({built.drawn} drawn anew), "
        f"{_count(len(built.warnings), 'warning')}{skipped}"
    )
    click.echo(f"Open {(built.out / 'index.html').as_uri()}")
    click.echo("Search needs a server: `scoutgen serve` on this machine, or any static host.")


@main.command(epilog=_EXIT_CODES)
@_build_options
@click.option("--address", default="127.0.0.1:8000", show_default=True, help="Host and port to serve at.")
@_with_exit_codes
def serve(*, project: Path, as_of: str | None, edition: str, skip_bad_rows: bool, address: str) -> None:
    """Serve the site on this machine and rebuild it when charts or entries change."""
    from scoutgen.site.build import serve_site  # noqa: PLC0415

    _require_project(project)
    with _said():
        serve_site(project, address=address, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)


@main.command(epilog=_EXIT_CODES)
@_build_options
@click.option("--series", required=True, metavar="NAME", help="The series, as its file in content/series/ is named.")
@click.option("--out", type=click.Path(path_type=Path), help="Folder for the PDFs.  [default: cards in the project]")
@_with_exit_codes
def cards(
    *, project: Path, as_of: str | None, edition: str, skip_bad_rows: bool, series: str, out: Path | None
) -> None:
    """Write a series' cards as PDFs, with the Chromium of this machine; without one, say how to print them."""
    from scoutgen.site.cards import print_cards  # noqa: PLC0415

    _require_project(project)
    with _said():
        printed = print_cards(project, series, out, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)
    _written(printed)


@main.command(epilog=_EXIT_CODES)
@_project_option
@click.option("--as-of", metavar="DATE", help="Check as of this day.  [default: today]")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="Lines to read, or a list for another program.",
)
@_with_exit_codes
def check(*, project: Path, as_of: str | None, form: str) -> None:
    """Read everything and list every problem, without building."""
    from scoutgen.records.problems import ProblemsFoundError  # noqa: PLC0415
    from scoutgen.records.season import read_season  # noqa: PLC0415
    from scoutgen.site.edition_book import read_date  # noqa: PLC0415

    day = read_date(as_of)
    _require_project(project)
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


@main.command(epilog=_EXIT_CODES)
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
@click.option("--key", default="our-team", show_default=True, help="Our own team's key: how files name it.")
@click.option("--name", default="Our Team", show_default=True, help="Our own team's name.")
@_with_exit_codes
def init(*, folder: Path, key: str, name: str) -> None:
    """Write a whole empty project into FOLDER: commented examples, tables with their headers, schemas for editors."""
    from scoutgen.records.skeletons import init_project  # noqa: PLC0415

    _written(init_project(folder, key, name))
    click.echo(f"Next: scoutgen build --project {folder}")


@main.group(epilog=_EXIT_CODES)
def new() -> None:
    """Write a commented file for something new."""


@new.command("team", epilog=_EXIT_CODES)
@click.argument("key")
@click.argument("name")
@_project_option
@_with_exit_codes
def new_team(*, project: Path, key: str, name: str) -> None:
    """An opponent: KEY is how files name it, NAME how people do."""
    from scoutgen.records import skeletons  # noqa: PLC0415

    _written(skeletons.new_team(project, key, name))


@new.command("player", epilog=_EXIT_CODES)
@click.argument("team")
@click.argument("who")
@_project_option
@_with_exit_codes
def new_player(*, project: Path, team: str, who: str) -> None:
    """A scouting entry on WHO (key, name or number) of the opponent TEAM's roster."""
    from scoutgen.records import skeletons  # noqa: PLC0415

    _written(skeletons.new_player(project, team, who))


@new.command("series", epilog=_EXIT_CODES)
@click.argument("name")
@click.argument("opponent")
@click.argument("start", metavar="START", type=_DAY)
@click.option("--end", type=_DAY, help="Last day.  [default: two days after START]")
@_project_option
@_with_exit_codes
def new_series(*, project: Path, name: str, opponent: str, start: date, end: date | None) -> None:
    """A series NAME against OPPONENT from the day START, like 2026-04-10."""
    from scoutgen.records import skeletons  # noqa: PLC0415

    _written(skeletons.new_series(project, name, opponent, start, end))


@new.command("game", epilog=_EXIT_CODES)
@click.argument("key")
@click.argument("day", metavar="DAY", type=_DAY)
@click.option("--away", required=True, help="Key of the visiting team.")
@click.option("--home", required=True, help="Key of the home team.")
@click.option("--source", required=True, type=click.Choice(SOURCES), help="How it was lawfully seen.")
@click.option("--charted-by", required=True, help="Who charts it, like AJR.")
@_project_option
@_with_exit_codes
def new_game(*, project: Path, key: str, day: date, away: str, home: str, source: str, charted_by: str) -> None:
    """A game to chart: a row among the games and, for each other table, a file with its header."""
    from scoutgen.records import skeletons  # noqa: PLC0415

    games, files = skeletons.new_game(project, key, day, away=away, home=home, source=source, charted_by=charted_by)
    click.echo(f"added a row to {games}")
    _written(files)


def _written(files: Iterable[Path]) -> None:
    for file in files:
        click.echo(f"wrote {file}")


def _count(number: int, noun: str) -> str:
    return f"{number:,} {noun}" if number == 1 else f"{number:,} {noun}s"


@contextmanager
def _progress() -> Iterator[Callable[[str, int, int], None] | None]:
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
            bars[what].__exit__(None, None, None)

    yield step


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
