"""Keeping a finished site on the phone: a service worker beside the home page, and the list of what it keeps.

The last step on a folder of final bytes, before the seal; it knows nothing of how they were made, so that it serves
plain and locked sites alike:

    keep_offline(site, built="2026-04-09 21:40", stamps=[...], root="/")
    keep_offline(site, built=..., order=[...], parts={"unlock.js": "..."})  # a site that answers in its own way
    retire(site)                                                            # keeps nothing, takes old copies away

`worker.js` sets `EDITION` (version, built, root, bytes, first, stamps) and loads scripts from `assets/offline/`, in
this order: `list`, which sets `FILES` ([path, hash] in the order of keeping), `core` (assets/worker/core.js), then the
parts. All are classic scripts of one global scope, and each has its hash in its name. A part can

- put its own `self.answer = async (path, request) => Response` in place: it is asked for every GET in the scope, `path`
  being the decoded address below the scope (`""` is the home page);
- use of the core `SCOPE` (URL), `LIST` (Map from path to hash), `kept(path)` (Response with the bytes as they are in
  the folder, from the phone or else the host, undefined where neither has it), `as(path, response, status)` (the same
  with the content type of its name), `nothing()` (the page for unknown addresses) and `answer` (the plain way);
- add listeners of its own for `message`; the core's take `{ask: "about" | "keep" | "load" | "remove"}`.

The phone keeps the bytes of the folder and nothing else: what is encrypted there stays encrypted on the phone.
"""

import json
import re
import shutil
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from scoutgen.site.asset_names import hashed_name

WORKER = "worker.js"
_SOURCES = Path(__file__).parent / "assets" / "worker"
_SCRIPTS = "assets/offline"
_HOME = "index.html"
# What every page needs, whichever a reader opens first.
_EVERYWHERE = ("assets/", "search/", "404.html", "on-this-phone", "manifest")
_LINK = re.compile(rb'(?:href|src)="([^"#?]+)')
# Half of a SHA-256: no two files meet by accident, and the list is what an update costs at least.
_HASH_LENGTH = 32


@dataclass(frozen=True)
class Kept:
    """What a phone will keep: the version is a hash over every file's address and bytes."""

    version: str
    files: int
    first: int
    size_bytes: int


@dataclass(frozen=True)
class _File:
    digest: str
    size_bytes: int


def keep_offline(
    site: Path,
    *,
    built: str,
    stamps: Sequence[str] = (),
    root: str = "/",
    order: Sequence[str] | None = None,
    parts: Mapping[str, str] | None = None,
) -> Kept:
    """Write the worker of a finished site and its list; nothing may change in the folder afterwards but hidden files.

    Args:
        site: the folder.
        built: when it was built, as the bar for a new version says it.
        stamps: texts on every page that any new build changes, in an order that stays: a page in which nothing else
            changed is mended on the phone instead of fetched.
        root: path the links of the page for unknown addresses begin with.
        order: addresses to keep first, before a first visit's worker starts to answer; by default the home page, what
            every page needs, and what the home page leads to.
        parts: further scripts of the worker by name, loaded after the core.
    """
    files = _read(site)
    ordered, first = _order(site, files) if order is None else _as_asked(files, order)
    version = sha256("".join(f"{path}\n{files[path].digest}\n" for path in sorted(files)).encode()).hexdigest()[:16]
    size = sum(file.size_bytes for file in files.values())
    edition = {
        "version": version,
        "built": built,
        "root": root,
        "bytes": size,
        "first": first,
        "stamps": list(stamps),
    }
    listed = json.dumps([[path, files[path].digest] for path in ordered], separators=(",", ":"), ensure_ascii=False)
    shutil.rmtree(site / _SCRIPTS, ignore_errors=True)
    scripts = {"list.js": f"self.FILES = {listed};\n", "core.js": _source("core.js"), **(parts or {})}
    names = [_write_script(site, name, text) for name, text in scripts.items()]
    lines = [
        "/* Keeps this site on the phone; any change of any file of it changes this file too. */",
        f"self.EDITION = {json.dumps(edition, ensure_ascii=False)};",
        f"importScripts({', '.join(map(json.dumps, names))});",
    ]
    _write(site / WORKER, "\n".join(lines) + "\n")
    return Kept(version, len(files), first, size)


def retire(site: Path) -> None:
    """Write the worker of a site that keeps nothing: a browser that still has a copy of one that did drops it."""
    _write(site / WORKER, _source("retire.js"))


def _read(site: Path) -> dict[str, _File]:
    """Every file a reader can come to, by address."""
    found: dict[str, _File] = {}
    for place in sorted(site.rglob("*")):
        address = place.relative_to(site).as_posix()
        hidden = any(part.startswith(".") for part in address.split("/"))
        ours = address == WORKER or address.startswith(f"{_SCRIPTS}/")
        if hidden or ours or address.endswith(".map") or not place.is_file():
            continue
        content = place.read_bytes()
        found[address] = _File(sha256(content).hexdigest()[:_HASH_LENGTH], len(content))
    return found


def _order(site: Path, files: Mapping[str, _File]) -> tuple[list[str], int]:
    """Addresses by how many taps they are from the home page, as far as two, and how many of them one tap reaches."""
    reached = {path: None for path in files if path == _HOME or path.startswith(_EVERYWHERE)}
    tap = [_HOME] if _HOME in files else []
    first = len(reached)
    for taps in (1, 2):
        pages = [page for page in tap if page.endswith(".html")]
        tap = [link for page in pages for link in _links(site, page) if link in files and link not in reached]
        reached |= dict.fromkeys(tap)
        first = len(reached) if taps == 1 else first
    reached |= dict.fromkeys(sorted(files))
    return list(reached), first


def _links(site: Path, address: str) -> Iterable[str]:
    """Where a page leads, what it says itself before what stands around it."""
    around, _, content = (site / address).read_bytes().partition(b"<article")
    folder = dirname(address)
    for link in dict.fromkeys([*_LINK.findall(content), *_LINK.findall(around)]):
        text = unquote(link.decode("utf-8", "replace"))
        if text.startswith("/") or ":" in text:
            continue
        place = normpath(join(folder, text))
        yield place
        yield _HOME if place == "." else f"{place}/{_HOME}"


def _as_asked(files: Mapping[str, _File], order: Sequence[str]) -> tuple[list[str], int]:
    asked = [path for path in dict.fromkeys(order) if path in files]
    return list(dict.fromkeys([*asked, *sorted(files)])), len(asked)


def _source(name: str) -> str:
    return (_SOURCES / name).read_text(encoding="utf-8")


def _write_script(site: Path, name: str, text: str) -> str:
    """A script with its hash in its name; returns its address."""
    address = f"{_SCRIPTS}/{hashed_name(name, text.encode())}"
    (site / address).parent.mkdir(parents=True, exist_ok=True)
    _write(site / address, text)
    return address


def _write(place: Path, text: str) -> None:
    place.write_text(text, encoding="utf-8", newline="\n")
