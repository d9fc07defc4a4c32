"""All opponents' shares of the book: those kept from an earlier build are taken, the others written side by side."""

import hashlib
import os
from collections.abc import Callable, Collection, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import partial

from scoutgen.pages.book import TeamBook
from scoutgen.pages.findings import TABLES, Findings
from scoutgen.pages.people import Person
from scoutgen.pages.said import Said
from scoutgen.pages.sayings import order_of
from scoutgen.pages.series import SeriesPage
from scoutgen.pages.team_pages import Graded, TeamSources, season_about, team_book, team_outline, team_said
from scoutgen.pages.team_text import Shelf, from_text, to_text
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series
from scoutgen.records.side_by_side import RUNS_EACH, shares, side_by_side


@dataclass(frozen=True)
class TeamBooks:
    """What writes the opponents' pages.

    Attributes:
        everybody: the men of every team by its key.
        findings: the season's measures.
        season: as the edition may know it.
        fronts: the series, as their own pages have them.
        nearest: the series we play next; none where the season is over.
        running: where its page of who can go stands; empty for none.
        graded: the men with an evaluation, by the address of their page.
        built: when, in words.
        shelf: where books of earlier builds are.
        only: the teams whose pages are asked for, by key; None for all.
    """

    everybody: Mapping[str, Sequence[Person]]
    findings: Findings
    season: Season
    fronts: Sequence[SeriesPage]
    nearest: Sequence[Series]
    running: str
    graded: Mapping[str, Graded]
    built: str
    shelf: Shelf | None = None
    only: Collection[str] | None = None

    def of(self, teams: Sequence[Team], written: Callable[[int], None] | None = None) -> list[TeamBook]:
        """The books of teams, in their order; of those not asked for the outline.

        Args:
            teams: whose.
            written: called with the number of pages more that are written.
        """
        asked = [team for team in teams if self.only is None or team.key in self.only]
        names = {team.key: self._name(team) for team in asked} if self.shelf is not None else {}
        books = {key: book for key, name in names.items() if (book := self._kept(name))}
        missing = [team for team in asked if team.key not in books]
        if written and books:
            written(sum(len(book.pages) for book in books.values()))

        here, told = os.getpid(), 0

        def count(pages: int) -> None:
            nonlocal told
            # A copy has nobody to tell how far it is.
            if written and os.getpid() == here:
                told += pages
                written(pages)

        def write(some: Sequence[Team]) -> list[TeamBook]:
            return [self._write(team, names.get(team.key), count) for team in some]

        made = side_by_side([partial(write, run) for run in self._runs(missing)])
        if elsewhere := sum(len(book.pages) for some in made for book in some) - told:
            count(elsewhere)
        for team in missing:
            if self.shelf is not None:
                self.shelf.use(names[team.key])
        fresh = [book for some in made for book in some]
        books |= {team.key: book for team, book in zip(missing, fresh, strict=True)}
        outlines = {team.key: team_outline(self._sources(team)) for team in teams if team.key not in books}
        if written and outlines:
            written(sum(len(book.pages) for book in outlines.values()))
        books |= outlines
        return [books[team.key] for team in teams]

    def asked(self, books: Sequence[TeamBook]) -> frozenset[str] | None:
        """Addresses of the pages asked for among those of books; None for all of them."""
        if self.only is None:
            return None
        return frozenset(page.address for book in books for page in book.pages if page.markdown)

    def said(self, teams: Sequence[Team]) -> list[Said]:
        """What the books of teams would say, without writing them."""

        def say(some: Sequence[Team]) -> list[Said]:
            return [team_said(self._sources(team), self._found(team), built=self.built) for team in some]

        told = side_by_side([partial(say, run) for run in self._runs(teams)])
        return [said for some in told for said in some]

    def _runs(self, teams: Sequence[Team]) -> list[list[Team]]:
        return shares(teams, lambda team: 1 + len(self.everybody[team.key]), each=RUNS_EACH)

    def _sources(self, team: Team) -> TeamSources:
        men = self.everybody[team.key]
        return TeamSources(
            team,
            men,
            season_about(self.season, team),
            nearest=self.nearest,
            order=order_of(self.fronts),
            running=self.running,
            graded={man.address: self.graded[man.address] for man in men if man.address in self.graded},
        )

    def _found(self, team: Team) -> Findings:
        # Not even by mistake can a page show what is not in its name.
        return self.findings.part(team.key)

    def _write(self, team: Team, name: str | None, written: Callable[[int], None] | None) -> TeamBook:
        book = team_book(self._sources(team), self._found(team), built=self.built, written=written)
        if self.shelf is not None and name is not None:
            with suppress(ValueError):
                self.shelf.put(name, to_text(book, self.built))
        return book

    def _kept(self, name: str) -> TeamBook | None:
        text = self.shelf.get(name) if self.shelf is not None else None
        try:
            return None if text is None else from_text(text, self.built)
        except ValueError:
            return None

    def _name(self, team: Team) -> str:
        """A hash of all that a team's book comes from, but for the program and when the build was."""
        sources = self._sources(team)
        # Frames say nothing here: they are empty, and what was found in them follows.
        season = {name: value for name, value in vars(sources.season).items() if name not in (*TABLES, "games", "root")}
        whole = hashlib.sha256(repr((vars(sources) | {"season": season}, self.findings.digest(team.key))).encode())
        return whole.hexdigest()
