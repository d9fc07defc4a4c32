"""`scoutgen new`: a commented file for something new."""

from datetime import date
from pathlib import Path

import click

from scoutgen.cli.shared import DAY, EXIT_CODES, project_option, require_project, with_exit_codes, written

# As records/fields.py has them, which is not loaded for help.
SOURCES = ("video", "own_game", "same_site", "on_campus", "second_hand")


@click.group(epilog=EXIT_CODES)
def new() -> None:
    """Write a commented file for something new."""


@new.command("team", epilog=EXIT_CODES)
@click.argument("key")
@click.argument("name")
@project_option
@with_exit_codes
def new_team(*, project: Path, key: str, name: str) -> None:
    """An opponent: KEY is how files name it, NAME how people do."""
    from scoutgen.records import skeletons  # noqa: PLC0415

    require_project(project)
    written(skeletons.new_team(project, key, name))


@new.command("player", epilog=EXIT_CODES)
@click.argument("team")
@click.argument("who")
@project_option
@with_exit_codes
def new_player(*, project: Path, team: str, who: str) -> None:
    """A scouting entry on WHO (key, name or number) of the opponent TEAM's roster."""
    from scoutgen.records import skeletons  # noqa: PLC0415

    require_project(project)
    written(skeletons.new_player(project, team, who))


@new.command("series", epilog=EXIT_CODES)
@click.argument("name")
@click.argument("opponent")
@click.argument("start", metavar="START", type=DAY)
@click.option("--end", type=DAY, help="Last day.  [default: two days after START]")
@project_option
@with_exit_codes
def new_series(*, project: Path, name: str, opponent: str, start: date, end: date | None) -> None:
    """A series NAME against OPPONENT from the day START, like 2026-04-10."""
    from scoutgen.records import skeletons  # noqa: PLC0415

    require_project(project)
    written(skeletons.new_series(project, name, opponent, start, end))


@new.command("game", epilog=EXIT_CODES)
@click.argument("key")
@click.argument("day", metavar="DAY", type=DAY)
@click.option("--away", required=True, help="Key of the visiting team.")
@click.option("--home", required=True, help="Key of the home team.")
@click.option("--source", required=True, type=click.Choice(SOURCES), help="How it was lawfully seen.")
@click.option("--charted-by", required=True, help="Who charts it, like AJR.")
@project_option
@with_exit_codes
def new_game(*, project: Path, key: str, day: date, away: str, home: str, source: str, charted_by: str) -> None:
    """A game to chart: a row among the games and, for each other table, a file with its header."""
    from scoutgen.records import skeletons  # noqa: PLC0415

    require_project(project)
    games, files = skeletons.new_game(project, key, day, away=away, home=home, source=source, charted_by=charted_by)
    click.echo(f"added a row to {games}")
    written(files)
