"""Commands on a project's files: check them, begin a project."""

import json
import sys
from pathlib import Path

import click

from scoutgen.cli.shared import (
    EXIT_CODES,
    EXIT_PROBLEMS,
    count,
    project_option,
    require_project,
    with_exit_codes,
    written,
)


@click.command(epilog=EXIT_CODES)
@project_option
@click.option("--as-of", metavar="DATE", help="Check as of this day.  [default: today]")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="Lines to read, or a list for another program.",
)
@with_exit_codes
def check(*, project: Path, as_of: str | None, form: str) -> None:
    """Read everything and list every problem, without building."""
    from scoutgen.records.problems import ProblemsFoundError  # noqa: PLC0415
    from scoutgen.records.season import read_season  # noqa: PLC0415
    from scoutgen.site.edition_book import read_date  # noqa: PLC0415

    day = read_date(as_of)
    require_project(project)
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
        click.echo(f"{count(errors, 'error')}, {count(len(problems) - errors, 'warning')}")
    if errors:
        sys.exit(EXIT_PROBLEMS)


@click.command(epilog=EXIT_CODES)
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
@click.option("--key", default="our-team", show_default=True, help="Our own team's key: how files name it.")
@click.option("--name", default="Our Team", show_default=True, help="Our own team's name.")
@with_exit_codes
def init(*, folder: Path, key: str, name: str) -> None:
    """Write a whole empty project into FOLDER: commented examples, tables with their headers, schemas for editors."""
    from scoutgen.records.skeletons import init_project  # noqa: PLC0415

    written(init_project(folder, key, name))
    click.echo(f"Next: scoutgen build --project {folder}")
