"""A former site is kept with nothing in it: nothing of it is shown again, or lost where it has another name."""

import os
import stat
from pathlib import Path

import pytest

from scoutgen.site.emptied import clear_unfilled, furnish, retire

PAGES = {"index.html": "Tonight", "teams/harbor/index.html": "Harbor", "facts/harbor.json": "{}"}


def write(site: Path, pages: dict[str, str] = PAGES) -> Path:
    for address, text in pages.items():
        place = site / address
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(text)
    return site


def contents(folder: Path) -> dict[str, str]:
    return {p.relative_to(folder).as_posix(): p.read_text() for p in sorted(folder.rglob("*")) if p.is_file()}


def folders(folder: Path) -> set[str]:
    return {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_dir()}


def retired(tmp_path: Path) -> Path:
    away = tmp_path / "kept/away"
    retire(write(tmp_path / "site"), away)
    return away


def test_of_a_retired_site_names_are_kept_and_nothing_that_stood_there(tmp_path: Path) -> None:
    away = retired(tmp_path)
    assert contents(away) == dict.fromkeys(sorted(PAGES), "")
    assert not (tmp_path / "site").exists()


def test_the_next_site_has_the_files_that_will_be_written_and_no_others(tmp_path: Path) -> None:
    away = retired(tmp_path)
    inode = (away / "index.html").stat().st_ino
    furnish(tmp_path / "next", away, {"index.html", "new.html", "facts"})
    assert contents(tmp_path / "next") == {"index.html": ""}
    assert folders(tmp_path / "next") == set()
    assert (tmp_path / "next/index.html").stat().st_ino == inode
    assert not away.exists()


def test_what_was_put_into_an_emptied_site_is_not_shown(tmp_path: Path) -> None:
    away = retired(tmp_path)
    (away / "index.html").write_text("stale")
    furnish(tmp_path / "next", away, PAGES)
    assert contents(tmp_path / "next") == dict.fromkeys(sorted(PAGES), "")


def test_a_file_with_a_second_name_keeps_what_stands_under_it(tmp_path: Path) -> None:
    site = write(tmp_path / "site")
    os.link(site / "index.html", tmp_path / "copy.html")
    retire(site, tmp_path / "away")
    assert (tmp_path / "copy.html").read_text() == "Tonight"
    assert "index.html" not in contents(tmp_path / "away")


def test_links_are_taken_away_and_what_they_lead_to_is_left(tmp_path: Path) -> None:
    site, theirs = write(tmp_path / "site"), write(tmp_path / "theirs")
    (site / "page.html").symlink_to(theirs / "index.html")
    (site / "folder").symlink_to(theirs, target_is_directory=True)
    retire(site, tmp_path / "away")
    assert contents(theirs) == dict(sorted(PAGES.items()))
    assert not list((tmp_path / "away").rglob("*older*")) + list((tmp_path / "away").rglob("page*"))


@pytest.mark.parametrize("place", ["index.html", "teams/harbor"])
def test_what_has_other_rights_than_a_new_one_is_not_taken_over(tmp_path: Path, place: str) -> None:
    site = write(tmp_path / "site")
    (site / place).chmod(0o711 if (site / place).is_dir() else 0o604)
    retire(site, tmp_path / "away")
    assert not (tmp_path / "away" / place).exists()
    assert (tmp_path / "away/facts/harbor.json").exists()


def test_a_site_with_other_rights_than_a_new_one_is_deleted(tmp_path: Path) -> None:
    write(tmp_path / "site").chmod(0o711)
    assert not retired(tmp_path).exists()
    assert not (tmp_path / "site").exists()


def test_a_file_in_the_place_of_a_folder_and_a_folder_in_that_of_a_file(tmp_path: Path) -> None:
    away = retired(tmp_path)
    furnish(tmp_path / "next", away, {"index.html/index.html", "teams/harbor"})
    write(tmp_path / "next", {"index.html/index.html": "new", "teams/harbor": "new"})
    assert set(contents(tmp_path / "next").values()) == {"new"}


def test_a_page_that_was_passed_by_is_not_there(tmp_path: Path) -> None:
    furnish(tmp_path / "next", retired(tmp_path), PAGES)
    (tmp_path / "next/index.html").write_text("new")
    clear_unfilled(tmp_path / "next", ["index.html", "teams/harbor/index.html", "never-there.html"])
    assert contents(tmp_path / "next") == {"facts/harbor.json": "", "index.html": "new"}


def test_where_it_cannot_be_moved_it_is_deleted_and_the_next_one_is_made_from_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(18, "Invalid cross-device link")

    with monkeypatch.context() as patched:
        patched.setattr(Path, "rename", refuse)
        away = retired(tmp_path)
    assert not away.exists()
    assert not (tmp_path / "site").exists()
    furnish(tmp_path / "next", away, PAGES)
    assert not (tmp_path / "next").exists()


def test_a_place_with_something_in_it_is_left_alone(tmp_path: Path) -> None:
    away = retired(tmp_path)
    write(tmp_path / "next", {"theirs.txt": "theirs"})
    furnish(tmp_path / "next", away, PAGES)
    assert contents(tmp_path / "next") == {"theirs.txt": "theirs"}


def test_rights_follow_the_mask_of_the_process(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        away = retired(tmp_path)
        furnish(tmp_path / "next", away, PAGES)
        assert stat.S_IMODE((tmp_path / "next/index.html").stat().st_mode) == 0o640
        (tmp_path / "next/index.html").write_text("x")
        os.umask(0o077)
        retire(tmp_path / "next", away)
        assert contents(away) == {}
    finally:
        os.umask(before)
