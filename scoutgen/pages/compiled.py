"""Templates as Python compiled them, kept beside the package as Python keeps its own modules.

To read fifty templates takes longer than to fill them for a team. What lies there is not run unless it is whole, of
these very words, and of this Python and this Jinja.
"""

import hashlib
import os
import sys
from contextlib import suppress
from pathlib import Path

import jinja2
from jinja2.bccache import Bucket, BytecodeCache

_FOLDER = Path(__file__).parent / "__pycache__"


class Compiled(BytecodeCache):
    """Where Jinja looks before it reads a template.

    Args:
        options: whatever says how templates are compiled; others are not found.
        folder: where they are kept. Where nobody may write, nothing is.
    """

    def __init__(self, options: str, folder: Path = _FOLDER) -> None:
        told = f"{jinja2.__version__} {sys.version} {options}"
        self._folder, self._told = folder, hashlib.sha256(told.encode()).hexdigest()[:16]

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill a bucket with what is kept."""
        with suppress(OSError):
            place = self._place(bucket)
            # Whoever reads anything else than a file may wait for ever.
            seal, _, code = place.read_bytes().partition(b"\n") if place.is_file() else (b"", b"", b"")
            if seal == _seal(code):
                # What is of other words, or of another Jinja, it does not take.
                bucket.bytecode_from_string(code)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what a bucket holds, whole or not at all."""
        if sys.dont_write_bytecode:
            return
        code, place = bucket.bytecode_to_string(), self._place(bucket)
        half = place.with_name(f"{place.name}.{os.getpid()}")
        with suppress(OSError):
            self._folder.mkdir(exist_ok=True)
            try:
                half.write_bytes(_seal(code) + b"\n" + code)
                half.replace(place)
            finally:
                half.unlink(missing_ok=True)

    def _place(self, bucket: Bucket) -> Path:
        return self._folder / f"template-{self._told}-{bucket.key}"


def _seal(code: bytes) -> bytes:
    return hashlib.sha256(code).hexdigest().encode()
