"""Work in progress lies in the project, for its owner's eyes, and goes when the one who worked on it has gone."""

import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from scoutgen.records.scratch import give_back, is_mine, scratch, sweep, take


def test_a_folder_is_its_owners_alone_and_gone_afterwards(tmp_path: Path) -> None:
    with scratch(tmp_path, "pack") as place:
        assert place.parent.parent == tmp_path / ".scoutgen"
        assert stat.S_IMODE(place.stat().st_mode) == 0o700
        (place / "deep").mkdir()
        assert is_mine(place / "deep")
        # Others of this process come and go meanwhile.
        with scratch(tmp_path, "cards"):
            sweep(tmp_path)
        assert (place / "deep").is_dir()
    assert not is_mine(place)
    assert list((tmp_path / ".scoutgen").iterdir()) == []


def test_an_error_clears_it_too(tmp_path: Path) -> None:
    def fail() -> None:
        with scratch(tmp_path, "pack"):
            raise ValueError("cut off")

    with pytest.raises(ValueError, match="cut off"):
        fail()
    assert list((tmp_path / ".scoutgen").iterdir()) == []


def test_taken_again_it_is_empty(tmp_path: Path) -> None:
    place = take(tmp_path, "unlocked")
    (place / "page.html").write_text("told")
    assert take(tmp_path, "unlocked") == place
    assert list(place.iterdir()) == []
    give_back(place)


def test_what_a_killed_process_left_goes_and_what_others_work_on_stays(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from scoutgen.records.scratch import take\n"
        f"place = take(Path({str(tmp_path)!r}), 'pack')\n"
        "(place / 'page.html').write_text('told')\nprint(place, flush=True)\nsys.stdin.read()"
    )
    process = subprocess.Popen([sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdout
    place = Path(process.stdout.readline().strip())
    (tmp_path / f".a.zip.{process.pid}").write_text("half")
    sweep(tmp_path)
    assert (place / "page.html").exists()
    os.kill(process.pid, signal.SIGKILL)
    process.communicate()
    # Of this number, but of an earlier process that had it.
    earlier = place.with_name(f"cards.{os.getpid()}")
    earlier.mkdir()
    assert place.exists()
    sweep(tmp_path)
    assert not place.parent.exists()
    assert not list(tmp_path.glob(".a.zip.*"))
    assert not is_mine(earlier)


def test_where_there_is_nothing_to_sweep_nothing_is_made(tmp_path: Path) -> None:
    sweep(tmp_path)
    sweep(tmp_path / "none")
    assert list(tmp_path.iterdir()) == []
