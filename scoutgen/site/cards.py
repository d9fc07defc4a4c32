"""Print pages as PDF, through a headless Chromium where one is installed: which pages a series has, and how to print.

The pages are built anew in a folder of their own, so that a card is as of the day it says, and read from disk: the
browser asks no server for anything.
"""

import os
import shutil
import subprocess
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from scoutgen.records.problems import Problem
from scoutgen.records.scratch import scratch
from scoutgen.records.writing import write_whole
from scoutgen.site.build import build_site
from scoutgen.site.editions import DEFAULT, require_cards
from scoutgen.site.output import OutputError

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
# Arial, and what was drawn to its widths.
_AS_NARROW = ("Arial", "Helvetica", "Liberation Sans", "Arimo", "Nimbus Sans")
# Of a page with a few cards; a browser that has not printed it by then will not.
_SECONDS = 90
_QUIET = (
    "--headless", "--disable-gpu", "--no-first-run", "--disable-extensions", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--host-resolver-rules=MAP * ~NOTFOUND", "--no-pdf-header-footer",
)  # fmt: skip


@dataclass(frozen=True)
class PrintedCards:
    """PDFs that stand, and what to say of them besides."""

    files: tuple[Path, ...]
    warnings: tuple[str, ...] = ()


class NoCardsError(ValueError):
    """A series that is none, or has no cards; the text says which have."""


class PrintingError(Exception):
    """This machine cannot print the pages; the text says how to do it by hand."""


def print_cards(
    project: Path,
    series: str,
    out: Path | None = None,
    *,
    as_of: str | None = None,
    edition: str | None = None,
    skip_bad_rows: bool = False,
) -> PrintedCards:
    """Write the cards of a series as PDFs, one a page of cards.

    Args:
        project: folder with content/ and data/.
        series: its name, that of its file in content/series/.
        out: folder for the PDFs, by default `cards` in the project, or a folder of the edition's name in it.
        as_of: as in `build_site`.
        edition: as in `build_site`.
        skip_bad_rows: as in `build_site`.

    Returns:
        The files written, in the order of their names, and what was amiss with what is remembered of them.

    Raises:
        NoCardsError: no such series, or one without cards.
        EditionError: an edition without cards.
        PrintingError: no browser, or one that does not print.
        And whatever `build_site` raises.
    """
    # Here and not above: it brings pandas, which a command that only asks for this module's errors does not need.
    from scoutgen.pages.cards import cards_folder  # noqa: PLC0415
    from scoutgen.pages.printed import cells_of  # noqa: PLC0415
    from scoutgen.site.sheets_printed import place, remember  # noqa: PLC0415

    if edition is not None:
        require_cards(edition)
    known = sorted(file.stem for file in (project / "content" / "series").glob("*.yml"))
    if series not in known:
        raise NoCardsError(f"there is no series '{series}'; {_named(known, 'content/series/ has')}")
    browser = find_browser()
    if browser is None:
        raise PrintingError(
            f"no Chromium was found (looked for {', '.join(BROWSERS)}; CHROMIUM may name one); run scoutgen serve, "
            f"open {cards_folder(series)}/ and print from the browser: letter paper, actual size (100 %), no headers"
        )
    with scratch(project, "cards") as working:
        site = working / "site"
        built = build_site(project, site, as_of=as_of, edition=edition, skip_bad_rows=skip_bad_rows, memory="none")
        require_cards(built.edition)
        pages = _pages(site / cards_folder(series))
        if not pages:
            with_cards = sorted(folder.name for folder in (site / "cards").glob("*") if _pages(folder))
            raise NoCardsError(
                f"the series '{series}' has no cards: it is over, its opponent has no file, or no probable pitcher "
                f"and no hitter of a lineup has a page; {_named(with_cards, 'there are cards for')}"
            )
        folder = out or project / cards_out(built.edition)
        folder.mkdir(parents=True, exist_ok=True)
        printed = []
        for name, page in pages:
            made = working / f"{name}.pdf"
            print_page(browser, page, made, profile=working / "profile")
            printed.append(folder / f"{series}-{name}.pdf")
            write_whole(printed[-1], made.read_bytes())
        # Only now, since the next sheets are compared with what came out of the printer.
        addresses = {f"{cards_folder(series)}/{name}" for name, _ in pages}
        book = built.edition_book.book
        now = {page.address: cells_of(page.markdown) for page in book.pages if page.address in addresses}
        warnings = [warning for warning in built.warnings if warning.startswith(".scoutgen/printed/")]
        warnings += filter(None, [wider_letters()])
        try:
            remember(project, built.edition, now, built.edition_book.built)
        except (OSError, OutputError) as failed:
            reason = (failed.strerror if isinstance(failed, OSError) else None) or failed
            said = f"these sheets are not remembered ({reason}); the next ones are compared with older ones"
            file = place(project, built.edition).relative_to(project).as_posix()
            warnings.append(str(Problem(file, 0, "", said, "warning")))
    return PrintedCards(tuple(printed), tuple(warnings))


def cards_out(edition: str) -> str:
    """Where in a project an edition's PDFs go; the staff's lie apart from those that are handed out."""
    return "cards" if edition == DEFAULT else f"cards/{edition}"


def find_browser() -> str | None:
    """Where a Chromium is: what the variable CHROMIUM names, then the usual names on the PATH; None where none is."""
    for name in (os.environ.get("CHROMIUM", ""), *BROWSERS):
        if name and (found := shutil.which(name)):
            return found
    return None


def wider_letters() -> str:
    """What to say where this machine has nothing as narrow as Arial, in which cards are laid out; "" where it has.

    Asked is fontconfig, which only some systems have; the others come with Arial or Helvetica.
    """
    asked = shutil.which("fc-match")
    if asked is None:
        return ""
    found = subprocess.run([asked, "Arial", "family"], capture_output=True, text=True, check=False).stdout.strip()  # noqa: S603 - the system's own
    if not found or any(name in found for name in _AS_NARROW):
        return ""
    return (
        f"this machine has no Arial and prints {found}, which may be wider: see whether the cards are whole, or "
        "install letters of the same widths (Debian: apt install fonts-liberation) and print again"
    )


def print_page(browser: str, page: Path, to: Path, *, profile: Path) -> None:
    """Print one page from disk as the style sheet lays it out.

    Args:
        browser: path of a Chromium.
        page: an HTML file.
        to: the PDF to write.
        profile: a folder for what the browser keeps while it runs.

    Raises:
        PrintingError: the browser did not print it.
    """
    # Chromium refuses to run as root inside its sandbox; the page is our own and may load nothing but itself.
    root = ("--no-sandbox",) if hasattr(os, "geteuid") and os.geteuid() == 0 else ()
    command = [browser, *_QUIET, *root, f"--user-data-dir={profile}", f"--print-to-pdf={to}", page.as_uri()]
    try:
        ran = subprocess.run(command, capture_output=True, text=True, check=False, timeout=_SECONDS)  # noqa: S603 - ours
        said = ran.stderr.strip().rsplit("\n", 1)[-1]
    except subprocess.TimeoutExpired:
        said = f"it took longer than {_SECONDS} s"
    except OSError as failed:
        said = str(failed.strerror or failed)
    if not to.is_file() or not to.read_bytes().startswith(b"%PDF-"):
        raise PrintingError(f"{browser} did not print {page.parent.name}: {said or 'it did not say why'}")


def _pages(folder: Path) -> list[tuple[str, Path]]:
    """Name and file of every page of cards but their index, whichever way the project writes addresses."""
    found = {file.parent.name: file for file in folder.glob("*/index.html")}
    found |= {file.stem: file for file in folder.glob("*.html") if file.stem != "index"}
    return sorted(found.items())


def _named(names: Iterable[str], words: str) -> str:
    listed = ", ".join(names)
    return f"{words} {listed}" if listed else f"{words} none"
