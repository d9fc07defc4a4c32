"""One call from a project's folder to the numbers behind an edition's pages, as CSV files in a folder."""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from scoutgen.site.edition_book import EditionBook, read_book
from scoutgen.site.editions import require_edition
from scoutgen.site.output import OutputError, check_out

# Says of a folder that an export wrote it, so that the next one may replace what is in it.
MARKER = ".scoutgen-export"


@dataclass(frozen=True)
class Exported:
    """What was written, for whom, and how many rows of numbers that are."""

    edition_book: EditionBook
    files: tuple[Path, ...]
    rows: int


def export_facts(
    project: Path, out: Path, *, as_of: str | None = None, edition: str | None = None, skip_bad_rows: bool = False
) -> Exported:
    """Write the numbers behind an edition's pages.

    Args:
        project: folder with content/ and data/.
        out: the folder; made, or one that an export wrote before, whose files are replaced.
        as_of: ISO date, today where none is given.
        edition: whose; the staff's where none is given. What it leaves out is in no file.
        skip_bad_rows: leave rows with errors out instead of refusing.

    Raises:
        ProblemsFoundError: the input has errors.
        EditionError, DateError: an option that cannot be followed.
        OutputError: the folder holds something else.
        OSError: it cannot be written.
    """
    # Here and not above: it brings numpy, which `scoutgen --help` does without.
    from scoutgen.pages.exported import exported  # noqa: PLC0415
    from scoutgen.records.writing import write_whole  # noqa: PLC0415

    edition = "staff" if edition is None else edition
    require_edition(edition)
    _check_folder(out, project)
    made = read_book(project, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows, of_teams=True)
    tables = exported(made.book.facts)
    before = _former(out)
    # First of all, so that an export cut off can be taken up again.
    write_whole(out / MARKER, _marked(edition, {*before, *tables}))
    for name in before:
        if name not in tables:
            (out / name).unlink(missing_ok=True)
    for name, text in tables.items():
        write_whole(out / name, text.encode())
    write_whole(out / MARKER, _marked(edition, tables))
    return Exported(made, tuple(out / name for name in tables), sum(text.count("\n") - 1 for text in tables.values()))


def _marked(edition: str, names: Iterable[str]) -> bytes:
    return f"{json.dumps({'edition': edition, 'files': sorted(names)})}\n".encode()


def _check_folder(out: Path, project: Path) -> None:
    """Refuse a folder that holds anything but an export.

    Raises:
        OutputError: it holds something else, or is part of what the project is read from.
    """
    if not (out / MARKER).is_file():
        check_out(out, project)
        if out.is_dir() and any(out.iterdir()):
            raise OutputError(f"{out}: holds a site; choose another folder for the numbers")


def _former(out: Path) -> list[str]:
    """The files of the export before; nothing but plain names of CSV files is taken from its list."""
    try:
        names = json.loads((out / MARKER).read_text(encoding="utf-8"))["files"]
        return [name for name in names if Path(name).name == name and name.endswith(".csv")]
    except (OSError, ValueError, KeyError, TypeError):
        return []
