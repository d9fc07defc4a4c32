"""Can a small file of the project be read as UTF-8 text, and if not, why?"""

import re
import stat
from pathlib import Path

from scoutgen.records.problems import Problem

MOST_BYTES = 1_000_000

# Control characters, half characters, and the three rare line breaks that editors count differently from each other.
FORBIDDEN = re.compile(r"[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def relative(path: Path, root: Path) -> str:
    """The path as problems name it: relative to the project's folder, with forward slashes."""
    text = path.relative_to(root).as_posix() if path.is_relative_to(root) else path.as_posix()
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)


class _NoText(Exception):  # noqa: N818 - not an error of ours: the answer to give instead of the text
    """Why there is no text, and in which line."""

    def __init__(self, line: int, text: str) -> None:
        super().__init__(text)
        self.problem = (line, "", text)


def read_text(path: Path, root: Path) -> tuple[str | None, list[Problem]]:
    """The text of a file of the project, or None and the reason.

    A byte order mark is taken off; line ends stay as they are.
    """
    try:
        return _decoded(_bytes(path, root)), []
    except _NoText as no_text:
        return None, [Problem(relative(path, root), *no_text.problem)]


def _bytes(path: Path, root: Path) -> bytes:
    try:
        if not path.resolve(strict=True).is_relative_to(root.resolve()):
            raise _NoText(0, "points outside the project's folder; copy the file itself here")
        # Opening anything but a plain file might wait for ever.
        if not stat.S_ISREG(path.stat().st_mode):
            raise _NoText(0, "is not a plain file; a text file is meant to stand here")
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except OSError as error:
        raise _NoText(0, f"cannot be opened: {error.strerror or 'unknown reason'}") from None
    except RuntimeError:
        raise _NoText(0, "cannot be opened: its links go round in a circle") from None
    if len(data) > MOST_BYTES:
        raise _NoText(0, f"is larger than {MOST_BYTES:,} bytes; split it or cut it down")
    return data


def _decoded(data: bytes) -> str:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise _NoText(1, "is saved as UTF-16; save it as UTF-8")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _NoText(line, "is not UTF-8 text; save the file with the encoding UTF-8") from None
    if bad := FORBIDDEN.search(text):
        what = "a NUL character" if bad.group() == "\0" else f"the control character U+{ord(bad.group()):04X}"
        raise _NoText(text.count("\n", 0, bad.start()) + 1, f"holds {what}; take it out")
    return text
