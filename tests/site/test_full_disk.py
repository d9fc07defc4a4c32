"""A disk that refuses: one line that names the file, and what stood there stands."""

import re
import resource
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import sample_book
from click.testing import CliRunner, Result
from locked import PASSPHRASE

from scoutgen.cli import main
from scoutgen.pages.book import Book


@contextmanager
def no_file_longer_than(size_bytes: int) -> Iterator[None]:
    """As on a full disk, a write is refused in its middle, without the name of a file."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size_bytes, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def run(size_bytes: int, *arguments: object) -> Result:
    with no_file_longer_than(size_bytes):
        return CliRunner().invoke(main, [str(argument) for argument in arguments])


@pytest.mark.parametrize(
    ("command", "size_bytes", "named"),
    [
        (["build", "--out", "OUT/site"], 4, r".*[.]scoutgen/lock"),
        (["build", "--out", "OUT/site"], 30_000, r".*/out/[.]site[.]scoutgen-next/assets/.*"),
        (["build", "--out", "OUT/lock", "--passphrase-file", "PASS"], 30_000, r".*/[.]scoutgen/scratch/unlocked.*"),
        (["pack", "--out", "OUT/a.zip"], 30_000, r".*/[.]scoutgen/scratch/pack.*"),
        # Pages fit, and the zip of them does not.
        (["pack", "--out", "OUT/a.zip"], 150_000, r".*/out/a[.]zip"),
    ],
)
def test_a_site_that_finds_no_room_names_the_file(
    project: Path,
    tmp_path: Path,
    use_book: Callable[[Book | Exception], None],
    *,
    command: list[str],
    size_bytes: int,
    named: str,
) -> None:
    use_book(sample_book.book())
    out, secret = tmp_path / "out", tmp_path / "pass.txt"
    out.mkdir()
    secret.write_text(f"{PASSPHRASE}\n")
    secret.chmod(0o600)
    given = [word.replace("OUT", str(out)).replace("PASS", str(secret)) for word in command]
    done = run(size_bytes, *given, "--project", project, "--as-of", "2026-04-09")
    assert done.exit_code == 3, done.output
    last = done.output.strip().splitlines()[-1]
    assert_named(last, named)
    assert list(out.iterdir()) == []
    assert not (project / ".scoutgen" / "scratch").exists()
    assert not (project / ".scoutgen" / "lock").exists()


def test_numbers_and_maps_that_find_no_room_name_the_file(tmp_path: Path) -> None:
    repository, project = Path(__file__).parents[2], tmp_path / "project"
    (project / "content").mkdir(parents=True)
    shutil.copy(repository / "content" / "program.yml", project / "content")
    done = run(10, "export", "--out", tmp_path / "numbers", "--project", project, "--as-of", "2026-04-09")
    assert done.exit_code == 3, done.output
    assert_named(done.output.strip(), r".*/numbers/[.]scoutgen-export")
    foreign = tmp_path / "night.csv"
    foreign.write_text("Date,Pitcher,Type\n2026-03-06,27,FB\n")
    done = run(10, "import", foreign, "--guess", "--project", project)
    assert done.exit_code == 3, done.output
    assert_named(done.output.strip(), r".*/night-map[.]yml")
    assert sorted(place.name for place in tmp_path.iterdir()) == ["night.csv", "numbers", "project"]
    done = run(10, "passphrase", "--out", tmp_path / "pass.txt")
    assert done.exit_code == 2
    assert "pass.txt: cannot be written: File too large" in done.output
    assert not (tmp_path / "pass.txt").exists()


@pytest.mark.parametrize(
    ("command", "size_bytes", "named"),
    [
        (["new", "team", "zed", "Zed Z"], 10, "/content/opponents/zed/team.yml"),
        (["new", "series", "april", "harbor", "2026-04-10"], 10, "/content/series/april.yml"),
        # The first of its files fit, and another does not; or all do but the games.
        (["new", "game", "a", "2026-03-01"], 60, "/data/pitches/a.csv"),
        (["new", "game", "a", "2026-03-01"], 1000, "/data/games.csv"),
        (["init", "PROJECT/new"], 3000, "/new/content/program.yml"),
    ],
)
def test_of_something_new_that_finds_no_room_nothing_is_left(
    tmp_path: Path, command: list[str], size_bytes: int, named: str
) -> None:
    project = tmp_path / "project"
    run(1_000_000, "init", project)
    run(1_000_000, "new", "team", "harbor", "Harbor", "--project", project)
    with (project / "data/games.csv").open("a") as games:
        games.write(f"b,2026-02-01,harbor,our-team,video,AJR,,{'word ' * 200}\n")
    shutil.rmtree(project / "content/series")
    before = standing(project)
    given = [word.replace("PROJECT", str(project)) for word in command]
    given += ["--project", str(project)] if command[0] == "new" else []
    if command[1] == "game":
        given += ["--away", "harbor", "--home", "our-team", "--source", "video", "--charted-by", "AJR"]
    done = run(size_bytes, *given)
    assert done.exit_code == 3, done.output
    assert done.stdout == ""
    assert_named(done.stderr.strip(), f".*{re.escape(named)}")
    assert standing(project) == before
    assert run(1_000_000, *given).exit_code == 0


def standing(folder: Path) -> dict[str, bytes | None]:
    """Everything in a folder, folders too."""
    return {str(place): place.read_bytes() if place.is_file() else None for place in folder.rglob("*")}


def assert_named(line: str, named: str) -> None:
    assert re.fullmatch(
        rf"scoutgen: {named}: File too large; (?:the last site stands|what stood there stands)", line
    ), line
