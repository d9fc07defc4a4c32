"""A last look at the finished pages: nothing alive that was not meant, nothing left over, no way that leads nowhere."""

import html
import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

from scoutgen.records.markdown_limits import LEFT_OVER

# Comments end where browsers end them, which is not always at "-->".
_SILENT = re.compile(r"<!--(?:-?>|.*?--!?>)|<(script|style)\b([^>]*)>(.*?)</\1\s*>", re.DOTALL | re.IGNORECASE)
# Most tags by far hold only attributes that can neither run nor load nor name anything; url(…) is none of these.
_HARMLESS = re.compile(
    r"</?(?:p|li|ul|ol|t[dhr]|thead|tbody|table|div|span|strong|em|br|g|path|line|rect|text|h[1-6]|nav|figure)"
    r"(?: (?:class|scope|data-label|role|tabindex|aria-label|title|d|transform|x[12]?|y[12]?|width|height|points"
    r'|fill|stroke|opacity|(?:fill|stroke|font|text)-[a-z]+)="[^"<>(]*(?:\([\d., -]*\)[^"<>(]*)*")* ?/?>'
)
# Wider than HTML, since browsers are: attributes may follow a slash or a quote, and quotes need not pair.
_TAG = re.compile(r"<([a-zA-Z][^\s/>]*)((?:[^>\"']+|\"[^\"]*\"|'[^']*'|[\"'])*)")
_ATTRIBUTE = re.compile(r"([^\s=>\"'/]+)(?:\s*=\s*(?:\"([^\"]*)\"|'([^']*)'|([^\s>]+)))?")
# Own clip paths are url(#id); anything else could be fetched.
_LOADS = re.compile(r"url\(\s*(?!#)", re.IGNORECASE)
_LEFTOVER = re.compile(rf"\[(?:{'|'.join(LEFT_OVER)}):[^\]]*\]?|\{{\{{|\{{%")
_CODE = re.compile(r"<(pre|code)\b.*?</\1>", re.DOTALL | re.IGNORECASE)
_SCHEME = re.compile(r"[a-zA-Z][a-zA-Z0-9+.-]*:")
_REFERS = {"href", "src", "action", "formaction", "poster", "xlink:href", "data"}
_DATA_IMAGE = re.compile(r"data:image/(?:png|jpeg|gif|webp|svg\+xml)[;,]", re.IGNORECASE)
_EMBEDS = {"iframe", "object", "embed", "base", "applet", "frame", "portal"}
# What follows one of these is shown as its text, or not at all; none is closed in time by what merely stands around it.
_SWALLOWS = {"textarea", "xmp", "plaintext", "noembed", "noframes", "noscript", "template", "select", "frameset"}
_UNCLOSED = re.compile(r"<(?:!--|(?:script|style)\b)", re.IGNORECASE)
_DRAWING = re.compile(r"<svg\b.*?</svg\s*>", re.DOTALL | re.IGNORECASE)
_TITLE = re.compile(r"<title\b", re.IGNORECASE)
_REFRESH = re.compile(r"http-equiv\s*=\s*[\"']?refresh", re.IGNORECASE)


@dataclass
class Scanned:
    """What one page holds that only makes sense beside the others."""

    ids: set[str] = field(default_factory=set)
    links: set[str] = field(default_factory=set)


@dataclass(frozen=True)
class _Told:
    """What one tag says: ids, where it leads, and what is wrong with it."""

    ids: tuple[str, ...]
    links: tuple[str, ...]
    wrong: tuple[str, ...]


def scan_page(page: str) -> tuple[Scanned, list[str]]:
    """One finished page: what it links to and can be linked at, and what is wrong with it by itself."""
    wrong: list[str] = []

    def silent(match: re.Match[str]) -> str:
        if match[1] is None:
            return ""
        wrong.extend(_block(match[1].lower(), match[2], match[3]))
        closed.append(f"<{match[1]}{match[2]}>")
        return closed[-1]

    closed: list[str] = []
    visible = _SILENT.sub(silent, page)
    opened = _UNCLOSED.findall(visible)
    if len(opened) > len(closed):
        wrong.append("a comment, <script> or <style> that is not closed")
    # A drawing's title is one of its own; a second one of the page would take what follows for itself.
    if len(_TITLE.findall(visible)) > 1 and len(_TITLE.findall(_DRAWING.sub("", visible))) > 1:
        wrong.append("<title> element")
    close = _HARMLESS.sub("", visible)
    ids: list[str] = []
    links: list[str] = []
    for tag in _TAG.finditer(close):
        told = _told(tag[1].lower(), tag[2])
        ids += told.ids
        links += told.links
        wrong += told.wrong
    wrong += [f"id {name!r} stands {times} times" for name, times in Counter(ids).items() if times > 1]
    text = _CODE.sub("", visible) if "<code" in visible or "<pre" in visible else visible
    wrong += [f"left over: {found[:60]}" for found in dict.fromkeys(_LEFTOVER.findall(text))]
    return Scanned(set(ids), set(links)), wrong


def dead_links(pages: Mapping[str, Scanned], files: set[str], root: str = "/") -> list[tuple[str, str]]:
    """The page and what is wrong with it for every link to a file or an anchor that is not there.

    Args:
        pages: what was scanned, by address in the site, e.g. `teams/harbor/index.html`.
        files: addresses of everything in the site.
        root: path under which the site is served; the page for unknown addresses links from there.
    """
    dead: list[tuple[str, str]] = []
    for address, scanned in pages.items():
        folder = dirname(address)
        for link in sorted(scanned.links):
            target, anchor = _target(address, folder, link, root)
            place = next((p for p in (target, join(target, "index.html")) if p in files), None)
            if place is None:
                dead.append((address, f"nothing is at {link}"))
            elif anchor and place in pages and anchor not in pages[place].ids:
                dead.append((address, f"{link} has no such anchor"))
    return dead


def files_of(site: Path) -> set[str]:
    """Addresses of all files of a site."""
    return {p.relative_to(site).as_posix() for p in site.rglob("*") if p.is_file()}


def _block(name: str, attributes: str, content: str) -> list[str]:
    if name == "style":
        return ["inline <style>"]
    given = {m[1].lower(): m[2] or m[3] or m[4] or "" for m in _ATTRIBUTE.finditer(attributes)}
    if "src" in given or given.get("type") == "application/json" or not content.strip():
        return []
    return [f"unknown inline script: {' '.join(content.split())[:60]}"]


# The menu and the head are much the same on every page.
@lru_cache(maxsize=10_000)
def _told(name: str, text: str) -> _Told:
    """What a tag says with its attributes."""
    ids, links, wrong = [], [], _wrong_tag(name, text)
    for match in _ATTRIBUTE.finditer(text):
        attribute = match[1].lower()
        value = html.unescape(match[2] or match[3] or match[4] or "").strip()
        if attribute == "id":
            ids.append(value)
        elif attribute.startswith("on"):
            wrong.append(f"event handler {attribute} on <{name}>")
        elif attribute in _REFERS:
            problem = _reference(value)
            if problem:
                wrong.append(problem)
            elif not value.startswith("data:"):
                links.append(value)
        elif attribute == "srcset" or (attribute == "style" and "url(" in value.lower()):
            wrong.append(f"{attribute} that may load something: {value[:60]}")
    return _Told(tuple(ids), tuple(links), tuple(wrong))


def _wrong_tag(name: str, text: str) -> list[str]:
    """What is wrong with a tag whatever its attributes are."""
    wrong = [f"<{name}> element"] if name in _EMBEDS or name in _SWALLOWS else []
    if name == "meta" and _REFRESH.search(text):
        wrong.append("a page that sends readers elsewhere")
    if _LOADS.search(text):
        wrong.append(f"url() on <{name}> that may load something")
    return wrong


def _reference(value: str) -> str | None:
    squeezed = re.sub(r"[\s\x00-\x1f]", "", value)
    if squeezed.startswith(("//", "\\")):
        return f"external address {value[:60]}"
    if not _SCHEME.match(squeezed) or _DATA_IMAGE.match(squeezed):
        return None
    scheme = squeezed.partition(":")[0].lower()
    if scheme in {"http", "https"}:
        return f"external address {value[:60]}"
    return f"{scheme}: link {value[:60]}"


def _target(address: str, folder: str, link: str, root: str) -> tuple[str, str]:
    parts = urlsplit(link)
    path = unquote(parts.path)
    if not path:
        return address, unquote(parts.fragment)
    if path.startswith("/"):
        place = normpath("./" + path.removeprefix(root).lstrip("/"))
    else:
        place = normpath(join(folder, path))
    return ("index.html" if place == "." else place), unquote(parts.fragment)
