"""How a hitter puts it in play: kinds of contact, which way, and bunts."""

from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.counts import ALL
from scoutgen.measures.directions import KINDS, Spray, spray_table
from scoutgen.measures.hitting import HITTER_KEYS, HITTING_COLUMNS, at_bat
from scoutgen.measures.levels import in_order, plain_text, roll_up
from scoutgen.measures.tally import COUNTED, tally, tally_hits, with_pooled_shares, with_shares_of_one
from scoutgen.measures.usual import AT_HAND, Usual

#: Kinds of contact of a full swing, in the order shown.
CONTACTS: Final = ("ground", "line", "fly", "popup")
#: Thirds of the field as the hitter has them: the middle lies within so many degrees of second base, ends included.
THIRDS: Final = ("pull", "middle", "other")
MIDDLE_DEG: Final = 15.0
CONTACT_COLUMNS: Final = [*HITTER_KEYS, "split", "value", "contact", *COUNTED]
THIRD_COLUMNS: Final = [*HITTER_KEYS, "kind", "split", "value", "where", *COUNTED[:5], "held", "games", "last_seen"]
APPEARANCE_COLUMNS: Final = [*HITTER_KEYS, "n", "balls", "games", "last_seen"]
BUNT_COLUMNS: Final = [
    *HITTER_KEYS, *COUNTED, "last_bunt", "fouled", "third", "middle", "first", "hits", "sacrifices", "nobody_on",
]  # fmt: skip


def appearances(pitches: pd.DataFrame) -> pd.DataFrame:
    """How many plate appearances of each hitter were charted?

    Returns:
        One row per team, player and bats (each side he was charted on beside "all"): APPEARANCE_COLUMNS. n: those
        charted to their end; balls: balls in play with a direction and a kind of contact, bunts and popups left out.
    """
    rows = roll_up(at_bat(pitches), "bats")
    ended = _ended(rows)
    ball = rows["direction_deg"].notna() & rows["contact"].isin(["ground", "line", "fly"])
    groups = rows.assign(n=ended.astype("int64"), balls=ball.astype("int64")).groupby(
        HITTER_KEYS, observed=True, sort=False
    )
    table = groups.agg(n=("n", "sum"), balls=("balls", "sum"), games=("game", "nunique"), last_seen=("date", "max"))
    return in_order(plain_text(table.reset_index()), HITTER_KEYS)[APPEARANCE_COLUMNS]


def contact(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """On the ground, a line drive, a fly, a popup: how often each?

    Args:
        pitches: the season's `pitches`; balls put in play with a kind of contact count, bunts do not.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        Four rows per team, player, bats (each side beside "all"), split and value: CONTACT_COLUMNS. Splits: "all";
        "strikes" "early" (none or one), "two". Shares lean on other hitters of the side in the same split and sum to 1.
    """
    rows = roll_up(_swung_in_play(pitches), "bats")
    keys = [*HITTER_KEYS, "split", "value"]
    table = tally(_by_strikes(rows), keys, "contact", CONTACTS)
    alike = ["bats", "split", "value", "contact"]
    return with_shares_of_one(table, keys, alike, usual.about("contact"))[CONTACT_COLUMNS]


def other_way(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """How often does he hit it to the third of the field he does not stand to: by strikes, as `hitting` has its rows.

    Args:
        pitches: the season's `pitches`.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player, bats (each side beside "all"), split ("all", "strikes") and value: HITTING_COLUMNS,
        measure "other way"; of ground balls, line drives and flies with a direction. Shares lean on other hitters of
        the side.
    """
    rows = _directed(pitches)
    split = _by_strikes(roll_up(rows.assign(to_other=rows["where"].eq("other")), "bats"))
    keys = [*HITTER_KEYS, "split", "value"]
    table = tally_hits(split, keys, "to_other").assign(measure="other way")
    return with_pooled_shares(table, ["bats", "split", "value"], usual.about("other way"))[HITTING_COLUMNS]


def thirds(pitches: pd.DataFrame, found: Spray, usual: Usual = AT_HAND) -> pd.DataFrame:
    """Pull side, middle, other way: k of n, with the share of the estimated directions.

    Args:
        pitches: what `found` was estimated from.
        found: directions of balls, `directions.spray`.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        Three rows per unit of `found`: THIRD_COLUMNS. A ball on the line between two thirds counts for the middle;
        `share` is of the estimated density, `low` to `high` about it as wide as the 90 % interval of k of n that lean
        on the other hitters of his side; `held` is how far it still rests on them.
    """
    keys = [*HITTER_KEYS, "kind", "split", "value"]
    rows = _directed(pitches)
    hands = rows[rows["throws"].notna()] if "throws" in rows else rows.iloc[:0].assign(throws=pd.Series(dtype=object))
    by_hand = hands.assign(split="hand", value=hands["throws"].astype(object))
    counted = tally(pd.concat([_by_strikes(rows), by_hand], ignore_index=True), keys, "where", THIRDS)
    counted = with_pooled_shares(counted, ["bats", "kind", "split", "value", "where"], usual.about("thirds"))
    below, above = counted["share"] - counted["low"], counted["high"] - counted["share"]
    counted = counted.assign(below=below, above=above).drop(columns=["share", "low", "high"])
    # The densities are the better estimates, since neighbouring directions and published shares speak in them; how far
    # off a third may be is better known from how the hitters' own shares of it scatter.
    shares = spray_table(found)[[*keys, "held", *THIRDS]]
    shares = shares.melt([*keys, "held"], list(THIRDS), var_name="where", value_name="share")
    table = shares.merge(counted, on=[*keys, "where"], how="inner")
    table["low"] = (table["share"] - table["below"]).clip(lower=0)
    table["high"] = (table["share"] + table["above"]).clip(upper=1)
    order = table["where"].map({where: at for at, where in enumerate(THIRDS)})
    return in_order(table.assign(place=order), [*keys, "place"])[THIRD_COLUMNS]


def bunts(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """In how many plate appearances did he put a bunt down, where, and what came of it?

    Args:
        pitches: the season's `pitches`.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        One row per team, player and bats (each side beside "all") with a plate appearance: BUNT_COLUMNS. k of n plate
        appearances ended on a bunt; `last_bunt` the day of the last; `fouled` pitches bunted foul beside them;
        `third`, `middle`, `first`: those with a direction, by thirds of the field; `hits` and `sacrifices` among k, the
        rest were outs, errors or choices; `nobody_on` of k, bases charted empty. Shares lean on other hitters.
    """
    rows = at_bat(pitches)
    down = rows["contact"].eq("bunt") & rows["result"].ne("foul_bunt")
    way = rows["direction_deg"]
    rows = rows.assign(
        down=down,
        fouled=rows["result"].eq("foul_bunt"),
        third=down & (way < -MIDDLE_DEG),
        middle=down & way.between(-MIDDLE_DEG, MIDDLE_DEG),
        first=down & (way > MIDDLE_DEG),
        hits=down & rows["play"].isin(["single", "double", "triple", "home_run"]),
        sacrifices=down & rows["play"].eq("sacrifice"),
        nobody_on=down & rows["bases"].eq(""),
        ended=_ended(rows),
        bunted=rows["date"].where(down),
    )
    groups = roll_up(rows, "bats").groupby(HITTER_KEYS, observed=True, sort=False)
    sums = {name: (name, "sum") for name in ("fouled", "third", "middle", "first", "hits", "sacrifices", "nobody_on")}
    table = groups.agg(
        k=("down", "sum"), n=("ended", "sum"), games=("game", "nunique"), last_seen=("date", "max"),
        last_bunt=("bunted", "max"), **sums,
    ).reset_index()  # fmt: skip
    table = in_order(plain_text(table[table["n"] > 0]), HITTER_KEYS)
    table = table.astype(dict.fromkeys(["k", "n", *sums], "int64"))
    pooled = with_pooled_shares(table[[*HITTER_KEYS, "k", "n", "games", "last_seen"]], ["bats"], usual.about("bunts"))
    return pooled.join(table[["last_bunt", *sums]])[BUNT_COLUMNS]


def batted_balls(pitches: pd.DataFrame) -> pd.DataFrame:
    """Every ball put in play that has a direction and a distance, for a drawing.

    Returns:
        team, player, bats, contact, direction_deg, distance_ft, play; rows in the order charted.
    """
    rows = at_bat(pitches)
    placed = rows["direction_deg"].notna() & rows["distance_ft"].notna() & rows["contact"].notna()
    columns = [*HITTER_KEYS, "contact", "direction_deg", "distance_ft", "play"]
    return plain_text(rows.loc[placed, columns]).reset_index(drop=True)


def _ended(rows: pd.DataFrame) -> "pd.Series[bool]":
    """The last pitch of a plate appearance: it has its play, or the ball was put in play."""
    put = rows["result"].eq("in_play") | (rows["contact"].notna() & rows["result"].isna())
    return rows["play"].notna() | put


def _swung_in_play(pitches: pd.DataFrame) -> pd.DataFrame:
    rows = at_bat(pitches)
    return rows[rows["contact"].isin(CONTACTS) & _ended(rows)]


def _directed(pitches: pd.DataFrame) -> pd.DataFrame:
    """Balls with a direction, in kinds and thirds; his side must be known."""
    kinds = {kind: name for name, group in KINDS.items() for kind in group}
    rows = at_bat(pitches)
    rows = rows[rows["direction_deg"].notna() & rows["contact"].isin(list(kinds)) & rows["bats"].isin(["L", "R"])]
    # To a right-handed hitter the left side is the pull side; a left-handed one is turned about.
    pulled = np.where(rows["bats"].eq("R"), -rows["direction_deg"], rows["direction_deg"])
    where = np.select([pulled > MIDDLE_DEG, pulled < -MIDDLE_DEG], ["pull", "other"], "middle")
    return rows.assign(kind=rows["contact"].astype(object).map(kinds), where=where)


def _by_strikes(rows: pd.DataFrame) -> pd.DataFrame:
    """Every row under "all", and where strikes were charted once more under "early" or "two"."""
    counted = rows[rows["strikes"].notna()]
    word = counted["strikes"].astype("int64").map(lambda strikes: "two" if strikes == 2 else "early")
    return pd.concat(
        [rows.assign(split=ALL, value=ALL), counted.assign(split="strikes", value=word.astype(object))],
        ignore_index=True,
    )
