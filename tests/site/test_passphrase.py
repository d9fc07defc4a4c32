"""Passphrases: read in one form from any keyboard, refused where they can be guessed, made by chance."""

import re
import stat
from pathlib import Path

import pytest

from scoutgen.site.passphrase import (
    PassphraseError,
    make_passphrase,
    normal_form,
    read_passphrase,
    refuse_weak,
    write_passphrase,
)

GOOD = "tova kilu mesu rida bune fozi"


def written(folder: Path, content: bytes, mode: int = 0o600) -> Path:
    file = folder / "pass.txt"
    file.write_bytes(content)
    file.chmod(mode)
    return file


@pytest.mark.parametrize(
    "content",
    [
        GOOD.encode(),
        f"{GOOD}\n".encode(),
        f"{GOOD}\r\nwritten down by the coach\n".encode(),
        b"\xef\xbb\xbf" + f"  {GOOD.replace(' ', '   ')} \n".encode(),
        GOOD.replace(" ", "\u00a0").encode(),
    ],
)
def test_the_first_line_is_the_passphrase_whatever_wrote_it(tmp_path: Path, content: bytes) -> None:
    assert read_passphrase(written(tmp_path, content)) == (GOOD, [])


def test_accents_typed_in_two_ways_are_one_passphrase() -> None:
    assert normal_form("n\u0303u\u0301") == normal_form("\u00f1\u00fa") == "ñú"


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"", "is empty"),
        (b"\nsecond line of a good length\n", "is empty"),
        (b" \t \n", "is empty"),
        ("tova kilu mesu ridañ bune".encode("latin-1"), "not UTF-8"),
        (b"tova kilu\x00mesu rida bune fozi", "no keyboard types"),
        (b"a" * 5000, "longer than"),
    ],
)
def test_a_file_that_holds_no_passphrase_is_refused_in_a_line(tmp_path: Path, content: bytes, reason: str) -> None:
    with pytest.raises(PassphraseError, match=reason) as refused:
        read_passphrase(written(tmp_path, content))
    assert "\n" not in str(refused.value)
    assert "tova" not in str(refused.value)


def test_a_file_that_is_not_there_or_a_folder_is_refused(tmp_path: Path) -> None:
    for place in (tmp_path / "none.txt", tmp_path):
        with pytest.raises(PassphraseError, match="cannot be read"):
            read_passphrase(place)


def test_a_file_that_is_uploaded_or_read_into_the_site_is_refused(tmp_path: Path) -> None:
    for folder in ("out", "content/pages"):
        (tmp_path / folder).mkdir(parents=True)
        file = written(tmp_path / folder, GOOD.encode())
        with pytest.raises(PassphraseError, match="others get to see"):
            read_passphrase(file, tmp_path / "out", tmp_path)


@pytest.mark.parametrize("mode", [0o644, 0o640, 0o604])
def test_a_file_that_others_can_read_is_warned_of(tmp_path: Path, mode: int) -> None:
    text, warned = read_passphrase(written(tmp_path, GOOD.encode(), mode))
    assert text == GOOD
    assert len(warned) == 1
    assert "chmod 600" in warned[0]


@pytest.mark.parametrize(
    ("weak", "reason"),
    [
        ("short and sweet", "too short"),
        ("a" * 40, "too easy"),
        ("12345678901234567890123", "too easy"),
        ("qwertyuiop asdfghjkl zxcvbnm", "too easy"),
        ("poiuytrewq lkjhgfdsa mnbvcxz", "too easy"),
        ("correct horse battery staple", "too easy"),
        ("P4$$w0rd! P4$$w0rd! P4$$w0rd!", "too easy"),
        ("scouting baseball season 2026 team", "too easy"),
        ("Kestrel Ridge Kestrel Ridge 1998", "too easy"),
        ("gannet harbor iker nunez twentyseven", "too easy"),
        ("maple tractor lunar ferry", "too easy"),
        ("abababababababababababababab", "too easy"),
    ],
)
def test_what_can_be_guessed_is_refused_with_a_reason(weak: str, reason: str) -> None:
    with pytest.raises(PassphraseError, match=reason) as refused:
        refuse_weak(weak, ["Kestrel Ridge scouting", "Gannet Harbor", "27 Iker Núñez"])
    assert weak not in str(refused.value)
    assert "scoutgen passphrase" in str(refused.value)


@pytest.mark.parametrize("good", [GOOD, "maple tractor lunar ferry biscuit", "xK9#mQ2$vLpR7!wZ4tYb"])
def test_what_cannot_be_guessed_is_taken(good: str) -> None:
    refuse_weak(good, ["Kestrel Ridge scouting", "Gannet Harbor"])


def test_passphrases_made_are_taken_and_differ() -> None:
    made = {make_passphrase() for _ in range(300)}
    assert len(made) == 300
    for passphrase in made:
        assert re.fullmatch(r"(?:(?:[bdfghjklmnprstvz][aeiou]){2} ){5}(?:[bdfghjklmnprstvz][aeiou]){2}", passphrase)
        assert normal_form(passphrase) == passphrase
        refuse_weak(passphrase)


def test_every_syllable_comes_up() -> None:
    """80 syllables in 3,600 draws: one that is missing has odds of 1 in 10**17."""
    drawn = {word[at : at + 2] for _ in range(300) for word in make_passphrase().split() for at in (0, 2)}
    assert len(drawn) == 80


def test_a_passphrase_is_written_for_its_owner_alone_and_over_nothing(tmp_path: Path) -> None:
    file = tmp_path / "staff.txt"
    write_passphrase(file, GOOD)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert read_passphrase(file) == (GOOD, [])
    with pytest.raises(PassphraseError, match="is there already"):
        write_passphrase(file, "another")
    assert file.read_text() == f"{GOOD}\n"
    with pytest.raises(PassphraseError, match="cannot be written"):
        write_passphrase(tmp_path / "none" / "staff.txt", GOOD)
