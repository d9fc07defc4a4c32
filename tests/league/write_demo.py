"""Write the demo into the repository: `cd tests && python -m league.write_demo`."""

import shutil
from functools import cache
from pathlib import Path

from league.handwritten import PAGES
from league.papers import content_files
from league.season import play_season
from league.sheets import game_files

ROOT = Path(__file__).resolve().parents[2]


@cache
def demo_files() -> dict[str, bytes]:
    """Everything under data/ and content/ of the repository, by path from its root."""
    played = play_season()
    texts = {f"data/{path}": text for path, text in game_files(played).items()}
    texts |= {f"content/{path}": text for path, text in (content_files(played) | PAGES).items()}
    return {path: text.encode() for path, text in sorted(texts.items())}


def write(root: Path) -> int:
    """Write the demo anew under `root`; returns its size in bytes."""
    # Worked out before anything is deleted: a fault in the league leaves the demo as it is.
    files = demo_files()
    for folder in ("data", "content"):
        shutil.rmtree(root / folder, ignore_errors=True)
    for path, content in files.items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    return sum(map(len, files.values()))


if __name__ == "__main__":
    size = write(ROOT)
    print(f"{len(demo_files())} files, {size / 1e6:.2f} MB")  # noqa: T201 - a command says what it did
