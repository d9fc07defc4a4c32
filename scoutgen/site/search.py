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
_TABLE = re.compile(r"<table\b.*?</table>", re.DOTALL)
_TITLE = re.compile(r"<h1\b.*?</h1>", re.DOTALL)
_BLOCK_END = re.compile(r"</(?:p|li|h[2-6]|dt|dd|blockquote|pre|figcaption|summary)>")
# What parts words: a slot of a part that stands elsewhere, a line's end, a cell, a block's beginning.
_APART = re.compile(r"\[slot:\d+\]|<(?:br|t[dhr]|p|li|ul|ol|div|details|summary)\b[^>]*>")
_TAG = re.compile(r"<[^>]*>")
_CONFIG: Mapping[str, object] = {
    "lang": ["en"],
    "separator": SEPARATOR,
    # No stop words, since Will and Mark are names; no stemming, since Hughes is not Hugh.
    "pipeline": [],
    # `keys` and `also` are never shown: title and text as a keyboard without accents spells them.
    "fields": {"title": {"boost": 1000.0}, "keys": {"boost": 1000.0}, "text": {"boost": 1.0}, "also": {"boost": 1.0}},
}


@dataclass(frozen=True)
class Found:
    """What search finds at one place of the site.

    `also` and `keys` are words it is found by that are not shown: as those of its text, and as those of its title.
    """

    location: str
    title: str
    text: str
    boost: float = 1.0
    also: str = ""
    keys: str = ""


def fold(text: str) -> str:
    """Lower case without accents and apostrophes: `Núñez-O’Dea` is `nunez-odea`.

    assets/site.js does the same to what a reader types.
    """
    apart = unicodedata.normalize("NFKD", text.lower().translate(_WHOLE))
    return "".join(c for c in apart if not unicodedata.combining(c) and c not in "'’‘`´")


def sentences(page: str) -> tuple[str, str]:
    """A page's HTML as search shows it, and the words of its tables, which would not read as sentences.

    Args:
        page: HTML of the content, its title first.
    """
    tables = " ".join(_words(table) for table in _TABLE.findall(page))
    blocks = (_words(block) for block in _BLOCK_END.split(_TABLE.sub("", _TITLE.sub("", page))))
    return " ".join(b if b.endswith((".", "!", "?", ":")) else f"{b}." for b in blocks if b), tables


def _words(piece: str) -> str:
    return _flat(html.unescape(_TAG.sub("", _APART.sub(" ", piece))))


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
        "text": html.escape(text, quote=False),
    }
    if also := [*_flat(entry.also).split(), *_respelled(f"{text} {entry.also}")]:
        doc["also"] = html.escape(" ".join(also), quote=False)
    # Only what the title does not say already: a word that stands twice would count twice.
    if keys := [*_respelled(title), *_keys(entry.keys, title)]:
        doc["keys"] = html.escape(" ".join(keys), quote=False)
    if entry.boost != 1.0:
        doc["boost"] = entry.boost
    return doc


def _keys(keys: str, title: str) -> list[str]:
    """Words of the title's weight, each once, as any keyboard spells them."""
    said = set(re.split(SEPARATOR, fold(title)))
    words = dict.fromkeys(re.split(SEPARATOR, fold(keys)))
    return [word for word in words if word and word not in said]


def _respelled(text: str) -> list[str]:
    """Words of a text as a keyboard without accents spells them, where that differs."""
    words = dict.fromkeys(text.lower().split())
    parts = set(re.split(SEPARATOR, text.lower()))
    bare = (fold(word).strip(".,:;()#·/") for word in words)
    return [word for word in dict.fromkeys(bare) if word and not set(re.split(SEPARATOR, word)) <= parts]


def _flat(text: str) -> str:
    return " ".join(text.split())
