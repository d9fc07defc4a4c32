"""What is worked out of hitters: one table a question, all hitters at once."""

import pandas as pd

from scoutgen.measures import batted, directions, hitting
from scoutgen.measures.infield_levels import infield_levels
from scoutgen.measures.outfield_levels import outfield_levels
from scoutgen.measures.stands import field_of
from scoutgen.measures.usual import AT_HAND, Usual
from scoutgen.records.positioning import Levels
from scoutgen.records.season import Season


def with_hands(season: Season) -> pd.DataFrame:
    """The season's pitches with `throws`, the pitcher's hand (L or R); missing where no roster says it."""
    hands = {
        (team.key, man.key): man.throws
        for team in season.teams.values()
        for man in team.roster
        if man.throws is not None
    }
    pitches = season.pitches
    thrown_by = pd.Series(list(zip(pitches["pitcher_team"], pitches["pitcher"], strict=True)), index=pitches.index)
    throws = pd.Categorical(thrown_by.map(hands), categories=["L", "R"])
    return pitches.assign(throws=throws)


def hitter_tables(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> dict[str, pd.DataFrame]:
    """Every measure of hitters by the name under which pages and facts have it.

    Args:
        pitches: the season's pitches with the pitcher's hand, `with_hands`.
        usual: what hitters have in common; learned from these where it is not known.
    """
    rates = hitting.hitting(pitches, usual)
    kinds = batted.contact(pitches, usual)
    by_strikes = [rates, batted.other_way(pitches, usual), kinds.rename(columns={"contact": "measure"})]
    return {
        "hitting": rates,
        "two_strikes": hitting.two_strike_change(pd.concat(by_strikes, ignore_index=True), usual),
        "contact": kinds,
        "spray": batted.thirds(pitches, directions.spray(pitches, usual), usual),
        "bunts": batted.bunts(pitches, usual),
        "balls": batted.batted_balls(pitches),
        "appearances": batted.appearances(pitches),
    }


def level_tables(
    pitches: pd.DataFrame, times: pd.DataFrame, levels: Levels, usual: Usual = AT_HAND
) -> dict[str, pd.DataFrame]:
    """How far our infield and outfield move for each hitter.

    Args:
        pitches: as in `hitter_tables`.
        times: what `time_summary` returned; his full-swing time to first says how deep an infielder may play.
        levels: the program's.
        usual: as in `hitter_tables`.
    """
    found = directions.spray(pitches, usual)
    full = times[times["measure"].eq("home_first") & times["style"].eq("full") & times["bases"].eq("all")]
    surest = full[~full["warmup"]].sort_values("mean_sd", kind="stable").drop_duplicates(["team", "player"])
    who = zip(surest["team"].astype(str), surest["player"].astype(str), strict=True)
    runs = dict(zip(who, surest["mean"].to_numpy(dtype=float).tolist(), strict=True))
    field = field_of(levels)
    return {"infield_levels": infield_levels(found, runs, field), "outfield_levels": outfield_levels(found, field)}
