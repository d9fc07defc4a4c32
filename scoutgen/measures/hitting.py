"""What a hitter swings at, misses and hits hard: on the first pitch, with two strikes, by pitch and by place."""

from functools import partial
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.counts import ALL
from scoutgen.measures.intervals import Floats
from scoutgen.measures.levels import in_order, plain_text, roll_up
from scoutgen.measures.results import MISSES
from scoutgen.measures.speeds import HARD
from scoutgen.measures.tally import COUNTED, with_pooled_shares
from scoutgen.measures.usual import AT_HAND, Usual

#: Kinds of pitches a hitter tells apart; what a program adds to the usual names is "other".
FAMILIES: Final[dict[str, tuple[str, ...]]] = {
    "fastballs": tuple(HARD),
    "breaking": ("slider", "sweeper", "curve"),
    "off-speed": ("change", "splitter", "knuckleball"),
    "other": ("other",),
}
#: A line drive or fly this far is hit hard, out or not; so is every hit for extra bases. Feet; common practice.
HARD_HIT_FT: Final = 300.0
EXTRA_BASES: Final = ("double", "triple", "home_run")
MEASURES: Final = ("swing", "miss", "hard")
#: What the rates are split by, and the values of each split in the order shown; pitches go by name.
SPLITS: Final[dict[str, tuple[str, ...]]] = {
    ALL: (ALL,),
    "first pitch": (ALL, "L", "R"),
    "strikes": ("early", "two"),
    "family": tuple(FAMILIES),
    "pitch": (),
    "side": ("in", "middle", "away"),
    "height": ("up", "center", "down"),
}
HITTER_KEYS: Final = ["team", "player", "bats"]
HITTING_KEYS: Final = [*HITTER_KEYS, "split", "value", "measure"]
HITTING_COLUMNS: Final = [*HITTING_KEYS, *COUNTED]
CHANGE_COLUMNS: Final = [
    *HITTER_KEYS, "measure", *COUNTED, "early_k", "early_n", "early_share", "early_low", "early_high",
    "change", "change_low", "change_high", "told", "usual", "unusual",
]  # fmt: skip

# Swings with the bat: a bunt is no swing and no pitch let go, so it is counted among neither.
_SWUNG: Final = (*MISSES, "foul", "in_play")
_TAKEN: Final = ("ball", "called_strike")
# What is counted for each measure, and what it is a share of.
_COUNTED: Final = {"swing": ("swung", "look"), "miss": ("missed", "swung"), "hard": ("hard", "told")}


def hitting(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """How often does each hitter swing, miss and hit it hard?

    Args:
        pitches: the season's `pitches`, with `throws` (the pitcher's hand, L or R) where it is known. Swings and
            pitches taken count; bunts, pitchouts, intentional balls, hit batters and penalties of the clock do not.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player, bats (each side he was charted on beside "all"), split, value and measure with a look:
        HITTING_COLUMNS. Splits and values: "all"; "first pitch" by the pitcher's hand ("all" too, hand not known);
        "strikes" "early" (none or one) or "two"; "family" of FAMILIES; "pitch" by name; "side" "in", "middle" (of the
        plate), "away" as he has it; "height" "up", "center", "down". Measures: "swing" of pitches; "miss" (foul tips
        among them) of swings; "hard" of swings: an extra-base hit, or a line drive or fly of HARD_HIT_FT. A line
        drive or fly without a distance that was no extra-base hit counts for no "hard"; of the first pitch only the
        swings are counted. Shares lean on other hitters of the side in the same split and measure.
    """
    cells = _cells(_looks(pitches))
    keys = [*HITTER_KEYS, "split", "value"]
    parts = []
    for measure, (hit, among) in _COUNTED.items():
        rows = cells[(cells[among] > 0) & (cells["split"].ne("first pitch") | (measure == "swing"))]
        groups = rows.groupby(keys, observed=True, sort=False)
        table = groups.agg(
            k=(hit, "sum"), n=(among, "sum"), games=("game", "nunique"), last_seen=("date", "max")
        ).reset_index()
        parts.append(table.assign(measure=np.full(len(table), measure, dtype=object)))
    whole = plain_text(pd.concat(parts, ignore_index=True)).astype({"measure": "str"})
    whole = whole.astype({"k": "int64", "n": "int64"})
    whole = in_order(whole.assign(**_ranks(whole)), [*HITTER_KEYS, "split_at", "value_at", "value", "measure_at"])
    counted = whole[[*HITTING_KEYS, "k", "n", "games", "last_seen"]]
    return with_pooled_shares(counted, HITTING_KEYS[2:], usual.about("hitting"))[HITTING_COLUMNS]


def two_strike_change(rates: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """What does a hitter do otherwise with two strikes than before?

    Args:
        rates: rows of k of n by "strikes", "early" and "two", as `hitting` has them; several tables may be put
            together, each measure with a name of its own.
        usual: the change of all hitters together; that of these where it is not known.

    Returns:
        One row per team, player, bats and measure charted both early and with two strikes: CHANGE_COLUMNS. k, n, share,
        low and high are those with two strikes; `change` is the share's difference to the early one with its interval
        `change_low` to `change_high`; `told`: the whole interval lies on one side of none. `usual` is the change of all
        hitters of the side together, `unusual`: the whole interval lies on one side of that. Both shares lean on other
        hitters in the same count, so that the change leans on theirs; what is left open about each counts as
        independent.
    """
    keys = [*HITTER_KEYS, "measure"]
    rows = rates[rates["split"].eq("strikes")]
    early, two = (rows[rows["value"].eq(value)].drop(columns=["split", "value"]) for value in ("early", "two"))
    before = early[[*keys, "k", "n", "share", "low", "high"]].rename(
        columns={name: f"early_{name}" for name in ("k", "n", "share", "low", "high")}
    )
    table = two.merge(before, on=keys)
    spread = np.hypot(table["high"] - table["low"], table["early_high"] - table["early_low"]) / 2
    table["change"] = table["share"] - table["early_share"]
    table["change_low"], table["change_high"] = table["change"] - spread, table["change"] + spread
    table["told"] = (table["change_low"] > 0) | (table["change_high"] < 0)
    table["usual"] = np.nan
    for who, rows in table.groupby(["bats", "measure"], sort=False):
        change = usual.about("two strikes").of(" ".join(map(str, who)), partial(_change_of_all, rows))
        # Where nobody says what is usual, nobody is unusual.
        table.loc[rows.index, "usual"] = rows["change"] if change is None else change[0]
    table["unusual"] = (table["change_low"] > table["usual"]) | (table["change_high"] < table["usual"])
    return table[CHANGE_COLUMNS].reset_index(drop=True)


def _change_of_all(rows: pd.DataFrame) -> Floats:
    sums = rows[["k", "n", "early_k", "early_n"]].sum()
    return np.array([sums["k"] / sums["n"] - sums["early_k"] / sums["early_n"]])


def at_bat(pitches: pd.DataFrame) -> pd.DataFrame:
    """The rows that have a hitter, under his name as `player` and his team as `team`."""
    known = pitches[pitches["batter"].notna() & pitches["batter_team"].notna()]
    names = {"batter": "player", "batter_team": "team"}
    return known.drop(columns=["team", "player"], errors="ignore").rename(columns=names)


def hit_hard(rows: pd.DataFrame) -> "pd.Series[bool]":
    """Whether each ball was an extra-base hit, or a line drive or fly of HARD_HIT_FT; no is also what is not known."""
    far = rows["contact"].isin(["line", "fly"]) & (rows["distance_ft"] >= HARD_HIT_FT)
    return rows["play"].isin(EXTRA_BASES) | far


def _looks(pitches: pd.DataFrame) -> pd.DataFrame:
    """Pitches he swung at or let go, with what became of them as yes or no."""
    rows = at_bat(pitches)
    bunted = rows["contact"].eq("bunt")
    rows = rows[rows["result"].isin([*_SWUNG, *_TAKEN]) & ~bunted]
    swung, hard = rows["result"].isin(_SWUNG), hit_hard(rows)
    # A ball in play of which neither kind nor outcome was charted, and one in the air without a distance, say nothing.
    in_play = rows["result"].eq("in_play")
    no_distance = rows["contact"].isin(["line", "fly"]) & rows["distance_ft"].isna()
    no_outcome = rows["contact"].isna() | (rows["contact"].eq("ground") & rows["play"].isna())
    told = swung & (hard | ~in_play | ~(no_distance | no_outcome))
    columns = [*HITTER_KEYS, "game", "date", "balls", "strikes", "pitch", "height", "side"]
    throws = rows["throws"] if "throws" in rows else pd.Series(None, index=rows.index, dtype=object)
    return rows[columns].assign(
        look=True,
        swung=swung,
        missed=rows["result"].isin(MISSES),
        hard=hard & swung,
        told=told,
        throws=throws,
    )


def _cells(looks: pd.DataFrame) -> pd.DataFrame:
    """What was counted of each hitter in each game, for each split and value, for his side and for "all".

    A season is a million pitches and a few ten thousand of these.
    """
    first = (looks["balls"].eq(0) & looks["strikes"].eq(0)).fillna(value=False).astype(bool)
    strikes = looks["strikes"].to_numpy(dtype=np.float64, na_value=np.nan)
    early = pd.Series(np.where(strikes < 2, "early", "two"), index=looks.index).where(~np.isnan(strikes))
    family = {pitch: kind for kind, names in FAMILIES.items() for pitch in names}
    named = looks["pitch"].astype("category")
    kinds = named.cat.categories.map(lambda pitch: family.get(pitch, "other"))
    everything = pd.Series(ALL, index=looks.index)
    splits: list[tuple[str, pd.Series]] = [
        (ALL, everything),
        ("first pitch", everything.where(first)),
        ("first pitch", looks["throws"].astype(object).where(first)),
        ("strikes", early),
        ("family", named.map(dict(zip(named.cat.categories, kinds, strict=True)), na_action="ignore")),
        ("pitch", named),
        ("side", _side(looks)),
        ("height", _height(looks)),
    ]
    counted = ["look", "swung", "missed", "hard", "told"]
    keys = [*HITTER_KEYS, "game", "date", "value"]
    parts = []
    for split, value in splits:
        rows = looks.assign(value=value.astype("category"))[value.notna()]
        sums = rows.groupby(keys, observed=True, dropna=False, sort=False)[counted].sum().reset_index()
        parts.append(roll_up(sums, "bats").assign(split=split).astype({"value": object}))
    return pd.concat(parts, ignore_index=True)


def _side(rows: pd.DataFrame) -> pd.Series:
    """In, middle or away as the batter has it, by the side he stood on; missing where that or the place is."""
    side = rows["side"].to_numpy(dtype=np.float64, na_value=np.nan)
    stands = rows["bats"]
    turned = np.where(stands.eq("R"), side, 6 - side)
    word = np.select([turned < 3, turned == 3], ["in", "middle"], "away")
    return pd.Series(word, index=rows.index).where(~np.isnan(side) & stands.isin(["L", "R"]).to_numpy())


def _height(rows: pd.DataFrame) -> pd.Series:
    height = rows["height"].to_numpy(dtype=np.float64, na_value=np.nan)
    word = np.select([height > 3, height == 3], ["up", "center"], "down")
    return pd.Series(word, index=rows.index).where(~np.isnan(height))


def _ranks(table: pd.DataFrame) -> dict[str, pd.Series]:
    """Places of splits, values and measures in the order shown; pitches by name."""
    split = {name: at for at, name in enumerate(SPLITS)}
    value = {(name, word): at for name, words in SPLITS.items() for at, word in enumerate(words)}
    measure = {name: at for at, name in enumerate(MEASURES)}
    pairs = zip(table["split"], table["value"], strict=True)
    return {
        "split_at": table["split"].map(split),
        "value_at": pd.Series([value.get(pair, 0) for pair in pairs], index=table.index),
        "measure_at": table["measure"].map(measure),
    }
