"""The command line. Each command calls one function; everything heavy is imported inside it."""

import atexit
import gc
import signal
import sys

import click

from scoutgen import __version__
from scoutgen.cli.imports import export, import_
from scoutgen.cli.new import new
from scoutgen.cli.project import check, init
from scoutgen.cli.shared import EXIT_CODES
from scoutgen.cli.site import build, cards, pack, passphrase, serve


@click.group(context_settings={"help_option_names": ["-h", "--help"]}, epilog=EXIT_CODES)
@click.version_option(__version__, prog_name="scoutgen")
def main() -> None:
    """Charted games and scouting notes in; an honest, private scouting site out."""
    # Asked to end, a command clears up as it does after an error.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(128 + signal.SIGTERM))
    # The system takes back all memory: to look through a season for rings before takes Python half a second.
    atexit.register(gc.freeze)


for _command in (build, serve, pack, cards, passphrase, check, init, new, import_, export):
    main.add_command(_command)
