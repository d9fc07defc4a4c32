"""From a pitcher's last m starts to his next one: how well is each pitch foretold?

Charted files of a real pitcher are looked for in the folder named by SCOUTGEN_REALDATA, or beside the repository in
../shared/realdata; they are not part of it.
"""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pandas as pd

from scoutgen.measures.usage import usage

ROOT = Path(__file__).parents[2]
STARTS = (1, 2, 3, 5, 8)
COLUMNS = ("overall", "side", "count", "side and count", "logit", "usage")

# Scores published with the pitches, in nats per pitch; the last column is a multinomial logit at C = 1.
PUBLISHED = pd.DataFrame(
    [
        [1.313, 1.331, 1.315, 1.318, np.nan],
        [1.256, 1.268, 1.224, 1.258, 1.214],
        [1.213, 1.204, 1.188, 1.199, 1.162],
        [1.251, 1.250, 1.190, 1.211, 1.192],
        [1.253, 1.248, 1.184, 1.192, 1.186],
    ],
    index=pd.Index(STARTS, name="starts"),
    columns=list(COLUMNS[:-1]),
)


def real_folder() -> Path | None:
    """The folder of real pitches, where there is one."""
    folder = Path(os.environ.get("SCOUTGEN_REALDATA", ROOT.parent / "shared" / "realdata"))
    return folder if any(folder.glob("*_pitches.csv")) else None


def real_pitches(folder: Path, who: str = "pitcher_a") -> pd.DataFrame:
    """One real pitcher's pitches with the columns every season frame has."""
    pitches = pd.read_csv(folder / f"{who}_pitches.csv")
    games = pd.read_csv(folder / f"{who}_games.csv", parse_dates=["date"])
    pitches = pitches.merge(games[["game", "date"]], on="game", validate="many_to_one")
    pitches = pitches.sort_values("date", kind="stable", ignore_index=True)
    return as_season_frame(pitches)


def as_season_frame(pitches: pd.DataFrame) -> pd.DataFrame:
    """The columns the measures need, with the dtypes of a season; what is absent is missing in every row."""
    out = pd.DataFrame({"date": pitches["date"]})
    for column in ("game", "pitcher", "pitcher_team", "batter", "bats", "pitch", "bases", "result", "play"):
        values = pitches[column] if column in pitches else pd.Series(pd.NA, index=pitches.index, dtype="object")
        out[column] = values.astype("category")
    for column in ("balls", "strikes", "inning"):
        values = pitches[column] if column in pitches else pd.Series(pd.NA, index=pitches.index)
        out[column] = values.astype("Int16")
    return out


@dataclass(frozen=True)
class Trial:
    """The last m starts and the next one, as rows of the pitcher's frame."""

    before: pd.DataFrame
    after: pd.DataFrame


def trials(pitches: pd.DataFrame, starts: int, *, every: int = 3) -> list[Trial]:
    """Every third start that has enough before it, with those before it."""
    games = pitches["game"].drop_duplicates().tolist()
    place = pitches["game"].map({game: at for at, game in enumerate(games)}).astype(int)
    return [
        Trial(pitches[(place >= at - starts) & (place < at)], pitches[place == at])
        for at in range(starts, len(games), every)
    ]


def smoothed_shares(trial: Trial, by: Sequence[str], names: Sequence[str]) -> np.ndarray:
    """Share of each pitch thrown next, counted in the cells of `by`, half a pitch added to each."""
    both = pd.concat([trial.before, trial.after])
    # Where nothing splits them, all pitches are one cell.
    cell = both.groupby(list(by), observed=True).ngroup().to_numpy() if by else np.zeros(len(both), dtype=int)
    pitch = _place(both["pitch"], names)
    counted = np.full((cell.max() + 1, len(names)), 0.5)
    np.add.at(counted, (cell[: len(trial.before)], pitch[: len(trial.before)]), 1)
    shares = counted / counted.sum(axis=1, keepdims=True)
    return shares[cell[len(trial.before) :], pitch[len(trial.before) :]]


def logit_shares(trial: Trial, names: Sequence[str]) -> np.ndarray:
    """The same from a multinomial logit on balls, strikes, side, two strikes and their products (C = 1)."""
    from sklearn.linear_model import LogisticRegression

    def design(part: pd.DataFrame) -> np.ndarray:
        balls, strikes = (part[c].to_numpy(dtype=float) for c in ("balls", "strikes"))
        side, two = (part["bats"] == "R").to_numpy(dtype=float), (strikes == 2).astype(float)
        return np.column_stack(
            [balls, strikes, side, two, balls * strikes, balls * side, strikes * side, two * side, balls * two]
        )

    model = LogisticRegression(C=1, max_iter=2000).fit(design(trial.before), trial.before["pitch"].astype(str))
    shares = pd.DataFrame(model.predict_proba(design(trial.after)), columns=model.classes_)
    # A pitch the logit has never met gets what half a pitch among those before would be.
    floor = 0.5 / (len(trial.before) + 0.5 * len(names))
    shares = shares.reindex(columns=list(names)).fillna(floor).to_numpy()
    return shares[np.arange(len(shares)), _place(trial.after["pitch"], names)]


def usage_shares(trial: Trial) -> np.ndarray:
    """The same from the product's own measure, as its pages and facts would give it."""
    table = usage(trial.before)
    count = trial.after["balls"].astype(str) + "-" + trial.after["strikes"].astype(str)
    cell = pd.MultiIndex.from_arrays([trial.after["bats"].astype(str), count, trial.after["pitch"].astype(str)])
    shares = table.assign(**{c: table[c].astype(str) for c in ("bats", "count", "pitch")})
    return shares.set_index(["bats", "count", "pitch"])["share"].loc[cell].to_numpy()


def nats_per_pitch(pitches: pd.DataFrame, starts: int, column: str, *, every: int = 3) -> float:
    """Mean surprise of the next start's pitches, all trials together."""
    names = sorted(pitches["pitch"].astype(str).unique())
    by = {
        "overall": [],
        "side": ["bats"],
        "count": ["balls", "strikes"],
        "side and count": ["bats", "balls", "strikes"],
    }
    shares = []
    for trial in trials(pitches, starts, every=every):
        if column == "usage":
            shares.append(usage_shares(trial))
        elif column == "logit":
            shares.append(logit_shares(trial, names))
        else:
            shares.append(smoothed_shares(trial, by[column], names))
    return float(-np.log(np.concatenate(shares)).mean())


def _place(pitch: pd.Series, names: Sequence[str]) -> np.ndarray:
    return pitch.astype(str).map({name: at for at, name in enumerate(names)}).to_numpy(dtype=int)
