"""Pitchers whose true mix is known, by side and count, and the pitches they throw; many at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pandas as pd
from scipy import special

PITCHES = ("fastball", "sinker", "cutter", "slider", "curve", "change", "splitter")
COUNTS = tuple(f"{balls}-{strikes}" for balls in range(4) for strikes in range(3))
KINDS = ("starter", "reliever", "platoon", "blind")
HARD = np.array([1, 1, 1, 0, 0, 0, 0])
SOFT_TO_THE_OTHER_SIDE = np.array([0.2, -0.3, 0.1, -0.5, -0.1, 0.8, 0.6])

# Chances of ball, called strike, swinging strike, foul, in play; round numbers of the big leagues.
RESULTS = ("ball", "called_strike", "swinging_strike", "foul", "in_play")
CHANCES = np.array([0.36, 0.17, 0.10, 0.18, 0.19])


@dataclass(frozen=True)
class MixLeague:
    """True shares, pitchers x 24 cells (L 0-0 ... R 3-2) x PITCHES; what kind each pitcher is of."""

    truth: np.ndarray
    kinds: np.ndarray


def draw_league(pitchers: int, *, kinds: Sequence[str] = KINDS, seed: int = 1) -> MixLeague:
    """Pitchers of the kinds named, in turn.

    A starter throws five pitches and a reliever two; a platoon man changes his mix wholly from side to side, a blind
    one throws the same at every count. How they move with the count is drawn here in its own way (by the pitcher's
    lead, with a bump of its own in each cell), not as any measure supposes.
    """
    rng = np.random.default_rng(seed)
    kind = np.array([kinds[at % len(kinds)] for at in range(pitchers)])
    lead = np.array([float(count[2]) * 1.3 - float(count[0]) for count in COUNTS]) / 2
    logs = np.full((pitchers, 24, len(PITCHES)), -np.inf)
    for at in range(pitchers):
        thrown = {"starter": 5, "reliever": 2, "platoon": 4, "blind": 4}[kind[at]]
        others = rng.choice(np.arange(1, len(PITCHES)), thrown - 1, replace=False)
        own = np.concatenate([[0], others])
        level = np.concatenate([[rng.normal(0.9, 0.4)], rng.normal(0, 0.7, thrown - 1)])
        by_lead = -0.45 * HARD[own] + rng.normal(0, 0.25, thrown)
        by_side = rng.choice([-1, 1]) * SOFT_TO_THE_OTHER_SIDE[own] + rng.normal(0, 0.25, thrown)
        bump = rng.normal(0, 0.15, (2, 12, thrown))
        if kind[at] == "platoon":
            by_side = by_side * 2.5
        if kind[at] == "blind":
            by_lead, bump = by_lead * 0, bump * 0
        sides = np.array([-0.5, 0.5])[:, None, None]
        cells = level + lead[None, :, None] * by_lead + sides * by_side + bump
        logs[at][:, own] = cells.reshape(24, thrown)
    return MixLeague(special.softmax(logs, axis=2), kind)


def throw(
    league: MixLeague, games: int, *, batters: int = 24, concentration: float | None = None, seed: int = 2
) -> pd.DataFrame:
    """Every pitcher's pitches in that many games to that many batters each, as a season frame.

    With a concentration, each game has its own mix, drawn from a Dirichlet distribution about the true one in every
    cell; one draw of chance a game moves all its cells alike.
    """
    rng = np.random.default_rng(seed)
    pitchers = len(league.truth)
    rows = _plate_appearances(pitchers * games, batters, rng)
    pitcher, game = np.divmod(rows["outing"].to_numpy(), games)
    cell = (rows["bats"].to_numpy() == "R") * 12 + rows["balls"].to_numpy() * 3 + rows["strikes"].to_numpy()
    shares = league.truth[pitcher, cell]
    if concentration is not None:
        shares = _strayed(league.truth, games, concentration, rng)[rows["outing"].to_numpy(), cell]
    drawn = (rng.random((len(rows), 1)) > shares.cumsum(axis=1)[:, :-1]).sum(axis=1)
    day = np.datetime64("2026-02-13", "s") + game * np.timedelta64(5, "D").astype("timedelta64[s]")
    rows = rows.assign(
        date=day,
        game=_named("g", rows["outing"].to_numpy(), pitchers * games),
        pitcher=_named("p", pitcher, pitchers),
        pitcher_team=_named("team", pitcher // 15, pitchers // 15 + 1),
        pitch=pd.Categorical.from_codes(drawn, categories=list(PITCHES)),
    )
    order = np.lexsort((np.arange(len(rows)), pitcher, game))
    return rows.drop(columns="outing").iloc[order].reset_index(drop=True)


def write_charts(pitches: pd.DataFrame, folder: Path) -> None:
    """Write the pitches as a project's charts: data/games.csv and data/pitches.csv."""
    data = folder / "data"
    data.mkdir(parents=True)
    games = pitches.drop_duplicates("game")
    charted = pd.DataFrame(
        {
            "game": games["game"],
            "date": games["date"].dt.strftime("%Y-%m-%d"),
            "away": "visitors",
            "home": games["pitcher_team"],
            "source": "video",
        }
    )
    charted.to_csv(data / "games.csv", index=False)
    rng = np.random.default_rng(4)
    rows = pitches.drop(columns=["date", "pitcher_team"]).assign(
        half="top",
        speed_mph=rng.normal(88, 4, len(pitches)).round(1).clip(60, 100),
        plate_x_ft=rng.normal(0, 0.8, len(pitches)).round(2),
        plate_z_ft=rng.normal(2.4, 0.8, len(pitches)).round(2),
    )
    rows.to_csv(data / "pitches.csv", index=False)


def _plate_appearances(outings: int, batters: int, rng: np.random.Generator) -> pd.DataFrame:
    """Pitches of all plate appearances, played out side by side, in the order thrown."""
    appearances = outings * batters
    balls, strikes, alive = (np.zeros(appearances, dtype=int) for _ in range(3))
    alive = np.arange(appearances)
    parts = []
    for number in range(1, 40):
        result = rng.choice(len(RESULTS), len(alive), p=CHANCES)
        b, s = balls[alive], strikes[alive]
        play = np.full(len(alive), "", dtype="U10")
        play[result == 4] = rng.choice(["out", "out", "single"], (result == 4).sum())
        play[(result == 0) & (b == 3)] = "walk"
        play[((result == 1) | (result == 2)) & (s == 2)] = "strikeout"
        parts.append(
            pd.DataFrame({"at": alive, "number": number, "balls": b, "strikes": s, "result": result, "play": play})
        )
        balls[alive] += (result == 0) & (b < 3)
        strikes[alive] += ((result == 1) | (result == 2) | (result == 3)) & (s < 2)
        alive = alive[play == ""]
        if not len(alive):
            break
    rows = pd.concat(parts).sort_values(["at", "number"], kind="stable", ignore_index=True)
    at = rows["at"].to_numpy()
    outing, turn = np.divmod(at, batters)
    bats = np.where(rng.random((outings, 9)) < 0.4, "L", "R")
    runners = rng.choice(["", "1", "2", "13"], appearances, p=[0.55, 0.25, 0.15, 0.05])
    return pd.DataFrame(
        {
            "outing": outing,
            "inning": pd.array(turn // 4 + 1, dtype="Int16"),
            "outs": pd.array(np.minimum(turn % 4, 2), dtype="Int16"),
            "bases": pd.Categorical(runners[at]),
            "batter": _named("b", turn % 9, 9),
            "bats": pd.Categorical(bats[outing, turn % 9]),
            "balls": rows["balls"].astype("Int16"),
            "strikes": rows["strikes"].astype("Int16"),
            "result": pd.Categorical.from_codes(rows["result"].to_numpy(), categories=list(RESULTS)),
            "play": pd.Categorical(rows["play"].where(rows["play"] != "", None)),
        }
    )


def _strayed(truth: np.ndarray, games: int, concentration: float, rng: np.random.Generator) -> np.ndarray:
    """Each game's own shares: outings x cells x pitches."""
    shape = np.repeat(truth, games, axis=0) * concentration
    chance = rng.random((len(shape), 1, shape.shape[2]))
    thrown = shape > 0
    drawn = np.where(thrown, special.gammaincinv(np.where(thrown, shape, 1.0), np.broadcast_to(chance, shape.shape)), 0)
    return drawn / drawn.sum(axis=2, keepdims=True)


def _named(letter: str, codes: np.ndarray, size: int) -> pd.Categorical:
    width = len(str(size))
    return pd.Categorical.from_codes(codes, categories=[f"{letter}{at:0{width}d}" for at in range(size)])
