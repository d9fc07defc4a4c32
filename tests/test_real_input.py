"""The main job on real input: charts of a real pitcher go in, his next start is foretold from the facts that come out.

The pitches are not part of the repository; see `league.scoring` for where they are looked for.
"""

import json
import math
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pandas as pd
import pytest
from league.scoring import real_folder

from scoutgen.pages.write import write_book
from scoutgen.records.season import read_season

# From the last m starts to the next one, at starts spread over his four seasons; what the measure itself is worth at
# more of them is asked in measures/test_usage_real.py.
STARTS = (1, 3, 8)
NEXT = (12, 36, 60, 84)


@pytest.fixture(scope="module")
def folder() -> Path:
    found = real_folder()
    if found is None:
        pytest.skip("no real pitches found (SCOUTGEN_REALDATA or ../shared/realdata): nothing is scored on real input")
    return found


def project(folder: Path, place: Path, games: list[str]) -> Path:
    """A project of pitches alone: the charts of some games, written as a staff would drop them into data/."""
    (place / "data").mkdir(parents=True)
    listed = pd.read_csv(folder / "pitcher_a_games.csv", dtype=str)
    listed[listed["game"].isin(games)].to_csv(place / "data" / "games.csv", index=False)
    pitches = pd.read_csv(folder / "pitcher_a_pitches.csv", dtype=str)
    pitches = pitches[pitches["game"].isin(games)]
    columns = ["game", "pitcher", "bats", "balls", "strikes", "pitch"]
    pitches[columns].to_csv(place / "data" / "pitches.csv", index=False)
    return place


def foretold(root: Path) -> dict[tuple[str, str, str], float]:
    """Shares by side, count and pitch, as the facts give them."""
    season = read_season(root, as_of=date(2026, 4, 9))
    assert season.warnings == ()
    (text,) = write_book(season, edition="staff", built="now").facts.values()
    return {(row["bats"], row["count"], row["pitch"]): row["share"] for row in json.loads(text)["usage"]}


def test_facts_foretell_the_next_start(
    folder: Path, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    pitches = pd.read_csv(folder / "pitcher_a_pitches.csv", dtype=str)
    games = pitches["game"].drop_duplicates().tolist()
    lines = []
    for m in STARTS:
        surprise, overall, n = 0.0, 0.0, 0
        for at in NEXT:
            shares = foretold(project(folder, tmp_path / f"{m}-{at}", games[at - m : at]))
            after = pitches[pitches["game"] == games[at]]
            for bats, balls, strikes, pitch in zip(
                after["bats"], after["balls"], after["strikes"], after["pitch"], strict=True
            ):
                surprise -= math.log(shares[bats, f"{balls}-{strikes}", pitch])
                overall -= math.log(shares["all", "all", pitch])
                n += 1
        lines.append(
            f"  m = {m}: {surprise / n:.3f} nats a pitch by side and count, {overall / n:.3f} by the whole mix"
        )
        # What is said by side and count must be worth more than his whole mix, which is what a spreadsheet would give.
        assert surprise < overall
    # The scores are what the test is for.
    head = f"Real pitches, from the last m starts to the next, {len(NEXT)} starts, through facts:"
    record_property("measured", "\n".join([head, *lines]))


def test_places_and_speeds_of_real_pitches_are_read_whole(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    for name in ("games", "pitches"):
        (tmp_path / "data" / f"{name}.csv").write_bytes((folder / f"pitcher_a_{name}.csv").read_bytes())
    season = read_season(tmp_path, as_of=date(2026, 4, 9))
    assert season.warnings == ()
    assert len(season.pitches) == len(pd.read_csv(folder / "pitcher_a_pitches.csv"))
    # Common knowledge, from memory: about half of all pitches are in the zone, and few starters average under 60 mph.
    within = season.pitches["height"].between(2, 4) & season.pitches["side"].between(2, 4)
    assert 0.40 < within.mean() < 0.60
    assert season.pitches["speed_mph"].median() > 60
