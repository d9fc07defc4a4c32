"""What was measured, kept from one build to the next: whoever mends a note waits for no measure."""

import hashlib
from collections.abc import Collection
from contextlib import suppress
from dataclasses import replace

import pandas as pd

from scoutgen.pages.findings import TABLES, Asked, Findings, find
from scoutgen.pages.found_by_team import LARGE, found_by_team
from scoutgen.pages.rows import Table
from scoutgen.pages.table_bytes import OnDemand, TableShelf, from_bytes, to_bytes
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series


def kept_or_found(
    season: Season,
    people: Asked,
    series: Series | None,
    shelf: TableShelf | None,
    *,
    only: Collection[str] | None = None,
    beside: Collection[str] = (),
) -> Findings:
    """Every measure, from the shelf where it is there, else worked out and put there.

    Args:
        season: as in `find`.
        people: see there.
        series: see there.
        shelf: where it is kept.
        only: the teams a part of the site is of; None for all of it. In a large season nobody else is measured before
            somebody asks, and what was measured of them goes with the part.
        beside: of whom other pages ask then; they are measured with those teams.
    """
    season = season_measured(season)
    if len(season.pitches) > LARGE:
        return found_by_team(season, people, series, shelf, only=only, beside=beside)
    if shelf is None:
        return find(season, people, series)
    name = _name(season, people, series)
    with suppress(ValueError):
        frames = from_bytes(shelf.get(name) or b"")
        return Findings(OnDemand(frames, lambda name: Table(frames[name])))
    found = find(season, people, series)
    with suppress(TypeError):
        shelf.put(name, to_bytes(found.frames))
    return found


def season_measured(season: Season) -> Season:
    """A season without what no measure asks for: notes, plans, parks, pages and what was remarked while reading."""
    return replace(
        season,
        habit_kinds={},
        teams={key: _roster_alone(team) for key, team in season.teams.items()},
        entries={},
        series=(),
        pages=(),
        warnings=(),
        skipped=(),
        rows_left_out=0,
        files_left_out=0,
    )


def _roster_alone(team: Team) -> Team:
    return Team(team.key, team.name, own=team.own, listed=team.listed, roster=team.roster)


def _name(season: Season, people: Asked, series: Series | None) -> str:
    """A hash of everything that measures come from, but for the program."""
    frames = ("games", *TABLES)
    told = {name: value for name, value in vars(season).items() if name not in (*frames, "root")}
    whole = hashlib.sha256(repr((told, list(people), series)).encode())
    for name in frames:
        frame = getattr(season, name)
        whole.update(f"\n{name} {list(frame.dtypes.items())}\n".encode())
        whole.update(pd.util.hash_pandas_object(frame, index=False).to_numpy().tobytes())
    return whole.hexdigest()
