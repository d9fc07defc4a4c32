"""What is kept between builds, each sealed with a hash of its name and itself: what is damaged counts as not there."""

import contextlib
import hashlib
import os
import shutil
from pathlib import Path


class Sealed:
    """A folder of texts, or of bytes, by name.

    Args:
        folder: where; it need not be there.
        suffix: of every file.
    """

    def __init__(self, folder: Path, suffix: str = "") -> None:
        self.folder, self._suffix = folder, suffix
        self._used: set[str] = set()

    def has(self, name: str) -> bool:
        """Whether something is kept under a name; not whether it is whole."""
        return self._place(name).is_file()

    def get(self, name: str) -> str | None:
        """What is kept under a name; None where there is nothing, or not what was put there."""
        content = self.get_bytes(name)
        try:
            return None if content is None else content.decode()
        except UnicodeDecodeError:
            return None

    def get_bytes(self, name: str) -> bytes | None:
        """The same of what is no text."""
        place = self._place(name)
        try:
            # Whoever reads anything else than a file may wait for ever.
            seal, _, content = place.read_bytes().partition(b"\n") if place.is_file() else (b"", b"", b"")
        except OSError:
            return None
        if seal != _seal(name, content):
            return None
        self._used.add(name)
        return content

    def put(self, name: str, text: str) -> None:
        """Keep a text, whole or not at all: where the disk refuses, it is made again next time."""
        self.put_bytes(name, text.encode())

    def put_bytes(self, name: str, content: bytes) -> None:
        """The same of what is no text."""
        self._used.add(name)
        with contextlib.suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True)
            half = self._place(f"{name}.{os.getpid()}")
            try:
                half.write_bytes(_seal(name, content) + b"\n" + content)
                half.replace(self._place(name))
            finally:
                half.unlink(missing_ok=True)

    def use(self, name: str) -> None:
        """Hold what another process has put there."""
        self._used.add(name)

    @property
    def files(self) -> list[Path]:
        """The files of all that was got or put."""
        return [self._place(name) for name in sorted(self._used)]

    def forget_others(self) -> None:
        """Delete what was neither got nor put."""
        kept = {self._place(name).name for name in self._used}
        with contextlib.suppress(OSError):
            for place in self.folder.iterdir() if self.folder.is_dir() else ():
                if place.name not in kept:
                    shutil.rmtree(place) if place.is_dir() else place.unlink()

    def _place(self, name: str) -> Path:
        return self.folder / f"{name}{self._suffix}"


def _seal(name: str, content: bytes) -> bytes:
    whole = hashlib.sha256(name.encode() + b"\n")
    whole.update(content)
    return whole.hexdigest().encode()
