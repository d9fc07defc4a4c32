"""Every team we play, whom we meet next in front, with the ways to what is known of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from scoutgen.pages.findings import Findings
from scoutgen.pages.freshness import Freshness, freshness
from scoutgen.pages.people import infield_address, team_address
from scoutgen.records.opponents import Team
from scoutgen.records.season import Season
from scoutgen.records.series import Series

ADDRESS: Final = "teams/index"
TITLE: Final = "Teams"
MENU: Final = ("Opponents",)
TEAMS_WORDS: Final = (
    "All teams: every opponent, with when it was last seen, its infield and what is not known of it yet."
)


@dataclass(frozen=True)
class TeamLine:
    """One opponent; `series` is empty where no series with it is ahead, `fresh` None where nothing was charted."""

    name: str
    address: str
    infield_address: str
    list_address: str
    listed: bool
    series: str
    fresh: Freshness | None


@dataclass(frozen=True)
class TeamsPage:
    """All that the page says."""

    address: str
    title: str
    lines: tuple[TeamLine, ...]
    built: str
    as_of: date


def teams_page(
    teams: Sequence[Team], nearest: Sequence[Series], findings: Findings, season: Season, *, built: str
) -> TeamsPage:
    """List the opponents.

    Args:
        teams: in the order in which they are met.
        nearest: the coming series, or none.
        findings: the season's measures.
        season: for the day and the thresholds.
        built: when, in words.
    """
    ahead = {series.opponent: series.title for series in nearest if series.end >= season.as_of}
    lines = tuple(
        TeamLine(
            name=team.name,
            address=team_address(team),
            infield_address=infield_address(team),
            list_address=f"not-known-yet/{team.key}",
            listed=team.listed,
            series=ahead.get(team.key, ""),
            fresh=freshness(
                findings.of_team("team_fresh", team.key), as_of=season.as_of, limits=season.program.thresholds
            ),
        )
        for team in teams
    )
    return TeamsPage(ADDRESS, TITLE, lines, built, season.as_of)
