"""How old and how broad what we know is: the line under every title."""

from dataclasses import dataclass
from datetime import date

from scoutgen.measures.freshness import SOURCES
from scoutgen.pages.rows import Rows
from scoutgen.pages.words import SOURCE_WORDS
from scoutgen.records.program import Thresholds


@dataclass(frozen=True)
class Freshness:
    """What was charted of a man or a team.

    Attributes:
        games, outings, pitches, readings: how much; outings are games he pitched in, readings are times, holds,
            throws, looks at habits and at positions.
        few: fewer games than the program's `few_games`.
        last_seen: the latest game's day; None where no game has a date.
        days: days between then and the day the site is made for.
        stale: longer ago than the program's `stale_days`.
        sources: games by source, in words.
        charted_by: initials.
    """

    games: int
    few: bool
    outings: int
    pitches: int
    readings: int
    last_seen: date | None
    days: int | None
    stale: bool
    sources: str
    charted_by: str


def freshness(rows: Rows, *, as_of: date, limits: Thresholds) -> Freshness | None:
    """The one row of a man's or a team's freshness; None where he was never charted.

    Args:
        rows: his rows of `player_freshness`, or the team's of `team_freshness`: one or none.
        as_of: the day the site is made for.
        limits: how long ago is old, how few games are few.
    """
    if not rows:
        return None
    row = rows[0]
    last = row["last_seen"]
    days = None if last is None else (as_of - last).days
    sources = [f"{SOURCE_WORDS[s]} {row[s]}" for s in SOURCES if row[s]]
    return Freshness(
        games=row["games"],
        few=row["games"] < limits.few_games,
        outings=row["outings"],
        pitches=row["pitches"],
        readings=row["readings"],
        last_seen=last,
        days=days,
        stale=days is not None and days > limits.stale_days,
        sources=", ".join(sources),
        charted_by=row["charted_by"],
    )
