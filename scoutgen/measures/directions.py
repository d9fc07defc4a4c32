"""Where a hitter's balls go: densities over the field's directions, leaning on hitters of his side."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.measures.intervals import Floats, weighted
from scoutgen.measures.levels import plain_text
from scoutgen.measures.usual import AT_HAND, Usual

#: Directions in degrees: -45 the left-field line, 0 second base, 45 the right-field line. Bins of five degrees.
BINS: Final = 18
EDGES: Final[Floats] = np.linspace(-45.0, 45.0, BINS + 1)
#: How wide a bin is.
BIN_DEG: Final = float(EDGES[-1] - EDGES[0]) / BINS
CENTRES: Final[Floats] = (EDGES[:-1] + EDGES[1:]) / 2

#: Kinds of contact that a fielder stands for: balls on the ground, and those in the air that he runs under.
KINDS: Final = {"ground": ("ground",), "air": ("line", "fly")}

#: Balls by fifths of the field, left to right, of right-handed hitters; left-handed ones are their mirror to within a
#: hundredth. On the ground: Blengino, FanGraphs, January 2014. In the air they are spread more evenly: round shares,
#: common practice, memory.
FIFTHS: Final = {
    "ground": (0.412, 0.259, 0.127, 0.124, 0.078),
    "air": (0.24, 0.21, 0.20, 0.19, 0.16),
}

#: Balls that the published shares count for beside those of all hitters charted.
_PUBLISHED: Final = 100.0

#: Tilts of a hitter's density against that of all: log-shares change by so much from second base to his pull-side line.
TILTS: Final[Floats] = np.linspace(-3.0, 3.0, 61)

#: Spreads of the tilts from man to man that are weighed against each other, and what is thought of them beforehand: the
#: pull share of ground balls differs by about .09 around two thirds, a spread of tilts of about .4 (common knowledge of
#: big-league hitters, from memory).
_SPREADS: Final[Floats] = np.array([0.1, 0.2, 0.3, 0.4, 0.55, 0.75, 1.0])
_PRIOR: Final[Floats] = np.exp(-0.5 * (np.log(_SPREADS / 0.4) / 0.5) ** 2)

#: How far all hitters' balls speak for directions beside their own, in degrees: the density is not made of spikes.
_BLUR: Final = 4.0

SPRAY_COLUMNS: Final = ["team", "player", "bats", "kind", "split", "value", "n", "pull", "middle", "other", "held",
                        "games", "last_seen"]  # fmt: skip


@dataclass(frozen=True)
class Spray:
    """Directions of hitters' balls, a unit a row.

    Attributes:
        units: SPRAY_COLUMNS without the shares: who, the side he bats on, the kind of contact, the split and its
            value, balls charted, games and last day.
        counts: balls charted by bin, units x BINS.
        density: estimated share of his balls in each bin; rows sum to 1.
        held: how far the estimate still rests on other hitters, 0-1.
        weights: how likely each of TILTS is for him, units x TILTS; rows sum to 1.
        tilted: by kind, the density that each tilt makes for a right-handed hitter, TILTS x BINS; a left-handed one's
            is its mirror.
    """

    units: pd.DataFrame
    counts: Floats
    density: Floats
    held: Floats
    weights: Floats
    tilted: Mapping[str, Floats]


def spray(pitches: pd.DataFrame, usual: Usual = AT_HAND) -> Spray:
    """Where does each hitter hit the ball, by kind of contact, pitcher's hand and strikes?

    A hitter's density is that of all hitters of his side, tilted to the pull side or away from it. Tilts are normal
    about none; how far men differ is learned from all of them, under a prior that a season's few balls cannot outvote.

    Args:
        pitches: the season's `pitches`, with `throws` (the pitcher's hand, L or R) where it is known; rows with a
            direction and a kind of contact count.
        usual: all hitters' directions and how far men differ; learned from these where it is not known.

    Returns:
        A row for each team, player, bats, kind ("ground", "air"), split and value: "all" "all"; "hand" "L" or "R", the
        pitcher's; "strikes" "early" (none or one) or "two".

    Source:
        Exponential tilting (Efron and Tibshirani, Annals of Statistics 24 (1996) 2431-2461); the posterior is summed on
        a grid.
    """
    units, counts = _counted(pitches)
    whole, right = units["split"].eq("all").to_numpy(), units["bats"].eq("R").to_numpy()
    # A left-handed hitter is a right-handed one in a mirror, so that neither side leans on fewer.
    turned = np.where(right[:, None], counts, counts[:, ::-1])
    density, held = np.zeros(counts.shape), np.ones(len(units))
    weights, tilted = np.zeros((len(units), len(TILTS))), {}
    for kind in KINDS:
        own = units["kind"].eq(kind).to_numpy()
        told = usual.about(f"spray {kind}")
        balls = told.of("balls", partial(turned[own & whole].sum, axis=0))
        league = _league(kind, np.zeros(BINS) if balls is None else balls)
        shares = league * np.exp(-TILTS[:, None] * CENTRES / EDGES[-1])
        tilted[kind] = shares / shares.sum(axis=1, keepdims=True)
        fit = weighted(turned[own], np.log(tilted[kind]).T)
        weights[own], before = _weighed(fit, whole[own], told)
        density[own] = weighted(weights[own], tilted[kind])
        middle = weighted(weights[own], TILTS)
        held[own] = (weighted(weights[own], TILTS**2) - middle**2) / before
    return Spray(
        units, counts, np.where(right[:, None], density, density[:, ::-1]), np.minimum(held, 1), weights, tilted
    )


def _counted(pitches: pd.DataFrame) -> tuple[pd.DataFrame, Floats]:
    """The units, and their balls by bin."""
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
    counts = np.zeros((len(units), BINS))
    # A ball charted on the line between two bins counts half in each, so that mirrored hitters are mirrored.
    for column in ("bin", "other_bin"):
        np.add.at(counts, (groups.ngroup().to_numpy(), table[column].to_numpy()), 0.5)
    return plain_text(units), counts


def _weighed(fit: Floats, whole: NDArray[np.bool_], usual: Usual) -> tuple[Floats, float]:
    """How likely each tilt is for each unit, and the variance of tilts before any ball.

    Args:
        fit: log-likelihood of each unit's balls under each tilt.
        whole: the units that hold all balls of a man: the spread is learned from them.
        usual: where it is known.
    """
    priors = np.exp(-0.5 * (TILTS / _SPREADS[:, None]) ** 2)
    priors /= priors.sum(axis=1, keepdims=True)
    likelihood = np.exp(fit - fit.max(axis=1, keepdims=True, initial=-np.inf))

    def learned(likelihoods: Floats) -> Floats:
        log = np.log(_PRIOR) + np.log(likelihoods @ priors.T).sum(axis=0)
        of_spread = np.exp(log - log.max())
        return np.asarray((of_spread / of_spread.sum()) @ priors, dtype=np.float64)

    common = usual.of("tilts", partial(learned, likelihood[whole]))
    prior = learned(likelihood[:0]) if common is None else common
    weights = likelihood * prior
    return weights / weights.sum(axis=1, keepdims=True), float(prior @ TILTS**2)


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
        held=found.held,
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


def _league(kind: str, counts: Floats) -> Floats:
    """Density of all hitters' balls of a kind, as right-handed hitters hit them."""
    total = _PUBLISHED * _over_bins(np.array(FIFTHS[kind])) + counts @ _blur()
    return np.asarray(total / total.sum(), dtype=np.float64)


def _over_bins(fifths: Floats) -> Floats:
    """Shares of fifths of the field dealt out to the bins by how far each lies in which."""
    ends = np.linspace(EDGES[0], EDGES[-1], len(fifths) + 1)
    up_to = np.interp(EDGES, ends, np.concatenate([[0.0], np.cumsum(fifths)]))
    return np.asarray(np.diff(up_to) / up_to[-1], dtype=np.float64)


def _blur() -> Floats:
    """Weight of each bin for a ball in another, rows sum to 1: what would be blurred over a line comes back inside."""
    apart = CENTRES[:, None] - CENTRES[None, :]
    weight = np.exp(-0.5 * (apart / _BLUR) ** 2)
    return np.asarray(weight / weight.sum(axis=1, keepdims=True), dtype=np.float64)
