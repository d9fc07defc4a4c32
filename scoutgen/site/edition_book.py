"""From a project's folder to the book of one edition: the one place where the site asks the rooms before it."""

import os
import re
from collections.abc import Callable, Collection
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from scoutgen import __version__
from scoutgen.pages.book import Book
from scoutgen.records.hand_pages import HandPage
from scoutgen.records.problems import Problem
from scoutgen.site.sheets import css_text

if TYPE_CHECKING:
    from scoutgen.pages.table_bytes import TableShelf
    from scoutgen.pages.team_text import Shelf
    from scoutgen.records.season import Season
    from scoutgen.site.memory import Memory


# A first build of at most so many pitches works out what was known before the last day charted: that takes about as
# long as the rest of it, which is seconds for a program and a minute for a division.
_COMPARED_PITCHES = 50_000


@dataclass(frozen=True)
class EditionBook:
    """What one edition says, and what was remarked while reading.

    Attributes:
        hand_pages: the pages written by hand that it has; None for all there are.
        other_pages: those that only other editions have.
        every_file: it also has files that no page of any edition links to.
    """

    book: Book
    edition: str
    as_of: date
    built: str
    warnings: tuple[Problem, ...] = ()
    rows_left_out: int = 0
    files_left_out: int = 0
    hand_pages: tuple[HandPage, ...] | None = None
    other_pages: tuple[HandPage, ...] = ()
    every_file: bool = True

    @property
    def built_line(self) -> str:
        """When and what, for the foot of every page."""
        return f"{self.edition} edition, as of {self.as_of.isoformat()}, built {self.built}"

    @property
    def stamps(self) -> tuple[str, ...]:
        """What differs on every page from one build to the next, the longest text first: the foot, sheets, facts."""
        return self.built_line, css_text(self.built_line)[1:-1], self.built

    @property
    def seal(self) -> dict[str, str]:
        """What the marker in the finished site says."""
        return {"scoutgen": __version__, "edition": self.edition, "as_of": self.as_of.isoformat(), "built": self.built}


class TeamError(ValueError):
    """A team whose pages cannot be built alone."""


class DateError(ValueError):
    """A date that is none."""


def read_date(text: str | None) -> date:
    """A day as year-month-day, the one form files know too; today where none is given.

    Raises:
        DateError: not a date.
    """
    if text is None:
        return datetime.now().astimezone().date()
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        raise DateError(f"{text!r} is not a date; write year-month-day, like 2026-04-09")
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise DateError(f"{text!r} is not a day of the calendar; write year-month-day, like 2026-04-09") from None


def _built_at() -> datetime:
    """Now, or the time that whoever wants the same bytes again gives: https://reproducible-builds.org/specs/source-date-epoch/.

    Raises:
        DateError: what is given is no time.
    """
    given = os.environ.get("SOURCE_DATE_EPOCH")
    if not given:
        return datetime.now().astimezone()
    try:
        return datetime.fromtimestamp(int(given), UTC)
    except (ValueError, OverflowError, OSError):
        raise DateError(f"SOURCE_DATE_EPOCH is {given!r}; give whole seconds since 1970-01-01 in UTC") from None


def read_book(
    project: Path,
    *,
    as_of: str | None,
    edition: str,
    skip_bad_rows: bool,
    memory: "Memory | None" = None,
    tables: "TableShelf | None" = None,
    shelf: "Shelf | None" = None,
    only: Collection[str] | None = None,
    of_teams: bool = False,
    progress: Callable[[int, int], None] | None = None,
) -> EditionBook:
    """Read a project and write its book.

    Args:
        project: folder with content/ and data/.
        as_of: ISO date, today where none is given.
        edition: for whom.
        skip_bad_rows: leave rows with errors out instead of raising.
        memory: what earlier builds of the edition said; None compares with nothing.
        tables: where measures are kept between builds.
        shelf: where opponents' shares of the book are kept between builds.
        only: the teams whose pages are asked for, by key; None for all.
        of_teams: the facts have those of whole teams too.
        progress: called with the pages written so far and the pages to write.

    Raises:
        ProblemsFoundError: the input has errors and they are not to be skipped.
        DateError: `as_of` is not a date.
        TeamError: nobody we play has a key of `only`, or the edition has no pages on teams.
    """
    # Here and not above: pandas and scipy take seconds, and `scoutgen --help` needs neither.
    from scoutgen.pages.built import FORM  # noqa: PLC0415
    from scoutgen.pages.changed import NOT_COMPARED, Earlier  # noqa: PLC0415
    from scoutgen.pages.said import Said  # noqa: PLC0415
    from scoutgen.pages.write import write_book, write_said  # noqa: PLC0415
    from scoutgen.records.editions import SHOWS, pages_for  # noqa: PLC0415
    from scoutgen.records.season import read_season  # noqa: PLC0415
    from scoutgen.records.until import before_day, last_charted  # noqa: PLC0415
    from scoutgen.site.sheets_printed import recall  # noqa: PLC0415

    day = read_date(as_of)
    built = _built_at().strftime(FORM)
    season = read_season(project, as_of=day, skip_bad_rows=skip_bad_rows)
    if only is not None:
        _require(only, season, edition)

    def compared_with(said: Said) -> Earlier:
        if memory is None:
            return NOT_COMPARED
        earlier = memory.earlier(said, built)
        last = last_charted(season)
        if not earlier.first or last is None or len(season.pitches) > _COMPARED_PITCHES:
            return earlier
        # Nothing to compare with yet: what was known before the last day that was charted stands in for it.
        known = write_said(before_day(season, last), edition=edition, built=built)
        day = f"{last:%a} {last.day} {last:%b}"
        return replace(earlier, said=known, when=f"{day} {last.year}", short=day)

    printed = recall(project, edition)
    book = write_book(
        season,
        edition=edition,
        built=built,
        compared_with=compared_with,
        printed=printed,
        tables=tables,
        shelf=shelf,
        only=only,
        of_teams=of_teams,
        progress=progress,
    )
    warnings = tuple(season.warnings)
    if memory is not None and memory.unreadable:
        damaged = "what the last build said cannot be read; this one is taken for the first, and writes it anew"
        warnings += (Problem(f".scoutgen/said/{edition}.json", 0, "", damaged, "warning"),)
    if printed is None:
        damaged = "what was printed last cannot be read; no card has marks until scoutgen cards writes it anew"
        warnings += (Problem(f".scoutgen/printed/{edition}.json", 0, "", damaged, "warning"),)
    pages = pages_for(season.pages, edition)
    return EditionBook(
        book,
        edition,
        day,
        built,
        warnings,
        season.rows_left_out,
        season.files_left_out,
        pages,
        tuple(page for page in season.pages if page not in pages),
        SHOWS[edition].every_file,
    )


def _require(only: Collection[str], season: "Season", edition: str) -> None:
    from scoutgen.records.check import did_you_mean  # noqa: PLC0415 - as above
    from scoutgen.records.editions import SHOWS  # noqa: PLC0415 - as above

    if not SHOWS[edition].game_plan:
        raise TeamError(f"the {edition} edition has no pages on teams; build it whole")
    teams = sorted(team.key for team in season.teams.values() if not team.own)
    for key in only:
        if key not in teams:
            hint = did_you_mean(key, teams) or "."
            raise TeamError(f"{key!r} is nobody we play{hint} There are {', '.join(teams) or 'none yet'}")
