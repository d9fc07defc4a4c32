"""The passphrase of a locked site: read from its file, refused where it could be guessed, or made by chance."""

import contextlib
import os
import re
import secrets
import stat
import unicodedata
from collections.abc import Iterable
from pathlib import Path

LENGTH, WORDS, LEFT, DIFFERENT = 20, 5, 14, 8
_CONSONANTS, _VOWELS = "bdfghjklmnprstvz", "aeiou"  # each plain to hear, and under the thumb of every phone keyboard
_WORDS_MADE, _SYLLABLES = 6, 2
_LONGEST = 1024
_HINT = "`scoutgen passphrase` makes a good one"
# What is tried first by everybody, and what this trade would think of.
_TRIED_FIRST = (
    "abc123 admin baseball battery bullpen catcher champion charlie coach college confidential correct default "
    "defense diamond dragon dugout fastball football freedom hitter horse iloveyou infield inning jordan "
    "letmein login magic manager master michael monkey mustang outfield pass passphrase password pitcher "
    "pitching player private princess qwerty qwertz scout scouting scoutgen season secret shadow softball "
    "staple staff strike summer sunshine superman team trustno1 victory welcome winter"
)
_ROWS = ("abcdefghijklmnopqrstuvwxyz", "01234567890", "qwertyuiop", "qwertzuiop", "asdfghjkl", "zxcvbnm", "yxcvbnm")
# As people dress up words: p4$$w0rd.
_DRESSED = str.maketrans("@4301!$57", "aaeoiisst")


class PassphraseError(Exception):
    """The passphrase cannot be used; the text says why and never what it is."""


def normal_form(text: str) -> str:
    """The passphrase as keys are derived from it, whatever keyboard it was typed on.

    The page that asks for it (assets/lock/gate.js) does the same: compatibility composition, spaces around it off,
    several spaces one.
    """
    return re.sub(" +", " ", unicodedata.normalize("NFKC", text)).strip()


def read_passphrase(file: Path, out: Path | None = None, project: Path | None = None) -> tuple[str, list[str]]:
    """The first line of a file in its normal form, and what is to be warned of.

    Args:
        file: where it stands.
        out: the site's folder, which is uploaded.
        project: whose content/ and data/ go into the site.

    Raises:
        PassphraseError: it cannot be read, is empty, is not text, holds signs that no keyboard types, or stands where
            it would be given away.
    """
    given_away = [out] if out else []
    given_away += [project / name for name in ("content", "data", "site", "sites")] if project else []
    for place in given_away:
        if place.resolve() in file.resolve().parents:
            raise PassphraseError(f"{file}: is in {place}, which others get to see; keep the passphrase elsewhere")
    try:
        with file.open("rb") as opened:
            mode = os.fstat(opened.fileno()).st_mode
            line = opened.readline(_LONGEST + 1)
    except OSError as problem:
        raise PassphraseError(f"{file}: the passphrase cannot be read: {problem.strerror}") from None
    if len(line) > _LONGEST:
        raise PassphraseError(
            f"{file}: the first line is longer than {_LONGEST} bytes; write the passphrase alone on it"
        )
    try:
        text = normal_form(line.decode("utf-8-sig").rstrip("\r\n"))
    except UnicodeDecodeError:
        raise PassphraseError(f"{file}: not UTF-8 text; save the file as UTF-8") from None
    if not text:
        raise PassphraseError(f"{file}: the first line is empty; write the passphrase on it; {_HINT}")
    if any(unicodedata.category(sign).startswith("C") for sign in text):
        raise PassphraseError(f"{file}: the first line holds signs that no keyboard types; {_HINT}")
    others = os.name == "posix" and stat.S_ISREG(mode) and mode & (stat.S_IRGRP | stat.S_IROTH)
    return text, [f"{file}: others on this machine can read the passphrase; chmod 600 {file}"] if others else []


def refuse_weak(passphrase: str, known: Iterable[str] = ()) -> None:
    """Refuse what could be guessed by who has the locked files and all the time in the world.

    Length alone says little: words that are tried first, names of the project, rows of the keyboard and repeated
    parts are taken out, and what is left must be enough. This is no measure of strength, which only chance gives.

    Args:
        passphrase: in its normal form.
        known: texts of the project: its names and titles.

    Raises:
        PassphraseError: it could be guessed.
    """
    if len(passphrase) < LENGTH:
        raise PassphraseError(
            f"the passphrase is too short ({len(passphrase)} characters): whoever copies the locked site can try "
            f"guesses for years; use at least {LENGTH} characters or {WORDS} words drawn by chance; {_HINT}"
        )
    left = _without_guesses(passphrase, known)
    letters = "".join(left)
    spoken = " " in passphrase and re.fullmatch(r"[^\W\d_]+(?:[ \-]+[^\W\d_]+)*", passphrase)
    if len(letters) < LEFT or len(set(letters)) < DIFFERENT or (spoken and len(left) < WORDS):
        raise PassphraseError(
            "the passphrase is too easy to guess: words that everybody tries, names of this project, rows of the "
            f"keyboard and repeated parts do not count, and too little is left ({len(letters)} characters, "
            f"{len(set(letters))} different, in {len(left)} words); use {WORDS} words drawn by chance; {_HINT}"
        )


def make_passphrase() -> str:
    """Six words of two syllables by chance: 12 times one of 80, about 76 bits, small letters only.

    At 600,000 rounds a guess, half of 2**76 guesses are beyond anybody; and syllables can be said over a table and
    typed with a thumb, with no list of words to keep.
    """
    while True:
        made = " ".join("".join(_syllable() for _ in range(_SYLLABLES)) for _ in range(_WORDS_MADE))
        with contextlib.suppress(PassphraseError):
            # Chance repeats itself now and then, in one of some hundred: the next one then.
            refuse_weak(made)
            return made


def write_passphrase(file: Path, passphrase: str) -> None:
    """Write it to a new file that nobody else on this machine can read.

    Raises:
        PassphraseError: the file is there already, or cannot be written.
    """
    try:
        opened = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        raise PassphraseError(f"{file}: is there already; choose a new file") from None
    except OSError as problem:
        raise PassphraseError(f"{file}: cannot be written: {problem.strerror}") from None
    with os.fdopen(opened, "w", encoding="utf-8", newline="\n") as new:
        new.write(f"{passphrase}\n")


def _syllable() -> str:
    return secrets.choice(_CONSONANTS) + secrets.choice(_VOWELS)


def _without_guesses(passphrase: str, known: Iterable[str]) -> list[str]:
    """Its words, without what a guess would start from."""
    plain = _plain(passphrase)
    names = {word for text in known for word in re.findall(r"[^\W_]{4,}", _plain(text))}
    guesses = sorted({*_TRIED_FIRST.split(), *names}, key=lambda word: (-len(word), word))
    for guess in guesses:
        plain = plain.replace(guess, " ")
    plain = re.sub(r"(?:19|20)\d\d", " ", plain)
    for row in _ROWS:
        for line in (row, row[::-1]):
            for size in range(len(line), 3, -1):
                for start in range(len(line) - size + 1):
                    plain = plain.replace(line[start : start + size], " ")
    plain = re.sub(r"(.{3,})(?=.*\1)", " ", plain)
    plain = re.sub(r"(.)\1{2,}", " ", plain)
    return [word for word in re.findall(r"[^\s\-]+", plain) if len(word) > 1]


def _plain(text: str) -> str:
    """Small letters without accents, and without what words are dressed up with where letters stand beside it."""
    bare = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    return re.sub(r"(?<=[a-z])[@4301!$57]+(?=[a-z])", lambda signs: signs.group().translate(_DRESSED), bare)
