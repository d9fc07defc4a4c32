"""The cipher against known answers, and what it must refuse."""

import pytest
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from known_answers import GCM, HKDF, PBKDF2

from scoutgen.site.lock import (
    BLOCK,
    ROOM,
    ROUNDS,
    LockError,
    decrypt_block,
    derive_keys,
    encrypt_block,
    hkdf,
    pbkdf2,
)

KEYS = derive_keys("tova kilu mesu rida bune fozi", b"salt" * 8, rounds=1)
OTHER = derive_keys("tova kilu mesu rida bune fozo", b"salt" * 8, rounds=1)


@pytest.mark.parametrize(("password", "salt", "rounds", "answer"), PBKDF2)
def test_pbkdf2_gives_the_known_answers(password: str, salt: str, rounds: int, answer: str) -> None:
    assert pbkdf2(password.encode(), salt.encode(), rounds, 64).hex() == answer


@pytest.mark.parametrize(("secret", "salt", "info", "answer"), HKDF)
def test_hkdf_gives_the_known_answers(secret: str, salt: str, info: str, answer: str) -> None:
    made = hkdf(bytes.fromhex(secret), bytes.fromhex(info), bytes.fromhex(salt), len(answer) // 2)
    assert made.hex() == answer


@pytest.mark.parametrize("case", GCM)
def test_aes_gcm_gives_the_known_answers(case: tuple[str, ...]) -> None:
    key, nonce, bound, text, cipher, tag = map(bytes.fromhex, case)
    assert AESGCM(key).encrypt(nonce, text, bound) == cipher + tag


def test_the_rounds_are_not_fewer_than_advised() -> None:
    """OWASP, Password Storage Cheat Sheet, PBKDF2-HMAC-SHA256: 600,000 (from memory)."""
    assert ROUNDS >= 600_000


def test_every_use_has_a_key_of_its_own_and_none_is_shown() -> None:
    keys = {KEYS.blocks, KEYS.nonces, KEYS.addresses, KEYS.cuts, OTHER.blocks, OTHER.nonces}
    assert len(keys) == 6
    assert KEYS.blocks.hex() not in repr(KEYS)
    assert repr(KEYS.blocks) not in repr(KEYS)


@pytest.mark.parametrize("text", [b"", b"a", b"a" * ROOM])
def test_every_block_has_one_size_and_comes_back(text: bytes) -> None:
    name, block = encrypt_block(KEYS, "files", text)
    assert len(block) == BLOCK
    assert decrypt_block(KEYS, "files", name, block) == text.ljust(ROOM, b"\0")
    assert encrypt_block(KEYS, "files", text) == (name, block)


def test_more_than_a_block_holds_is_refused() -> None:
    with pytest.raises(ValueError, match="do not fit"):
        encrypt_block(KEYS, "files", b"a" * (ROOM + 1))


def test_no_two_texts_share_a_nonce_or_a_name() -> None:
    made = [encrypt_block(KEYS, kind, bytes([n])) for n in range(50) for kind in ("files", "index")]
    assert len({block[:12] for _, block in made}) == len({name for name, _ in made}) == 100


def test_a_block_of_another_name_kind_or_passphrase_or_with_a_changed_bit_does_not_decrypt() -> None:
    name, block = encrypt_block(KEYS, "files", b"first")
    second, _ = encrypt_block(KEYS, "files", b"second")
    wrong = [
        (KEYS, "files", second, block),
        (KEYS, "index", name, block),
        (OTHER, "files", name, block),
        (KEYS, "files", name, b""),
        (KEYS, "files", name, block[:-1]),
        *((KEYS, "files", name, _flipped(block, at)) for at in (0, 11, 12, 40_000, BLOCK - 17, BLOCK - 16, BLOCK - 1)),
    ]
    for keys, kind, called, bytes_ in wrong:
        with pytest.raises(LockError):
            decrypt_block(keys, kind, called, bytes_)


def _flipped(block: bytes, at: int) -> bytes:
    changed = bytearray(block)
    changed[at] ^= 1
    return bytes(changed)
