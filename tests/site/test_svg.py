import re
import xml.etree.ElementTree as ET

import pytest
import sample_book
import vl_convert

from scoutgen.site.svg import clean


@pytest.fixture(scope="module")
def drawn() -> str:
    return vl_convert.vegalite_to_svg(sample_book.strip_chart(1).spec)


def test_a_drawing_keeps_its_marks_and_loses_the_rest(drawn: str) -> None:
    small = clean(drawn)
    assert len(small) < 0.5 * len(drawn)
    root = ET.fromstring(small)  # noqa: S314 - just drawn
    assert root.tag == "svg"
    assert root.attrib.keys() == {"width", "height", "viewBox"}
    names = {name for element in root.iter() for name in element.attrib}
    assert not names & {"role", "class", "font-family", "pointer-events", "style", "href"}
    assert not [name for name in names if name.startswith("aria-")]
    texts = "".join(root.itertext())
    assert "stretch" in texts
    assert "slide step" in texts
    # 24 readings, each a mark with a shape of its own
    assert len(re.findall(r'd="M[\d.]+,0A', small)) == 24


def test_black_and_greys_follow_the_text(drawn: str) -> None:
    small = clean(drawn)
    assert "currentColor" in small
    assert not re.findall(r'"#[0-9a-f]{3,6}"', small)
    assert 'fill="white"' not in small


@pytest.mark.parametrize(
    ("ink", "expected"),
    [
        ("#000", 'stroke="currentColor"'),
        ("black", 'stroke="currentColor"'),
        ("#888", 'stroke="currentColor" stroke-opacity=".47"'),
        ("rgb(136,136,136)", 'stroke="currentColor" stroke-opacity=".47"'),
        ("#ddd", 'stroke="currentColor" stroke-opacity=".25"'),
        ("#c00", 'stroke="#c00"'),
        ("none", 'stroke="none"'),
    ],
)
def test_ink_by_its_grey(ink: str, expected: str) -> None:
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><path d="M0,0h9" stroke="{ink}"/></svg>'
    assert expected in clean(svg)


def test_ids_cannot_meet_those_of_another_drawing(drawn: str) -> None:
    one = clean(drawn)
    other = clean(vl_convert.vegalite_to_svg(sample_book.strip_chart(2).spec))
    ids = [set(re.findall(r'\bid="([^"]+)"', svg)) for svg in (one, other)]
    assert ids[0]
    assert not ids[0] & ids[1]
    assert {f"url(#{name})" for name in ids[0]} == set(re.findall(r"url\(#[^)]+\)", one))


def test_lengths_are_rounded_to_a_tenth_of_a_pixel(drawn: str) -> None:
    assert not re.findall(r"\d\.\d\d", re.sub(r"-opacity=\"[^\"]*\"|>[^<]*<", "", clean(drawn)))


def test_nothing_alive_comes_through() -> None:
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="9" height="9">'
        '<script>alert(1)</script><a xlink:href="javascript:alert(1)"><text onclick="x()">hi</text></a>'
        '<image xlink:href="https://example.org/x.png"/><foreignObject><b/></foreignObject>'
        "<text>ok &lt;b&gt;</text></svg>"
    )
    assert clean(svg) == '<svg width="9" height="9"><text>ok &lt;b&gt;</text></svg>'
