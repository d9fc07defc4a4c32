"""The staff's page of risk: what a base taken gains, what an out costs, at every lead and inning."""

from dataclasses import dataclass
from datetime import date

from scoutgen.measures.risk import (
    Contrast,
    OneRun,
    RiskTable,
    contrasts,
    innings_shown,
    late,
    one_run,
    risk_tables,
)
from scoutgen.measures.win_chance import WinTable
from scoutgen.pages.run_values import half_of
from scoutgen.pages.series import SeriesPage
from scoutgen.records.program import RunEnvironment
from scoutgen.records.season import Season


@dataclass(frozen=True)
class RiskPage:
    """All that the page says.

    Attributes:
        half: which half of an inning is ours, in words.
        environment: the program's setting that the values follow from.
        innings: those shown; `late` the one the sentences are about.
    """

    address: str
    title: str
    series_title: str
    series_address: str
    running_address: str
    half: str
    environment: RunEnvironment
    innings: tuple[int, ...]
    late: int
    tables: tuple[RiskTable, ...]
    contrasts: tuple[Contrast, ...]
    one_run: tuple[OneRun, ...]
    built: str
    as_of: date


def risk_page(front: SeriesPage, values: WinTable, season: Season, *, built: str) -> RiskPage:
    """Put the page together.

    Args:
        front: the series' own page.
        values: chances to win.
        season: the validated season.
        built: when, in words.
    """
    half = half_of(front.series)
    return RiskPage(
        address=front.risk_address,
        title="What a steal is worth",
        series_title=front.title,
        series_address=front.address,
        running_address=front.running_address,
        half=half,
        environment=season.program.run_environment,
        innings=innings_shown(values.rules),
        late=late(values.rules),
        tables=risk_tables(values, half),
        contrasts=contrasts(values, half),
        one_run=one_run(values, half),
        built=built,
        as_of=season.as_of,
    )
