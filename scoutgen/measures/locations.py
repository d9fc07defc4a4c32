"""Where each pitch goes: the five by five grid, in and away, up and down, in the zone."""

from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.intervals import wilson
from scoutgen.measures.levels import in_order, plain_text, roll_up
from scoutgen.measures.outings import PITCH_KEYS, charted_pitches, seen_in
from scoutgen.measures.tally import COUNTED, with_pooled_shares
from scoutgen.measures.usual import AT_HAND, Usual

GRID_COLUMNS: Final = [*PITCH_KEYS, "height", "side", *COUNTED]
PLACES: Final = ("in zone", "in", "middle", "away", "up", "center", "down")
PLACE_COLUMNS: Final = [*PITCH_KEYS, "where", *COUNTED]
_CELLS: Final = pd.DataFrame(
    {"height": np.repeat(np.arange(5, 0, -1), 5).astype(np.int16), "side": np.tile(np.arange(1, 6), 5).astype(np.int16)}
)


def location_grid(pitches: pd.DataFrame) -> pd.DataFrame:
    """How many of each pitch went to each of the twenty-five places?

    Args:
        pitches: the season's `pitches`; rows with a pitch, height and side count.

    Returns:
        Twenty-five rows per team, player, bats and pitch (each side and pitch beside "all"), from the top row down
        and from the catcher's left to his right: GRID_COLUMNS. height 1 under the zone, 2-4 its thirds, 5 over it;
        side 1 off the plate to the catcher's left, 5 off to his right. share is k / n, low-high Wilson's 90 %
        interval: a place leans on nobody.
    """
    charted = _located(pitches)
    cells = _sizes(charted, [*PITCH_KEYS, "height", "side"])
    cells = roll_up(roll_up(cells, "bats"), "pitch")
    groups = cells.groupby(PITCH_KEYS, observed=True, sort=False)
    place = (5 - cells["height"].to_numpy(np.int64)) * 5 + cells["side"].to_numpy(np.int64) - 1
    keys = groups["seen"].sum().rename("n").reset_index()
    counts = np.zeros((len(keys), 25), dtype=np.int64)
    np.add.at(counts, (groups.ngroup().to_numpy(), place), cells["seen"].to_numpy())
    keys = keys.merge(seen_in(charted), on=PITCH_KEYS, how="left").assign(at=np.arange(len(keys)))
    keys = in_order(plain_text(keys), PITCH_KEYS)
    table = keys.merge(_CELLS, how="cross")
    table["k"] = counts[keys["at"].to_numpy(np.int64)].ravel()
    table["share"] = table["k"] / table["n"]
    table["low"], table["high"] = wilson(table["k"], table["n"])
    return table[GRID_COLUMNS]


def location_places(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """How often is each pitch in or away, up or down, in the zone?

    Args:
        pitches: the season's `pitches`; rows with a pitch, height and side count; for in, middle and away also
            `bats`.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        Seven rows per team, player, bats and pitch (fewer where no side of a batter was charted): PLACE_COLUMNS.
        "in zone": height and side both within the zone. "in", "middle", "away": as the batter has it; to a right-handed
        one away is the catcher's right. "up", "center", "down": over the middle third of the zone's height, in it,
        under it. Each of the three adds up to all pitches. Shares lean on the other pitchers' same pitch to the same
        side.
    """
    charted = _located(pitches)
    cells = _sizes(charted, [*PITCH_KEYS, "height", "side"])
    height, side = cells["height"].to_numpy(np.int64), cells["side"].to_numpy(np.int64)
    # Turned so that 1 is the batter's inside: for a right-handed one that is the catcher's left already.
    turned = np.where(cells["bats"].eq("R"), side, 6 - side)
    sided = cells["bats"].notna().to_numpy()
    seen = cells["seen"].to_numpy()
    within = (height >= 2) & (height <= 4) & (side >= 2) & (side <= 4)
    hits = {
        "in zone": within, "in": (turned < 3) & sided, "middle": (turned == 3) & sided, "away": (turned > 3) & sided,
        "up": height > 3, "center": height == 3, "down": height < 3,
    }  # fmt: skip
    counted = cells[PITCH_KEYS].assign(**{w: hits[w] * seen for w in PLACES}, everyone=seen, sided=sided * seen)
    rows = roll_up(roll_up(counted, "bats"), "pitch")
    sums = rows.groupby(PITCH_KEYS, observed=True, sort=False)[[*PLACES, "everyone", "sided"]].sum().reset_index()
    sums = sums.merge(seen_in(charted), on=PITCH_KEYS, how="left")
    parts = []
    for where in PLACES:
        n = sums["sided"] if where in ("in", "middle", "away") else sums["everyone"]
        word = np.full(len(sums), where, dtype=object)
        parts.append(sums[[*PITCH_KEYS, "games", "last_seen"]].assign(where=word, k=sums[where], n=n))
    table = pd.concat(parts, ignore_index=True)
    table = in_order(plain_text(table[table["n"] > 0]), [*PITCH_KEYS, "where"]).astype({"where": "str"})
    return with_pooled_shares(table, ["bats", "pitch", "where"], usual.about("places"))[PLACE_COLUMNS]


def _located(pitches: pd.DataFrame) -> pd.DataFrame:
    charted = charted_pitches(pitches)
    kept = charted["height"].notna() & charted["side"].notna()
    return charted.loc[kept, ["team", "player", "game", "date", "bats", "pitch", "height", "side"]]


def _sizes(charted: pd.DataFrame, keys: list[str]) -> pd.DataFrame:
    return charted.groupby(keys, observed=True, dropna=False, sort=False).size().rename("seen").reset_index()
