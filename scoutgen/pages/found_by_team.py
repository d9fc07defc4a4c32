"""What was measured of a large season, team by team: after one more game only those who played it are measured anew.

What everybody has in common is learned from some of the teams, and from whole weeks: so it stays as it is while a week
is charted, and what is said of a team hangs on nothing but its own charts and on that.
"""

import hashlib
from collections.abc import Collection, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any, Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.measures.intervals import Floats
from scoutgen.measures.usual import Known
from scoutgen.pages.findings import TABLES, Asked, Findings, find, learn_usual
from scoutgen.pages.rows import ByTeam, Rows, Table
from scoutgen.pages.table_bytes import OnDemand, TableShelf, from_bytes, to_bytes, to_bytes_by_team
from scoutgen.records.season import Season
from scoutgen.records.series import Series
from scoutgen.records.some_teams import rows_about, some_teams
from scoutgen.records.until import before_day, last_charted

#: From how many pitches on a season is large: what is usual is learned from some of the teams, whose pitchers threw
#: about so many as the second number says. A hundred pitchers say what all have in common as well as seven hundred.
LARGE: Final = 50_000
TEACHERS: Final = 30_000
_FRAMES: Final = ("games", *TABLES)


def found_by_team(
    season: Season,
    people: Asked,
    series: Series | None,
    shelf: TableShelf | None,
    *,
    only: Collection[str] | None = None,
    beside: Collection[str] = (),
) -> Findings:
    """Every measure of a large season; arguments as in `kept_findings.kept_or_found`."""
    hashes = {name: _row_hashes(getattr(season, name)) for name in _FRAMES}
    usual = _usual(season, hashes, shelf)
    parts = _Parts(season, people, series, usual, shelf, _names(season, people, series, usual, hashes))
    parts.measure_missing(None if only is None else {*only, *beside})
    if shelf is not None and only is not None:
        shelf.share([usual.place, *(parts.names[team] for team in only if team in parts.names)])
    return Findings({name: _Parted(name, parts) for name in parts.measures()})


def whole_weeks(season: Season) -> date | None:
    """The first day from which on nothing is learned: of the week charted last; None where that is most of it."""
    last = last_charted(season)
    if last is None:
        return None
    monday = last - timedelta(days=last.weekday())
    before = int((season.pitches["date"] < pd.Timestamp(monday)).sum())
    return monday if before >= len(season.pitches) / 2 else None


def teachers(season: Season) -> list[str]:
    """The teams from which it is learned what is usual: spread evenly over all that we play, by key."""
    teams = sorted(team.key for team in season.teams.values() if not team.own)
    return teams[:: max(1, round(len(season.pitches) / TEACHERS))]


@dataclass(frozen=True)
class _Usual:
    """What is usual, a hash of it, and the name it is kept under."""

    known: Known
    name: str
    place: str


@dataclass
class _Parts:
    """What was found of each team.

    Attributes:
        names: by team a hash of all that it comes from.
        found: where it is, by team, once asked for.
    """

    season: Season
    people: Asked
    series: Series | None
    usual: _Usual
    shelf: TableShelf | None
    names: Mapping[str, str]
    found: dict[str, Findings] = field(default_factory=dict)
    _kept: set[str] = field(default_factory=set)

    def measure_missing(self, only: Collection[str] | None) -> None:
        """Measure every team of which nothing is kept, all at once; the others when somebody asks for them."""
        asked = [team for team in self.names if only is None or team in only]
        if self.shelf is not None:
            self._kept = {team for team in asked if self.shelf.holds(self.names[team])}
        missing = [team for team in asked if team not in self._kept]
        if missing:
            self._measure(missing)

    def measures(self) -> tuple[str, ...]:
        """The names of the measures, from a team that is read for them where none is yet."""
        found = next(iter(self.found.values()), None)
        if found is None:
            found = next((self.of(team) for team in (*sorted(self._kept), *self.names)), None)
        return tuple(found.tables) if found is not None else ()

    def of(self, team: str) -> Findings | None:
        """What was found of a team; None of one that nobody knows."""
        if team not in self.found and team in self.names and not self._recalled(team):
            # Where one is damaged others may be, and measured together it takes far less than one by one.
            others = [other for other in self.names if other in self._kept and not self._recalled(other)]
            self._measure(others if team in self._kept else [team])
        return self.found.get(team)

    def _recalled(self, team: str) -> bool:
        """Read a team's tables, if they are not read yet; whether they are whole."""
        if team in self.found:
            return True
        content = self.shelf.get(self.names[team]) if self.shelf is not None else None
        try:
            frames = from_bytes(content or b"")
        except ValueError:
            return False
        self.found[team] = Findings(OnDemand(frames, lambda name: Table(frames[name])))
        return True

    def _measure(self, teams: Collection[str]) -> None:
        series = self.series if self.series is not None and self.series.opponent in teams else None
        asked = [who for who in self.people if who[0] in teams]
        found = find(some_teams(self.season, teams), asked, series, usual=self.usual.known, about=teams)
        self.found |= dict.fromkeys(teams, found)
        if self.shelf is not None:
            with suppress(TypeError):
                for team, content in to_bytes_by_team(found.frames, teams):
                    self.shelf.put(self.names[team], content)


@dataclass(frozen=True)
class _Parted:
    """A measure's rows as `rows.Table` has them, each team's from wherever it was measured."""

    name: str
    parts: _Parts

    @property
    def columns(self) -> list[str]:
        """Nothing: the digest says all there is."""
        return []

    def of(self, team: str, player: str | None) -> Rows:
        """One man's rows, in the order of the measure."""
        return self._of(team).of(team, player)

    def of_team(self, team: str) -> Rows:
        """One team's rows, man by man."""
        return self._of(team).of_team(team)

    def columns_of(self, team: str, player: str) -> dict[str, list[Any]]:
        """One man's rows as columns; empty where he has none."""
        return self._of(team).columns_of(team, player)

    def digest(self, team: str) -> bytes:
        """What the rows come from."""
        return self.parts.names.get(team, "").encode()

    def part(self, team: str) -> ByTeam:
        """What the table says of one team, and nothing of any other."""
        return self._of(team).part(team)

    def _of(self, team: str) -> ByTeam:
        found = self.parts.of(team)
        return found.tables[self.name] if found is not None else Table(pd.DataFrame({"team": [], "player": []}))


def _usual(season: Season, hashes: Mapping[str, NDArray[np.uint64]], shelf: TableShelf | None) -> _Usual:
    """What is usual, from the shelf where it is there."""
    teams, end = teachers(season), whole_weeks(season)
    told = hashlib.sha256(repr((_common(season), teams, end)).encode())
    for name, rows in rows_about(season, teams).items():
        early = rows if end is None else rows & ~(getattr(season, name)["date"] >= pd.Timestamp(end)).to_numpy(bool)
        told.update(hashes[name][early].tobytes())
    content = shelf.get(told.hexdigest()) if shelf is not None else None
    known = _read(content)
    if content is None or known is None:
        part = some_teams(season if end is None else before_day(season, end), teams)
        content = to_bytes({"usual": _frame(learn_usual(part, teams))})
        if shelf is not None:
            shelf.put(told.hexdigest(), content)
        known = _read(content)
        assert known is not None  # noqa: S101 - written a moment ago
    return _Usual(Known(known), hashlib.sha256(content).hexdigest(), told.hexdigest())


def _read(content: bytes | None) -> dict[str, Floats] | None:
    """What was learned, as it was kept; None where nothing is that could be read."""
    try:
        return _numbers(from_bytes(content or b"")["usual"])
    except (ValueError, KeyError):
        return None


def _frame(learned: Mapping[str, Floats]) -> pd.DataFrame:
    """Numbers by question as a table, a number a row; `row` is -1 where they are no table themselves."""
    rows = [
        (question, -1 if numbers.ndim == 1 else at, value)
        for question, numbers in learned.items()
        for at, run in enumerate(np.atleast_2d(numbers))
        for value in run.tolist()
    ]
    return pd.DataFrame(rows, columns=["question", "row", "value"]).astype({"question": "str"})


def _numbers(frame: pd.DataFrame) -> dict[str, Floats]:
    """The other way round."""
    learned = {}
    for question, rows in frame.groupby("question", sort=False):
        values = rows["value"].to_numpy(np.float64)
        last = int(rows["row"].iloc[-1])
        learned[str(question)] = values if last < 0 else values.reshape(last + 1, -1)
    return learned


def _names(
    season: Season, people: Asked, series: Series | None, usual: _Usual, hashes: Mapping[str, NDArray[np.uint64]]
) -> dict[str, str]:
    """By team a hash of all that its measures come from, but for the program."""
    common, names = _common(season), {}
    for key, team in season.teams.items():
        coming = series if series is not None and series.opponent == key else None
        asked = [who for who in people if who[0] == key]
        told = hashlib.sha256(repr((common, usual.name, team, asked, coming)).encode())
        for name, rows in rows_about(season, [key]).items():
            told.update(f"\n{name} {getattr(season, name).dtypes.astype(str).to_dict()}\n".encode())
            told.update(hashes[name][rows].tobytes())
        names[key] = told.hexdigest()
    return names


def _common(season: Season) -> tuple[object, ...]:
    """What every measure may ask for that is no chart: the settings, the day, and every pitcher's hand."""
    hands = [(key, man.key, man.throws) for key, team in season.teams.items() for man in team.roster if man.throws]
    return season.program, season.as_of, hands


def _row_hashes(frame: pd.DataFrame) -> NDArray[np.uint64]:
    return np.asarray(pd.util.hash_pandas_object(frame, index=False), dtype=np.uint64)
