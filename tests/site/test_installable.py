"""The site as an app: names a home screen can show, icons of the right size that are what icon.svg says."""

import json
import struct
from pathlib import Path

import pytest

from scoutgen.site.installable import draw_icons, manifest, short_name
from scoutgen.site.theme import ASSETS, asset_address


@pytest.mark.parametrize(
    ("name", "short"),
    [
        ("Kestrel Ridge scouting", "Kestrel"),
        ("Scouting", "Scouting"),
        ("Ridge scout", "Ridge scout"),
        ("Northwesternmost", "Northwestern"),
        ("  two  words ", "two words"),
    ],
)
def test_a_home_screen_gets_whole_words(name: str, short: str) -> None:
    assert short_name(name) == short


def test_every_address_of_the_manifest_is_relative() -> None:
    read = json.loads(manifest('Ridge "A" scouting', asset_address))
    assert (read["name"], read["short_name"]) == ('Ridge "A" scouting', 'Ridge "A"')
    assert (read["start_url"], read["scope"], read["display"]) == (".", ".", "standalone")
    icons = {(icon["sizes"], icon.get("purpose")): icon["src"] for icon in read["icons"]}
    assert {("192x192", "any"), ("512x512", "any"), ("512x512", "maskable"), ("any", None)} == set(icons)
    assert not [src for src in icons.values() if src.startswith("/") or ":" in src]


def test_the_icons_are_what_the_drawing_gives(request: pytest.FixtureRequest) -> None:
    drawn = draw_icons((ASSETS / "icon.svg").read_text(encoding="utf-8"))
    assert set(drawn) == {path.name for path in ASSETS.glob("*.png")}
    for name, png in drawn.items():
        place: Path = ASSETS / name
        if request.config.getoption("--accept"):
            place.write_bytes(png)
        assert place.read_bytes() == png, f"{name}: `pytest --accept` draws it anew"
        size = int(name.rpartition("-")[2].removesuffix(".png"))
        assert struct.unpack(">II", png[16:24]) == (size, size)
