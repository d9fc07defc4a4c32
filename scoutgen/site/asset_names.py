"""Names of scripts and styles that change with what is in them, so that no old copy is ever shown for the new one."""

from hashlib import sha256


def hashed_name(name: str, content: bytes) -> str:
    """`site.css` as `site.1a2b3c4d.css`: eight digits of the content's SHA-256 before the ending."""
    stem, _, suffix = name.rpartition(".")
    return f"{stem}.{sha256(content).hexdigest()[:8]}.{suffix}"
