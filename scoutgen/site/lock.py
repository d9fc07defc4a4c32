"""The cipher of a locked site: keys from a passphrase, and blocks of one size that tell nothing.

How a locked site is made up, and why:

- **Blocks, not files.** Files are compressed, set one behind the other and cut into blocks of 64 KiB, each encrypted
  on its own (`locked_files.py`). What can be seen without the passphrase is how many blocks there are and, between
  two builds, how many are new; a file padded by itself would still show how many files there are, which are large and
  which of them change after which game.
- **Keys.** PBKDF2-HMAC-SHA-256 makes 32 bytes of passphrase and salt, HKDF-SHA-256 (RFC 5869) makes a key for each
  use of them. A phone derives the key that decrypts, and no other: it keeps what opens blocks, not what names or
  makes them.
- **Salt.** By chance, once per project and edition, and kept: the key of a phone stays good from build to build. It
  is no secret, and stands in the locked site.
- **Nonces never repeat under a key for two texts.** Twelve bytes of HMAC-SHA-256 over the whole block, under a key of
  their own. No counter has to be kept, so none can be lost or copied with a project; the same text gets the same
  nonce and so the same bytes, which a phone need not fetch again; and for different texts the nonce is as good as one
  by chance: 2**32 blocks under one passphrase and salt would be needed before a repetition becomes as likely as NIST
  SP 800-38D, 8.3, allows.
- **A block is its name.** Sixteen other bytes of the same HMAC, authenticated as associated data with the kind of
  block: a block under another's name does not decrypt. Names in the encrypted index pin every block, so that no old
  block can stand in for a new one; of an index of several blocks each names the next.
"""

import hashlib
import hmac
from dataclasses import dataclass

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

# OWASP, Password Storage Cheat Sheet, section PBKDF2: 600,000 rounds or more with HMAC-SHA-256 (from memory). What it
# would rather see, like Argon2id, no browser has built in.
# https://cheatsheetseries.owasp.org/cheatsheets/Password_Storage_Cheat_Sheet.html
ROUNDS = 600_000
BLOCK = 65_536
NONCE, TAG = 12, 16
# What fits into a block beside nonce and tag.
ROOM = BLOCK - NONCE - TAG


class LockError(Exception):
    """A block that does not decrypt: another passphrase, or not the bytes that were written."""


@dataclass(frozen=True, repr=False)
class Keys:
    """What one passphrase and salt give; never shown, so without a representation."""

    blocks: bytes
    nonces: bytes
    addresses: bytes
    cuts: bytes


def pbkdf2(passphrase: bytes, salt: bytes, rounds: int, length: int = 32) -> bytes:
    """PBKDF2-HMAC-SHA-256 (RFC 8018, 5.2)."""
    return hashlib.pbkdf2_hmac("sha256", passphrase, salt, rounds, length)


def hkdf(secret: bytes, info: bytes, salt: bytes = b"", length: int = 32) -> bytes:
    """HKDF-SHA-256 (RFC 5869)."""
    extracted = hmac.digest(salt or bytes(32), secret, "sha256")
    made, piece = b"", b""
    while len(made) < length:
        piece = hmac.digest(extracted, piece + info + bytes([len(made) // 32 + 1]), "sha256")
        made += piece
    return made[:length]


def derive_keys(passphrase: str, salt: bytes, rounds: int = ROUNDS) -> Keys:
    """The keys of a passphrase in its normal form."""
    secret = pbkdf2(passphrase.encode(), salt, rounds)
    blocks, nonces, addresses, cuts = (
        hkdf(secret, f"scoutgen lock 1 {use}".encode()) for use in ("blocks", "nonces", "addresses", "cuts")
    )
    return Keys(blocks, nonces, addresses, cuts)


def encrypt_block(keys: Keys, kind: str, text: bytes) -> tuple[str, bytes]:
    """One block: its name, and BLOCK bytes to be written under it.

    Args:
        keys: of the site.
        kind: `files` or `index`; a block of one kind does not decrypt as the other.
        text: at most ROOM bytes; zeros fill it up.
    """
    if len(text) > ROOM:
        raise ValueError(f"{len(text)} bytes do not fit into a block")
    full = text.ljust(ROOM, b"\0")
    digest = hmac.digest(keys.nonces, kind.encode() + b":" + full, "sha256")
    nonce, name = digest[:NONCE], digest[NONCE : NONCE + 16].hex()
    return name, nonce + AESGCM(keys.blocks).encrypt(nonce, full, _bound(kind, name))


def decrypt_block(keys: Keys, kind: str, name: str, block: bytes) -> bytes:
    """The ROOM bytes of a block.

    Raises:
        LockError: another passphrase, another name or kind, or changed bytes.
    """
    try:
        return AESGCM(keys.blocks).decrypt(block[:NONCE], block[NONCE:], _bound(kind, name))
    except (InvalidTag, ValueError):
        raise LockError(f"block {name} does not decrypt") from None


def _bound(kind: str, name: str) -> bytes:
    return f"scoutgen lock 1 {kind} {name}".encode()
