"""What a site tells, and whether some bytes tell it: names, titles and addresses in the forms they could hide in."""

import base64
import html
import json
import re
from collections.abc import Iterable, Sequence
from pathlib import Path
from urllib.parse import quote

import numpy as np
import numpy.typing as npt

# What stands in every site whatever it is of, and so tells nothing of one: the scripts as they are in the repository.
ASSETS = Path(__file__).parents[1] / "scoutgen" / "site" / "assets"
EVERYWHERE = "\n".join(
    place.read_text(encoding="utf-8") for folder in ("lock", "worker") for place in (ASSETS / folder).glob("*.[jch]*")
)


def told_by(site: Path) -> set[str]:
    """Titles, names, and parts of addresses of a finished site; nothing shorter than five signs."""
    told: set[str] = set()
    for page in site.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        told |= {html.unescape(title) for title in re.findall(r"<title>(.*?)</title>", text)}
        told |= {html.unescape(re.sub("<.*?>", "", title)) for title in re.findall(r"<h1[^>]*>(.*?)</h1>", text)}
    told |= {piece.strip() for title in told for piece in title.split("·")}
    told |= {re.sub(r"^\d+ ", "", title) for title in told}
    told |= {part for place in site.rglob("*") for part in place.relative_to(site).with_suffix("").parts}
    told -= {part for place in (site / "assets").rglob("*") for part in place.relative_to(site).with_suffix("").parts}
    told -= {"index", "manifest"}
    return {text for text in told if len(text) >= 5 and text.lower() not in EVERYWHERE.lower() and not text.isdigit()}


def forms(text: str) -> dict[str, bytes]:
    """The bytes a text could be written as."""
    raw = text.encode()
    shifts = {
        # Whatever stands before and after; only the signs that the text alone decides.
        f"base64 at {shift}": base64.b64encode(b"\0" * shift + raw)[4 if shift else 0 :].rstrip(b"=")[:-1]
        for shift in (0, 1, 2)
    }
    return {
        "plain": raw,
        "small": text.lower().encode(),
        "latin-1": text.encode("latin-1", "replace"),
        "entities": "".join(c if c.isascii() and c.isalnum() else f"&#{ord(c)};" for c in text).encode(),
        "all entities": "".join(f"&#{ord(c)};" for c in text).encode(),
        "named entities": html.escape(text).encode(),
        "JSON": json.dumps(text)[1:-1].encode(),
        "percent": quote(text).encode(),
        "hexadecimal": raw.hex().encode(),
        "UTF-16, little end first": text.encode("utf-16-le"),
        "UTF-16, big end first": text.encode("utf-16-be"),
        **{name: signs for name, signs in shifts.items() if len(signs) >= 5},
    }


def found_in(heap: bytes, told: Iterable[str]) -> list[str]:
    """`text as form` for all that stands in the bytes."""
    sought = [(f"{text} as {form}", signs) for text in sorted(told) for form, signs in forms(text).items()]
    stand = stand_in(heap, [signs for _, signs in sought])
    return [name for (name, _), stands in zip(sought, stand, strict=True) if stands]


def stand_in(heap: bytes, sought: Sequence[bytes]) -> list[bool]:
    """Which of the texts stand in the bytes, each of four bytes or more.

    Thousands of texts in millions of bytes: one whose first four bytes stand nowhere together need not be looked for.
    """
    fours, first = np.sort(_fours(heap)), np.array([_fours(signs)[0] for signs in sought], np.uint32)
    begun = np.searchsorted(fours, first, "left") < np.searchsorted(fours, first, "right")
    return [bool(may) and signs in heap for signs, may in zip(sought, begun, strict=True)]


def _fours(signs: bytes) -> npt.NDArray[np.uint32]:
    """Every four bytes that stand together, as one number."""
    every = np.frombuffer(signs, np.uint8).astype(np.uint32)
    return every[:-3] | every[1:-2] << 8 | every[2:-1] << 16 | every[3:] << 24


def heap_of(folder: Path) -> bytes:
    """Every file and every file's name."""
    places = [place for place in sorted(folder.rglob("*")) if place.is_file()]
    return b"\n".join(place.relative_to(folder).as_posix().encode() + b"\n" + place.read_bytes() for place in places)
