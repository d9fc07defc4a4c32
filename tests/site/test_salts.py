"""Salts and checks: kept, never taken for another, and said where they are damaged or cannot be kept."""

import os
from pathlib import Path

import pytest
from locked import PASSPHRASE

from scoutgen.site.output import OutputError
from scoutgen.site.passphrase import PassphraseError
from scoutgen.site.salts import kept_salt, refuse_shared, remember_check


def salts(project: Path) -> Path:
    return project / ".scoutgen" / "salts"


def test_the_salt_of_an_edition_is_kept_and_no_other_has_it(tmp_path: Path) -> None:
    staff, warned = kept_salt(tmp_path, "staff")
    assert (len(staff), warned) == (32, [])
    assert kept_salt(tmp_path, "staff") == (staff, [])
    assert kept_salt(tmp_path, "players")[0] != staff


@pytest.mark.parametrize("content", [b"broken", b"", b"\xff\xfe", b"00" * 31, b"00" * 33])
def test_a_damaged_salt_is_replaced_and_what_that_costs_is_said(tmp_path: Path, content: bytes) -> None:
    before, _ = kept_salt(tmp_path, "staff")
    (salts(tmp_path) / "staff").write_bytes(content)
    after, [warned] = kept_salt(tmp_path, "staff")
    assert after != before
    assert str(warned).startswith(".scoutgen/salts/staff: warning: is damaged, so a new salt was made")
    assert "fetch everything once more" in str(warned)
    assert kept_salt(tmp_path, "staff") == (after, [])


def test_a_salt_that_cannot_be_kept_is_one_line_and_leaves_what_there_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    salts(tmp_path).mkdir(parents=True)
    (salts(tmp_path) / "staff").write_text("half")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError, match=r"salts/staff: .* cannot be kept there \(No space left on device\)"):
        kept_salt(tmp_path, "staff")
    assert [file.read_text() for file in salts(tmp_path).iterdir()] == ["half"]


def test_a_folder_or_a_file_in_the_way_is_named(tmp_path: Path) -> None:
    (salts(tmp_path) / "staff").mkdir(parents=True)
    with pytest.raises(OutputError, match=r"salts/staff: .*delete what stands there"):
        kept_salt(tmp_path, "staff")
    (salts(tmp_path) / "staff").rmdir()
    salts(tmp_path).rmdir()
    salts(tmp_path).write_text("")
    with pytest.raises(OutputError, match=r"salts.*delete what stands there"):
        kept_salt(tmp_path, "staff")


@pytest.mark.parametrize("check", [b"\xff\xfe", b"no hash", b""])
def test_comparing_passphrases_reads_what_it_can_writes_nothing_and_says_what_it_cannot(
    tmp_path: Path, check: bytes
) -> None:
    checks = tmp_path / ".scoutgen" / "checks"
    (checks / "recruiting").mkdir(parents=True)
    (checks / "players").write_bytes(check)
    said = [str(problem) for problem in refuse_shared(tmp_path, "staff", PASSPHRASE)]
    assert len(said) == 2
    assert said[0].startswith(
        ".scoutgen/checks/players: warning: is damaged, so it is not noticed if the players edition"
    )
    assert said[1].startswith(".scoutgen/checks/recruiting: warning: cannot be read (Is a directory)")
    assert not salts(tmp_path).exists()
    # An edition's own check is not asked.
    assert len(refuse_shared(tmp_path, "players", PASSPHRASE)) == 1


def test_a_passphrase_is_known_again_for_another_edition_alone(tmp_path: Path) -> None:
    remember_check(tmp_path, "players", PASSPHRASE)
    assert refuse_shared(tmp_path, "players", PASSPHRASE) == []
    with pytest.raises(PassphraseError, match="passphrase of the players edition"):
        refuse_shared(tmp_path, "staff", PASSPHRASE)
    assert refuse_shared(tmp_path, "staff", "sahu gapi gezu maja megu lihe") == []
