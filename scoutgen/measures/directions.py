"""Where a hitter's balls go: densities over the field's directions, leaning on hitters of his side."""

from dataclasses import dataclass
from typing import Final

import numpy as np
import pandas as pd

from scoutgen.measures.intervals import Floats
from scoutgen.measures.leaning import lean
from scoutgen.measures.levels import plain_text

#: Directions in degrees: -45 the left-field line, 0 second base, 45 the right-field line. Bins of five degrees.
BINS: Final = 18
EDGES: Final[Floats] = np.linspace(-45.0, 45.0, BINS + 1)
CENTRES: Final[Floats] = (EDGES[:-1] + EDGES[1:]) / 2

#: Kinds of contact that a fielder stands for: balls on the ground, and those in the air that he runs under.
KINDS: Final = {"ground": ("ground",), "air": ("line", "fly")}

#: Ground balls by fifths of the field, left to right, of right-handed hitters and, mirrored, of left-handed ones:
#: Blengino, FanGraphs, January 2014. Balls in the air are spread more evenly; round shares, common practice, memory.
FIFTHS: Final = {
    "ground": {"R": (0.412, 0.259, 0.127, 0.124, 0.078), "L": (0.084, 0.124, 0.127, 0.258, 0.407)},
    "air": {"R": (0.24, 0.21, 0.20, 0.19, 0.16), "L": (0.16, 0.19, 0.20, 0.21, 0.24)},
}

#: Balls that the published shares count for beside those of all hitters charted.
_PUBLISHED: Final = 100.0

#: Half of the hitters lean on the others by less than this many balls; that counts for as much as so many hitters. The
#: pull share of ground balls differs from man to man by about .09 around .6: .6 * .4 / .09**2 - 1 (common knowledge of
#: big-league hitters, from memory).
_USUAL_STRENGTH: Final = 28.0
_PRIOR_HITTERS: Final = 60.0

#: How far a hitter's ball speaks for directions beside its own, in degrees: his density is not made of spikes.
_BLUR: Final = 7.0

SPRAY_COLUMNS: Final = ["team", "player", "bats", "kind", "split", "value", "n", "pull", "middle", "other", "held",
                        "games", "last_seen"]  # fmt: skip

_FIFTH_OF_BIN: Final = np.clip(np.floor((CENTRES + 45) / 18), 0, 4).astype(int)


@dataclass(frozen=True)
class Spray:
    """Directions of hitters' balls, a unit a row.

    Attributes:
        units: SPRAY_COLUMNS without the shares: who, the side he bats on, the kind of contact, the split and its
            value, balls charted, games and last day.
        counts: balls charted by bin, units x BINS.
        density: estimated share of his balls in each bin; rows sum to 1.
        worth: balls that the estimate is worth: his own and those it leans on.
    """

    units: pd.DataFrame
    counts: Floats
    density: Floats
    worth: Floats


def spray(pitches: pd.DataFrame) -> Spray:
    """Where does each hitter hit the ball, by kind of contact, pitcher's hand and strikes?

    A unit's density is his own balls, each blurred over its neighbours, averaged with that of all hitters of his side;
    how far he leans on them is learned from how hitters differ by fifths of the field (`leaning.lean`).

    Args:
        pitches: the season's `pitches`, with `throws` (the pitcher's hand, L or R) where it is known; rows with a
            direction and a kind of contact count.

    Returns:
        A row for each team, player, bats, kind ("ground", "air"), split and value: "all" "all"; "hand" "L" or "R", the
        pitcher's; "strikes" "early" (none or one) or "two".
    """
    rows = _hit(pitches)
    parts = [rows.assign(split="all", value="all")]
    if "throws" in rows:
        by_hand = rows[rows["throws"].notna()]
        parts.append(by_hand.assign(split="hand", value=by_hand["throws"].astype(str)))
    counted = rows[rows["strikes"].notna()]
    early = counted["strikes"].astype(int) < 2
    parts.append(counted.assign(split="strikes", value=early.map({True: "early", False: "two"})))
    table = pd.concat(parts, ignore_index=True)
    keys = ["team", "player", "bats", "kind", "split", "value"]
    groups = table.groupby(keys, observed=True, sort=True)
    units = groups.agg(n=("bin", "size"), games=("game", "nunique"), last_seen=("date", "max")).reset_index()
    place = groups.ngroup().to_numpy()
    counts = np.zeros((len(units), BINS))
    # A ball charted on the line between two bins counts half in each, so that mirrored hitters are mirrored.
    for column in ("bin", "other_bin"):
        np.add.at(counts, (place, table[column].to_numpy()), 0.5)
    density, worth = np.zeros(counts.shape), np.zeros(len(units))
    league = _league(units, counts)
    for kind in KINDS:
        own = np.flatnonzero(units["kind"].eq(kind).to_numpy())
        if not len(own):
            continue
        expected = np.array([league[kind, side] for side in units["bats"].iloc[own]])
        leaned = lean(
            _fifths(counts[own]), _fifths(expected), usual_strength=_USUAL_STRENGTH, prior_units=_PRIOR_HITTERS
        )
        n = counts[own].sum(axis=1)
        blurred = counts[own] @ _blur() / np.maximum(n, 1.0)[:, None]
        held = leaned.pull[:, None]
        density[own] = held * expected + (1 - held) * blurred
        worth[own] = n / np.maximum(1 - leaned.pull, 1e-3)
    return Spray(plain_text(units), counts, density, worth)


def spray_table(found: Spray) -> pd.DataFrame:
    """How much goes to the pull side, the middle and the other way?

    Returns:
        SPRAY_COLUMNS: shares of thirds of the field by estimate, `pull` on the side he bats on (left field for a
        right-handed hitter); `held` is how far the estimate still rests on other hitters.
    """
    thirds = found.density.reshape(len(found.density), 3, BINS // 3).sum(axis=2)
    right = found.units["bats"].eq("R").to_numpy()
    out = found.units.assign(
        pull=np.where(right, thirds[:, 0], thirds[:, 2]),
        middle=thirds[:, 1],
        other=np.where(right, thirds[:, 2], thirds[:, 0]),
        held=1 - found.units["n"].to_numpy() / found.worth,
    )
    return out[SPRAY_COLUMNS]


def _hit(pitches: pd.DataFrame) -> pd.DataFrame:
    """Balls hit with a direction, under the hitter's name, with their kind of contact and bin."""
    kinds = {contact: kind for kind, contacts in KINDS.items() for contact in contacts}
    rows = pitches[pitches["direction_deg"].notna() & pitches["contact"].isin(list(kinds)) & pitches["bats"].notna()]
    rows = rows[rows["batter"].notna()].drop(columns=["team", "player"], errors="ignore")
    rows = rows.rename(columns={"batter": "player", "batter_team": "team"})
    place = (rows["direction_deg"].to_numpy(float) - EDGES[0]) / (EDGES[1] - EDGES[0])
    first, second = (np.clip(each.astype(int), 0, BINS - 1) for each in (np.floor(place), np.ceil(place) - 1))
    kind = rows["contact"].astype(str).map(kinds)
    return rows.assign(kind=kind, bin=first, other_bin=second, bats=rows["bats"].astype(str))


def _league(units: pd.DataFrame, counts: Floats) -> dict[tuple[str, str], Floats]:
    """Density of all hitters of a side by kind of contact, mirrored hitters of the other side counted as well."""
    whole = units["split"].eq("all").to_numpy()
    found = {}
    for kind in KINDS:
        at = whole & units["kind"].eq(kind).to_numpy()
        right, left = (counts[at & units["bats"].eq(side).to_numpy()].sum(axis=0) for side in ("R", "L"))
        published = np.repeat(FIFTHS[kind]["R"], 1)
        start = _PUBLISHED * _over_bins(np.asarray(published, dtype=np.float64))
        # Left-handed hitters are right-handed ones in a mirror, so that neither side leans on fewer.
        both = start + (right + left[::-1]) @ _blur()
        both /= both.sum()
        found[kind, "R"], found[kind, "L"] = both, both[::-1].copy()
    return found


def _over_bins(fifths: Floats) -> Floats:
    """Shares of fifths as a smooth density over the bins."""
    place = np.interp(CENTRES, np.linspace(-36, 36, 5), fifths)
    return np.asarray(place / place.sum(), dtype=np.float64)


def _fifths(bins: Floats) -> Floats:
    """Sums over fifths of the field: units x 5."""
    out = np.zeros((len(bins), 5))
    for fifth in range(5):
        out[:, fifth] = bins[:, fifth == _FIFTH_OF_BIN].sum(axis=1)
    return out


def _blur() -> Floats:
    """Weight of each bin for a ball in another, rows sum to 1: what would be blurred over a line comes back inside."""
    apart = CENTRES[:, None] - CENTRES[None, :]
    weight = np.exp(-0.5 * (apart / _BLUR) ** 2)
    return np.asarray(weight / weight.sum(axis=1, keepdims=True), dtype=np.float64)
