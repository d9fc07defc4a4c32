"""The search index in the form the theme's search worker reads, made from what the pages say they are found by."""

import html
import json
import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

# Between words: everything a reader may type or leave out.
SEPARATOR = r"[\s\-#,.:;()'’/·–—]+"
# Letters that no decomposition takes apart.
_WHOLE = str.maketrans({"ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ß": "ss", "æ": "ae", "œ": "oe", "ı": "i"})
_CONFIG: Mapping[str, object] = {
    "lang": ["en"],
    "separator": SEPARATOR,
    # No stop words, since Will and Mark are names; no stemming, since Hughes is not Hugh.
    "pipeline": [],
    # `keys` is never shown: the title as a keyboard without accents spells it.
    "fields": {"title": {"boost": 1000.0}, "keys": {"boost": 1000.0}, "text": {"boost": 1.0}},
}


@dataclass(frozen=True)
class Found:
    """What search finds at one place of the site."""

    location: str
    title: str
    text: str
    boost: float = 1.0


def fold(text: str) -> str:
    """Lower case without accents and apostrophes: `Núñez-O’Dea` is `nunez-odea`.

    assets/search.js does the same to what a reader types.
    """
    apart = unicodedata.normalize("NFKD", text.lower().translate(_WHOLE))
    return "".join(c for c in apart if not unicodedata.combining(c) and c not in "'’‘`´")


def index(entries: Iterable[Found]) -> str:
    """search/search_index.json as the theme's worker reads it."""
    docs = [_doc(entry) for entry in entries]
    return json.dumps({"config": _CONFIG, "docs": docs}, separators=(",", ":"), ensure_ascii=False)


def _doc(entry: Found) -> dict[str, object]:
    title, text = _flat(entry.title), _flat(entry.text)
    # The worker writes titles and texts into the page as they are.
    doc: dict[str, object] = {
        "location": entry.location,
        "title": html.escape(title, quote=False),
        "text": html.escape(" ".join([text, *_respelled(text)]), quote=False),
    }
    # Only what the title does not say already: a word that stands twice would count twice.
    if keys := _respelled(title):
        doc["keys"] = html.escape(" ".join(keys), quote=False)
    if entry.boost != 1.0:
        doc["boost"] = entry.boost
    return doc


def _respelled(text: str) -> list[str]:
    """Words of a text as a keyboard without accents spells them, where that differs."""
    words = dict.fromkeys(text.lower().split())
    parts = set(re.split(SEPARATOR, text.lower()))
    bare = (fold(word).strip(".,:;()#·/") for word in words)
    return [word for word in dict.fromkeys(bare) if word and not set(re.split(SEPARATOR, word)) <= parts]


def _flat(text: str) -> str:
    return " ".join(text.split())
