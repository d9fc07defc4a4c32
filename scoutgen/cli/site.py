"""Commands that make a site: build, serve, pack, cards."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scoutgen.cli.shared import (
    EXIT_CODES,
    PLACE,
    build_options,
    count,
    progress_bars,
    require_project,
    said,
    with_exit_codes,
    written,
)

if TYPE_CHECKING:
    from scoutgen.site.build import Built


@click.command(epilog=EXIT_CODES)
@build_options
@click.option("--all", "every", is_flag=True, help="Build every edition, each into a folder of its own under --out.")
@click.option(
    "--out",
    type=PLACE,
    help="Folder for the site.  [default: site in the project; with --all: sites]",
)
@click.option(
    "--only",
    "teams",
    metavar="TEAM",
    multiple=True,
    help="Write a part with this opponent's pages alone, by key, to the file --out; again for more opponents.",
)
@click.option(
    "--join",
    "parts",
    metavar="PART",
    type=PLACE,
    multiple=True,
    help="Take what is in this part; again for more parts.",
)
@click.option("--strict/--no-strict", default=True, show_default=True, help="Warnings of MkDocs end the build.")
@click.option(
    "--passphrase-file",
    metavar="FILE",
    type=PLACE,
    help="Lock the site with the passphrase on the first line of FILE, for any static host.",
)
@with_exit_codes
def build(
    *,
    project: Path,
    as_of: str | None,
    edition: str | None,
    skip_bad_rows: bool,
    every: bool,
    out: Path | None,
    teams: tuple[str, ...],
    parts: tuple[Path, ...],
    strict: bool,
    passphrase_file: Path | None,
) -> None:
    """Build the site; with errors in the input, list them all and leave the last site as it is."""
    from scoutgen.site.build import build_all, build_site  # noqa: PLC0415
    from scoutgen.site.part import take_parts  # noqa: PLC0415

    _refuse_together(
        every=every,
        edition=edition is not None,
        locked=passphrase_file is not None,
        part=bool(teams),
        joined=bool(parts),
    )
    require_project(project)
    if teams:
        _part(project, teams, out, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)
        return
    taken = take_parts(project, parts)
    options: dict[str, Any] = {"as_of": as_of, "skip_bad_rows": skip_bad_rows, "strict": strict}
    with said(), progress_bars() as progress:
        options["progress"] = progress
        if every:
            for number, built in enumerate(build_all(project, out or project / "sites", **options)):
                _say(built, warnings=number == 0)
        else:
            built = build_site(project, out, edition=edition, passphrase_file=passphrase_file, **options)
            for part in taken:
                click.echo(part.told(built.edition, built.edition_book.as_of))
            _say(built)
    if passphrase_file is None:
        click.echo("Search needs a server: `scoutgen serve` on this machine, or any static host; or `scoutgen pack`.")


def _refuse_together(*, every: bool, edition: bool, locked: bool, part: bool, joined: bool) -> None:
    """Refuse options that say two things."""
    for both, text in (
        (every and edition, "--all builds every edition; leave --edition out"),
        (every and locked, "one passphrase would open every edition; lock each with its own: --edition NAME"),
        (every and joined, "a part is of one edition; join it with: --edition NAME"),
        (part and (every or joined or locked), "--only writes a part; the other options are for the whole site"),
    ):
        if both:
            raise click.UsageError(text)


def _part(project: Path, teams: tuple[str, ...], out: Path | None, **options: Any) -> None:  # noqa: ANN401 - as make_part
    from scoutgen.site.part import make_part  # noqa: PLC0415

    if out is None:
        raise click.UsageError("--only writes a part to a file; name it with --out, like --out west.part")
    with said(), progress_bars() as progress:
        part = make_part(project, teams, out, progress=progress, **options)
    for warning in part.warnings:
        click.echo(warning, err=True)
    click.echo(
        f"wrote {part.out} ({part.size_bytes / 1e6:.1f} MB): {part.edition} edition, {count(part.pages, 'page')} of "
        f"{', '.join(part.teams)}; join it with: scoutgen build --join {part.out}"
    )


def _say(built: "Built", *, warnings: bool = True) -> None:
    """What was made, for whom and where; of several editions the warnings are those of the first."""
    _say_counts(built, warnings=warnings)
    if built.locked:
        click.echo(f"Locked: {count(built.locked.blocks, 'block')} of one size, {built.locked.size_bytes / 1e6:.1f} MB")
        click.echo(f"Put all of {built.out} on any host with https; the passphrase opens it there.")
        if built.replaced:
            click.echo("What stood there before could be read by anybody: if it is on a host, take it off there first.")
        return
    click.echo(f"Open {(built.out / 'index.html').as_uri()}")


def _say_counts(built: "Built", *, warnings: bool = True) -> None:
    from scoutgen.records.editions import SHOWS  # noqa: PLC0415 - pandas takes seconds, and `--help` needs none

    for warning in built.warnings if warnings else ():
        click.echo(warning, err=True)
    lost = [(built.rows_left_out, "row"), (built.files_left_out, "file")]
    without = " and ".join(count(number, noun) for number, noun in lost if number)
    where = "Data quality"
    if not SHOWS[built.edition].data_quality:
        with_it = next(edition for edition, shows in SHOWS.items() if shows.data_quality)
        where = f"Data quality in the {with_it} edition"
    skipped = f", {without} left out (see {where})" if without else ""
    if built.replaced not in ("", built.edition):
        click.echo(f"{built.out} held the {built.replaced} edition; it holds the {built.edition} edition now")
    click.echo(
        f"{built.edition.capitalize()} edition: {count(built.pages, 'page')}, {count(built.charts, 'chart')} "
        f"({built.drawn} drawn anew), {count(len(built.warnings), 'warning')}{skipped}"
    )


@click.command(epilog=EXIT_CODES)
@click.option("--out", metavar="FILE", type=PLACE, help="Write it to a new FILE and show nothing.")
@with_exit_codes
def passphrase(*, out: Path | None) -> None:
    """Make a passphrase for a locked site by chance: six short words that can be said and typed."""
    from scoutgen.site.passphrase import make_passphrase, write_passphrase  # noqa: PLC0415

    if out is None:
        click.echo(make_passphrase())
        return
    write_passphrase(out, make_passphrase())
    written([out])


@click.command(epilog=EXIT_CODES)
@build_options
@click.option("--address", default="127.0.0.1:8000", show_default=True, help="Host and port to serve at.")
@with_exit_codes
def serve(*, project: Path, as_of: str | None, edition: str | None, skip_bad_rows: bool, address: str) -> None:
    """Serve the site on this machine and rebuild it when charts or entries change."""
    from scoutgen.site.build import serve_site  # noqa: PLC0415

    require_project(project)
    with said():
        serve_site(project, address=address, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)


@click.command(epilog=EXIT_CODES)
@build_options
@click.option("--out", type=PLACE, help="The zip.  [default: team, edition and day, in the project]")
@with_exit_codes
def pack(*, project: Path, as_of: str | None, edition: str | None, skip_bad_rows: bool, out: Path | None) -> None:
    """Write one zip that opens from a folder by a double click, search included, to hand over by cable."""
    from scoutgen.site.pack import pack_site  # noqa: PLC0415

    require_project(project)
    with said(), progress_bars() as progress:
        packed = pack_site(project, out, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows, progress=progress)
    _say_counts(packed.built)
    click.echo(f"wrote {packed.out} ({packed.size_bytes / 1e6:.1f} MB); unpack it and open {packed.folder}/index.html")


@click.command(epilog=EXIT_CODES)
@build_options
@click.option("--series", required=True, metavar="NAME", help="The series, as its file in content/series/ is named.")
@click.option("--out", type=PLACE, help="Folder for the PDFs.  [default: cards in the project]")
@with_exit_codes
def cards(
    *, project: Path, as_of: str | None, edition: str | None, skip_bad_rows: bool, series: str, out: Path | None
) -> None:
    """Write a series' cards as PDFs, with the Chromium of this machine; without one, say how to print them."""
    from scoutgen.site.cards import print_cards  # noqa: PLC0415

    require_project(project)
    with said():
        printed = print_cards(project, series, out, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows)
    for warning in printed.warnings:
        click.echo(warning, err=True)
    written(printed.files)
