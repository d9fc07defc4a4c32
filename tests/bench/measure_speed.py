"""Prints what a season of 1,000,000 pitches over 300 pitchers costs: read, check and compute, in seconds and memory.

Every figure stands beside a bare pandas.read_csv of the same file with one groupby, in the same run: the ratio is what
can be compared between machines. Each side runs in a process of its own, so that neither warms the other's memory.
"""

import argparse
import datetime as dt
import json
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve()
sys.path[:0] = [str(HERE.parents[1]), str(HERE.parents[2])]


def bare(folder: Path) -> dict[str, float]:
    """What any program must do: read the file, count one thing."""
    begin = time.perf_counter()
    import pandas as pd

    start = time.perf_counter()
    pitches = pd.read_csv(folder / "data" / "pitches.csv")
    pitches.groupby(["pitcher", "bats", "balls", "strikes", "pitch"]).size()
    return {"import": start - begin, "read_csv and groupby": time.perf_counter() - start}


def ours(folder: Path) -> dict[str, float]:
    """Read and check the project, then every measure of the mix."""
    seconds = {}
    start = time.perf_counter()

    def lap(name: str) -> None:
        nonlocal start
        seconds[name] = time.perf_counter() - start
        start = time.perf_counter()

    from scoutgen.measures.look_for import look_for, put_away
    from scoutgen.measures.mix import learn_mix
    from scoutgen.measures.sequence import sequence
    from scoutgen.measures.situations import bases_usage
    from scoutgen.measures.times_through import times_through_changes, times_through_usage
    from scoutgen.measures.usage import usage
    from scoutgen.records.season import read_season

    lap("import")
    season = read_season(folder, as_of=dt.date(2027, 1, 1))
    lap("read and check")
    pitches = season.pitches
    mix = learn_mix(pitches)
    lap("learn the mix")
    used = usage(pitches, mix=mix)
    lap("usage")
    bases_usage(pitches, mix=mix)
    lap("bases")
    times_through_usage(pitches, mix=mix)
    times_through_changes(pitches, mix=mix)
    lap("times through")
    sequence(pitches, mix=mix)
    lap("sequence")
    look_for(used, season.program.thresholds)
    put_away(pitches, mix=mix)
    lap("what to look for")
    return seconds


def measured(side: str, folder: Path, *, times: int) -> tuple[dict[str, float], float]:
    """Seconds by step and peak memory in GB of one side, in its own process: the fastest of a few runs."""
    return min((_measured_once(side, folder) for _ in range(times)), key=lambda run: sum(run[0].values()))


def _measured_once(side: str, folder: Path) -> tuple[dict[str, float], float]:
    command = [sys.executable, str(HERE), "--side", side, "--folder", str(folder)]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    found = json.loads(done.stdout.splitlines()[-1])
    return found["seconds"], found["gigabytes"]


def main() -> None:
    """Make the season, measure both sides, print them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pitchers", type=int, default=300)
    parser.add_argument("--games", type=int, default=40, help="outings of each, some 83 pitches long")
    parser.add_argument("--times", type=int, default=3, help="runs of each side; the fastest counts")
    parser.add_argument("--side", choices=["bare", "ours"], help=argparse.SUPPRESS)
    parser.add_argument("--folder", type=Path, help=argparse.SUPPRESS)
    given = parser.parse_args()
    if given.side:
        seconds = {"bare": bare, "ours": ours}[given.side](given.folder)
        # Linux counts in kilobytes, macOS in bytes.
        unit = 1e9 if sys.platform == "darwin" else 1e6
        gigabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / unit
        print(json.dumps({"seconds": seconds, "gigabytes": gigabytes}))
        return
    from league.mixes import draw_league, throw, write_charts

    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary)
        pitches = throw(draw_league(given.pitchers), given.games, concentration=14)
        write_charts(pitches, folder)
        size = (folder / "data" / "pitches.csv").stat().st_size / 1e6
        print(f"{len(pitches):,} pitches, {given.pitchers} pitchers, {size:.0f} MB")
        del pitches
        plain, plain_memory = measured("bare", folder, times=given.times)
        full, full_memory = measured("ours", folder, times=given.times)
    for name, took in full.items():
        print(f"  {name:18} {took:6.2f} s")
    base, total = sum(plain.values()), sum(full.values())
    work, all_work = base - plain["import"], total - full["import"]
    print(f"bare: {base:.2f} s, {plain_memory:.2f} GB; ours: {total:.2f} s, {full_memory:.2f} GB")
    print(f"ratio of time {total / base:.1f}; without imports on either side {all_work / work:.1f} (target at most 6)")
    print(f"peak memory {full_memory:.2f} GB (target under 3), {full_memory / plain_memory:.1f} times the bare one's")


if __name__ == "__main__":
    main()
