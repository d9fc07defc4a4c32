"""What a project keeps of its locked editions: a salt each, and a check by which one passphrase for two is noticed."""

import secrets
from pathlib import Path

from scoutgen.records.problems import Problem
from scoutgen.records.writing import write_whole
from scoutgen.site import kept
from scoutgen.site.editions import KNOWN
from scoutgen.site.lock import ROUNDS, hkdf, pbkdf2
from scoutgen.site.output import OutputError
from scoutgen.site.passphrase import PassphraseError

_BYTES = 32


def kept_salt(project: Path, edition: str) -> tuple[bytes, list[Problem]]:
    """The salt of an edition, made by chance at its first locked build and kept in .scoutgen/, and what to warn of.

    Kept, so that phones are not asked for the passphrase after every build. It is no secret: every locked site names
    its own. Where .scoutgen/ is deleted a new one is made, and phones ask once more.

    Raises:
        OutputError: a new one cannot be kept; what stands there stands.
    """
    salt, damaged = _read(project, "salts", edition)
    if salt:
        return salt, []
    salt = secrets.token_bytes(_BYTES)
    try:
        _write(project, "salts", edition, salt)
    except OSError as refused:
        raise OutputError(
            f"{refused.filename}: the salt of the locked site cannot be kept there ({refused.strerror}); delete what "
            "stands there, or make room"
        ) from refused
    said = (
        f"{damaged}, so a new salt was made: every address of the locked site is another, and phones ask for the "
        "passphrase and fetch everything once more; to spare them, put back a copy of the file and build again"
    )
    return salt, [Problem(f".scoutgen/salts/{edition}", 0, "", said, "warning")] if damaged else []


def refuse_shared(project: Path, edition: str, passphrase: str) -> list[Problem]:
    """Refuse the passphrase of one edition for another: who may open the one would open the other.

    What is remembered of an edition's passphrase is a check as good as the locked site itself: it takes the same rounds
    to try a guess against it.

    Returns:
        Warnings of checks that cannot be read.

    Raises:
        PassphraseError: another edition was locked with it.
    """
    warned = []
    for other in KNOWN:
        if other == edition:
            continue
        (salt, no_salt), (check, no_check) = (_read(project, kind, other) for kind in ("salts", "checks"))
        if salt and check and check == _check(salt, passphrase):
            raise PassphraseError(
                f"this is the passphrase of the {other} edition, whose readers would open the {edition} edition "
                "with it: give --edition, or a passphrase of its own"
            )
        for kind, damaged in (("salts", no_salt), ("checks", no_check)):
            if damaged:
                said = f"{damaged}, so it is not noticed if the {other} edition has the same passphrase"
                warned.append(Problem(f".scoutgen/{kind}/{other}", 0, "", said, "warning"))
    return warned


def remember_check(project: Path, edition: str, passphrase: str) -> None:
    """Remember which passphrase an edition was locked with, for `refuse_shared`.

    Raises:
        OSError, OutputError: it cannot be kept; what was kept before stands.
    """
    salt, _ = kept_salt(project, edition)
    _write(project, "checks", edition, _check(salt, passphrase))


def _check(salt: bytes, passphrase: str) -> bytes:
    return hkdf(pbkdf2(passphrase.encode(), salt, ROUNDS), b"scoutgen lock 1 check")


def _read(project: Path, kind: str, edition: str) -> tuple[bytes, str]:
    """What is kept, empty where nothing is or nothing that can be used; and what is wrong with it."""
    file = kept.place(project, kind, edition, "")
    try:
        found = bytes.fromhex(file.read_text(encoding="ascii").strip())
    except (FileNotFoundError, NotADirectoryError):
        return b"", ""
    except OSError as refused:
        return b"", f"cannot be read ({refused.strerror})"
    except ValueError:
        found = b""
    return (found, "") if len(found) == _BYTES else (b"", "is damaged")


def _write(project: Path, kind: str, edition: str, content: bytes) -> None:
    write_whole(kept.place(project, kind, edition, ""), f"{content.hex()}\n".encode())
