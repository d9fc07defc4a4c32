"""An SVG as vl-convert draws it, made fit to stand inside a page: small, silent inside, in the text's own colour."""

import hashlib
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from functools import lru_cache

from scoutgen.site.plain import without_openers

# What the drawing says for a viewer of its own; inside a page the figure has one name and one description.
_DROPPED = {"role", "class", "pointer-events", "font-family", "style", "version", "cursor"}
_DEFAULTS = {
    ("opacity", "1"),
    ("stroke-width", "1"),
    ("stroke-miterlimit", "10"),
    ("x2", "0"),
    ("y2", "0"),
    ("transform", "translate(0,0)"),
    ("text-anchor", "start"),
    ("font-weight", "normal"),
    # Drawn of no size: the site's styles give it one.
    ("font-size", "0"),
}
_INHERITED = ("fill", "stroke", "stroke-width", "stroke-opacity", "fill-opacity", "font-size", "text-anchor")
_COORDINATES = {"d", "transform", "x", "y", "x1", "x2", "y1", "y2", "points", "width", "height", "r", "cx", "cy"}
# Looking back afterwards lets the search run from one `id="` to the next.
_ID = re.compile(r'id="(?<!\wid=")([^"]+)"')
_NUMBER = re.compile(r"-?\d*\.\d+(?:e-?\d+)?")
_HEX = re.compile(r"#(?:([0-9a-f])([0-9a-f])([0-9a-f])|([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2}))$")
_RGB = re.compile(r"rgb\((\d+),\s*(\d+),\s*(\d+)\)$")
_NAMED_GREYS = {"black": 0, "gray": 128, "grey": 128, "lightgray": 211, "lightgrey": 211, "white": 255}
# Fainter than this a line is lost in sunlight.
_FAINTEST = 0.25
_ALLOWED = {"svg", "g", "path", "line", "rect", "text", "tspan", "circle", "defs", "clipPath", "linearGradient", "stop"}


def clean(drawing: str) -> str:
    """The drawing with everything left out that a page does not need.

    Args:
        drawing: a whole SVG document.

    Returns:
        One `<svg>` element without names for assistive technology, background, classes, links and scripts; black and
        greys are `currentColor`, lengths are rounded to a tenth of a pixel, ids begin with a hash of the drawing.
    """
    drawing = _numbered_from_one(drawing)
    root = ET.fromstring(drawing)  # noqa: S314 - our own process drew it a moment ago
    prefix = "c" + hashlib.sha256(drawing.encode()).hexdigest()[:8]
    for element in root.iter():
        element.tag = element.tag.rpartition("}")[2]
        _tidy(element, prefix)
    width, height = root.attrib["width"], root.attrib["height"]
    _prune(root, (width, height))
    _hoist(root)
    root.attrib.pop("fill", None)
    return without_openers(ET.tostring(root, encoding="unicode").replace(" />", "/>"))


def _numbered_from_one(drawing: str) -> str:
    """The renderer numbers its ids on and on within a process; equal charts must be equal bytes."""
    names = dict.fromkeys(_ID.findall(drawing))
    for number, name in enumerate(names, start=1):
        drawing = re.sub(rf'(\bid="|url\(#){re.escape(name)}(?=["\)])', rf"\g<1>n{number}", drawing)
    return drawing


def _tidy(element: ET.Element, prefix: str) -> None:
    kept: dict[str, str] = {}
    for qualified, value in element.attrib.items():
        kept.update(_attribute(qualified.rpartition("}")[2], value))
    if "id" in kept:
        kept["id"] = f"{prefix}{kept['id']}"
    own = {name: f"url(#{prefix}{value[5:]}" for name, value in kept.items() if value.startswith("url(#")}
    element.attrib = kept | own


# A drawing says the same few things of hundreds of marks.
@lru_cache(maxsize=10_000)
def _attribute(name: str, value: str) -> tuple[tuple[str, str], ...]:
    """What an attribute says in a page, as none, one or two."""
    if name in _DROPPED or name.startswith(("aria-", "on")) or name == "href":
        return ()
    if name in {"fill", "stroke"}:
        kept = _ink(name, value)
    elif name == "font-size":
        kept = {name: value.removesuffix("px")}
    elif name in _COORDINATES:
        kept = {name: _NUMBER.sub(_tenths, value)}
    else:
        kept = {name: value}
    return tuple(pair for pair in kept.items() if pair not in _DEFAULTS)


def _tenths(match: re.Match[str]) -> str:
    text = f"{float(match.group()):.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def _ink(name: str, value: str) -> dict[str, str]:
    grey = _grey_level(value)
    if grey is None:
        return {name: value}
    strength = 1 - grey / 255
    if strength > 0.85:
        return {name: "currentColor"}
    return {name: "currentColor", f"{name}-opacity": f"{max(strength, _FAINTEST):.2f}".lstrip("0")}


def _grey_level(colour: str) -> int | None:
    """0 for black to 255 for white; None for a colour with a hue, and for none at all."""
    if colour in _NAMED_GREYS:
        return _NAMED_GREYS[colour]
    if found := _HEX.match(colour.lower()):
        parts = [int(part * 2 if len(part) == 1 else part, 16) for part in found.groups() if part]
    elif found := _RGB.match(colour):
        parts = [int(part) for part in found.groups()]
    else:
        return None
    return parts[0] if max(parts) - min(parts) <= 8 else None


def _prune(parent: ET.Element, canvas: tuple[str, str]) -> None:
    """Leave out what is not seen, and groups that say nothing."""
    kept: list[ET.Element] = []
    for child in list(parent):
        _prune(child, canvas)
        if child.tag not in _ALLOWED or _unseen(child, canvas):
            continue
        if child.tag == "g" and not child.attrib:
            kept.extend(child)
        else:
            kept.append(child)
    parent[:] = kept


def _unseen(element: ET.Element, canvas: tuple[str, str]) -> bool:
    if element.attrib.get("display") == "none":
        return True
    if element.tag == "g":
        return len(element) == 0
    if element.tag == "path":
        shape = element.attrib.get("d", "")
        return shape in {"", "M0,0h0v0h0Z"}
    is_background = element.tag == "rect" and (element.attrib.get("width"), element.attrib.get("height")) == canvas
    return is_background and "stroke" not in element.attrib


def _hoist(parent: ET.Element) -> None:
    """Say once on the group what all its children say."""
    for child in parent:
        _hoist(child)
    children = list(_shapes(parent))
    if parent.tag != "g" or len(children) < 2:
        return
    for name in _INHERITED:
        values = {child.attrib.get(name) for child in children}
        if len(values) == 1 and None not in values and name not in parent.attrib:
            parent.attrib[name] = str(values.pop())
            for child in children:
                del child.attrib[name]


def _shapes(parent: ET.Element) -> Iterator[ET.Element]:
    return (child for child in parent if child.tag != "defs")
