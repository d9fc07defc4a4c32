"""How the time of a whole build grows with the number of pages: the exponent of a power law through a row of divisions.

    python tests/bench/season_growth.py [--most 8] [--times 1]

Every division is built by the command line in a process of its own, with its charts drawn and nothing else kept.
"""

import argparse
import math
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.season_speed import build, forget
from league.division import write_division

GROUP = 7  # opponents, three of them scouted


def measured(groups: int, times: int) -> tuple[int, float]:
    """Pages of a division and the seconds its build takes, the better of two."""
    with tempfile.TemporaryDirectory() as name:
        project = Path(name) / "season"
        write_division(project, opponents=3 * groups, times=times)
        build(project)
        seconds = []
        for _ in range(2):
            forget(project, "charts", "said")
            seconds.append(build(project))
        return len(list((project / "site").rglob("index.html"))), min(seconds)


def main() -> None:
    """Print pages, seconds and exponents."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--most", type=int, default=8, help="groups of 7 opponents in the largest; 8 make 1,400 pages")
    parser.add_argument(
        "--times", type=int, default=1, help="how often each game is played; 10,000 pitches a group each"
    )
    given = parser.parse_args()
    sizes = [2**step for step in range(given.most.bit_length()) if 2**step <= given.most]
    rows = [measured(groups, given.times) for groups in sizes]
    for groups, (pages, seconds) in zip(sizes, rows, strict=True):
        print(f"{GROUP * groups:4} opponents {pages:6} pages {seconds:7.1f} s {1000 * seconds / pages:6.1f} ms a page")
    logs = [(math.log(pages), math.log(seconds)) for pages, seconds in rows]
    middle = [sum(side) / len(logs) for side in zip(*logs, strict=True)]
    over = sum((x - middle[0]) * (y - middle[1]) for x, y in logs)
    print(f"exponent {over / sum((x - middle[0]) ** 2 for x, _ in logs):.2f} over all", end="")
    (x1, y1), (x2, y2) = logs[-2:]
    print(f", {(y2 - y1) / (x2 - x1):.2f} between the two largest")


if __name__ == "__main__":
    main()
