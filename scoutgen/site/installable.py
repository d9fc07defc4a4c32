"""What makes the site an app on a home screen: its manifest and its icons."""

import json
from collections.abc import Callable

MANIFEST = "manifest.webmanifest"
# As site.css has them: the head of every page, and paper by day.
THEME_COLOUR, PAPER_COLOUR = "#12343b", "#fcfbf7"
# Home screens cut longer names off.
_SHORT = 12
_VIEWBOX = 32
# Name and size in pixels; a maskable icon is cut to any shape by the phone, an icon to touch is rounded by it.
_ICONS = {"icon-192.png": 192, "icon-512.png": 512, "icon-maskable-512.png": 512, "icon-touch-180.png": 180}


def manifest(site_name: str, address: Callable[[str], str], *, short: str = "", coloured: bool = True) -> str:
    """The web app manifest; every address in it is relative, so that it holds under any path.

    Args:
        site_name: the name, as on every page.
        address: where an asset stands, from the site's root.
        short: the name under an icon, by default the beginning of the site's.
        coloured: the colours of the pages stand in it.
    """
    colours = {"theme_color": THEME_COLOUR, "background_color": PAPER_COLOUR} if coloured else {}
    icons = [
        {"src": address("icon.svg"), "sizes": "any", "type": "image/svg+xml"},
        *(
            {
                "src": address(name),
                "sizes": f"{_ICONS[name]}x{_ICONS[name]}",
                "type": "image/png",
                "purpose": "maskable" if "maskable" in name else "any",
            }
            for name in ("icon-192.png", "icon-512.png", "icon-maskable-512.png")
        ),
    ]
    return json.dumps(
        {
            "name": site_name,
            "short_name": short or short_name(site_name),
            "start_url": ".",
            "scope": ".",
            "display": "standalone",
            **colours,
            "icons": icons,
        },
        indent=1,
        ensure_ascii=False,
    )


def short_name(site_name: str) -> str:
    """As many whole words of a name as a home screen shows, or the beginning of the first."""
    words = site_name.split()
    short = ""
    for word in words:
        longer = f"{short} {word}".strip()
        if len(longer) > _SHORT:
            break
        short = longer
    return short or site_name.strip()[:_SHORT]


def draw_icons(svg: str) -> dict[str, bytes]:
    """The PNG icons by name, drawn from icon.svg; `pytest --accept` writes them to assets/."""
    # Here and not above: only whoever changes the icon needs the drawing.
    from vl_convert import svg_to_png  # noqa: PLC0415

    drawn = {}
    for name, pixels in _ICONS.items():
        cut_by_phone = "maskable" in name or "touch" in name
        drawn[name] = svg_to_png(_full_bleed(svg) if cut_by_phone else svg, scale=pixels / _VIEWBOX)
    return drawn


def _full_bleed(svg: str) -> str:
    """Colour to every edge, and what is drawn on it inside the circle of four fifths that no phone cuts into."""
    half = _VIEWBOX / 2
    inward = f"translate({half} {half}) scale(.86) translate(-{half} -{half})"
    return svg.replace(' rx="7"', "").replace("<g ", f'<g transform="{inward}" ', 1)
