"""On whose outfield is the extra base taken: runners who took it, of those who could, by where the ball went."""

from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.levels import in_order, plain_text
from scoutgen.measures.tally import with_pooled_shares
from scoutgen.measures.usual import AT_HAND, Usual

#: The plays a third-base coach decides: from first to third and from second home on a single, from first home on a
#: double.
PLAYS: Final = ("first_third", "second_home", "first_home")
OUTFIELD: Final = (7, 8, 9)

EXTRA_COLUMNS: Final = ["team", "position", "play", "k", "n", "out", "share", "low", "high", "games", "last_seen"]

_BASES: Final = ("1", "2", "3")


def extra_bases(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> pd.DataFrame:
    """How often do runners take the extra base on a hit to each outfield position?

    What became of a runner is read off the chart: the bases occupied, the outs and the score before the hit and before
    the pitch that follows it. The man ahead of him scores first. A chance counts where the base he may take is his to
    take: from first to third only where nobody stops at third before him. What the next row cannot tell (no bases or
    lead charted, the last pitch of a game, two men either of whom may have been put out) is left out.

    Args:
        pitches: the season's `pitches` in order of play; `lead` is of the pitching side.
        usual: what these have in common; learned from them where it is not known.

    Returns:
        EXTRA_COLUMNS, a row for each fielding team, outfield position (7-9) and play of PLAYS with a chance: `k` took
        it in `n` chances, `out` were put out at it (counted in n); the share leans on all outfields of that play.
    """
    chances = _chances(pitches)
    keys = ["team", "position", "play"]
    groups = chances.groupby(keys, observed=True, sort=False)
    table = groups.agg(
        k=("took", "sum"), n=("took", "size"), out=("out", "sum"), games=("game", "nunique"), last_seen=("date", "max")
    ).reset_index()
    table = table.astype({"k": "int64", "n": "int64", "out": "int64"})
    table = in_order(plain_text(table), ["team", "position"])
    order = table["play"].map({play: place for place, play in enumerate(PLAYS)})
    table = table.assign(order=order).sort_values(["team", "position", "order"], kind="stable").drop(columns="order")
    return with_pooled_shares(table.reset_index(drop=True), ["play"], usual.about("extra bases"))[EXTRA_COLUMNS]


def _chances(pitches: pd.DataFrame) -> pd.DataFrame:
    """One row a chance: team, position, play, whether he took it and whether he was out.

    Where somebody was put out, bases alone do not always say who: such a chance counts only where it can have been
    nobody but him.
    """
    hits = _hits(pitches)
    runs, put_out, over = hits["runs"], hits["outs_after"] > hits["outs"], hits["outs_after"].ge(3)
    on = {base: hits["before"].str.contains(base) for base in _BASES}
    then = {base: hits["after"].str.contains(base) for base in _BASES}
    single, double = hits["play"].eq("single"), hits["play"].eq("double")
    ahead = on["3"].astype(int)
    # From second on a single, behind the man on third. A man at third afterwards may have come from first.
    home = runs > ahead
    held = ~home & then["3"] & ~(put_out & on["1"])
    out = ~home & ~then["3"] & put_out & ~(over & on["1"])
    parts = [_part(hits, "second_home", single & on["2"], took=home, held=held, out=out)]
    # From first on a single: third is his to take only where nobody stopped there or was put out on the way.
    free = single & on["1"] & (~on["2"] | home)
    third = then["3"] | (runs > ahead + on["2"].astype(int))
    held = ~third & then["2"] & ~put_out
    out = ~third & put_out & ~(then["1"] & then["2"])
    parts.append(_part(hits, "first_third", free, took=third, held=held, out=out))
    # From first on a double. With one out on the play, a man at third may be the batter, gone there on the throw home.
    home = runs > ahead + on["2"].astype(int)
    held, out = ~home & then["3"] & ~put_out, ~home & ~then["3"] & put_out
    parts.append(_part(hits, "first_home", double & on["1"], took=home, held=held, out=out))
    return pd.concat(parts, ignore_index=True)


def _part(
    hits: pd.DataFrame, play: str, could: pd.Series, *, took: pd.Series, held: pd.Series, out: pd.Series
) -> pd.DataFrame:
    """Chances of one play whose end is known."""
    known = could & (took | held | out)
    return pd.DataFrame(
        {
            "team": hits["pitcher_team"],
            "position": hits["fielder"].astype("Int64"),
            "play": play,
            "took": took,
            "out": out,
            "game": hits["game"],
            "date": hits["date"],
        }
    )[known]


def _hits(pitches: pd.DataFrame) -> pd.DataFrame:
    """Singles and doubles to the outfield with somebody on, and what the row after each says."""
    rows = pitches.reset_index(drop=True)
    after = rows.shift(-1)
    same_game = rows["game"].astype("object").eq(after["game"].astype("object"))
    same_half = same_game & rows["inning"].eq(after["inning"]) & rows["half"].astype("object").eq(after["half"])
    # In the next half the other side pitches, so its lead is read the other way; every base is empty and three are out.
    turned = np.where(same_half, 1.0, -1.0)
    hits = rows.assign(
        before=rows["bases"].astype("object"),
        after=after["bases"].astype("object").where(same_half, ""),
        runs=rows["lead"].astype("float64") - turned * after["lead"].astype("float64"),
        outs_after=after["outs"].astype("float64").where(same_half, 3.0),
    )
    ended = same_half | rows["outs"].eq(2)
    known = same_game & ended & hits["runs"].between(0, 4) & hits["outs_after"].notna() & rows["outs"].notna()
    hit = rows["play"].isin(["single", "double"]) & rows["fielder"].isin(OUTFIELD)
    on = hits["before"].notna() & hits["before"].ne("") & hits["after"].notna()
    return hits[(hit & known.fillna(value=False).astype(bool) & on).astype(bool)]
