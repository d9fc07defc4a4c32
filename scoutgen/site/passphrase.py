"""The passphrase of a locked site: read from its file, refused where it could be guessed, or made by chance."""

import contextlib
import math
import os
import re
import secrets
import stat
import unicodedata
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from scoutgen.site.output import MARKER

LENGTH, WORDS = 16, 5
# What a guess costs: hashcat's published benchmark of an RTX 4090, mode 10900, tries PBKDF2-HMAC-SHA-256 with 999
# rounds 8.9 million times a second (from memory), with 600,000 rounds 15,000 times. 10**15 guesses, of which half are
# tried on the average, keep a thousand such cards busy for a year.
GUESSES = 10**15
_CONSONANTS, _VOWELS = "bdfghjklmnprstvz", "aeiou"  # each plain to hear, and under the thumb of every phone keyboard
_WORDS_MADE, _SYLLABLES = 6, 2
_LONGEST = 1024
_HINT = "`scoutgen passphrase` makes a good one"
# Longer ones are measured by their beginning.
_MEASURED = 72
# What this trade thinks of first; and what is said in a row by heart, where no word is a guess once the first is known.
_NEAR_AT_HAND = (
    "baseball softball pitcher catcher hitter fielder infield outfield shortstop dugout bullpen battery diamond inning "
    "scout scouting scoutgen coach staff team players season game field base plate mound fastball curve slider change "
    "monday tuesday wednesday thursday friday saturday sunday january february march april may june july august "
    "september october november december one two three four five six seven eight nine ten eleven twelve red orange "
    "yellow green blue purple black white spring summer autumn fall winter north south east west first second third"
)
# Two of them, and words follow each other by grammar, not by chance.
_GRAMMAR = (
    "the a of and in was is for as on with by he at from his are it to be that not you we i me my your do can this "
    "have all our what who an or but if"
)
# C. E. Shannon, Prediction and Entropy of Printed English, Bell System Technical Journal 30 (1951): 0.6 to 1.3 bits a
# letter, spaces counted, where the sentence before is known (from memory). Taken is the less.
_BITS_A_LETTER = 0.6
_SHIFTED = str.maketrans("!@#$%^&*()", "1234567890")
_WORDS_FOR = {
    "spatial": "rows of keys",
    "repeat": "repeated parts",
    "sequence": "runs like abc or 123",
    "regex": "years",
    "date": "days",
    "passwords": "words that everybody tries",
}


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
    _refuse_given_away(file, out, project)
    try:
        mode = file.stat().st_mode
        # Opening a pipe waits for whoever writes into it: the shell does, into one of its own, for `<(command)`.
        if not stat.S_ISREG(mode) and not file.is_relative_to("/dev"):
            why = "it is no plain file; write it on the first line of one"
            raise PassphraseError(f"{file}: the passphrase cannot be read: {why}")
        with file.open("rb") as opened:
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
    # Control signs, halves of signs, signs that Unicode does not know yet, and ends of lines that look like spaces.
    if any(unicodedata.category(sign)[0] == "C" or unicodedata.category(sign) in {"Zl", "Zp"} for sign in text):
        raise PassphraseError(f"{file}: the first line holds signs that no keyboard types; {_HINT}")
    others = os.name == "posix" and stat.S_ISREG(mode) and mode & (stat.S_IRGRP | stat.S_IROTH)
    return text, [f"{file}: others on this machine can read the passphrase; chmod 600 {file}"] if others else []


def refuse_weak(passphrase: str, known: Iterable[str] = ()) -> None:
    """Refuse what could be found by who has the locked files, a year and a thousand fast machines.

    The guesses that find it are counted by zxcvbn, which knows common passwords, words, names, rows of keys, days and
    how letters are dressed up. Counted is the product over its parts alone: what zxcvbn adds for their order and number
    would let any seven words pass. Strength comes only from chance, which no measure sees: a line from a song in a
    language that zxcvbn does not know is taken for good.

    Args:
        passphrase: in its normal form.
        known: texts of the project: its names and titles.

    Raises:
        PassphraseError: it could be guessed; the text says why and never what it is.
    """
    if len(passphrase) < LENGTH:
        raise PassphraseError(
            f"the passphrase is too short ({len(passphrase)} characters): whoever copies the locked site can try "
            f"guesses for years; use at least {LENGTH} characters or {WORDS} words drawn by chance; {_HINT}"
        )
    plain = _plain(passphrase)
    if not re.search(r"[^\W\d_]", plain):
        raise PassphraseError(
            "the passphrase is too easy to guess: it has no letters, and numbers of telephones, days and those that "
            f"many know are tried first; use {WORDS} words drawn by chance; {_HINT}"
        )
    guesses, reasons = _measured(plain, known)
    if guesses < GUESSES:
        why = f"it is made of {', '.join(reasons)}" if reasons else "it is too short for that"
        raise PassphraseError(
            f"the passphrase is too easy to guess: {why}; about 10^{len(str(guesses)) - 1} guesses find it, and "
            f"10^{len(str(GUESSES)) - 1} are asked for; use {WORDS} words drawn by chance; {_HINT}"
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
        PassphraseError: the file is there already, cannot be written, or would be given away there.
    """
    _refuse_given_away(file)
    try:
        opened = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        raise PassphraseError(f"{file}: is there already; choose a new file") from None
    except OSError as problem:
        raise PassphraseError(f"{file}: cannot be written: {problem.strerror}") from None
    try:
        with os.fdopen(opened, "w", encoding="utf-8", newline="\n") as new:
            new.write(f"{passphrase}\n")
    except OSError as problem:
        file.unlink(missing_ok=True)
        raise PassphraseError(f"{file}: cannot be written: {problem.strerror}") from None


def _syllable() -> str:
    return secrets.choice(_CONSONANTS) + secrets.choice(_VOWELS)


def _refuse_given_away(file: Path, out: Path | None = None, project: Path | None = None) -> None:
    """Refuse a place that goes into a site or is uploaded with one.

    Raises:
        PassphraseError: it is such a place.
    """
    # Where it is called to be, and where links lead.
    for around in {*file.absolute().parents, *file.resolve().parents}:
        site = (around / MARKER).is_file() or (out is not None and around == out.resolve())
        inside = any((around.parent / name).exists() for name in ("mkdocs.yml", ".scoutgen", "content/program.yml"))
        ours = inside or (project is not None and around.parent == project.resolve())
        if site or (ours and around.name in {"content", "data", "site", "sites"}):
            raise PassphraseError(f"{file}: is in {around}, which others get to see; keep the passphrase elsewhere")


def _measured(plain: str, known: Iterable[str]) -> tuple[int, list[str]]:
    """How many guesses find it, at most, and what makes it so few."""
    # Here and not above: its lists of words are read for a passphrase alone.
    from zxcvbn import zxcvbn  # noqa: PLC0415

    names = list(dict.fromkeys(name for text in known for name in _names(_plain(text))))

    def parts_of(texts: Iterable[str]) -> list[Mapping[str, Any]]:
        guessed = (zxcvbn(text[:_MEASURED], [*names, *_NEAR_AT_HAND.split()], max_length=_MEASURED) for text in texts)
        return [part for guess in guessed for part in guess["sequence"]]

    # A word that comes again costs no guess, nor do spaces, which everybody has in the same places.
    words = list(dict.fromkeys(re.findall(r"[^\s\-]+", plain)))
    joined = "".join(words)
    # In one, as the same keys give it without shift, and word by word: whichever is guessed first.
    parts = min((parts_of(texts) for texts in ([joined], [joined.translate(_SHIFTED)], words)), key=_product)
    guesses = _product(parts)
    reasons = [_reason(part, names) for part in parts]
    spoken = plain.split() if len(words) > 2 else [part["token"] for part in parts if len(part["token"]) > 2]
    if sum(word in _GRAMMAR.split() for word in spoken) > 1:
        guesses = min(guesses, int(2 ** (_BITS_A_LETTER * len(plain))))
        reasons.append("a sentence")
    return guesses, list(dict.fromkeys(filter(None, reasons)))


def _product(parts: Iterable[Mapping[str, Any]]) -> int:
    return math.prod(int(part["guesses"]) for part in parts)


def _reason(part: Mapping[str, Any], names: Iterable[str]) -> str:
    """What a part is, in words; nothing for signs in no order."""
    if part["pattern"] != "dictionary":
        return _WORDS_FOR.get(part["pattern"], "")
    if part["dictionary_name"] == "user_inputs":
        return "names of this project" if part["matched_word"] in names else "words that are near at hand"
    return _WORDS_FOR.get(part["dictionary_name"], "common words and names")


def _names(plain: str) -> Iterable[str]:
    """A text of the project as it may stand in a passphrase: whole, and word by word."""
    return (re.sub(r"[\W_]", "", plain), *re.findall(r"[^\W_]{3,}", plain))


def _plain(text: str) -> str:
    """Small letters without accents."""
    return "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
