"""Passphrases: read in one form from any keyboard, refused where they can be guessed, made by chance."""

import os
import random
import re
import stat
import string
from pathlib import Path

import pytest

from scoutgen.site.output import seal
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
        ("tova kilu\u2028mesu rida bune fozi".encode(), "no keyboard types"),
        ("tova kilu\u2029mesu rida bune fozi".encode(), "no keyboard types"),
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


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(PassphraseError, match="cannot be read: it is no plain file; write it on the first line of one"):
        read_passphrase(tmp_path / "pipe")


def test_what_a_shell_pipes_in_is_read() -> None:
    out, into = os.pipe()
    os.write(into, b"rolling copper lantern winter walrus pepper\n")
    os.close(into)
    assert read_passphrase(Path(f"/dev/fd/{out}")) == ("rolling copper lantern winter walrus pepper", [])
    os.close(out)


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


KNOWN = ["Kestrel Ridge scouting", "Gannet Harbor", "27 Iker Núñez"]
# Sentences, keyboards, digits, repetitions, what everybody tries, what this project and trade would think of.
WEAK = """
to be or not to be that is the question
the quick brown fox jumps over the lazy dog
four score and seven years ago our fathers
ask not what your country can do for you
in the beginning god created the heavens
it was the best of times it was the worst of times
take me out to the ball game
we hold these truths to be self evident
all happy families are alike
call me ishmael some years ago
the only thing we have to fear is fear itself
give me liberty or give me death
this is my secret password for the team
I love my dog and my cat very much
thisisthestaffpassphrase
12345678901234567890123
31415926535897932384626433
2026041020260411202604122026
555123456755512345678
12345 09876 54321 67890 24680
!@#$%^&*()!@#$%^&*()_+
qwertyuiop asdfghjkl zxcvbnm
poiuytrewq lkjhgfdsa mnbvcxz
asdfghjkl zxcvbnm qwertyuiop
zxcvbnm,./ asdfghjkl; qwertyuiop
1qaz2wsx3edc4rfv5tgb6yhn
!QAZ@WSX#EDC$RFV%TGB
qazwsxedcrfvtgbyhnujmik
1q2w3e4r5t6y7u8i9o0p
qwertzuiopasdfghjklyxcvbnm
azertyuiopqsdfghjklmwxcvbn
qpwoeirutyalskdjfhgzmxncbv
abcdefghijklmnopqrstuvwxyz
zyxwvutsrqponmlkjihgfedcba
aaaaaaaaaaaaaaaaaaaaaaaa
abababababababababababababab
opensesameopensesame
go team go team go team go team
coach coach coach coach coach
P4$$w0rd! P4$$w0rd! P4$$w0rd!
password1 password2 password3
letmein letmein letmein please
iloveyou iloveyou forever 2026
correct horse battery staple
correcthorsebatterystaple
michael jessica ashley matthew joshua
monday tuesday wednesday thursday friday
january february march april may june
red orange yellow green blue purple
one two three four five six seven eight
pitcher catcher shortstop outfield
dugout bullpen infield inning
scouting baseball season 2026 team
Kestrel Ridge Kestrel Ridge 1998
KestrelRidgeBaseball2026Season
Kestrel-Ridge-Staff-2026-Baseball
gannet harbor iker nunez twentyseven
IkerNunez27IkerNunez27IkerNunez
ridge ridge ridge ridge harbor harbor
maple tractor lunar ferry
""".strip().split("\n")
# Five words drawn by chance from the 7,776 of the Electronic Frontier Foundation's long list, not picked over.
DRAWN = """
charity flatten neglector obscurity repeal
undercook captive unreeling disarray untracked
provoke ravioli pebbly jailbreak strength
plural parchment trunks skillet stingily
starch much speculate steersman premium
landlord drainer absolve quit breeder
catering etching tassel campfire levitate
agony tapeless unstamped sank move
safeness finally derby hesitancy dwindling
getup wharf goggles sway had
snooper occultist rejoicing bootie silencer
game buffoon pedigree overturn exclaim
ethanol lucrative cohesive unlit renewed
senorita shorthand popular fence angular
twilight share groggily grapple luxurious
jawed bulldozer hull unstamped preheated
pavement naming unfiled chair john
ninth surrender specimen unfair proved
unleash muck huddling viewable outline
edge tumbling jackal petroleum wasabi
""".strip().split("\n")


@pytest.mark.parametrize("weak", WEAK)
def test_what_can_be_guessed_is_refused_with_a_reason_that_does_not_tell_it(weak: str) -> None:
    with pytest.raises(PassphraseError, match="too easy to guess") as refused:
        refuse_weak(weak, KNOWN)
    said = str(refused.value)
    assert weak not in said
    assert "\n" not in said
    assert "scoutgen passphrase" in said


@pytest.mark.parametrize(
    ("weak", "reason"),
    [
        ("short and sweet", "too short"),
        ("31415926535897932384626433", "no letters"),
        ("zxcvbnm,./ asdfghjkl; qwertyuiop", "rows of keys"),
        ("abababababababababababababab", "repeated parts"),
        ("abcdefghijklmnopqrstuvwxyz", "runs like abc"),
        ("letmein letmein letmein please", "everybody tries"),
        ("take me out to the ball game", "a sentence"),
        ("ridge ridge harbor gannet harbor", "names of this project"),
        ("red orange yellow green blue purple", "near at hand"),
        ("maple tractor lunar ferry", r"common words .* 10\^13 guesses .* 10\^15 are asked for"),
    ],
)
def test_the_reason_is_the_one(weak: str, reason: str) -> None:
    with pytest.raises(PassphraseError, match=reason):
        refuse_weak(weak, KNOWN)


@pytest.mark.parametrize("good", [GOOD, "maple tractor lunar ferry biscuit", "xK9#mQ2$vLpR7!wZ4tYb", *DRAWN])
def test_what_cannot_be_guessed_is_taken(good: str) -> None:
    refuse_weak(good, KNOWN)


def test_twenty_signs_by_chance_are_taken() -> None:
    chance = random.Random(2026)  # noqa: S311 - the same every time
    for _ in range(20):
        refuse_weak("".join(chance.choices(string.ascii_letters + string.digits, k=20)), KNOWN)


def test_a_name_of_the_project_makes_the_difference() -> None:
    refuse_weak("velmora tractor lunar ferry biscuit")
    with pytest.raises(PassphraseError, match="names of this project"):
        refuse_weak("velmora tractor lunar ferry biscuit", ["Velmora", "Tractor, Lunar", "Ferry Biscuit"])


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


@pytest.mark.parametrize(
    "place", ["content/pages/a.txt", "data/a.txt", "site/a.txt", "sites/staff/a.txt", "public/a.txt"]
)
def test_a_passphrase_is_not_written_where_others_get_to_see_it(tmp_path: Path, place: str) -> None:
    project = tmp_path / "project"
    (project / place).parent.mkdir(parents=True)
    (project / "mkdocs.yml").write_text("site_name: Scouting\n")
    # A finished site under another name than the usual one.
    if place.startswith("public"):
        seal(project / "public", {})
    (tmp_path / "short").symlink_to(project)
    for way in (project, tmp_path / "short"):
        with pytest.raises(PassphraseError, match="others get to see"):
            write_passphrase(way / place, GOOD)
    assert not (project / place).exists()
    write_passphrase(project / "a.txt", GOOD)
    assert (project / "a.txt").exists()
