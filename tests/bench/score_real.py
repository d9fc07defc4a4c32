"""Prints the scores of the usage measure beside classical ones on the real pitchers at hand, in nats per pitch."""

import sys
from pathlib import Path

import pandas as pd

sys.path.insert(0, str(Path(__file__).parents[1]))

from league.scoring import COLUMNS, PUBLISHED, STARTS, nats_per_pitch, real_folder, real_pitches


def main() -> None:
    folder = real_folder()
    if folder is None:
        sys.exit("No real pitches found: set SCOUTGEN_REALDATA to the folder that has them.")
    for file in sorted(folder.glob("*_pitches.csv")):
        who = file.name.removesuffix("_pitches.csv")
        pitches = real_pitches(folder, who)
        rows = {m: {column: nats_per_pitch(pitches, m, column) for column in COLUMNS} for m in STARTS}
        print(f"{who}, {len(pitches)} pitches, from the last m starts to the next (every third), nats per pitch")
        print(pd.DataFrame.from_dict(rows, orient="index").round(3).to_string())
    print("published with pitcher_a:")
    print(PUBLISHED.to_string())


if __name__ == "__main__":
    main()
