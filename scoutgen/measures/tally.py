"""How often: k of n in each group, with a share that leans on the others and its 90 % interval."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.measures.intervals import Floats, beta
from scoutgen.measures.levels import in_order, plain_text
from scoutgen.measures.pooling import lean, pool
from scoutgen.measures.usual import AT_HAND, Usual

SHARE: Final = ["k", "n", "share", "low", "high"]
COUNTED: Final = [*SHARE, "games", "last_seen"]
#: From how many on what units have in common is learnt from a part of them.
MANY: Final = 40


def tally(rows: pd.DataFrame, by: Sequence[str], what: str, values: Sequence[str]) -> pd.DataFrame:
    """How often is each value of `what` seen in each group? A value never seen is there with k = 0.

    Args:
        rows: one row a look, with `game` and `date`; rows where `what` or a column of `by` is missing are left out.
        by: columns that make a group.
        what: the column counted.
        values: the words it may hold, in the order shown.

    Returns:
        by + [what, k, n, games, last_seen]; n, games and last_seen are of the whole group.
    """
    seen = rows[rows[what].isin(list(values))]
    groups = seen.groupby(list(by), observed=True, sort=False).agg(
        n=("game", "size"), games=("game", "nunique"), last_seen=("date", "max")
    )
    table = plain_text(groups.reset_index()).merge(
        pd.DataFrame({what: pd.Series(list(values), dtype="str")}), how="cross"
    )
    counts = seen.groupby([*by, what], observed=True, sort=False).size().rename("k").reset_index()
    table = table.merge(plain_text(counts), on=[*by, what], how="left")
    table["k"] = table["k"].fillna(0).astype("int64")
    return in_order(table, [*by, what])[[*by, what, "k", "n", "games", "last_seen"]]


def tally_hits(rows: pd.DataFrame, by: Sequence[str], hit: str) -> pd.DataFrame:
    """In how many of the looks of each group was `hit` true?

    Args:
        rows: one row a look, with `game`, `date` and the yes/no column `hit`; rows where it is missing are left out.
        by: columns that make a group; a missing player or position makes a group of its own.
        hit: name of the yes/no column.

    Returns:
        by + [k, n, games, last_seen].
    """
    looks = rows[rows[hit].notna()]
    looks = looks.assign(**{hit: looks[hit].astype(bool).astype("int64")})
    groups = looks.groupby(list(by), observed=True, sort=False, dropna=False)
    table = groups.agg(
        k=(hit, "sum"), n=(hit, "size"), games=("game", "nunique"), last_seen=("date", "max")
    ).reset_index()
    return in_order(plain_text(table), by)[[*by, "k", "n", "games", "last_seen"]]


def with_pooled_shares(table: pd.DataFrame, alike: Sequence[str], usual: Usual = AT_HAND) -> pd.DataFrame:
    """Add share, low and high: what k of n is worth when groups alike in the columns of `alike` lean on each other.

    Where it is known what is `usual` they lean on that instead; a group of which nobody taught it stands alone. Where
    more than MANY lean on each other, how strongly is learnt from MANY of them, spread evenly from the least to the
    most looked at, and taken as known: so many leave little doubt about it, and a season of 300 pitchers stays a matter
    of a second.

    Source: see `scoutgen.measures.pooling`.
    """
    out = table.assign(share=np.nan, low=np.nan, high=np.nan)
    values = np.full((len(table), 3), np.nan)
    codes = table.groupby(list(alike), observed=True, sort=False, dropna=False).ngroup().to_numpy()
    k, n = table["k"].to_numpy(np.float64), table["n"].to_numpy(np.float64)
    # Within a group by n and k, so that groups that saw the same are recognised and worked out once.
    order = np.lexsort([k, n, codes])
    known: dict[tuple[bytes, ...], Floats] = {}
    groups = np.split(order, np.flatnonzero(np.diff(codes[order])) + 1) if len(table) else []
    for question, rows in zip(_questions(table, alike, groups), groups, strict=True):
        common = usual.of(question, partial(_in_common, k[rows], n[rows]))
        if usual.only_learns:
            continue
        same = (k[rows].tobytes(), n[rows].tobytes(), b"" if common is None else common.tobytes())
        if same not in known:
            known[same] = _leaning(k[rows], n[rows], common)
        values[rows] = known[same]
    out[["share", "low", "high"]] = values
    columns = [c for c in table.columns if c not in COUNTED]
    return out[[*columns, *SHARE, *[c for c in ("games", "last_seen") if c in table]]]


def _questions(table: pd.DataFrame, alike: Sequence[str], groups: Sequence[NDArray[np.int64]]) -> Iterator[str]:
    """What each group has in common, in words."""
    words = [table[column].iloc[[rows[0] for rows in groups]].astype(str) for column in alike]
    return (" ".join(some) for some in zip(*words, strict=True))


def _in_common(k: Floats, n: Floats) -> Floats:
    """What units have in common: of many their mean and how strongly they hold to it, of a few their own k and n.

    `n` in rising order.
    """
    if len(n) <= MANY:
        return np.stack([k, n])
    some = np.linspace(0, len(n) - 1, MANY).round().astype(np.int64)
    common = pool(k[some], n[some])
    # Everybody's mean, each weighted by what his looks say about it beside his own distance from it; and one look at
    # the mean of the some, so that it stays off 0 and 1.
    weight = 1 / (n + common.strength)
    one = 1 / (1 + common.strength)
    mean = (weight @ k + one * common.mean) / (weight @ n + one)
    return np.array([mean, common.strength])


def _leaning(k: Floats, n: Floats, common: Floats | None) -> Floats:
    """Share, low and high of units that lean on what `_in_common` found; on nothing where that is None."""
    if common is None:
        return np.vstack([lean(k[[at]], n[[at]])[:, :3] for at in range(len(n))])
    if common.ndim > 1:
        return lean(k, n, among=(common[0], common[1]))[:, :3]
    mean, strength = common
    hits, misses = mean * strength + k, (1 - mean) * strength + n - k
    ends = beta(hits, misses)
    return np.column_stack([hits / (hits + misses), ends.low, ends.high])


def with_shares_of_one(
    table: pd.DataFrame, by: Sequence[str], alike: Sequence[str], usual: Usual = AT_HAND
) -> pd.DataFrame:
    """As `with_pooled_shares`, for words of which each look has exactly one: the shares of a group sum to 1.

    Each word leans on its own; bringing the sum to 1 moves a share by little, and its interval is opened to hold it.
    """
    pooled = with_pooled_shares(table, alike, usual)
    total = pooled.groupby(list(by), observed=True, sort=False)["share"].transform("sum")
    pooled["share"] = pooled["share"] / total
    pooled["low"] = pooled[["low", "share"]].min(axis=1)
    pooled["high"] = pooled[["high", "share"]].max(axis=1)
    return pooled
