"""Addresses that tell nothing: a page of a locked site stands at a keyed hash of its own.

The worker opens pages without asking the host. But a phone that has lost its worker, or gets a link from another,
asks the host for the very address in its bar, and a host writes down what it is asked for.
"""

import hmac
import html
import json
import re
from collections.abc import Callable, Mapping
from posixpath import dirname, join, normpath, relpath, splitext
from urllib.parse import quote, unquote, urlsplit

# Of the theme and of ours, the same in every site; and what the theme's scripts look for by name.
_SAME_EVERYWHERE = (
    "assets/javascripts/",
    "assets/stylesheets/",
    "assets/images/",
    "assets/scoutgen/",
    "assets/offline/",
    "search/search_index.",
    "on-this-phone/",
)
# At the root, where a host or a browser asks for them by name.
_OF_EVERY_ROOT = ("index.html", "404.html", "worker.js", "manifest.webmanifest")
_HTML_LINK = re.compile(r"(\s(?:href|src|poster|data)=)\"([^\"]*)\"")
_CSS_LINK = re.compile(r"(url\()([^)\"']+|\"[^\"]+\"|'[^']+')(?=\))")


def hidden(key: bytes, address: str) -> str:
    """The address the browser shows for that of a file.

    Part by part, so that a page stands as deep as before and its ways up (`../../assets/…`) stay good.

    Args:
        key: for addresses; without it, names could be hashed until one fits.
        address: like `teams/harbor/index.html`.
    """
    if address in _OF_EVERY_ROOT or address.startswith(_SAME_EVERYWHERE):
        return address
    parts = address.split("/")
    made = [_token(key, "/".join(parts[: depth + 1])) for depth in range(len(parts) - 1)]
    last = parts[-1] if parts[-1] == "index.html" else _token(key, address) + splitext(parts[-1])[1]
    return "/".join([*made, last])


def _token(key: bytes, prefix: str) -> str:
    return hmac.digest(key, prefix.encode(), "sha256")[:8].hex()


def with_hidden_links(address: str, content: bytes, shown: Mapping[str, str], root: str = "/") -> bytes:
    """A file whose links lead to the addresses that are shown.

    Args:
        address: of the file.
        content: of the file; pages, style sheets and the search index have links.
        shown: for each address of the site the one the browser shows.
        root: path under which the site is served; the page for unknown addresses links from there.
    """

    def led(link: str) -> str:
        return _led(address, link, shown, root)

    if address.endswith(".html"):
        return _HTML_LINK.sub(lambda m: f'{m[1]}"{html.escape(led(html.unescape(m[2])))}"', content.decode()).encode()
    if address.endswith(".css"):
        return _CSS_LINK.sub(lambda m: m[1] + _in_marks(m[2], led), content.decode()).encode()
    if address == "search/search_index.json":
        index = json.loads(content)
        for doc in index["docs"]:
            doc["location"] = _led("index.html", doc["location"], shown, root)
        return json.dumps(index, separators=(",", ":"), ensure_ascii=False).encode()
    return content


def _in_marks(link: str, led: Callable[[str], str]) -> str:
    mark = link[0] if link[0] in "\"'" else ""
    return mark + led(link.strip(mark) if mark else link) + mark


def _led(address: str, link: str, shown: Mapping[str, str], root: str) -> str:
    parts = urlsplit(link)
    path = unquote(parts.path)
    rooted = path.startswith(root)
    if parts.scheme or parts.netloc or not path or (path.startswith("/") and not rooted):
        return link
    target = normpath(path.removeprefix(root)) if rooted else normpath(join(dirname(address), path))
    file = next((file for file in (target, normpath(join(target, "index.html"))) if file in shown), None)
    if file is None or shown[file] == file:
        return link
    place = shown[file] if file == target else dirname(shown[file])
    changed = root + place if rooted else relpath(place, dirname(shown[address]) or ".")
    changed = quote(changed) + ("/" if path.endswith("/") else "")
    return changed + (f"?{parts.query}" if parts.query else "") + (f"#{parts.fragment}" if parts.fragment else "")
