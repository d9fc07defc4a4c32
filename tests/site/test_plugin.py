"""A build that is refused holds nothing back; one that was killed is cleared away; what is remembered."""

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import sample_book
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from scoutgen.pages.said import Saying
from scoutgen.site.build import Built
from scoutgen.site.memory import place, recall
from scoutgen.site.output import OutputError
from scoutgen.site.plugin import ScoutgenPlugin

SAID = {"x": Saying("call", "Harbor", "Friday", "steal of second", "go", "running")}


@pytest.mark.parametrize(
    ("options", "said"),
    [({"edition": "everybody"}, "there is no edition"), ({"as_of": "soon"}, "write year-month-day")],
)
def test_a_refused_build_leaves_no_lock_and_no_half_site(tmp_path: Path, options: dict[str, str], said: str) -> None:
    (tmp_path / "content").mkdir()
    plugin = ScoutgenPlugin()
    plugin.load_config({"project": str(tmp_path), **options})
    config = MkDocsConfig()
    config.load_dict({"site_name": "x", "site_dir": str(tmp_path / "site")})
    with pytest.raises(PluginError, match=said):
        plugin.on_config(config)
    assert [p.name for p in tmp_path.rglob("*") if "lock" in p.name or "site" in p.name] == []


@pytest.mark.parametrize("passphrase", [None, "tova kilu mesu rida bune fozi"])
def test_what_a_killed_build_left_to_be_locked_is_gone_after_the_next_build_of_any_kind(
    build_book: Callable[..., Built], project: Path, passphrase: str | None
) -> None:
    left = project / ".scoutgen" / "scratch" / "unlocked.99999999" / "index.html"
    left.parent.mkdir(parents=True)
    left.write_text("plain")
    file = project.parent / "passphrase.txt"
    if passphrase:
        file.write_text(passphrase)
        file.chmod(0o600)
    build_book(passphrase_file=file if passphrase else None)
    assert not left.parent.exists()


def test_a_build_that_is_refused_leaves_alone_what_another_is_about_to_lock(
    build_book: Callable[..., Built], project: Path
) -> None:
    growing = project / ".scoutgen" / "scratch" / f"unlocked.{os.getppid()}" / "index.html"
    growing.parent.mkdir(parents=True)
    growing.write_text("plain")
    # Another process that runs for as long as the test does.
    (project / ".scoutgen" / "lock").write_text(str(os.getppid()))
    with pytest.raises(OutputError, match="another build"):
        build_book()
    assert growing.is_file()


def test_a_check_that_cannot_be_kept_is_a_warning_and_the_site_stands(
    build_book: Callable[..., Built], project: Path, tmp_path: Path
) -> None:
    (project / ".scoutgen").mkdir()
    (project / ".scoutgen" / "checks").write_text("a file in the way")
    file = tmp_path / "passphrase.txt"
    file.write_text("tova kilu mesu rida bune fozi")
    file.chmod(0o600)
    built = build_book(replace(sample_book.book(), said=SAID), passphrase_file=file)
    assert (built.out / "index.html").is_file()
    (warning,) = built.warnings
    assert warning.startswith(".scoutgen/checks/staff: warning: the check of the passphrase is not kept")
    # What comes after is done all the same.
    assert place(project, "staff").is_file()


def test_a_book_that_tells_nothing_leaves_no_memory(build_book: Callable[..., Built], project: Path) -> None:
    build_book()
    assert not place(project, "staff").parent.exists()
    build_book(replace(sample_book.book(), said=SAID))
    assert place(project, "staff").is_file()
    # Damaged, it is set right even so.
    place(project, "staff").write_text("{")
    build_book()
    assert not recall(project, "staff").unreadable
