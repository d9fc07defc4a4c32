"""Commands between the project and a spreadsheet: import, export."""

import shlex
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scoutgen.cli.shared import (
    EXIT_CODES,
    EXIT_PROBLEMS,
    EXIT_USAGE,
    FOLDER,
    PLACE,
    build_options,
    count,
    fail,
    project_option,
    require_project,
    with_exit_codes,
    written,
)

if TYPE_CHECKING:
    from scoutgen.records.import_project import Report

# Of one column's words that need somebody, those shown on the screen; the map has the others.
MOST_WORDS, LONGEST_WORD = 8, 30
# Of rows that are named by their place.
MOST_PLACES = 20


@click.command("import", epilog=EXIT_CODES)
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option(
    "--with",
    "map_file",
    metavar="MAP.yml",
    type=PLACE,
    help="Which of its columns become which of ours.",
)
@click.option("--guess", is_flag=True, help="Write a first map beside FILE, with what is not recognised as comments.")
@click.option("--skip-bad-rows", is_flag=True, help="Leave rows with errors out and list them.")
@project_option
@with_exit_codes
def import_(*, file: Path, map_file: Path | None, guess: bool, skip_bad_rows: bool, project: Path) -> None:
    """Turn somebody else's CSV or workbook FILE into charts, by a map of its columns."""
    from scoutgen.records.import_file import NO_FILE  # noqa: PLC0415
    from scoutgen.records.import_output import WriteError  # noqa: PLC0415
    from scoutgen.records.import_project import import_file  # noqa: PLC0415
    from scoutgen.site.edition_book import read_date  # noqa: PLC0415

    if guess == (map_file is not None):
        raise click.UsageError("give a map with --with MAP.yml, or have a first one written with --guess")
    if not file.is_file():
        fail(EXIT_USAGE, f"scoutgen: {file}: is {NO_FILE}")
    require_project(project)
    try:
        today = read_date(None)
        if map_file is None:
            _guess(file, project, today)
        else:
            _say(import_file(project, file, map_file, as_of=today, skip_bad_rows=skip_bad_rows))
    except WriteError as refused:
        fail(EXIT_PROBLEMS, f"scoutgen: {refused}")


def _guess(file: Path, project: Path, as_of: date) -> None:
    from scoutgen.records.import_guess import write_guess  # noqa: PLC0415

    guessed = write_guess(file, project, as_of=as_of)
    written([guessed.path])
    click.echo(f"{count(guessed.recognised, 'column')} recognised, {len(guessed.unused)} not")
    if guessed.words:
        words = sum(map(len, guessed.words))
        need = (
            f"{count(words, 'word')} in {count(len(guessed.words), 'column')} {'needs' if words == 1 else 'need'} you"
        )
        click.echo(f"{need}: {'; '.join(map(_some, guessed.words))}")
    if guessed.blank:
        click.echo(f"every row must fill {', '.join(guessed.blank)}: say in the map where from")
    click.echo("read it through, then")
    where = [] if project == Path() else ["--project", str(project)]
    click.echo(shlex.join(["scoutgen", "import", str(file), "--with", str(guessed.path), *where]))


def _some(words: tuple[str, ...]) -> str:
    """Words of one column in a line, however many and whatever stands in them."""
    plain = ["".join(c if c.isprintable() else "?" for c in word[:LONGEST_WORD]) for word in words[:MOST_WORDS]]
    return ", ".join(plain) + (f" and {len(words) - MOST_WORDS:,} more" if len(words) > MOST_WORDS else "")


def _listed(places: Sequence[str]) -> str:
    """Rows of theirs in a line, however many."""
    more = f" and {len(places) - MOST_PLACES:,} more" if len(places) > MOST_PLACES else ""
    return ", ".join(places[:MOST_PLACES]) + more


def _say(report: "Report") -> None:
    """What was done, and what was not."""
    for problem in (*report.bad, *report.conflicts):
        click.echo(str(problem), err=True)
    for words in report.unmatched:
        click.echo(words, err=True)
    if report.unused:
        click.echo(f"not imported: {', '.join(report.unused)}")
    left = [
        (report.bad_rows, "row with errors left out", "rows with errors left out"),
        (len(report.conflicts), "row contradicts a charted one", "rows contradict charted ones"),
        (report.charted, "row charted already", "rows charted already"),
        (report.passed_over, "row passed over", "rows passed over"),
    ]
    said = [f"{number:,} {one if number == 1 else many}" for number, one, many in left if number]
    rest = f"; {', '.join(said)}" if said else ""
    if report.without:
        click.echo(f"left out by without: {_listed(report.without)}")
    if report.gone:
        gone = f"{count(len(report.gone), 'row')} of the import before {'is' if len(report.gone) == 1 else 'are'}"
        click.echo(f"{gone} gone, mended, or charted elsewhere by now: {_listed(report.gone)}")
    if report.changed:
        new = f", {report.new:,} of them new" if report.new != report.rows else ""
        click.echo(f"wrote {report.out} ({count(report.rows, 'row')}{new}){rest}")
    else:
        click.echo(f"nothing new{rest}")
    errors = sum(problem.severity == "error" for problem in report.problems)
    for problem in report.problems:
        click.echo(str(problem), err=True)
    click.echo(f"the project: {count(errors, 'error')}, {count(len(report.problems) - errors, 'warning')}")
    if errors or report.conflicts:
        sys.exit(EXIT_PROBLEMS)


@click.command(epilog=EXIT_CODES)
@build_options
@click.option(
    "--out",
    metavar="FOLDER",
    type=FOLDER,
    required=True,
    help="Folder for the CSV files; made where there is none.",
)
@with_exit_codes
def export(*, project: Path, as_of: str | None, edition: str | None, skip_bad_rows: bool, out: Path) -> None:
    """Write the numbers behind an edition's pages as CSV, one file a list of facts, safe to open in a spreadsheet."""
    from scoutgen.site.export import export_facts  # noqa: PLC0415

    require_project(project)
    done = export_facts(project, out, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)
    for warning in done.edition_book.warnings:
        click.echo(str(warning), err=True)
    written(done.files)
    click.echo(f"{done.edition_book.edition.capitalize()} edition: {count(done.rows, 'row')} of numbers")
